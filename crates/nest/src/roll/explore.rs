//! Exploring: shortening the roll and disturbing layouts that lead nowhere.

use crate::random::Chance;
use crate::roll::{Job, RollNest, Searcher, inner_watch, slice, snap};
use crate::search::Meter;
use crate::separate::ground::Ground;
use crate::separate::look::Looks;
use crate::separate::rounds::{Patience, separate};
use crate::separate::state::{Loose, State};

/// How hard a layout is pulled at before it is set aside.
const PATIENCE: Patience =
    Patience { rounds: 50, tries: 2, looks: Looks { anywhere: 16, nearby: 8, walked: 3 } };

/// Share of the length taken off at once: at first, and at least.
const SHRINK: (f64, f64) = (0.02, 0.001);

/// The share grows again by this factor at every success.
const REGROWTH: f64 = 1.5;

/// Most layouts set aside for another try at the same length.
const SHELVED: usize = 16;

/// One start's exploring, which can be left off and taken up again.
pub(crate) struct Explorer<'a> {
    job: Job<'a>,
    state: State<'a>,
    chance: Chance,
    shrink: f64,
    shelf: Vec<(f64, Vec<Loose>)>,
    best: RollNest,
}

impl<'a> Explorer<'a> {
    pub(crate) fn new(job: Job<'a>, first: &RollNest, seed: u64, start: u32) -> Self {
        let (length, width) = job.room(first);
        let state =
            State::new(job.table, Ground::one(length * (1.0 - SHRINK.0), width), snap::loose(&job, first));
        let chance = Chance::new(seed, u64::from(start));
        Self { job, state, chance, shrink: SHRINK.0, shelf: Vec::new(), best: first.clone() }
    }

    /// Goes on from another start's nest if that is shorter.
    pub(crate) fn adopt(&mut self, other: &RollNest) {
        if other.used_length < self.best.used_length {
            self.best = RollNest { evaluations: self.best.evaluations, ..other.clone() };
            let pieces = snap::loose(&self.job, &self.best);
            self.shorten(&pieces);
        }
    }

    fn accept(&mut self, nest: RollNest) {
        (self.job.watch.progress)(nest.used_length);
        self.best = nest;
        self.shrink = (self.shrink * REGROWTH).min(SHRINK.0);
        let pieces = self.state.pieces.clone();
        self.shorten(&pieces);
    }

    /// Takes the next bit off the length, starting from `pieces`.
    fn shorten(&mut self, pieces: &[Loose]) {
        self.shelf.clear();
        let (length, width) = self.job.room(&self.best);
        let sliced = slice::taken_out(pieces, length, length * self.shrink, &mut self.chance);
        self.state.restart(Ground::one(length * (1.0 - self.shrink), width), &sliced);
    }

    /// After a failure: a smaller bite as long as that is possible, then a disturbed layout at the same length.
    fn try_otherwise(&mut self) {
        if SHRINK.1 < self.shrink {
            self.shrink = (0.5 * self.shrink).max(SHRINK.1);
            let pieces = snap::loose(&self.job, &self.best);
            self.shorten(&pieces);
            return;
        }
        set_aside(&mut self.shelf, self.state.total(), self.state.pieces.clone());
        let ground = self.state.ground.clone();
        self.state.restart(ground, &taken(&self.shelf, &mut self.chance));
        disturb(&mut self.state, &mut self.chance);
    }
}

impl Searcher for Explorer<'_> {
    fn best(&self) -> &RollNest {
        &self.best
    }

    fn run(&mut self, evaluations: u64) {
        let watch = inner_watch(self.job.watch.compact_now);
        let used = self.best.evaluations;
        let mut meter = Meter { used, limit: used.saturating_add(evaluations) };
        while meter.used < meter.limit && !watch.is_stopped() && !self.job.is_stopped() {
            let free = separate(&mut self.state, PATIENCE, &mut self.chance, &mut meter, &watch);
            let snapped = free.then(|| snap::snapped(&self.job, &self.state.pieces, meter.used)).flatten();
            match snapped.filter(|nest| nest.used_length < self.best.used_length) {
                Some(nest) => self.accept(nest),
                // Cut short by the leg's end, the separation goes on in the next.
                None if !free && meter.limit <= meter.used => {}
                None => self.try_otherwise(),
            }
            // A separation that looks at nothing still counts, or the loop might never end.
            meter.used += 1;
        }
        self.best.evaluations = meter.used;
    }
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
