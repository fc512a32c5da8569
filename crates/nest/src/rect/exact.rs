//! The fewest or the cheapest sheets on the shear, exactly, for small sets.
//!
//! What a sheet may hold follows from what its strips may hold (`rows`), so for every set of blanks it is known whether a
//! sheet of a size holds it, within the shear's limits; then the cheapest sets that make up all are put together. Blanks of
//! one size are counted, not told apart, so many equal blanks are few sets. Source: the bottom-up form of Christofides,
//! Whitlock, *Operations Research* 25 (1977), applied to sets of pieces (from memory).

mod rows;
mod sets;

use crate::rect::exact::rows::{Laid, Rows};
use crate::rect::exact::sets::{Filled, Sets};
use crate::rect::mixed::{Laid as Sheets, Size};
use crate::rect::problem::{Cutting, Placed, Problem, Sheet};

/// Blanks of one size.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Kind {
    length: i64,
    width: i64,
    may_turn: bool,
    /// The numbers of the pieces, each as often as it is needed.
    pieces: Vec<usize>,
}

/// What small sets are: those settled in so many steps, of which each looks at a row.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Steps(pub(crate) u64);

impl Steps {
    /// What is looked at where one size of sheet is packed.
    const ONE_SIZE: Self = Self(1_000_000);

    /// Takes some of it; `None` when there is no more.
    pub(super) fn spend(&mut self, steps: usize) -> Option<()> {
        self.0 = self.0.checked_sub(steps as u64)?;
        Some(())
    }
}

/// The cheapest sheets and the fewest.
#[derive(Debug, Clone)]
pub(crate) struct Settled {
    /// A cheapest choice of sheets; none where the sheets that there are do not hold everything, or that is not known.
    pub(crate) cheapest: Option<(i128, Sheets)>,
    /// No sheets cost less.
    pub(crate) least: i128,
    /// No fewer sheets do, whatever they cost and however many there are.
    pub(crate) fewest: u32,
}

/// A packing with the fewest sheets; `None` when the set is too large, or is cut freely.
pub(super) fn fewest(problem: &Problem) -> Option<Vec<Sheet>> {
    let (length, width) = problem.sheet();
    let size = Size { length, width, cost: 1, limit: u32::MAX };
    let (_, sheets) = settled(problem, &[size], Steps::ONE_SIZE)?.cheapest?;
    Some(sheets.into_iter().map(|(_, sheet)| sheet).collect())
}

/// Settles what sheets of these sizes are the cheapest, and how many are the fewest. The sheet of the problem must be as long and as
/// wide as any of them. `None` where that takes more steps.
pub(crate) fn settled(problem: &Problem, sizes: &[Size], mut steps: Steps) -> Option<Settled> {
    let Cutting::Shear(shear) = problem.cutting() else { return None };
    let kinds = kinds(problem);
    let all = Sets::new(kinds.iter().map(|kind| kind.pieces.len()), MOST_SETS)?;
    let on_a_sheet = kinds.iter().map(|kind| kind.most_on_a_sheet(sizes, problem.gap()));
    let held = Sets::new(on_a_sheet, MOST_HELD)?;
    let outlines: Vec<(i64, i64)> = sizes.iter().map(|size| (size.length, size.width)).collect();
    let rows = Rows::new((&kinds, &held), problem.gap(), shear, &outlines, &mut steps)?;
    let of_size = |size: &Size| -> Vec<Option<Laid>> {
        (0..held.count()).map(|set| rows.on_sheet(set, (size.length, size.width))).collect()
    };
    let laid: Vec<Vec<Option<Laid>>> = sizes.iter().map(of_size).collect();
    let holds: Vec<Vec<bool>> = laid.iter().map(|laid| laid.iter().map(Option::is_some).collect()).collect();
    let filled = Filled { all: &all, held: &held, holds: &holds };
    let costs: Vec<i128> = sizes.iter().map(|size| size.cost).collect();
    let (fewest, _) = filled.cheapest(&vec![1; sizes.len()], &mut steps)??;
    let (least, chosen) = filled.cheapest(&costs, &mut steps)??;
    let limits: Vec<u32> = sizes.iter().map(|size| size.limit).collect();
    let keeps_to_limits = limits.iter().enumerate().all(|(size, &limit)| {
        chosen.iter().filter(|(own, _)| *own == size).count() <= usize::try_from(limit).unwrap_or(usize::MAX)
    });
    let (least, chosen) = if keeps_to_limits {
        (least, Some(chosen))
    } else {
        match filled.within_limits(&costs, &limits, &mut steps) {
            Some(Some((cost, chosen))) => (cost, Some(chosen)),
            // What costs the least where there are no limits is a bound all the same.
            Some(None) | None => (least, None),
        }
    };
    let cheapest = chosen.map(|chosen| {
        let mut left: Vec<Vec<usize>> = kinds.iter().map(|kind| kind.pieces.clone()).collect();
        let mut lay = |(size, set): (usize, usize)| {
            let blanks = laid[size][set].as_ref().map_or_else(Vec::new, |laid| rows.blanks(laid));
            (size, blanks.into_iter().filter_map(|blank| placed(problem, &mut left, blank)).collect())
        };
        (least, chosen.into_iter().map(&mut lay).collect())
    });
    Some(Settled { cheapest, least, fewest: u32::try_from(fewest).ok()? })
}

/// The most sets of all blanks that are looked at, and of those that one sheet may hold.
const MOST_SETS: usize = 1 << 18;
const MOST_HELD: usize = 1 << 13;

impl Kind {
    /// How many of them one of the sheets holds by its area at most.
    fn most_on_a_sheet(&self, sizes: &[Size], gap: i64) -> usize {
        let area = |length: i64, width: i64| i128::from(length + gap) * i128::from(width + gap);
        let most =
            sizes.iter().map(|size| area(size.length, size.width) / area(self.length, self.width)).max();
        usize::try_from(most.unwrap_or(0)).unwrap_or(usize::MAX).min(self.pieces.len())
    }
}

/// A kind as it lies: its number, its corner and its size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Blank {
    kind: usize,
    at: [i64; 2],
    size: [i64; 2],
}

/// One of the pieces left of its kind as it lies.
fn placed(problem: &Problem, left: &mut [Vec<usize>], blank: Blank) -> Option<Placed> {
    let piece = left[blank.kind].pop()?;
    let own = &problem.pieces()[piece];
    let [x, y] = blank.at;
    Some(Placed { piece, x, y, turned: [own.length, own.width] != blank.size })
}

/// Pieces of one size, whichever way they are given, as one kind.
fn kinds(problem: &Problem) -> Vec<Kind> {
    let mut kinds: Vec<Kind> = Vec::new();
    for (number, piece) in problem.pieces().iter().enumerate() {
        let may_turn = piece.may_turn && piece.length != piece.width;
        let (length, width) = if may_turn && piece.length < piece.width {
            (piece.width, piece.length)
        } else {
            (piece.length, piece.width)
        };
        let pieces = vec![number; piece.quantity as usize];
        let is_same =
            |kind: &&mut Kind| (kind.length, kind.width, kind.may_turn) == (length, width, may_turn);
        match kinds.iter_mut().find(is_same) {
            Some(kind) => kind.pieces.extend(pieces),
            None => kinds.push(Kind { length, width, may_turn, pieces }),
        }
    }
    kinds
}
