//! Large parts, every way of sharing sheets looked at.
//!
//! The largest pieces are dealt out to one sheet fewer than needed, in every way; a way is out where a sheet would hold a set
//! that cannot share one. Where no way is left, there is one sheet more. What cannot be settled within the effort counts as
//! possible, so effort decides only how much is proved, never whether it is true.

use std::collections::BTreeMap;

use geometry::grid::GridPoint;

use crate::bound::pairs::{MOST_CORNERS, Pairs, SLACK_STEPS};
use crate::bound::room::{Room, Work};

/// The most pieces dealt out.
const MOST_PIECES: usize = 10;

/// A part is large when the rectangle around it is at least this share of the largest sheet: one in so many.
const LARGE: i128 = 8;

/// The largest set that is looked at as a whole.
const MOST_IN_A_SET: usize = 4;

/// Ways of dealing looked at before the rest is taken to be possible.
const MOST_WAYS: usize = 20_000;

/// One dealing out: parts are numbered as in [`Pairs`].
struct Dealing<'a> {
    pairs: &'a Pairs,
    sizes: &'a [GridPoint],
    pieces: Vec<usize>,
    known: BTreeMap<Vec<usize>, bool>,
    room: Room<'a>,
    work: Work,
    /// Pairs of corners that may still be looked at for two parts alone.
    corners: usize,
    ways: usize,
}

/// True when `sheets` sheets of these sizes are too few for the largest pieces alone.
pub(super) fn are_too_few(pairs: &Pairs, sizes: &[GridPoint], sheets: usize) -> bool {
    let area = |size: &GridPoint| i128::from(size.x) * i128::from(size.y);
    let largest = sizes.iter().map(area).max().unwrap_or(0);
    let is_large = |part: &usize| largest <= LARGE * pairs.parts[*part].least_around();
    let copies = |part: usize| {
        std::iter::repeat_n(part, usize::try_from(pairs.parts[part].quantity).unwrap_or(MOST_PIECES))
    };
    let large = (0..pairs.parts.len()).filter(is_large);
    let pieces: Vec<usize> =
        large.flat_map(|part| copies(part).take(MOST_PIECES)).take(MOST_PIECES).collect();
    if pieces.len() <= sheets.max(2) {
        return false;
    }
    let (room, work) = (Room::of(pairs), Work::new());
    let mut dealing =
        Dealing { pairs, sizes, pieces, known: BTreeMap::new(), room, work, corners: MOST_CORNERS, ways: 0 };
    !dealing.goes_on(0, &mut Vec::new(), sheets)
}

impl Dealing<'_> {
    /// Whether the pieces from `next` on can be dealt out beside what lies on the sheets.
    fn goes_on(&mut self, next: usize, on: &mut Vec<Vec<usize>>, sheets: usize) -> bool {
        self.ways += 1;
        if self.pieces.len() <= next || MOST_WAYS < self.ways {
            return true;
        }
        let piece = self.pieces[next];
        for sheet in 0..on.len() {
            // Sheets with the same on them are one choice.
            if on[..sheet].contains(&on[sheet]) {
                continue;
            }
            on[sheet].push(piece);
            let goes_on = !self.is_out(&on[sheet].clone()) && self.goes_on(next + 1, on, sheets);
            on[sheet].pop();
            if goes_on {
                return true;
            }
        }
        if on.len() < sheets {
            on.push(vec![piece]);
            let goes_on = self.goes_on(next + 1, on, sheets);
            on.pop();
            return goes_on;
        }
        false
    }

    /// Whether a set is proved to be too much for a sheet. Its numbers rise.
    fn is_out(&mut self, set: &[usize]) -> bool {
        if set.len() < 2 {
            return false;
        }
        if let Some(&known) = self.known.get(set) {
            return known;
        }
        let without = |left_out: usize| -> Vec<usize> {
            set.iter().enumerate().filter(|&(at, _)| at != left_out).map(|(_, &part)| part).collect()
        };
        let out = (2 < set.len() && (0..set.len()).any(|left_out| self.is_out(&without(left_out))))
            || self.is_out_itself(set);
        self.known.insert(set.to_vec(), out);
        out
    }

    fn is_out_itself(&mut self, set: &[usize]) -> bool {
        let (metal, around) = set.iter().fold((0, 0), |(metal, around), &part| {
            (metal + self.pairs.parts[part].area, around + self.pairs.parts[part].least_around())
        });
        let sizes = self.sizes;
        if let [first, second] = *set {
            return self.pairs.are_apart([first, second], sizes, &mut self.corners);
        }
        sizes.iter().all(|&size| {
            let area = i128::from(size.x) * i128::from(size.y);
            let slack = 2 * i128::from(SLACK_STEPS) * i128::from(size.x + size.y);
            // Where the rectangles around leave half the sheet free, nothing could be proved.
            2 * (area + slack) < metal
                || (set.len() <= MOST_IN_A_SET
                    && area < 2 * around
                    && self.room.has_none(set, size, &mut self.work))
        })
    }
}
