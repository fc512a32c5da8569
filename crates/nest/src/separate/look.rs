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
    let turns = state.table.of_part(part).to_vec();
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
        let walked = walk_down(state, piece, found, &mut count);
        if walked.loss < winner.loss {
            winner = walked;
        }
    }
    if winner.loss < own {
        state.put(piece, winner.figure, winner.at);
    }
    count
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

/// Walks from a place to one of less weighted depth: first by the shifts that part it from the pieces it overlaps,
/// then by ever smaller steps along the axes and the slants.
fn walk_down(state: &State<'_>, piece: usize, from: Found, count: &mut u64) -> Found {
    let mut best = from;
    part_from_others(state, piece, &mut best, count);
    let size = state.table.size(best.figure);
    let mut step = 0.1 * size.length.min(size.width);
    let least = (0.0005 * size.length.min(size.width)).max(4.0);
    while least < step && 0.0 < best.loss {
        let mut moved = false;
        for (x, y) in [
            (1.0, 0.0),
            (-1.0, 0.0),
            (0.0, 1.0),
            (0.0, -1.0),
            (0.7, 0.7),
            (-0.7, 0.7),
            (0.7, -0.7),
            (-0.7, -0.7),
        ] {
            let at = state.kept_in(best.figure, best.at + Spot::new(x * step, y * step));
            *count += 1;
            let loss = state.loss(piece, best.figure, at, best.loss);
            if loss < best.loss {
                best = Found { at, loss, ..best };
                moved = true;
            }
        }
        if !moved {
            step *= 0.4;
        }
    }
    part_from_others(state, piece, &mut best, count);
    best
}

/// Takes the best of the single shifts that part the piece from one of those it overlaps, as long as that helps.
fn part_from_others(state: &State<'_>, piece: usize, best: &mut Found, count: &mut u64) {
    const MOST_SHIFTS: usize = 6;
    for _ in 0..MOST_SHIFTS {
        let mut better = *best;
        for (other, fixed) in state.pieces.iter().enumerate() {
            if other == piece {
                continue;
            }
            let Some(shift) = state.table.way_out(fixed.figure, fixed.at, best.figure, best.at) else {
                continue;
            };
            let at = state.kept_in(best.figure, best.at + shift);
            *count += 1;
            let loss = state.loss(piece, best.figure, at, better.loss);
            if loss < better.loss {
                better = Found { at, loss, ..*best };
            }
        }
        if best.loss <= better.loss {
            return;
        }
        *best = better;
    }
}
