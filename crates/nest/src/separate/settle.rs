//! Settling: from a place down to a corner of less weighted depth.
//!
//! Within the overlap of two pieces the depth is a concave function of the place, or nearly. So the least weighted
//! depths lie where the piece just touches another, and mostly where it touches two: at corners between the borders
//! of no-fit polygons, and of the rectangle. Those corners are worked out and tried.

use crate::separate::sight::{Sight, WayOut};
use crate::separate::{Spot, TOUCHING_STEPS};

/// A place with its weighted depth; `turn` counts the part's figures that fit.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Found {
    pub(crate) turn: usize,
    pub(crate) at: Spot,
    pub(crate) loss: f64,
}

impl Found {
    /// True for the same place, but for rounding.
    fn is_beside(self, other: Self) -> bool {
        let way = other.at - self.at;
        self.turn == other.turn && way.x.abs().max(way.y.abs()) < TOUCHING_STEPS
    }
}

/// Memory for settling.
#[derive(Debug, Default)]
pub(crate) struct Settler {
    ways: Vec<WayOut>,
    next: Vec<WayOut>,
    /// Where earlier places of the same piece settled.
    settled: Vec<Found>,
}

/// The most moves of one settling.
const MOST_MOVES: usize = 8;

/// The most overlaps whose ways out are tried together.
const MOST_WAYS: usize = 6;

impl Settler {
    /// Begins with another piece.
    pub(crate) fn begin(&mut self) {
        self.settled.clear();
    }

    /// The place settled to, never worse; where an earlier place of the piece settled, it goes no further; places looked at are added to `count`.
    pub(crate) fn settled(&mut self, sight: &Sight<'_>, from: Found, count: &mut u64) -> Found {
        let mut best = from;
        for _ in 0..MOST_MOVES {
            if best.loss <= 0.0 || self.settled.iter().any(|known| known.is_beside(best)) {
                break;
            }
            let before = best;
            sight.ways_out(before.at, &mut self.ways);
            *count += 1;
            self.ways.truncate(MOST_WAYS);
            self.step_out(sight, before.at, &mut best, count);
            if before.loss <= best.loss {
                self.step_along(sight, before.at, &mut best, count);
            }
            if before.loss <= best.loss {
                break;
            }
        }
        self.settled.push(best);
        best
    }

    /// Tries the ways out of single overlaps and out of two at once.
    fn step_out(&self, sight: &Sight<'_>, from: Spot, best: &mut Found, count: &mut u64) {
        for (index, first) in self.ways.iter().enumerate() {
            improve(sight, from + first.shift, best, count);
            for second in &self.ways[index + 1..] {
                if let Some(corner) = corner(first.shift, second.shift) {
                    improve(sight, from + corner, best, count);
                }
            }
        }
    }

    /// Goes out of one overlap, and from there along its border out of the next.
    fn step_along(&mut self, sight: &Sight<'_>, from: Spot, best: &mut Found, count: &mut u64) {
        for first in &self.ways {
            let there = sight.kept_in(from + first.shift);
            sight.ways_out(there, &mut self.next);
            *count += 1;
            for second in self.next.iter().take(MOST_WAYS).filter(|second| second.other != first.other) {
                if let Some(along) = along(first.shift, second.shift) {
                    improve(sight, there + along, best, count);
                }
            }
        }
    }
}

fn improve(sight: &Sight<'_>, at: Spot, best: &mut Found, count: &mut u64) {
    let at = sight.kept_in(at);
    *count += 1;
    let loss = sight.loss(at, best.loss);
    if loss < best.loss {
        *best = Found { at, loss, ..*best };
    }
}

/// The shift that goes as far as each of two along that one's own direction; `None` when they are nearly parallel.
fn corner(a: Spot, b: Spot) -> Option<Spot> {
    let cross = a.x * b.y - a.y * b.x;
    let (p, q) = (a.x * a.x + a.y * a.y, b.x * b.x + b.y * b.y);
    if cross * cross <= SLIM * p * q {
        return None;
    }
    Some(Spot::new((p * b.y - q * a.y) / cross, (q * a.x - p * b.x) / cross))
}

/// The shift square to `across` that goes as far as `way` along `way`.
fn along(across: Spot, way: Spot) -> Option<Spot> {
    let side = Spot::new(-across.y, across.x);
    let share = side.x * way.x + side.y * way.y;
    let (p, q) = (side.x * side.x + side.y * side.y, way.x * way.x + way.y * way.y);
    if share * share <= SLIM * p * q {
        return None;
    }
    Some(Spot::new(side.x * q / share, side.y * q / share))
}

/// Squared sine below which two borders make no corner worth going to.
const SLIM: f64 = 0.01;
