//! The separation itself: rounds of moving every piece that overlaps.

use crate::random::Chance;
use crate::search::{Meter, Watch};
use crate::separate::look::{Looks, Scratch, relocate};
use crate::separate::state::{Loose, State};

/// When a separation is given up.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Patience {
    /// Rounds without a better total before a fresh try.
    pub(crate) rounds: usize,
    /// Fresh tries without a clearly better total.
    pub(crate) tries: usize,
    /// Places looked at for each piece.
    pub(crate) looks: Looks,
}

/// A total this much lower counts as clearly better.
const CLEARLY: f64 = 0.98;

/// Pulls the pieces apart. True when nothing overlaps any more; else the pieces are left at the best places found,
/// whose total depth is `state.total()`.
pub(crate) fn separate(
    state: &mut State<'_>,
    patience: Patience,
    chance: &mut Chance,
    meter: &mut Meter,
    watch: &Watch<'_>,
) -> bool {
    let mut least = state.total();
    let mut best: Vec<Loose> = state.pieces.clone();
    let mut failures = 0;
    let mut scratch = Scratch::default();
    while failures < patience.tries && 0.0 < least {
        let before = least;
        let mut idle = 0;
        while idle < patience.rounds {
            round(state, patience.looks, chance, meter, &mut scratch);
            let total = state.total();
            if total <= 0.0 {
                return true;
            }
            if meter.limit <= meter.used || watch.is_stopped() {
                return false;
            }
            idle = if total < CLEARLY * least { 0 } else { idle + 1 };
            if total < least {
                least = total;
                best.clone_from(&state.pieces);
            }
            state.reweigh();
        }
        failures = if least < CLEARLY * before { 0 } else { failures + 1 };
        state.take(&best);
    }
    least <= 0.0
}

/// Moves every piece that overlaps, once, in random order.
fn round<'a>(
    state: &mut State<'a>,
    looks: Looks,
    chance: &mut Chance,
    meter: &mut Meter,
    scratch: &mut Scratch<'a>,
) {
    let mut turn: Vec<usize> = (0..state.movable).filter(|&piece| state.overlaps(piece)).collect();
    chance.shuffle(&mut turn);
    for piece in turn {
        if state.overlaps(piece) {
            meter.used += relocate(state, piece, looks, chance, scratch);
        }
    }
}
