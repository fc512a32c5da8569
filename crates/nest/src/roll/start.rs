//! The first nest on a roll: largest first, each as far left as it goes.

use crate::random::Chance;
use crate::roll::{Job, RollNest};
use crate::search::{Meter, Task, decode, order};

/// Lays the pieces bottom-left by the first of three orders that comes out shortest; `None` when they do not fit
/// the grid's length.
pub(crate) fn laid(job: &Job<'_>) -> Option<RollNest> {
    let task = Task { problem: job.problem, figures: job.figures, table: job.table, sizes: &[0], least: 0 };
    let mut chance = Chance::new(0, 0);
    let mut meter = Meter { used: 0, limit: 0 };
    let mut lay = |start: u32| {
        let order = order::order(&task, start, &mut chance);
        let layout = decode::fill(&task, &order, &mut [1], &mut meter)?;
        let sheet = task.nest(&layout).sheets.pop()?;
        let reach =
            layout[0].pieces.iter().map(|piece| piece.at.x + job.figures.get(piece.figure).size.x).max()?;
        let used_length = reach + 2 * job.problem.rules().edge_trim;
        Some(RollNest { used_length, placements: sheet.placements, evaluations: 0 })
    };
    lay(0)
}
