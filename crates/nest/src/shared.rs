//! One cut for two parts: sides that match are moved to exactly one kerf from one another.
//!
//! A side counts where it is level or upright, straight, and as long as its piece is there: all of the piece lies behind it,
//! so that the cut along it meets nothing else of either piece. Two such sides match when they are as long and lie opposite
//! one another.

mod grid;

use geometry::grid::{GridOutline, GridPoint, ring_edges};

pub(crate) use grid::fill as grids;

use crate::clear::apart;
use crate::problem::Problem;
use crate::rect::Axis;
use crate::sheet::{Nest, Sheet};

/// How far a piece is moved to share a cut, in gaps.
const REACH_GAPS: i64 = 16;

/// A cut that serves two pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SharedCut {
    /// The piece before it along the axis, by its place in the sheet's list.
    pub first: usize,
    /// The piece behind it.
    pub second: usize,
    /// The direction that it runs across.
    pub axis: Axis,
    /// The strip that it takes: exactly one kerf wide.
    pub within: [i64; 2],
    /// Where it begins.
    pub from: i64,
    /// Where it ends.
    pub to: i64,
}

/// Full straight sides of a piece: before and behind along x, then along y.
#[derive(Debug, Clone, Copy)]
struct Sides {
    low: [i64; 2],
    high: [i64; 2],
    /// For each axis, whether the side at its lower end is one, and that at its upper end.
    full: [[bool; 2]; 2],
}

/// The shared cuts of a sheet.
#[must_use]
pub fn shared_cuts(problem: &Problem, sheet: &Sheet) -> Vec<SharedCut> {
    let Some(kerf) = problem.shared_kerf() else { return Vec::new() };
    let sides: Vec<Sides> =
        sheet.placements.iter().map(|placed| Sides::of(&placed.outline(problem))).collect();
    meeting(&sides, kerf).into_iter().map(|pair| cut_between(&sides, pair)).collect()
}

/// Pairs of pieces with one cut between them: the one before it, the one behind it, and the axis that it runs across.
fn meeting(sides: &[Sides], kerf: i64) -> Vec<(usize, usize, usize)> {
    let mut pairs = Vec::new();
    for first in 0..sides.len() {
        for second in 0..sides.len() {
            for along in 0..2 {
                if first != second && sides[first].meets(&sides[second], along, kerf) {
                    pairs.push((first, second, along));
                }
            }
        }
    }
    pairs
}

fn cut_between(sides: &[Sides], (first, second, along): (usize, usize, usize)) -> SharedCut {
    SharedCut {
        first,
        second,
        axis: if along == 0 { Axis::X } else { Axis::Y },
        within: [sides[first].high[along], sides[second].low[along]],
        from: sides[first].low[1 - along],
        to: sides[first].high[1 - along],
    }
}

impl Sides {
    fn of(outline: &GridOutline) -> Self {
        let (low, high) = outline.bounds();
        let (low, high) = ([low.x, low.y], [high.x, high.y]);
        let place = |point: GridPoint| [point.x, point.y];
        let full_at = |along: usize, at: i64| {
            ring_edges(outline.outer()).any(|(a, b)| {
                let (a, b) = (place(a), place(b));
                let across = 1 - along;
                let ends = [a[across].min(b[across]), a[across].max(b[across])];
                a[along] == at && b[along] == at && ends == [low[across], high[across]]
            })
        };
        let full = [0, 1].map(|along: usize| [full_at(along, low[along]), full_at(along, high[along])]);
        Self { low, high, full }
    }

    /// Whether a cut along any of its sides could serve another piece.
    fn are_all_full(&self) -> bool {
        self.full.iter().flatten().all(|&full| full)
    }

    /// Whether a side of this and the one of `other` behind it are as long as one another.
    fn matches(&self, other: &Self, along: usize) -> bool {
        let across = 1 - along;
        let length = |sides: &Self| sides.high[across] - sides.low[across];
        self.full[along][1] && other.full[along][0] && length(self) == length(other)
    }

    /// Whether they also lie opposite one another, one kerf apart.
    fn meets(&self, other: &Self, along: usize, kerf: i64) -> bool {
        self.matches(other, along)
            && self.low[1 - along] == other.low[1 - along]
            && other.low[along] - self.high[along] == kerf
    }
}

/// Whether two pieces share a cut, or lie corner to corner where two shared cuts cross.
fn may_be_near(sides: &[Sides], first: usize, second: usize, kerf: i64) -> bool {
    let share = |one: usize, other: usize| {
        let (one, other) = (&sides[one], &sides[other]);
        (0..2).any(|along| one.meets(other, along, kerf) || other.meets(one, along, kerf))
    };
    let corner_to_corner = (0..2).all(|along| {
        let (one, other) = (&sides[first], &sides[second]);
        (other.low[along] - one.high[along]).max(one.low[along] - other.high[along]) == kerf
    });
    share(first, second)
        || (corner_to_corner && (0..sides.len()).any(|third| share(first, third) && share(third, second)))
}

/// Moves pieces of every sheet toward their neighbours where that makes a cut serve both, and nothing else is touched.
pub(crate) fn share(problem: &Problem, nest: &mut Nest) {
    let Some(kerf) = problem.shared_kerf() else { return };
    for sheet in &mut nest.sheets {
        Sharing::new(problem, sheet, kerf).run();
    }
}

struct Sharing<'a> {
    problem: &'a Problem,
    sheet: &'a mut Sheet,
    kerf: i64,
    outlines: Vec<GridOutline>,
    sides: Vec<Sides>,
    /// What the sheet lacks of the rectangle around it.
    missing: Vec<GridOutline>,
    /// For each piece the lowest number among those it shares cuts with, directly or through others.
    cluster: Vec<usize>,
}

impl<'a> Sharing<'a> {
    fn new(problem: &'a Problem, sheet: &'a mut Sheet, kerf: i64) -> Self {
        let outlines: Vec<GridOutline> =
            sheet.placements.iter().map(|placed| placed.outline(problem)).collect();
        let sides: Vec<Sides> = outlines.iter().map(Sides::of).collect();
        let cluster = (0..outlines.len()).collect();
        let missing = problem.stock()[sheet.stock].missing();
        let mut sharing = Self { problem, sheet, kerf, outlines, sides, missing, cluster };
        sharing.join_what_meets();
        sharing
    }

    fn join_what_meets(&mut self) {
        for (first, second, _) in meeting(&self.sides, self.kerf) {
            self.join(first, second);
        }
    }

    fn join(&mut self, first: usize, second: usize) {
        let (a, b) = (self.cluster[first], self.cluster[second]);
        let (least, other) = (a.min(b), a.max(b));
        self.cluster.iter_mut().filter(|cluster| **cluster == other).for_each(|cluster| *cluster = least);
    }

    /// Pairs in order of how near they lie to the sheet's corner, so that a row closes up from there.
    fn run(&mut self) {
        let mut order: Vec<usize> = (0..self.sides.len()).collect();
        order.sort_by_key(|&piece| (self.sides[piece].low, piece));
        for along in [1, 0] {
            for &second in &order {
                for &first in &order {
                    if self.cluster[first] != self.cluster[second] {
                        self.try_pair(first, second, along);
                    }
                }
            }
        }
    }

    fn try_pair(&mut self, first: usize, second: usize, along: usize) {
        let (before, behind) = (self.sides[first], self.sides[second]);
        let reach = REACH_GAPS * self.problem.rules().gap.max(1);
        let room = behind.low[along] - before.high[along];
        let aside = before.low[1 - along] - behind.low[1 - along];
        if !before.matches(&behind, along) || !(0..=reach).contains(&room) || reach < aside.abs() {
            return;
        }
        let mut by = [0, 0];
        by[along] = self.kerf - room;
        by[1 - along] = aside;
        self.move_cluster(self.cluster[second], GridPoint::new(by[0], by[1]));
        if self.sides[first].meets(&self.sides[second], along, self.kerf) {
            self.join_what_meets();
        }
    }

    /// Moves all pieces of a cluster, unless one would come too near to another piece or to the sheet's edge.
    fn move_cluster(&mut self, cluster: usize, by: GridPoint) {
        let is_own = |piece: usize| self.cluster[piece] == cluster;
        let moved: Vec<(usize, GridOutline)> = (0..self.outlines.len())
            .filter(|&piece| is_own(piece))
            .map(|piece| (piece, self.outlines[piece].shifted(by)))
            .collect();
        let (size, rules) = (self.problem.stock()[self.sheet.stock].size(), self.problem.rules());
        let inside =
            |outline: &GridOutline| crate::clear::inside_trimmed(size, &self.missing, rules, outline);
        let mut after = self.sides.clone();
        moved.iter().for_each(|(piece, outline)| after[*piece] = Sides::of(outline));
        let clear = |piece: usize, outline: &GridOutline| {
            (0..self.outlines.len()).filter(|&other| !is_own(other)).all(|other| {
                may_be_near(&after, piece, other, self.kerf)
                    || apart(outline, &self.outlines[other], rules.gap)
            })
        };
        if moved.iter().all(|(piece, outline)| inside(outline) && clear(*piece, outline)) {
            for (piece, outline) in moved {
                self.sides[piece] = after[piece];
                self.outlines[piece] = outline;
                self.sheet.placements[piece].shift = self.sheet.placements[piece].shift + by;
            }
        }
    }
}
