//! Straight sides of a piece along which one cut may serve another piece too.
//!
//! A side counts where all of its piece lies behind it, so that the cut along it, however far it runs on, meets nothing else of
//! that piece; where it is at least as long as the gap; and where the outline bends away clearly at both of its ends, so that
//! chords of a round are none.
//!
//! Level and upright sides lie exactly a kerf apart and exactly opposite one another. On slanted ones no place of the grid may do
//! that, and outlines that were turned are rounded: they may lie a few steps farther apart, and the ends of the one as far past
//! those of the other as the kerf is wide, since two parts in a row, their level sides in line, lie just so.

use geometry::grid::{GridOutline, GridPoint, ring_edges};

/// Steps by which slanted sides may be farther apart than the kerf, and longer than one another. A place of the grid lies within
/// two of any; the rest is for outlines that were rounded when they were turned.
const SLANTED_STEPS: i64 = 4;

/// How sharply the outline bends at both ends of a side, and how sharply two cuts cross: at two along for one across or fewer, some 27°.
/// The judge lets three pass.
const BEND: i128 = 2;

/// An edge of the outer ring, metal on its left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Side {
    pub(super) from: GridPoint,
    pub(super) to: GridPoint,
}

/// A piece as far as shared cuts go.
#[derive(Debug, Clone)]
pub(super) struct Sides {
    pub(super) low: GridPoint,
    pub(super) high: GridPoint,
    corners: Vec<GridPoint>,
    pub(super) list: Vec<Side>,
}

/// How the sides of a pair lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    Level,
    Upright,
    Slanted,
}

impl Sides {
    /// Of an outline; no side is shorter than `least`.
    pub(super) fn of(outline: &GridOutline, least: i64) -> Self {
        let (low, high) = outline.bounds();
        let ring = outline.outer();
        let count = ring.len();
        let is_side = |&(number, side): &(usize, Side)| {
            let way = side.way();
            let bends = |one: GridPoint, other: GridPoint| dot(one, other) <= BEND * cross(one, other);
            // A sharp corner that was rounded is blunt by a step or two.
            let before = (1..count).map(|back| ring[(number + count - back) % count]);
            let after = (1..count).map(|on| ring[(number + 1 + on) % count]);
            let before = before.into_iter().find(|&corner| !side.is_at(side.from, corner));
            let after = after.into_iter().find(|&corner| !side.is_at(side.to, corner));
            let others = || ring.iter().filter(|&&corner| corner != side.from && corner != side.to);
            i128::from(least) * i128::from(least) <= dot(way, way)
                && before.is_some_and(|before| bends(side.from - before, way))
                && after.is_some_and(|after| bends(way, after - side.to))
                && others().all(|&corner| side.beyond(corner) < 0)
        };
        let edges = ring_edges(ring).map(|(from, to)| Side { from, to }).enumerate();
        let list = edges.filter(is_side).map(|(_, side)| side).collect();
        Self { low, high, corners: ring.to_vec(), list }
    }

    pub(super) fn are_slanted(&self) -> bool {
        self.list.iter().any(|side| side.kind() == Kind::Slanted)
    }

    pub(super) fn shifted(&self, by: GridPoint) -> Self {
        let list = self.list.iter().map(|side| side.shifted(by)).collect();
        let corners = self.corners.iter().map(|&corner| corner + by).collect();
        Self { low: self.low + by, high: self.high + by, corners, list }
    }

    /// Whether the rectangles around the two are so far apart that no cut serves both.
    fn is_far_from(&self, other: &Self, kerf: i64) -> bool {
        let apart =
            |low: i64, high: i64, other_low: i64, other_high: i64| (other_low - high).max(low - other_high);
        let across = apart(self.low.x, self.high.x, other.low.x, other.high.x);
        let up = apart(self.low.y, self.high.y, other.low.y, other.high.y);
        kerf + SLANTED_STEPS < across.max(up)
    }

    /// The pair of sides with one cut between the two, if there is one.
    pub(super) fn meeting(&self, other: &Self, kerf: i64) -> Option<[Side; 2]> {
        if self.is_far_from(other, kerf) {
            return None;
        }
        let pairs = self.list.iter().flat_map(|&one| other.list.iter().map(move |&two| [one, two]));
        let mut pairs = pairs.filter(|[one, two]| one.is_opposite(*two));
        pairs.find(|&[one, two]| self.meets([one, two], other, kerf) || other.meets([two, one], self, kerf))
    }

    /// Whether a cut of the kerf's width along the first of these sides, our own, serves the other piece along the second.
    pub(super) fn meets(&self, [own, their]: [Side; 2], other: &Self, kerf: i64) -> bool {
        let way = own.way();
        let spare = own.spare();
        let aside = if own.kind() == Kind::Slanted { kerf } else { 0 };
        let is_end = |corner: GridPoint| own.is_at(their.from, corner) || own.is_at(their.to, corner);
        let reaches = |corner: &&GridPoint| !is_more(own.beyond(**corner), kerf + spare, way);
        is_close(dot(way, their.to - own.from), aside, way)
            && is_close(dot(way, their.from - own.to), aside, way)
            && is_close(dot(way, way + their.way()), spare, way)
            && self.is_parted_by(own, other, kerf)
            && [their.from, their.to].iter().all(|end| reaches(&end))
            && other.corners.iter().filter(reaches).all(|&corner| is_end(corner))
    }

    /// Whether all of the other piece lies beyond a cut of the kerf's width along our own side, however far it runs on.
    fn is_parted_by(&self, own: Side, other: &Self, kerf: i64) -> bool {
        other.corners.iter().all(|&corner| !is_less(own.beyond(corner), kerf, own.way()))
    }

    /// The ways of the cuts that serve this piece and `third`, and part this one from `other`, too, when they run on.
    pub(super) fn parting_ways(&self, third: &Self, other: &Self, kerf: i64) -> Vec<GridPoint> {
        if self.is_far_from(third, kerf) {
            return Vec::new();
        }
        let mut ways = Vec::new();
        for &own in &self.list {
            for &their in third.list.iter().filter(|their| own.is_opposite(**their)) {
                if self.meets([own, their], third, kerf) && self.is_parted_by(own, other, kerf) {
                    ways.push(own.way());
                }
                let from_third = third.meets([their, own], self, kerf);
                if from_third && other.corners.iter().all(|&corner| their.beyond(corner) <= 0) {
                    ways.push(their.way());
                }
            }
        }
        ways
    }
}

/// Whether two cuts cross at a clear angle.
pub(super) fn cross_clearly(one: GridPoint, other: GridPoint) -> bool {
    dot(one, other).abs() <= BEND * cross(one, other).abs()
}

impl Side {
    pub(super) fn way(self) -> GridPoint {
        self.to - self.from
    }

    fn shifted(self, by: GridPoint) -> Self {
        Self { from: self.from + by, to: self.to + by }
    }

    pub(super) fn kind(self) -> Kind {
        let way = self.way();
        match (way.x, way.y) {
            (0, _) => Kind::Upright,
            (_, 0) => Kind::Level,
            _ => Kind::Slanted,
        }
    }

    /// Whether the piece lies before the side, at its left or, where the side is level, below it.
    pub(super) fn is_before(self) -> bool {
        let way = self.way();
        0 < way.y || (way.y == 0 && way.x < 0)
    }

    /// Whether another side lies on this one's own side of it.
    pub(super) fn is_past(self, other: Self) -> bool {
        self.beyond(other.from) < 0
    }

    /// How far a place is beyond the side, square to it, times the length of the side.
    fn beyond(self, place: GridPoint) -> i128 {
        -cross(self.way(), place - self.from)
    }

    /// Whether a side runs the other way and is as long.
    pub(super) fn is_opposite(self, other: Self) -> bool {
        let sum = self.way() + other.way();
        sum.x.abs() <= self.spare() && sum.y.abs() <= self.spare()
    }

    /// Steps that count as none.
    fn spare(self) -> i64 {
        if self.kind() == Kind::Slanted { SLANTED_STEPS } else { 0 }
    }

    /// Whether a corner is as good as an end of a side like this one.
    fn is_at(self, end: GridPoint, corner: GridPoint) -> bool {
        let by = corner - end;
        by.x.abs() <= self.spare() && by.y.abs() <= self.spare()
    }

    /// Moves of another side, wherever it is, to just beside this one: with an end straight beside or over one of ours, so that parts
    /// in a row are in line, or opposite it; the shortest way off first.
    pub(super) fn moves_beside(self, their: Self, kerf: i64) -> Vec<GridPoint> {
        let onto = self.from - their.to;
        let mut off = self.moves(their.shifted(onto), kerf);
        off.sort_by_key(|by| (by.x.abs() + by.y.abs(), *by));
        off.into_iter().map(|by| onto + by).collect()
    }

    /// Moves of another side after which a cut between the two serves both, as far as these sides go, the gentlest first:
    /// along one axis, so that what is in line stays so, or to where they lie opposite one another.
    pub(super) fn moves(self, their: Self, kerf: i64) -> Vec<GridPoint> {
        let (way, out) = (self.way(), their.to - self.from);
        let long = dot(way, way);
        // The least that is not under the kerf, times the length.
        let least = root_up(i128::from(kerf) * i128::from(kerf) * long);
        let (x, y) = (i128::from(way.x), i128::from(way.y));
        if self.kind() != Kind::Slanted {
            let opposite = GridPoint::new(way.y.signum() * kerf, -way.x.signum() * kerf);
            return vec![opposite - out];
        }
        let short = |of: i128, per: i128| {
            // The fewest steps along an axis that bring it beyond by at least `of`.
            let steps = if 0 < per { -(-of).div_euclid(per) } else { (-of).div_euclid(-per) };
            i64::try_from(steps).ok()
        };
        // Where the two are not quite parallel, the nearer end goes by the kerf.
        let (one, two) = (self.beyond(their.to), self.beyond(their.from));
        let lacking = least - one.min(two);
        let level = short(lacking, y).map(|steps| GridPoint::new(steps, 0));
        let upright = short(lacking, -x).map(|steps| GridPoint::new(0, steps));
        let nearer = (one - one.min(two) + long.isqrt()).div_euclid(long.isqrt().max(1));
        let nearer = if one <= two { 0 } else { i64::try_from(nearer).unwrap_or(0) };
        let opposite = opposite(kerf + nearer, way, long).map(|place| place - out);
        [level, upright, opposite].into_iter().flatten().collect()
    }
}

/// The place of the grid opposite a side's beginning that is at least a kerf off, by as little as can be.
fn opposite(kerf: i64, way: GridPoint, long: i128) -> Option<GridPoint> {
    const NEAR: i64 = 2;
    let part = |across: i64| {
        let squared = (i128::from(kerf) * i128::from(across)).pow(2) / long.max(1);
        i64::try_from(squared.isqrt()).ok().map(|part| part * across.signum())
    };
    let middle = GridPoint::new(part(way.y)?, part(-way.x)?);
    let near = (-NEAR..=NEAR).flat_map(|x| (-NEAR..=NEAR).map(move |y| GridPoint::new(x, y)));
    let places = near.map(|by| middle + by);
    let side = Side { from: GridPoint::default(), to: way };
    places
        .filter(|&place| !is_less(side.beyond(place), kerf, way))
        .min_by_key(|&place| (side.beyond(place) + dot(way, place).abs(), place))
}

fn cross(one: GridPoint, other: GridPoint) -> i128 {
    i128::from(one.x) * i128::from(other.y) - i128::from(one.y) * i128::from(other.x)
}

fn dot(one: GridPoint, other: GridPoint) -> i128 {
    i128::from(one.x) * i128::from(other.x) + i128::from(one.y) * i128::from(other.y)
}

fn root_up(square: i128) -> i128 {
    let root = square.isqrt();
    root + i128::from(root * root < square)
}

/// Whether what is given times the length of `way` is less than so many steps.
fn is_less(measured: i128, steps: i64, way: GridPoint) -> bool {
    measured < 0 || measured * measured < squared(steps, way)
}

fn is_more(measured: i128, steps: i64, way: GridPoint) -> bool {
    0 < measured && squared(steps, way) < measured * measured
}

fn is_close(measured: i128, steps: i64, way: GridPoint) -> bool {
    measured * measured <= squared(steps, way)
}

fn squared(steps: i64, way: GridPoint) -> i128 {
    i128::from(steps) * i128::from(steps) * dot(way, way)
}
