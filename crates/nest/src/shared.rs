//! One cut for two parts: sides that match are moved to one kerf from one another.
//!
//! Which sides match, and when one cut serves both, is said in [`side`]. Two pieces also lie nearer than the gap where two such
//! cuts cross: each shares a cut with a third piece, and both cuts, were they to run on, part the two.

mod glued;
mod grid;
mod side;
mod turning;

use geometry::grid::{GridOutline, GridPoint};

pub(crate) use glued::plans;
pub(crate) use grid::fill as grids;

use crate::clear::apart;
use crate::problem::Problem;
use crate::rect::Axis;
use crate::sheet::{Nest, Sheet};
use side::{Kind, Side, Sides, cross_clearly};

/// How far a piece is moved to share a cut, in gaps.
const REACH_GAPS: i64 = 16;

/// A cut that serves two pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SharedCut {
    /// The piece before it, at its left or, where it is level, below it, by its place in the sheet's list.
    pub first: usize,
    /// The piece behind it.
    pub second: usize,
    /// The side of each that it finishes, from the end that lies lower, or where it is level farther left, to the other.
    pub sides: [[GridPoint; 2]; 2],
}

/// A shared cut that is level or upright.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StraightCut {
    /// The direction that it runs across.
    pub axis: Axis,
    /// The strip that it takes: exactly one kerf wide.
    pub within: [i64; 2],
    /// Where it begins.
    pub from: i64,
    /// Where it ends.
    pub to: i64,
}

impl SharedCut {
    /// Between two sides, which lie before and behind it.
    fn between([first, second]: [usize; 2], [before, behind]: [Side; 2]) -> Self {
        let level = before.kind() == Kind::Level;
        let upward = |from: GridPoint, to: GridPoint| if level { [to, from] } else { [from, to] };
        // The metal lies to the left of a side, so the one behind the cut runs the other way.
        Self { first, second, sides: [upward(before.from, before.to), upward(behind.to, behind.from)] }
    }

    /// As a level or upright cut; `None` when it is slanted.
    #[must_use]
    pub fn straight(&self) -> Option<StraightCut> {
        let [[from, to], [behind, _]] = self.sides;
        if from.x == to.x {
            Some(StraightCut { axis: Axis::X, within: [from.x, behind.x], from: from.y, to: to.y })
        } else if from.y == to.y {
            Some(StraightCut { axis: Axis::Y, within: [from.y, behind.y], from: from.x, to: to.x })
        } else {
            None
        }
    }

    /// Both ends of the line in its middle, in half steps.
    #[must_use]
    pub fn doubled_middle(&self) -> [GridPoint; 2] {
        let [before, behind] = self.sides;
        [before[0] + behind[0], before[1] + behind[1]]
    }
}

/// The shared cuts of a sheet.
#[must_use]
pub fn shared_cuts(problem: &Problem, sheet: &Sheet) -> Vec<SharedCut> {
    let Some(kerf) = problem.shared_kerf() else { return Vec::new() };
    let sides = |placed: &crate::Placement| Sides::of(&placed.outline(problem), problem.rules().gap);
    let sides: Vec<Sides> = sheet.placements.iter().map(sides).collect();
    let mut cuts = Vec::new();
    for first in 0..sides.len() {
        for second in 0..sides.len() {
            let cut = (first != second).then(|| sides[first].meeting(&sides[second], kerf)).flatten();
            // Every pair is looked at both ways round.
            let cut = cut.filter(|[before, _]| before.is_before());
            cuts.extend(cut.map(|pair| SharedCut::between([first, second], pair)));
        }
    }
    cuts
}

/// Whether two pieces share a cut, or lie corner to corner where two shared cuts cross.
fn may_be_near(sides: &[Sides], first: usize, second: usize, kerf: i64) -> bool {
    let (one, two) = (&sides[first], &sides[second]);
    let crosses = |third: &Sides| {
        let ways = one.parting_ways(third, two, kerf);
        let others = || two.parting_ways(third, one, kerf);
        !ways.is_empty()
            && others().into_iter().any(|other| ways.iter().any(|&way| cross_clearly(way, other)))
    };
    let is_third = |third: &usize| *third != first && *third != second;
    one.meeting(two, kerf).is_some() || (0..sides.len()).filter(is_third).any(|third| crosses(&sides[third]))
}

/// Moves pieces of every sheet toward their neighbours where that makes a cut serve both, and turns some to lie beside others of
/// their kind; nothing else is touched.
pub(crate) fn share(problem: &Problem, nest: &mut Nest) {
    let Some(kerf) = problem.shared_kerf() else { return };
    for sheet in &mut nest.sheets {
        let mut sharing = Sharing::new(problem, sheet, kerf);
        sharing.close_up();
        if sharing.turn_beside() {
            sharing.close_up();
        }
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

/// A piece at a place where it does not lie yet.
struct Moved {
    piece: usize,
    outline: GridOutline,
    sides: Sides,
}

impl<'a> Sharing<'a> {
    fn new(problem: &'a Problem, sheet: &'a mut Sheet, kerf: i64) -> Self {
        let outlines: Vec<GridOutline> =
            sheet.placements.iter().map(|placed| placed.outline(problem)).collect();
        let sides: Vec<Sides> =
            outlines.iter().map(|outline| Sides::of(outline, problem.rules().gap)).collect();
        let cluster = (0..outlines.len()).collect();
        let missing = problem.stock()[sheet.stock].missing();
        let mut sharing = Self { problem, sheet, kerf, outlines, sides, missing, cluster };
        (0..sharing.sides.len()).for_each(|piece| sharing.join_what_meets(piece));
        sharing
    }

    fn join_what_meets(&mut self, piece: usize) {
        for other in 0..self.sides.len() {
            if self.cluster[other] != self.cluster[piece]
                && self.sides[piece].meeting(&self.sides[other], self.kerf).is_some()
            {
                let (a, b) = (self.cluster[piece], self.cluster[other]);
                let (least, gone) = (a.min(b), a.max(b));
                let joined = self.cluster.iter_mut().filter(|cluster| **cluster == gone);
                joined.for_each(|cluster| *cluster = least);
            }
        }
    }

    /// Pairs in order of how near they lie to the sheet's corner, so that a row closes up from there.
    fn close_up(&mut self) {
        let mut order: Vec<usize> = (0..self.sides.len()).collect();
        order.sort_by_key(|&piece| (self.sides[piece].low, piece));
        for kind in [Kind::Level, Kind::Upright, Kind::Slanted] {
            for &second in &order {
                for &first in &order {
                    if self.cluster[first] != self.cluster[second] {
                        self.try_pair(first, second, kind);
                    }
                }
            }
        }
    }

    fn try_pair(&mut self, first: usize, second: usize, kind: Kind) {
        let reach = REACH_GAPS * self.problem.rules().gap.max(1);
        for by in self.moves([first, second], kind) {
            let cluster = self.cluster[second];
            let own = (0..self.outlines.len()).filter(|&piece| self.cluster[piece] == cluster);
            let moved = |piece: usize| Moved {
                piece,
                outline: self.outlines[piece].shifted(by),
                sides: self.sides[piece].shifted(by),
            };
            let is_near = by.x.abs() <= reach && by.y.abs() <= reach;
            let moved: Vec<Moved> = if is_near { own.map(moved).collect() } else { continue };
            let target = moved.iter().find(|moved| moved.piece == second);
            let meets =
                target.is_some_and(|target| self.sides[first].meeting(&target.sides, self.kerf).is_some());
            if meets && self.is_room_for(&moved) {
                for moved in &moved {
                    let placed = &mut self.sheet.placements[moved.piece];
                    placed.shift = placed.shift + by;
                }
                self.put(moved);
                return;
            }
        }
    }

    /// Moves of the second piece after which a cut of that kind along a side of the first may serve both.
    fn moves(&self, [first, second]: [usize; 2], kind: Kind) -> Vec<GridPoint> {
        let (before, behind) = (&self.sides[first].list, &self.sides[second].list);
        let pairs = before.iter().flat_map(|&one| behind.iter().map(move |&two| [one, two]));
        let fit = |[own, their]: &[Side; 2]| {
            own.kind() == kind && own.is_before() && own.is_opposite(*their) && !own.is_past(*their)
        };
        pairs.filter(fit).flat_map(|[own, their]| own.moves(their, self.kerf)).collect()
    }

    /// Whether no moved piece would come too near to another one or to the sheet's edge.
    fn is_room_for(&self, moved: &[Moved]) -> bool {
        let (size, rules) = (self.problem.stock()[self.sheet.stock].size(), self.problem.rules());
        let inside =
            |outline: &GridOutline| crate::clear::inside_trimmed(size, &self.missing, rules, outline);
        let mut after = self.sides.clone();
        moved.iter().for_each(|moved| after[moved.piece] = moved.sides.clone());
        let is_own = |other: &usize| moved.iter().any(|moved| moved.piece == *other);
        let others: Vec<usize> = (0..self.outlines.len()).filter(|other| !is_own(other)).collect();
        let clear = |moved: &Moved| {
            others.iter().all(|&other| {
                apart(&moved.outline, &self.outlines[other], rules.gap)
                    || may_be_near(&after, moved.piece, other, self.kerf)
            })
        };
        moved.iter().all(|moved| inside(&moved.outline) && clear(moved))
    }

    /// Takes over where pieces lie now, and which cuts they share there.
    fn put(&mut self, moved: Vec<Moved>) {
        let pieces: Vec<usize> = moved.iter().map(|moved| moved.piece).collect();
        for Moved { piece, outline, sides } in moved {
            (self.outlines[piece], self.sides[piece]) = (outline, sides);
        }
        pieces.into_iter().for_each(|piece| self.join_what_meets(piece));
    }
}
