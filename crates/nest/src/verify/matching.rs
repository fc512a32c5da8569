//! May two pieces lie nearer than the gap, because one cut serves both?
//!
//! Worked out from the corners of both alone, as they lie along a cut and across it, in whole numbers: measures are products with
//! the length of a side and are compared squared.

use geometry::grid::{GridOutline, GridPoint, ring_edges};

/// Steps by which slanted sides may lie farther apart than the kerf, and differ in length: of level and upright ones none.
const SPARE: i128 = 4;

/// Width of a cut, and the least length of a side that it serves.
#[derive(Clone, Copy)]
pub(crate) struct Saw {
    pub(crate) kerf: i64,
    pub(crate) least: i64,
}

/// A straight cut of the kerf's width between two pieces: the direction square to it, away from the piece whose side it runs
/// along, and that side's place in this direction.
struct Cut {
    across: (i128, i128),
    border: i128,
}

/// True when one cut serves both pieces, or when they lie corner to corner where two such cuts cross: each shares one with a third
/// piece of `all`, and both of these, were they to run on, part the two.
pub(crate) fn may_be_near(first: &GridOutline, second: &GridOutline, all: &[GridOutline], saw: Saw) -> bool {
    let crossing = |third: &GridOutline| {
        let ours = parting(first, third, second, saw);
        let theirs = parting(second, third, first, saw);
        theirs.iter().any(|their| ours.iter().any(|own| own.crosses(their)))
    };
    let serves = |near: &GridOutline, far: &GridOutline| !cuts(near, far, saw).is_empty();
    serves(first, second) || serves(second, first) || all.iter().any(crossing)
}

/// The cuts that serve a piece and `third`, and have all of `other` on the side of `third`.
fn parting(piece: &GridOutline, third: &GridOutline, other: &GridOutline, saw: Saw) -> Vec<Cut> {
    let mut own = cuts(piece, third, saw);
    own.retain(|cut| other.outer().iter().all(|&corner| cut.is_beyond(corner, i128::from(saw.kerf))));
    let mut theirs = cuts(third, piece, saw);
    theirs.retain(|cut| other.outer().iter().all(|&corner| cut.off(corner) <= 0));
    own.extend(theirs);
    own
}

/// The cuts along a side of `near` that serve `far` as well. All of `near` lies on or behind that side, and touches it with its two
/// ends alone; all of `far` lies a kerf or more beyond, and comes within it, and the spare, along one edge alone, whose ends lie
/// opposite those of the side. At these ends both pieces bend away from the cut.
fn cuts(near: &GridOutline, far: &GridOutline, saw: Saw) -> Vec<Cut> {
    let serves = |(from, to): (GridPoint, GridPoint)| {
        let (x, y) = (i128::from(to.x - from.x), i128::from(to.y - from.y));
        let across = (y, -x);
        let cut = Cut { across, border: product(across, from) };
        let slanted = x != 0 && y != 0;
        let [spare, aside] = if slanted { [SPARE, i128::from(saw.kerf)] } else { [0, 0] };
        let kerf = i128::from(saw.kerf);
        let is_long = i128::from(saw.least).pow(2) <= cut.squared();
        let are_parted = near.outer().iter().all(|&corner| cut.off(corner) <= 0)
            && far.outer().iter().all(|&corner| cut.is_beyond(corner, kerf));
        if !is_long || !are_parted {
            return None;
        }
        let own = cut.touched(near, spare, |corner| 0 <= cut.off(corner))?;
        let reach = (kerf + spare).pow(2) * cut.squared();
        let their = cut.touched(far, spare, |corner| cut.off(corner).pow(2) <= reach)?;
        let within =
            |one: i128, other: i128, steps: i128| (one - other).pow(2) <= steps.pow(2) * cut.squared();
        let opposite = within(own[0], their[0], aside)
            && within(own[1], their[1], aside)
            && within(own[1] - own[0], their[1] - their[0], spare);
        opposite.then_some(cut)
    };
    ring_edges(near.outer()).filter_map(serves).collect()
}

fn product(along: (i128, i128), place: GridPoint) -> i128 {
    along.0 * i128::from(place.x) + along.1 * i128::from(place.y)
}

impl Cut {
    fn squared(&self) -> i128 {
        self.across.0.pow(2) + self.across.1.pow(2)
    }

    /// How far a place is beyond the border.
    fn off(&self, place: GridPoint) -> i128 {
        product(self.across, place) - self.border
    }

    /// How far along the cut a place is.
    fn along(&self, place: GridPoint) -> i128 {
        product((-self.across.1, self.across.0), place)
    }

    fn is_beyond(&self, place: GridPoint, kerf: i128) -> bool {
        0 < self.off(place) && kerf.pow(2) * self.squared() <= self.off(place).pow(2)
    }

    /// Where along the cut the piece touches it: along one edge of its outer ring alone, from both ends of which it bends away by
    /// one across for three along or fewer. `None` when it touches elsewhere as well, or bends away less sharply. Corners within the
    /// spare of an end are that end: rounding blunts sharp corners.
    fn touched(
        &self,
        piece: &GridOutline,
        spare: i128,
        touches: impl Fn(GridPoint) -> bool,
    ) -> Option<[i128; 2]> {
        let ring = piece.outer();
        let count = ring.len();
        let is_same = |one: GridPoint, other: GridPoint| {
            i128::from((one.x - other.x).abs().max((one.y - other.y).abs())) <= spare
        };
        let is_touching = |number: usize| {
            let (a, b) = (ring[number], ring[(number + 1) % count]);
            touches(a) && touches(b) && !is_same(a, b)
        };
        let first = (0..count).find(|&number| is_touching(number))?;
        let (a, b) = (ring[first], ring[(first + 1) % count]);
        let mut elsewhere = ring.iter().filter(|&&corner| !is_same(corner, a) && !is_same(corner, b));
        if elsewhere.any(|&corner| touches(corner)) {
            return None;
        }
        let before = (1..count).map(|back| ring[(first + count - back) % count]);
        let after = (1..count).map(|on| ring[(first + 1 + on) % count]);
        let bends = |end: GridPoint, next: Option<GridPoint>, other: GridPoint| {
            next.is_some_and(|next| {
                let away = (self.off(next) - self.off(end)).abs();
                let outward = (self.along(end) - self.along(other)).signum();
                (self.along(next) - self.along(end)) * outward <= 3 * away
            })
        };
        let [mut before, mut after] = [before.collect::<Vec<_>>(), after.collect()].map(Vec::into_iter);
        let (before, after) =
            (before.find(|&corner| !is_same(corner, a)), after.find(|&corner| !is_same(corner, b)));
        let ends = [self.along(a).min(self.along(b)), self.along(a).max(self.along(b))];
        (bends(a, before, b) && bends(b, after, a)).then_some(ends)
    }

    /// Whether two cuts cross at an angle of one across for three along or fewer.
    fn crosses(&self, other: &Self) -> bool {
        let (a, b) = (self.across, other.across);
        (a.0 * b.0 + a.1 * b.1).abs() <= 3 * (a.0 * b.1 - a.1 * b.0).abs()
    }
}
