//! Looking for good nests.
//!
//! Parts are laid one after another as far to the left, then as low, as no-fit polygons allow (`bottom_left`); the
//! order decides. `decode` fills sheet after sheet from an order and chooses the size of each. `rebuild` takes a few
//! sheets apart and fills them again, keeping what is no worse. `emptying` presses the pieces of the least filled
//! sheet into the others by pulling overlapping pieces apart. `rectangles` packs parts as their boxes, on one size or on several,
//! where that may save a sheet or money, `exchanging` looks for cheaper sheets in a mix, and `gathering` lays each sheet anew at the end where that makes
//! its largest drop larger. Everything is counted in *evaluations*: one is
//! one figure looked at on one sheet, or [`LOOKS_IN_ONE`] places looked at for an overlapping piece.

mod apart;
pub(crate) mod boxes;
pub(crate) mod decode;
mod emptying;
pub(crate) mod exchanging;
pub(crate) mod filling;
pub(crate) mod gathering;
pub(crate) mod order;
mod pressing;
pub(crate) mod rebuild;
pub(crate) mod rectangles;
pub(crate) mod value;

use std::sync::atomic::{AtomicBool, Ordering};

use rayon::prelude::*;

use crate::choice::Choice;
use crate::figure::Figures;
use crate::problem::Problem;
use crate::random::Chance;
use crate::search::decode::Layout;
use crate::search::value::Value;
use crate::separate::table::Table;

/// How long to look. Evaluations, never seconds, decide when the search ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Evaluations in all for one choice of sheets: one is one turned part looked at on one sheet.
    pub evaluations: u64,
    /// Independent starts the evaluations are shared among. The answer depends on this number, not on threads.
    pub starts: u32,
    /// Seed of all chance.
    pub seed: u64,
}

impl Default for Effort {
    fn default() -> Self {
        Self { evaluations: 40_000, starts: 4, seed: 1 }
    }
}

/// News of a nest found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Progress {
    /// The sizes it is on.
    pub choice: Choice,
    /// Sheets in the nest.
    pub sheets: usize,
    /// Evaluations used by the start that found it.
    pub evaluations: u64,
}

/// How the caller follows a search and ends it early.
#[derive(Clone, Copy)]
pub struct Watch<'a> {
    /// Called from any thread whenever a start finds a better nest. Calls from different starts come in any order.
    pub progress: &'a (dyn Fn(&Progress) + Sync),
    /// Set to true to stop soon with the best nest so far.
    pub stop: &'a AtomicBool,
}

impl Watch<'_> {
    pub(crate) fn is_stopped(&self) -> bool {
        self.stop.load(Ordering::Relaxed)
    }
}

/// Everything a search needs to know.
#[derive(Clone, Copy)]
pub(crate) struct Task<'a> {
    pub(crate) problem: &'a Problem,
    pub(crate) figures: &'a Figures,
    /// The depths by which pieces overlap.
    pub(crate) table: &'a Table<'a>,
    /// Sizes of stock that may be used.
    pub(crate) sizes: &'a [usize],
    /// No nest costs less than this, as [`Task::cost`] counts.
    pub(crate) least: i128,
}

impl Task<'_> {
    /// The sizes as they are told: one alone, or several.
    fn choice(&self) -> Choice {
        if let &[stock] = self.sizes { Choice::Alone(stock) } else { Choice::Mix }
    }
}

/// Evaluations used and allowed.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Meter {
    pub(crate) used: u64,
    pub(crate) limit: u64,
}

/// Places looked at for an overlapping piece that count as one evaluation; they take about as long.
pub(crate) const LOOKS_IN_ONE: u64 = 500;

/// Evaluations that laying a piece takes at least, counted low.
const LOOKS_A_PIECE: u64 = 2;

/// Square steps to the unit of area in which layouts are weighed.
pub(crate) const AREA_UNIT: i128 = 1_000_000;

/// The best layout of all starts; a valid one even when stopped at once.
pub(crate) fn best(task: &Task<'_>, effort: &Effort, watch: &Watch<'_>) -> Option<(Value, Layout)> {
    let bottom_left = || {
        let order = order::order(task, 0, &mut Chance::new(effort.seed, 0));
        decode::fill(task, &order, &mut task.sheets_there(), &mut Meter { used: 0, limit: 0 })
    };
    let first = boxes::fill(task).or_else(bottom_left).map(|layout| (Value::of(task, &layout), layout));
    if let Some((_, layout)) = &first {
        (watch.progress)(&Progress { choice: task.choice(), sheets: layout.len(), evaluations: 0 });
    }
    // Every start lays all pieces once, whatever the effort: with thousands of pieces only so many starts are worth it.
    let affordable = effort.evaluations / (LOOKS_A_PIECE * task.problem.piece_count()).max(1);
    let starts = effort.starts.max(1).min(u32::try_from(affordable).unwrap_or(u32::MAX)).max(1);
    let share = effort.evaluations / u64::from(starts);
    let found: Vec<Option<(Value, Layout)>> = (0..starts)
        .into_par_iter()
        .map(|start| {
            let mut meter = Meter { used: 0, limit: share };
            rebuild::run(task, effort.seed, start, &mut meter, watch)
        })
        .collect();
    // The earliest of equals wins, so the number of threads cannot matter.
    let mut best = first;
    for (value, layout) in found.into_iter().flatten() {
        if best.as_ref().is_none_or(|(known, _)| value < *known) {
            best = Some((value, layout));
        }
    }
    best
}
