//! Nesting on a roll: a strip of given width, the used length to be least.
//!
//! A first nest is laid bottom-left; then the strip is shortened a little at a time and the pieces pulled apart
//! again (`separate`): *exploring* with many places looked at and layouts disturbed when one leads nowhere, then
//! *compacting* the best in ever smaller steps. Several starts run side by side.

mod compact;
mod explore;
mod slice;
mod snap;
mod start;

use std::sync::atomic::{AtomicBool, Ordering};

use rayon::prelude::*;
use thiserror::Error;

use crate::bound::{RollReason, least_length};
use crate::figure::Figures;
use crate::fits::{Misfit, misfits};
use crate::problem::{Part, Problem, ProblemFault, Rules, Stock, StockShape};
use crate::roll::compact::Compactor;
use crate::roll::explore::Explorer;
use crate::search::{Effort, Watch};
use crate::separate::float;
use crate::separate::table::Table;
use crate::sheet::{Nest, Placement};
use crate::verify::{Fault, verify};

/// Pieces on a roll.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RollNest {
    /// Length used, edge trim at both ends included, in steps.
    pub used_length: i64,
    /// The pieces.
    pub placements: Vec<Placement>,
    /// Evaluations used: places looked at for one piece.
    pub evaluations: u64,
}

/// How the caller follows a roll search.
#[derive(Clone, Copy)]
pub struct RollWatch<'a> {
    /// Called from any thread with the used length of every better nest of a start.
    pub progress: &'a (dyn Fn(i64) + Sync),
    /// Set to true to leave exploring and compact what there is.
    pub compact_now: &'a AtomicBool,
    /// Set to true to stop soon with the best nest so far.
    pub stop: &'a AtomicBool,
}

/// Why a roll cannot be nested.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum RollError {
    /// Faults of the parts, the width or the rules.
    #[error("the roll or its parts have {} fault(s)", .0.len())]
    Faults(Vec<ProblemFault>),
    /// Parts wider than the roll.
    #[error("{} part(s) are wider than the roll", .0.len())]
    TooWide(Vec<Misfit>),
    /// The pieces laid end to end would be longer than the grid holds.
    #[error("the roll would be longer than the grid holds")]
    TooLong,
    /// A nest found is wrong: a fault of this program. Nothing may be written.
    #[error("a nest failed its own check ({} fault(s)); please report this", .0.len())]
    Unsound(Vec<Fault>),
}

/// Evaluations of each start at a stretch while exploring.
const EXPLORE_LEG: u64 = 5_000_000;

/// The same while compacting, where gains are small and add up: then those that are behind go on from the shortest.
const COMPACT_LEG: u64 = 1_000_000;

/// From so many pieces on, starts that are behind go on from the shortest nest after every stretch: there are many small
/// gains, and they add up. With fewer pieces starts share nothing while they explore: one that goes on from another's nest
/// loses the layouts it has set aside, and with two that find the same there is one chance instead of two.
///
/// The number is **set by the open sets that the goals are measured on**, not by an argument: sets of 20 to 30 pieces did better
/// alone, one of 48 better by sharing, and nothing between was measured (`BENCHMARKS.md`). What it gives elsewhere is shown only by
/// the four sets of 50 to 112 pieces that were run after it was set.
const SHARING_PIECES: u64 = 40;

/// Share of the evaluations spent exploring, in tenths; the rest compacts.
const EXPLORE_TENTHS: u64 = 9;

/// The least length, in steps, that these parts can use of a roll `width` steps wide, edge trim at both ends included, and the
/// argument that proves it.
///
/// # Errors
/// [`RollError::Faults`] and [`RollError::TooLong`] as for [`nest_on_roll`].
pub fn least_roll_length(parts: &[Part], width: i64, rules: Rules) -> Result<(i64, RollReason), RollError> {
    Ok(least_length(&on_length(parts, longest(parts, rules)?, width, rules)?))
}

/// Nests on a roll `width` steps wide. The same parts, effort and seed give the same answer on any number of
/// threads, unless `watch` cuts a phase short.
///
/// # Errors
/// [`RollError`] when a part is faulty or too wide, or the nest fails [`verify`].
pub fn nest_on_roll(
    parts: &[Part],
    width: i64,
    rules: Rules,
    effort: &Effort,
    watch: &RollWatch<'_>,
) -> Result<RollNest, RollError> {
    let problem = on_length(parts, longest(parts, rules)?, width, rules)?;
    let figures = Figures::new(&problem);
    let too_wide = misfits(&problem, &figures, &[0]);
    if !too_wide.is_empty() {
        return Err(RollError::TooWide(too_wide));
    }
    let table = Table::new(&figures);
    let job = Job { problem: &problem, figures: &figures, table: &table, watch };
    let first = start::laid(&job).ok_or(RollError::TooLong)?;
    (watch.progress)(first.used_length);
    let starts = effort.starts.max(1);
    let limit = effort.evaluations / u64::from(starts);
    let exploring = limit / 10 * EXPLORE_TENTHS;
    let mut explorers: Vec<Explorer<'_>> =
        (0..starts).map(|start| Explorer::new(job, &first, effort.seed, start)).collect();
    let ends_early = || job.is_stopped() || watch.compact_now.load(Ordering::Relaxed);
    let shares = SHARING_PIECES <= problem.piece_count();
    let explored = by_legs(&mut explorers, EXPLORE_LEG, exploring, &first, ends_early, |start, best| {
        if shares {
            start.adopt(best);
        }
    });
    let mut compactors: Vec<Compactor<'_>> =
        (0..starts).map(|start| Compactor::new(job, &explored, effort.seed, start)).collect();
    let best = by_legs(
        &mut compactors,
        COMPACT_LEG,
        limit - exploring,
        &explored,
        || job.is_stopped(),
        Compactor::adopt,
    );
    let used = explorers.iter().map(Searcher::best).chain(compactors.iter().map(Searcher::best));
    let evaluations = used.map(|nest| nest.evaluations).sum();
    let best = RollNest { evaluations, ..best };
    judged(parts, width, rules, best)
}

/// One start's search, which can be left off and taken up again.
trait Searcher: Send {
    /// The shortest nest so far, with the evaluations used so far.
    fn best(&self) -> &RollNest;
    /// Searches until so many more evaluations are used or the watch ends it.
    fn run(&mut self, evaluations: u64);
}

/// Runs all starts side by side, leg by leg, and returns the shortest nest, the earliest of equals, so the number of
/// threads cannot matter. After each leg every start is compared with it.
fn by_legs<S: Searcher>(
    starts: &mut [S],
    leg: u64,
    limit: u64,
    first: &RollNest,
    ends_early: impl Fn() -> bool,
    compare: impl Fn(&mut S, &RollNest),
) -> RollNest {
    let mut best = first.clone();
    let mut used = 0;
    while used < limit && !ends_early() {
        let next = leg.min(limit - used);
        starts.par_iter_mut().for_each(|start| start.run(next));
        used += next;
        if let Some(shortest) = starts.iter().map(Searcher::best).min_by_key(|nest| nest.used_length)
            && shortest.used_length < best.used_length
        {
            best = shortest.clone();
        }
        starts.iter_mut().for_each(|start| compare(start, &best));
    }
    best
}

/// What every start shares.
#[derive(Clone, Copy)]
pub(crate) struct Job<'a> {
    pub(crate) problem: &'a Problem,
    pub(crate) figures: &'a Figures,
    pub(crate) table: &'a Table<'a>,
    pub(crate) watch: &'a RollWatch<'a>,
}

impl Job<'_> {
    /// Length and width a nest leaves for pieces, in `f64` steps.
    pub(crate) fn room(&self, nest: &RollNest) -> (f64, f64) {
        let rules = self.problem.rules();
        let (_, width) = self.problem.stock()[0].trimmed(rules);
        (float(nest.used_length - 2 * rules.edge_trim), float(width))
    }

    pub(crate) fn is_stopped(&self) -> bool {
        self.watch.stop.load(Ordering::Relaxed)
    }
}

/// The parts on a sheet of the given length and the roll's width.
fn on_length(parts: &[Part], length: i64, width: i64, rules: Rules) -> Result<Problem, RollError> {
    let shape = StockShape::Rectangle { length, width };
    let stock = Stock { name: String::from("roll"), shape, price: None, limit: Some(1) };
    Problem::new(parts.to_vec(), vec![stock], rules).map_err(RollError::Faults)
}

/// A length on which all pieces lie end to end, however turned.
fn longest(parts: &[Part], rules: Rules) -> Result<i64, RollError> {
    let reach = |part: &Part| {
        let (low, high) = part.outline.bounds();
        let girth = i128::from(high.x - low.x) + i128::from(high.y - low.y) + i128::from(rules.gap) + 16;
        girth * i128::from(part.quantity)
    };
    let all = parts.iter().map(reach).sum::<i128>() + 2 * i128::from(rules.edge_trim);
    let limit = geometry::grid::GRID_LIMIT / 4 - 1;
    Ok(i64::try_from(all).unwrap_or(limit).min(limit))
}

/// The nest, if it passes the verifier on a sheet of exactly its used length.
fn judged(parts: &[Part], width: i64, rules: Rules, best: RollNest) -> Result<RollNest, RollError> {
    let problem = on_length(parts, best.used_length, width, rules)?;
    let sheet = crate::sheet::Sheet { stock: 0, placements: best.placements.clone() };
    verify(&problem, &Nest { sheets: vec![sheet] }).map_err(RollError::Unsound)?;
    Ok(best)
}

/// The watch the separation sees: it stops when exploring is to end.
pub(crate) const fn inner_watch<'a>(stop: &'a AtomicBool) -> Watch<'a> {
    Watch { progress: &|_| {}, stop }
}
