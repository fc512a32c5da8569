//! Mixes of some of the sizes.
//!
//! With more sizes to choose from the search takes more wrong turns, so a mix of fewer may come out cheaper; and an order may
//! ask more for a long sheet than its price, of which nothing is known here. So the best mix without each size, and of the
//! sizes up to each length, is looked for as well.

use crate::bound::Bounds;
use crate::choice::{Choice, Looks, NestError, Nested, Row, finished, least_for_search, looked_for};
use crate::fits::misfits;
use crate::problem::Problem;
use crate::search::decode::Layout;
use crate::search::{Effort, Task};

/// Each of these mixes is looked at with one part in so many of the effort.
const SHARE: u64 = 4;

/// Looks for mixes of some of the sizes, `sets`. The first row of a mix becomes the cheapest; behind it come those that keep to
/// shorter sheets than every row that is no dearer.
pub(super) fn look(
    whole: &Task<'_>,
    sets: &[Vec<usize>],
    bounds: &Bounds<'_>,
    (effort, looks): (&Effort, &mut Looks<'_>),
    rows: &mut Vec<Row>,
) -> Result<(), NestError> {
    let problem = whole.problem;
    let Some(Row { choice: Choice::Mix, outcome: Ok(_) }) = rows.last() else { return Ok(()) };
    let few = Effort { evaluations: effort.evaluations / SHARE, ..*effort };
    let mut found: Vec<(i128, Layout)> = Vec::new();
    for sizes in sets {
        if looks.watch().is_stopped() {
            break;
        }
        let watch = &looks.next();
        if misfits(problem, whole.figures, sizes).is_empty() {
            let bound = bounds.on(sizes);
            let task = Task { sizes, least: least_for_search(problem, &bound), ..*whole };
            let layout = looked_for(&task, &few, watch, &bound);
            found.extend(layout.map(|layout| (task.cost_of(&layout), layout)));
        }
    }
    let watch = looks.watch();
    // The cheapest first: what comes later is kept for its shorter sheets alone.
    found.sort_by_key(|&(cost, _)| cost);
    for (cost, layout) in found {
        let (cheaper, shorter) = compared(whole, rows, cost, &layout);
        if !cheaper && !shorter {
            continue;
        }
        let Some(mix) = finished(whole, Some(layout), bounds.on(whole.sizes), effort, watch)? else {
            continue;
        };
        let row = Row { choice: Choice::Mix, outcome: Ok(mix) };
        match rows.iter_mut().find(|row| row.choice == Choice::Mix).filter(|_| cheaper) {
            Some(first) => *first = row,
            None => rows.push(row),
        }
    }
    Ok(())
}

/// Whether a layout is cheaper than the first mix, and whether it keeps to shorter sheets than every row that is no dearer.
fn compared(task: &Task<'_>, rows: &[Row], cost: i128, layout: &Layout) -> (bool, bool) {
    let longest = longest(task.problem, layout.iter().map(|filled| filled.stock));
    let known = || rows.iter().filter_map(|row| Some((row.choice, row.outcome.as_ref().ok()?)));
    let of = |nested: &Nested| nested.nest.sheets.iter().map(|sheet| task.cost(sheet.stock)).sum::<i128>();
    let mix = known().find(|(choice, _)| *choice == Choice::Mix);
    let side =
        |nested: &Nested| self::longest(task.problem, nested.nest.sheets.iter().map(|sheet| sheet.stock));
    let shorter = known().all(|(_, nested)| cost < of(nested) || longest < side(nested));
    (mix.is_some_and(|(_, mix)| cost < of(mix)), shorter)
}

/// All sizes but one, for each; and those up to each length. None of a single size, and none twice.
pub(super) fn sets(problem: &Problem, all: &[usize]) -> Vec<Vec<usize>> {
    let side = |stock: usize| longer_side(problem, stock);
    let without =
        all.iter().map(|&left_out| all.iter().copied().filter(|&stock| stock != left_out).collect());
    let up_to = all
        .iter()
        .map(|&longest| all.iter().copied().filter(|&stock| side(stock) <= side(longest)).collect());
    let mut sets: Vec<Vec<usize>> = without.chain(up_to).collect();
    sets.retain(|set| 1 < set.len() && set.len() < all.len());
    sets.sort();
    sets.dedup();
    sets
}

/// The longest side of the sheets of these sizes that are not there already.
fn longest(problem: &Problem, sizes: impl Iterator<Item = usize>) -> i64 {
    let bought = sizes.filter(|&stock| !problem.is_free(stock));
    bought.map(|stock| longer_side(problem, stock)).max().unwrap_or(0)
}

fn longer_side(problem: &Problem, stock: usize) -> i64 {
    let (length, width) = problem.stock()[stock].size();
    length.max(width)
}
