//! Pieces that share cuts from the start, where the user's saw may cut two parts at once.

use super::{Nested, cost_of_nest, is_least, looked_for};
use crate::bound::Bound;
use crate::drop::drops;
use crate::figure::Figures;
use crate::fits::misfits;
use crate::search::{Effort, Task, Watch, gathering};
use crate::separate::table::Table;
use crate::shared::{plans, share};
use crate::verify::verify;

/// Each way to join pieces is looked at with one part in so many of the effort.
const SHARE: u64 = 8;

/// What was found, or what comes out cheaper when pieces are joined along matching sides, a kerf apart, and laid as one.
pub(super) fn cheaper(
    task: &Task<'_>,
    mut known: Option<Nested>,
    bound: &Bound,
    effort: &Effort,
    watch: &Watch<'_>,
) -> Option<Nested> {
    let problem = task.problem;
    let settled = |known: &Option<Nested>| {
        known.as_ref().is_some_and(|known| is_least(problem, &known.nest, bound)) || watch.is_stopped()
    };
    let Some(kerf) = problem.shared_kerf().filter(|_| !settled(&known)) else { return known };
    let few = Effort { evaluations: effort.evaluations / SHARE, ..*effort };
    // With thousands of pieces laying them all anew takes as long as the whole search.
    if few.evaluations < problem.piece_count() {
        return known;
    }
    for plan in plans(problem, task.sizes, kerf) {
        if settled(&known) {
            break;
        }
        let figures = Figures::new(&plan.problem);
        if !misfits(&plan.problem, &figures, task.sizes).is_empty() {
            continue;
        }
        let table = Table::new(&figures);
        let joined = Task { problem: &plan.problem, figures: &figures, table: &table, ..*task };
        let Some(layout) = looked_for(&joined, &few, watch, bound) else { continue };
        let layout = gathering::run(&joined, layout, &few, watch);
        let mut nest = plan.taken_apart(&joined.nest(&layout));
        share(problem, &mut nest);
        // Outlines at odd turns are rounded each its own way: what is then too near by a step is no nest.
        if verify(problem, &nest).is_err() {
            continue;
        }
        let take = nest.take(problem);
        let cost = |known: &Nested| cost_of_nest(problem, &known.nest, &known.take);
        if known.as_ref().is_none_or(|known| cost_of_nest(problem, &nest, &take) < cost(known)) {
            let drops = nest.sheets.iter().map(|sheet| drops(problem, sheet)).collect();
            known = Some(Nested { nest, take, drops, bound: bound.clone() });
        }
    }
    known
}
