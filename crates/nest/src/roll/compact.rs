//! Compacting: taking ever thinner slices out of the best nest.

use crate::random::Chance;
use crate::roll::{Job, RollNest, inner_watch, snap};
use crate::search::Meter;
use crate::separate::Spot;
use crate::separate::look::Looks;
use crate::separate::rounds::{Patience, separate};
use crate::separate::state::{Loose, State};

const PATIENCE: Patience =
    Patience { rounds: 60, tries: 1, looks: Looks { anywhere: 12, nearby: 12, walked: 3 } };

/// Share of the length taken out at once: at first, and at least.
const SLICE: (f64, f64) = (0.001, 0.000_01);

/// The slice thins by this factor at every failure.
const THINNING: f64 = 0.93;

/// Compacts a nest until `limit` evaluations are used in all or the slices have grown too thin.
pub(crate) fn run(job: &Job<'_>, explored: RollNest, seed: u64, start: u32, limit: u64) -> RollNest {
    let watch = inner_watch(job.watch.stop);
    let mut chance = Chance::new(seed ^ 0x636f_6d70, u64::from(start));
    let mut meter = Meter { used: explored.evaluations, limit };
    let (length, width) = job.room(&explored);
    let mut best = explored;
    let mut slice = SLICE.0;
    let mut state = State::new(job.table, length, width, snap::loose(job, &best));
    while SLICE.1 < slice && meter.used < limit && !job.is_stopped() {
        let (room, _) = job.room(&best);
        let sliced = sliced(&snap::loose(job, &best), room, slice * room, &mut chance);
        state.restart(room * (1.0 - slice), &sliced);
        let free = separate(&mut state, PATIENCE, &mut chance, &mut meter, &watch);
        let snapped = free.then(|| snap::snapped(job, &state.pieces, meter.used)).flatten();
        match snapped.filter(|nest| nest.used_length < best.used_length) {
            Some(nest) => {
                best = nest;
                (job.watch.progress)(best.used_length);
            }
            None => slice *= THINNING,
        }
    }
    RollNest { evaluations: meter.used, ..best }
}

/// The pieces with everything right of a cut, chosen by chance, moved left by the slice.
fn sliced(pieces: &[Loose], room: f64, slice: f64, chance: &mut Chance) -> Vec<Loose> {
    let cut = chance.share() * room;
    let moved = |piece: &Loose| {
        let shift = if cut < piece.at.x { slice } else { 0.0 };
        Loose { at: Spot::new(piece.at.x - shift, piece.at.y), ..*piece }
    };
    pieces.iter().map(moved).collect()
}
