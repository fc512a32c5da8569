//! Compacting: taking ever thinner slices out of the best nest.

use crate::random::Chance;
use crate::roll::{Job, RollNest, Searcher, inner_watch, slice, snap};
use crate::search::Meter;
use crate::separate::ground::Ground;
use crate::separate::look::Looks;
use crate::separate::rounds::{Patience, separate};
use crate::separate::state::State;

const PATIENCE: Patience =
    Patience { rounds: 60, tries: 1, looks: Looks { anywhere: 12, nearby: 12, walked: 3 } };

/// Share of the length taken out at once: at first, and at least; then it begins again.
const SLICE: (f64, f64) = (0.001, 0.000_01);

/// The slice thins by this factor at every failure.
const THINNING: f64 = 0.93;

/// One start's compacting, which can be left off and taken up again.
pub(crate) struct Compactor<'a> {
    job: Job<'a>,
    state: State<'a>,
    chance: Chance,
    share: f64,
    best: RollNest,
}

impl<'a> Compactor<'a> {
    pub(crate) fn new(job: Job<'a>, first: &RollNest, seed: u64, start: u32) -> Self {
        let (length, width) = job.room(first);
        let state = State::new(job.table, Ground::one(length, width), snap::loose(&job, first));
        let chance = Chance::new(seed ^ 0x636f_6d70, u64::from(start));
        Self { job, state, chance, share: SLICE.0, best: RollNest { evaluations: 0, ..first.clone() } }
    }

    /// Goes on from another start's nest if that is shorter.
    pub(crate) fn adopt(&mut self, other: &RollNest) {
        if other.used_length < self.best.used_length {
            self.best = RollNest { evaluations: self.best.evaluations, ..other.clone() };
        }
    }
}

impl Searcher for Compactor<'_> {
    fn best(&self) -> &RollNest {
        &self.best
    }

    fn run(&mut self, evaluations: u64) {
        let watch = inner_watch(self.job.watch.stop);
        let used = self.best.evaluations;
        let mut meter = Meter { used, limit: used.saturating_add(evaluations) };
        while meter.used < meter.limit && !self.job.is_stopped() {
            let (room, width) = self.job.room(&self.best);
            let pieces = snap::loose(&self.job, &self.best);
            let sliced = slice::taken_out(&pieces, room, self.share * room, &mut self.chance);
            self.state.restart(Ground::one(room * (1.0 - self.share), width), &sliced);
            let free = separate(&mut self.state, PATIENCE, &mut self.chance, &mut meter, &watch);
            let snapped = free.then(|| snap::snapped(&self.job, &self.state.pieces, meter.used)).flatten();
            match snapped.filter(|nest| nest.used_length < self.best.used_length) {
                Some(nest) => {
                    self.best = nest;
                    (self.job.watch.progress)(self.best.used_length);
                }
                None if self.share < SLICE.1 => self.share = SLICE.0,
                None => self.share *= THINNING,
            }
            // A separation that looks at nothing still counts, or the loop might never end.
            meter.used += 1;
        }
        self.best.evaluations = meter.used;
    }
}
