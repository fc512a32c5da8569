//! The order of cuts by hand saw, torch or router on a nested sheet.
//!
//! Long straight cuts that cross the blank in hand come first, so that the sheet becomes handy and stays whole where it
//! is held. A drop that is worth keeping and free right across comes off before all. Every drop to be kept is said: where a
//! straight cut frees it with that cut, else by its own outline once the parts around it are off. The others run in the middle of the
//! strip between groups of parts. The far end comes off first, so that what is left stays on the bench at its datum corner. A part's cut-outs come before its outline, while the metal around
//! still holds it. What no straight cut parts is cut part by part, from the far end; a slanted cut that serves two parts comes before
//! the outline of the first of them.

mod metal;

use std::cmp::Reverse;

use geometry::grid::{GridOutline, GridPoint, Place, bounds_of, place_in_ring};

use crate::drop::Drop;
use crate::problem::Problem;
use crate::rect::Axis;
use crate::shared::{SharedCut, shared_cuts};
use crate::sheet::Sheet;
use metal::through_metal;

/// One step at the bench. Coordinates are steps from the sheet's own corner.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// A straight cut across the blank in hand.
    Across {
        /// Which direction it runs across.
        axis: Axis,
        /// The free strip that it may run in; its middle when nothing speaks for another line.
        within: [i64; 2],
        /// Where the blank in hand begins along the cut.
        from: i64,
        /// Where it ends.
        to: i64,
        /// True when the strip between the parts is no wider than the kerf: the cut finishes straight edges on both
        /// of its sides.
        finishes_both: bool,
        /// Which drop to be kept lies alone on the near side of the cut, and which beyond it, once the cut is made; by its
        /// place in the list of them.
        frees: [Option<usize>; 2],
    },
    /// The cut-outs of a piece, by its place in the sheet's list.
    CutOuts(usize),
    /// A slanted cut that serves two pieces.
    Shared(SharedCut),
    /// The outline of a piece, by its place in the sheet's list.
    Outline(usize),
    /// The outline of a drop to be kept that no straight cut frees, by its place in the list of them.
    Drop(usize),
    /// The outline of a drop to be kept that lies in what has fallen from a piece's cut-out.
    FromCutOut {
        /// By its place in the list of drops.
        drop: usize,
        /// By its place in the sheet's list.
        piece: usize,
        /// True when the drop is all that falls, with nothing more to be cut off it.
        whole: bool,
    },
}

/// What is cut out of a sheet, by its place in its list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum What {
    /// A drop to be kept whole.
    Drop(usize),
    Piece(usize),
}

/// A piece, or a drop to be kept whole, with its enclosing rectangle.
#[derive(Debug, Clone, Copy)]
struct Boxed {
    what: What,
    low: [i64; 2],
    high: [i64; 2],
    /// Whether it has a straight edge on the near and on the far side of the rectangle, along x and along y.
    flush: [[bool; 2]; 2],
}

/// A straight cut keeps this share of the kerf off corners that only reach up to it (common practice, no source): a saw that
/// wanders less still leaves them whole.
const OFF_CORNERS: i64 = 4;

/// A free end of the blank, with nothing to be kept in it, comes off first where it is at least this part of the sheet
/// (common practice, no source).
const FREE_END: i128 = 4;

/// A blank in hand: from and to, along x and along y.
type Blank = [[i64; 2]; 2];

/// Every step for one sheet. `kerf` tells when a cut takes all metal between two parts; no straight cut runs through a drop
/// of `kept`.
#[must_use]
pub fn cutting_order(problem: &Problem, sheet: &Sheet, kept: &[Drop], kerf: i64) -> Vec<Step> {
    let (length, width) = problem.stock()[sheet.stock].size();
    let boxed = |(piece, placed): (usize, &crate::Placement)| {
        let outline = placed.outline(problem);
        let (low, high) = outline.bounds();
        let flush = flush(outline.outer(), [low, high], kerf);
        Boxed { what: What::Piece(piece), low: [low.x, low.y], high: [high.x, high.y], flush }
    };
    let mut boxes: Vec<Boxed> = sheet.placements.iter().enumerate().map(boxed).collect();
    let mut slanted = shared_cuts(problem, sheet);
    slanted.retain(|cut| cut.straight().is_none());
    let mut order = Order { problem, sheet, kerf, slanted, steps: Vec::new() };
    let whole = [[0, length], [0, width]];
    let offcut = problem.stock()[sheet.stock].offcut();
    // What is free of parts right across the rectangle around an offcut need not be metal.
    let mut drops: Vec<Boxed> = kept.iter().enumerate().map(boxed_drop).collect();
    let blank = if offcut.is_some() {
        whole
    } else {
        let blank = order.drops_off(whole, &boxes, &mut drops);
        order.ends_off(blank, &boxes, &drops)
    };
    boxes.extend(drops);
    order.part(blank, boxes);
    match offcut {
        Some(offcut) => order.steps.into_iter().flat_map(|step| through_metal(step, offcut)).collect(),
        None => order.steps,
    }
}

fn boxed_drop((number, &Drop { low, high }): (usize, &Drop)) -> Boxed {
    Boxed { what: What::Drop(number), low: [low.x, low.y], high: [high.x, high.y], flush: [[true; 2]; 2] }
}

/// Whether an outline has an edge, longer than the kerf, that lies in the near, and one in the far, side of the rectangle around it, along x and y.
fn flush(ring: &[GridPoint], [low, high]: [GridPoint; 2], kerf: i64) -> [[bool; 2]; 2] {
    let ends = ring.iter().zip(ring.iter().cycle().skip(1));
    // Rounding onto the grid leaves edges of a step or two at corners.
    let is_long = |a: &GridPoint, b: &GridPoint| kerf < (a.x - b.x).abs() + (a.y - b.y).abs();
    let edge = |at: &dyn Fn(&GridPoint) -> bool| ends.clone().any(|(a, b)| at(a) && at(b) && is_long(a, b));
    [[edge(&|p| p.x == low.x), edge(&|p| p.x == high.x)], [edge(&|p| p.y == low.y), edge(&|p| p.y == high.y)]]
}

/// The drop that these boxes are, if they are no more than one.
fn sole_drop(boxes: &[Boxed]) -> Option<usize> {
    match boxes {
        [Boxed { what: What::Drop(number), .. }] => Some(*number),
        _ => None,
    }
}

struct Order<'a> {
    problem: &'a Problem,
    sheet: &'a Sheet,
    kerf: i64,
    /// Slanted cuts that serve two pieces and are not made yet. No straight cut parts their pieces: the rectangles around them
    /// lie nearer than the kerf.
    slanted: Vec<SharedCut>,
    steps: Vec<Step>,
}

impl Order<'_> {
    /// Takes off first what is free of parts right across and holds one of the `drops`, the larger side first; returns what is
    /// left of the blank, and leaves those that are still on it. The cut runs between the parts and the drop, where there is
    /// room for it.
    fn drops_off(&mut self, mut blank: Blank, boxes: &[Boxed], drops: &mut Vec<Boxed>) -> Blank {
        let gap = self.problem.rules().gap.max(self.kerf);
        let free = |drops: &[Boxed], along: usize| {
            let [_, used] = stretch(boxes, along);
            let [low, high] = [used, used.saturating_add(gap)];
            let cut_through = drops.iter().any(|drop| drop.low[along] < high && low < drop.high[along]);
            let beyond = drops.iter().filter(|drop| high <= drop.low[along]).map(Boxed::area).sum::<i128>();
            if cut_through { 0 } else { beyond }
        };
        let first = usize::from(free(drops, 0) < free(drops, 1));
        for along in [first, 1 - first] {
            if free(drops, along) == 0 || boxes.is_empty() {
                continue;
            }
            let [_, used] = stretch(boxes, along);
            let axis = if along == 0 { Axis::X } else { Axis::Y };
            let [from, to] = blank[1 - along];
            let within = [used, used.saturating_add(gap)];
            let (off, still_on): (Vec<Boxed>, Vec<Boxed>) =
                drops.iter().partition(|drop| within[1] <= drop.low[along]);
            *drops = still_on;
            let frees = [None, sole_drop(&off)];
            self.steps.push(Step::Across { axis, within, from, to, finishes_both: false, frees });
            // Later cuts run out into this one; its line is in the middle until the tape is laid on.
            let at = used.saturating_add(gap / 2);
            let mut beyond = blank;
            (beyond[along][0], blank[along][1]) = (at, at);
            self.part(beyond, off);
        }
        blank
    }

    /// Takes off a large end that is free of parts right across and holds no drop, the larger one first, so that the outlines
    /// are not cut in the whole sheet; returns what is left of the blank.
    fn ends_off(&mut self, mut blank: Blank, boxes: &[Boxed], drops: &[Boxed]) -> Blank {
        let gap = self.problem.rules().gap.max(self.kerf);
        let (length, width) = self.problem.stock()[self.sheet.stock].size();
        let least = i128::from(length) * i128::from(width) / FREE_END;
        let freed = |blank: &Blank, along: usize| {
            let [_, used] = stretch(boxes, along);
            let is_kept = drops.iter().any(|drop| used < drop.high[along]);
            let free = blank[along][1].saturating_sub(used.saturating_add(gap));
            let area = i128::from(free) * i128::from(blank[1 - along][1] - blank[1 - along][0]);
            if is_kept || boxes.is_empty() || area < least { 0 } else { area }
        };
        let first = usize::from(freed(&blank, 0) < freed(&blank, 1));
        for along in [first, 1 - first] {
            if freed(&blank, along) <= 0 {
                continue;
            }
            let [_, used] = stretch(boxes, along);
            let axis = if along == 0 { Axis::X } else { Axis::Y };
            let [from, to] = blank[1 - along];
            let within = [used, used.saturating_add(gap)];
            self.steps.push(Step::Across { axis, within, from, to, finishes_both: false, frees: [None; 2] });
            blank[along][1] = used.saturating_add(gap / 2);
        }
        blank
    }

    /// Parts a blank by all straight cuts that cross it, then each strip.
    fn part(&mut self, blank: Blank, boxes: Vec<Boxed>) {
        let ways = [Axis::X, Axis::Y].map(|axis| groups(&boxes, axis as usize, self.kerf));
        let axis = if ways[0].len() < ways[1].len() { Axis::Y } else { Axis::X };
        let [x, y] = ways;
        let mut strips = if axis == Axis::X { x } else { y };
        if strips.len() == 1 {
            self.pieces(strips.swap_remove(0));
            return;
        }
        let along = axis as usize;
        let [from, to] = blank[1 - along];
        let ends: Vec<[i64; 2]> = strips.iter().map(|strip| stretch(strip, along)).collect();
        let sole: Vec<Option<usize>> = strips.iter().map(|strip| sole_drop(strip)).collect();
        let mut end = blank[along][1];
        let mut parted = Vec::new();
        for (number, strip) in strips.iter().cloned().enumerate().rev() {
            let mut own = blank;
            own[along] = [blank[along][0], end];
            if 0 < number {
                let between = ends[number][0] - ends[number - 1][1];
                let at = ends[number - 1][1] + between / 2;
                let within = clear_of_corners([&strips[number - 1], &strip], along, self.kerf);
                self.steps.push(Step::Across {
                    axis,
                    within,
                    from,
                    to,
                    finishes_both: between <= self.kerf,
                    // The far end comes off first: only the last cut leaves one strip on its near side.
                    frees: [sole[0].filter(|_| number == 1), sole[number]],
                });
                (own[along][0], end) = (at, at);
            }
            parted.push((own, strip));
        }
        for (own, strip) in parted {
            self.part(own, strip);
        }
    }

    /// Pieces that no straight cut parts: those within others first, then the far ones, and at last the drops between them.
    /// A drop alone is free already.
    fn pieces(&mut self, boxes: Vec<Boxed>) {
        if sole_drop(&boxes).is_some() {
            return;
        }
        let holds = |outer: &Boxed, inner: &Boxed| {
            outer.what != inner.what
                && (0..2).all(|i| outer.low[i] <= inner.low[i] && inner.high[i] <= outer.high[i])
        };
        let depth = |boxed: &Boxed| boxes.iter().filter(|outer| holds(outer, boxed)).count();
        let mut sorted: Vec<(usize, Boxed)> = boxes.iter().map(|boxed| (depth(boxed), *boxed)).collect();
        sorted.sort_by_key(|&(depth, b)| (Reverse(depth), Reverse(b.high[0]), Reverse(b.high[1]), b.what));
        let mut drops = Vec::new();
        let mut in_cut_outs = Vec::new();
        for (_, boxed) in sorted {
            let piece = match boxed.what {
                What::Piece(piece) => piece,
                What::Drop(number) => {
                    drops.push(number);
                    continue;
                }
            };
            let part = self.sheet.placements[piece].part;
            if !self.problem.parts()[part].outline.holes().is_empty() {
                self.steps.push(Step::CutOuts(piece));
                let outline = self.sheet.placements[piece].outline(self.problem);
                for (drop, whole) in drops_in_cut_outs(&outline, &boxes, self.problem.kept_off_cut_outs()) {
                    self.steps.push(Step::FromCutOut { drop, piece, whole });
                    in_cut_outs.push(drop);
                }
            }
            let own = self.slanted.extract_if(.., |cut| cut.first == piece || cut.second == piece);
            self.steps.extend(own.map(Step::Shared));
            self.steps.push(Step::Outline(piece));
        }
        drops.retain(|drop| !in_cut_outs.contains(drop));
        self.steps.extend(drops.into_iter().map(Step::Drop));
    }
}

/// The drops that lie in a cut-out of a piece as it lies, and whether each is all that falls out of it.
fn drops_in_cut_outs(outline: &GridOutline, boxes: &[Boxed], kerf: i64) -> Vec<(usize, bool)> {
    let held = |boxed: &Boxed| {
        let drop = sole_drop(std::slice::from_ref(boxed))?;
        let corner = GridPoint::new(boxed.low[0], boxed.low[1]);
        let hole = outline.holes().iter().find(|hole| place_in_ring(hole, corner) != Place::Outside)?;
        Some((drop, is_all_that_falls(hole, boxed, kerf)))
    };
    boxes.iter().filter_map(held).collect()
}

/// Whether a drop is as large as an upright rectangular cut-out less the kerf all round.
fn is_all_that_falls(hole: &[GridPoint], drop: &Boxed, kerf: i64) -> bool {
    let (low, high) = bounds_of(hole);
    let upright = hole.len() == 4
        && hole.iter().all(|at| [low.x, high.x].contains(&at.x) && [low.y, high.y].contains(&at.y));
    let fallen = [[low.x + kerf, low.y + kerf], [high.x - kerf, high.y - kerf]];
    upright && [drop.low, drop.high] == fallen
}

impl Boxed {
    const fn area(&self) -> i128 {
        (self.high[0] - self.low[0]) as i128 * (self.high[1] - self.low[1]) as i128
    }
}

fn stretch(boxes: &[Boxed], along: usize) -> [i64; 2] {
    let low = boxes.iter().map(|boxed| boxed.low[along]).min().unwrap_or(0);
    let high = boxes.iter().map(|boxed| boxed.high[along]).max().unwrap_or(0);
    [low, high]
}

/// How near to a piece a straight cut may come: up to it where its edge is straight and level there, else no nearer than this,
/// so that the saw spares a corner that it only passes.
const fn off_corners(kerf: i64) -> i64 {
    kerf / OFF_CORNERS
}

/// The strip that a cut between two groups may run in.
fn clear_of_corners([near, far]: [&[Boxed]; 2], along: usize, kerf: i64) -> [i64; 2] {
    let low = near.iter().map(|boxed| clear_past(boxed, along, kerf)).max();
    let high = far.iter().map(|boxed| clear_before(boxed, along, kerf)).min();
    [low.unwrap_or(0), high.unwrap_or(0)]
}

/// Where a cut past a piece may begin.
const fn clear_past(boxed: &Boxed, along: usize, kerf: i64) -> i64 {
    boxed.high[along] + if boxed.flush[along][1] { 0 } else { off_corners(kerf) }
}

/// Where a cut before a piece must end.
const fn clear_before(boxed: &Boxed, along: usize, kerf: i64) -> i64 {
    boxed.low[along] - if boxed.flush[along][0] { 0 } else { off_corners(kerf) }
}

/// Groups that a cut of the kerf's width parts, clear of corners, in order along the axis.
fn groups(boxes: &[Boxed], along: usize, kerf: i64) -> Vec<Vec<Boxed>> {
    let mut sorted = boxes.to_vec();
    sorted.sort_by_key(|boxed| (boxed.low[along], boxed.what));
    // The far end of the room before each: what it and all after it leave.
    let mut fars: Vec<i64> = sorted.iter().map(|boxed| clear_before(boxed, along, kerf)).collect();
    for number in (1..fars.len()).rev() {
        fars[number - 1] = fars[number - 1].min(fars[number]);
    }
    let mut groups: Vec<Vec<Boxed>> = Vec::new();
    let mut near = i64::MIN;
    for (boxed, far) in sorted.into_iter().zip(fars) {
        match groups.last_mut() {
            Some(group) if far < near.saturating_add(kerf) => group.push(boxed),
            _ => groups.push(vec![boxed]),
        }
        near = near.max(clear_past(&boxed, along, kerf));
    }
    groups
}
