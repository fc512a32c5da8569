//! Looking for a better place for one piece.

use crate::random::Chance;
use crate::separate::Spot;
use crate::separate::state::{Loose, State};

/// How many places are looked at for one piece.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Looks {
    /// Anywhere in the rectangle.
    pub(crate) anywhere: usize,
    /// Near the place it has.
    pub(crate) nearby: usize,
    /// How many of the best are walked down.
    pub(crate) walked: usize,
}

/// A place with its weighted depth.
#[derive(Debug, Clone, Copy)]
struct Found {
    figure: usize,
    at: Spot,
    loss: f64,
}

/// How near is near: share of the rectangle's sides.
const NEAR_SHARE: f64 = 0.1;

/// Moves a piece to the best place found, if that is better than its own; returns the number of places looked at.
pub(crate) fn relocate(state: &mut State<'_>, piece: usize, looks: Looks, chance: &mut Chance) -> u64 {
    let Loose { part, figure, at } = state.pieces[piece];
    let own = state.own_loss(piece);
    let mut count = 0;
    let mut best: Vec<Found> = vec![Found { figure, at, loss: own }];
    let turns = fitting(state, part, figure);
    for look in 0..looks.anywhere + looks.nearby {
        let figure = turns[chance.below(turns.len())];
        let near = (looks.anywhere <= look).then_some(at);
        let at = sampled(state, figure, near, chance);
        let limit = best.last().map_or(f64::INFINITY, |worst| worst.loss).max(own);
        let limit = if best.len() < looks.walked { f64::INFINITY } else { limit };
        let loss = state.loss(piece, figure, at, limit);
        count += 1;
        if loss < limit {
            keep(&mut best, Found { figure, at, loss }, looks.walked);
        }
    }
    let mut winner = Found { figure, at, loss: own };
    for found in best {
        let mut walked = found;
        walk_down(state, piece, &mut walked, COARSE, &mut count);
        if walked.loss < winner.loss {
            winner = walked;
        }
    }
    if 0.0 < winner.loss {
        part_from_others(state, piece, &mut winner, &mut count);
        walk_down(state, piece, &mut winner, FINE, &mut count);
        part_from_others(state, piece, &mut winner, &mut count);
    }
    if winner.loss < own {
        state.put(piece, winner.figure, winner.at);
    }
    count
}

/// The part's figures that fit the rectangle; the one it has when none does.
fn fitting(state: &State<'_>, part: usize, figure: usize) -> Vec<usize> {
    let fits = |figure: &usize| {
        let size = state.table.size(*figure);
        size.length <= state.length && size.width <= state.width
    };
    let turns: Vec<usize> = state.table.of_part(part).iter().copied().filter(fits).collect();
    if turns.is_empty() { vec![figure] } else { turns }
}

fn keep(best: &mut Vec<Found>, found: Found, most: usize) {
    let place = best.partition_point(|known| known.loss <= found.loss);
    best.insert(place, found);
    best.truncate(most);
}

fn sampled(state: &State<'_>, figure: usize, near: Option<Spot>, chance: &mut Chance) -> Spot {
    let size = state.table.size(figure);
    let (x, y) = ((state.length - size.length).max(0.0), (state.width - size.width).max(0.0));
    let (u, v) = (chance.share(), chance.share());
    match near {
        None => Spot::new(u * x, v * y),
        Some(at) => {
            let reach = NEAR_SHARE * state.length.min(state.width);
            let shift = Spot::new((2.0 * u - 1.0) * reach, (2.0 * v - 1.0) * reach);
            state.kept_in(figure, at + shift)
        }
    }
}

/// First and last step of a walk, as shares of the figure's shorter side.
const COARSE: (f64, f64) = (0.15, 0.03);
const FINE: (f64, f64) = (0.03, 0.001);

/// Directions a walk tries.
const WAYS: [(f64, f64); 8] =
    [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0), (0.7, 0.7), (-0.7, 0.7), (0.7, -0.7), (-0.7, -0.7)];

/// Walks to a place of less weighted depth by ever smaller steps.
fn walk_down(state: &State<'_>, piece: usize, best: &mut Found, steps: (f64, f64), count: &mut u64) {
    let size = state.table.size(best.figure);
    let side = size.length.min(size.width);
    let (mut step, least) = (steps.0 * side, steps.1 * side);
    while least < step && 0.0 < best.loss {
        let mut moved = false;
        for (x, y) in WAYS {
            moved |= improves(state, piece, best, best.at + Spot::new(x * step, y * step), count);
        }
        if !moved {
            step *= 0.4;
        }
    }
}

fn improves(state: &State<'_>, piece: usize, best: &mut Found, at: Spot, count: &mut u64) -> bool {
    let at = state.kept_in(best.figure, at);
    *count += 1;
    let loss = state.loss(piece, best.figure, at, best.loss);
    let better = loss < best.loss;
    if better {
        *best = Found { at, loss, ..*best };
    }
    better
}

/// Moves out of overlaps exactly: by the shift that parts the piece from one other, or to the corner between the
/// borders of two, as long as that helps.
fn part_from_others(state: &State<'_>, piece: usize, best: &mut Found, count: &mut u64) {
    const MOST_SHIFTS: usize = 6;
    for _ in 0..MOST_SHIFTS {
        let from = *best;
        let mut shifts: Vec<(usize, Spot)> = Vec::new();
        state.ways_out(piece, from.figure, from.at, |other, shift| shifts.push((other, shift)));
        for &(other, shift) in &shifts {
            let at = state.kept_in(from.figure, from.at + shift);
            improves(state, piece, best, at, count);
            let mut corners: Vec<Spot> = Vec::new();
            state.ways_out(piece, from.figure, at, |second, next| {
                if second != other {
                    corners.extend(corner(at, shift, at + next, next));
                }
            });
            for corner in corners {
                improves(state, piece, best, corner, count);
            }
        }
        if from.loss <= best.loss || best.loss <= 0.0 {
            return;
        }
    }
}

/// Where the line through `a` square to `across_a` meets the line through `b` square to `across_b`.
fn corner(a: Spot, across_a: Spot, b: Spot, across_b: Spot) -> Option<Spot> {
    let cross = across_a.x * across_b.y - across_a.y * across_b.x;
    let lengths = (across_a.x * across_a.x + across_a.y * across_a.y)
        * (across_b.x * across_b.x + across_b.y * across_b.y);
    if cross * cross <= SLIM * lengths {
        return None;
    }
    let (p, q) = (a.x * across_a.x + a.y * across_a.y, b.x * across_b.x + b.y * across_b.y);
    Some(Spot::new((p * across_b.y - q * across_a.y) / cross, (q * across_a.x - p * across_b.x) / cross))
}

/// Squared sine below which two borders make no corner worth going to.
const SLIM: f64 = 0.01;
