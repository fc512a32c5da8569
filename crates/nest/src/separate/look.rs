//! Looking for a better place for one piece.

use crate::random::Chance;
use crate::separate::Spot;
use crate::separate::settle::{Found, Settler};
use crate::separate::sight::Sight;
use crate::separate::state::{Loose, State};

/// How many places are looked at for one piece.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Looks {
    /// Anywhere on the sheets.
    pub(crate) anywhere: usize,
    /// Near the place it has.
    pub(crate) nearby: usize,
    /// How many of the best are settled.
    pub(crate) walked: usize,
}

/// Memory a search uses again and again.
#[derive(Debug, Default)]
pub(crate) struct Scratch<'a> {
    sights: Vec<Sight<'a>>,
    turns: Vec<usize>,
    others: Vec<usize>,
    weights: Vec<(f64, usize)>,
    best: Vec<Found>,
    settler: Settler,
}

/// How near is near: share of the sheets' shortest side.
const NEAR_SHARE: f64 = 0.1;

/// Moves a piece to the best place found, if that is better than its own; returns the number of places looked at.
pub(crate) fn relocate<'a>(
    state: &mut State<'a>,
    piece: usize,
    looks: Looks,
    chance: &mut Chance,
    scratch: &mut Scratch<'a>,
) -> u64 {
    let Loose { part, figure, at } = state.pieces[piece];
    scratch.see(state, piece, part, figure);
    let own = state.own_loss(piece);
    let stays = scratch.turns.iter().position(|&turn| turn == figure);
    let Scratch { sights, best, settler, turns, .. } = scratch;
    best.clear();
    best.extend(stays.map(|turn| Found { turn, at, loss: own }));
    let mut count = 0;
    for look in 0..looks.anywhere + looks.nearby {
        let turn = chance.below(turns.len());
        let near = (looks.anywhere <= look).then_some(at);
        let at = sampled(state, &sights[turn], near, chance);
        let worst = best.last().map_or(f64::INFINITY, |worst| worst.loss).max(own);
        let limit = if best.len() < looks.walked { f64::INFINITY } else { worst };
        let loss = sights[turn].loss(at, limit);
        count += 1;
        if loss < limit {
            keep(best, Found { turn, at, loss }, looks.walked);
        }
    }
    settler.begin();
    let mut winner: Option<Found> = None;
    for found in best {
        let settled = settler.settled(&sights[found.turn], *found, &mut count);
        if winner.is_none_or(|winner| settled.loss < winner.loss) {
            winner = Some(settled);
        }
        if settled.loss <= 0.0 {
            break;
        }
    }
    if let Some(winner) = winner.filter(|winner| winner.loss < own) {
        state.put(piece, turns[winner.turn], winner.at);
    }
    count
}

impl<'a> Scratch<'a> {
    /// Looks at the other pieces for every figure of the part that fits a sheet; only for the one it has when
    /// none does.
    fn see(&mut self, state: &State<'a>, piece: usize, part: usize, figure: usize) {
        let fits = |figure: &usize| state.ground.holds(state.table.size(*figure));
        self.turns.clear();
        self.turns.extend(state.table.of_part(part).iter().copied().filter(fits));
        if self.turns.is_empty() {
            self.turns.push(figure);
        }
        if self.sights.len() < self.turns.len() {
            self.sights.resize_with(self.turns.len(), Sight::default);
        }
        let others = (0..state.pieces.len()).filter(|&other| other != piece);
        self.weights.clear();
        self.weights.extend(others.map(|other| (state.weight(piece, other), other)));
        self.weights.sort_unstable_by(|(a, first), (b, second)| b.total_cmp(a).then(first.cmp(second)));
        self.others.clear();
        self.others.extend(self.weights.iter().map(|(_, other)| *other));
        for (sight, &turn) in self.sights.iter_mut().zip(&self.turns) {
            sight.look(state, piece, turn, &self.others);
        }
    }
}

fn keep(best: &mut Vec<Found>, found: Found, most: usize) {
    if most <= best.len() {
        best.pop();
    }
    let place = best.partition_point(|known| known.loss <= found.loss);
    best.insert(place, found);
}

fn sampled(state: &State<'_>, sight: &Sight<'_>, near: Option<Spot>, chance: &mut Chance) -> Spot {
    let (u, v) = (chance.share(), chance.share());
    match near {
        None => sight.anywhere(u, v),
        Some(at) => {
            let reach = NEAR_SHARE * state.ground.shortest();
            let shift = Spot::new((2.0 * u - 1.0) * reach, (2.0 * v - 1.0) * reach);
            sight.kept_in(at + shift)
        }
    }
}
