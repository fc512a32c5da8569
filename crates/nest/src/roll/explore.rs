//! Exploring: shortening the roll and disturbing layouts that lead nowhere.

use crate::random::Chance;
use crate::roll::{Job, RollNest, inner_watch, snap};
use crate::search::{Meter, Watch};
use crate::separate::float;
use crate::separate::look::Looks;
use crate::separate::rounds::{Patience, separate};
use crate::separate::state::{Loose, State};

/// How hard a layout is pulled at before it is set aside.
const PATIENCE: Patience =
    Patience { rounds: 100, tries: 2, looks: Looks { anywhere: 24, nearby: 12, walked: 3 } };

/// Share of the length taken off at once: at first, and at least.
const SHRINK: (f64, f64) = (0.02, 0.001);

/// Most layouts set aside for another try at the same length.
const SHELVED: usize = 16;

/// Explores from `first` until the meter or the watch ends it.
pub(crate) fn run(job: &Job<'_>, first: &RollNest, seed: u64, start: u32, mut meter: Meter) -> RollNest {
    let watch = inner_watch(job.watch.compact_now);
    let mut chance = Chance::new(seed, u64::from(start));
    let rules = job.problem.rules();
    let (_, width) = job.problem.stock()[0].trimmed(rules);
    let mut best = first.clone();
    let mut shelf: Vec<(f64, Vec<Loose>)> = Vec::new();
    let mut shrink = SHRINK.0;
    let room = |nest: &RollNest| float(nest.used_length - 2 * rules.edge_trim);
    let mut state =
        State::new(job.table, room(&best) * (1.0 - shrink), float(width), snap::loose(job, &best));
    while !ends(job, &meter, &watch) {
        let free = separate(&mut state, PATIENCE, &mut chance, &mut meter, &watch);
        let snapped = free.then(|| snap::snapped(job, &state.pieces, meter.used)).flatten();
        if let Some(nest) = snapped.filter(|nest| nest.used_length < best.used_length) {
            best = nest;
            (job.watch.progress)(best.used_length);
            shelf.clear();
            let pieces = state.pieces.clone();
            state.restart(room(&best) * (1.0 - shrink), &pieces);
        } else if SHRINK.1 < shrink {
            shrink = (0.5 * shrink).max(SHRINK.1);
            state.restart(room(&best) * (1.0 - shrink), &snap::loose(job, &best));
        } else {
            set_aside(&mut shelf, state.total(), state.pieces.clone());
            let length = state.length;
            state.restart(length, &taken(&shelf, &mut chance));
            disturb(&mut state, &mut chance);
        }
    }
    RollNest { evaluations: meter.used, ..best }
}

fn ends(job: &Job<'_>, meter: &Meter, watch: &Watch<'_>) -> bool {
    meter.limit <= meter.used || watch.is_stopped() || job.is_stopped()
}

fn set_aside(shelf: &mut Vec<(f64, Vec<Loose>)>, total: f64, pieces: Vec<Loose>) {
    let place = shelf.partition_point(|(known, _)| *known <= total);
    shelf.insert(place, (total, pieces));
    shelf.truncate(SHELVED);
}

/// One of the layouts set aside, the better ones more often.
fn taken(shelf: &[(f64, Vec<Loose>)], chance: &mut Chance) -> Vec<Loose> {
    let first = chance.below(shelf.len());
    let index = first.min(chance.below(shelf.len())).min(chance.below(shelf.len()));
    shelf[index].1.clone()
}

/// Exchanges two large pieces of different outline.
fn disturb(state: &mut State<'_>, chance: &mut Chance) {
    let bulk = |piece: &Loose| state.table.size(piece.figure).bulk;
    let mut largest: Vec<usize> = (0..state.pieces.len()).collect();
    largest.sort_by(|&a, &b| bulk(&state.pieces[b]).total_cmp(&bulk(&state.pieces[a])));
    largest.truncate((largest.len() / 2).max(2));
    if largest.len() < 2 {
        return;
    }
    let first = largest[chance.below(largest.len())];
    let others: Vec<usize> =
        largest.into_iter().filter(|&piece| state.pieces[piece].part != state.pieces[first].part).collect();
    if others.is_empty() {
        return;
    }
    let second = others[chance.below(others.len())];
    let (a, b) = (state.pieces[first], state.pieces[second]);
    let (at_a, at_b) = (state.kept_in(a.figure, b.at), state.kept_in(b.figure, a.at));
    state.put(first, a.figure, at_a);
    state.put(second, b.figure, at_b);
}
