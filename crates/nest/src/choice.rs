//! Choosing the sheets: each size alone and the best mix, side by side.

mod glued;
mod larger;
mod mixes;
mod pace;

use std::cmp::Reverse;
use std::sync::atomic::AtomicBool;

use thiserror::Error;

use crate::bound::{Bound, Bounds};
use crate::drop::{Drop, drops};
use crate::figure::Figures;
use crate::fits::{self, Misfit, misfits};
use crate::problem::Problem;
use crate::rect::Flaw;
use crate::search::decode::Layout;
use crate::search::value::Value;
use crate::search::{self, Effort, Task, Watch, decode, exchanging, gathering, order, rectangles};
use crate::separate::table::Table;
use crate::shared::{grids, share};
use crate::sheet::{Nest, Take};
use crate::verify::{Fault, verify};

use pace::Looks;
pub use pace::Pace;

/// The first look uses one part in so many of the effort,
const FIRST_LOOK_SHARE: u64 = 20;

/// and no more evaluations than this: however much is allowed, every row has been looked at before any takes long.
const FIRST_LOOK_MOST: u64 = 10_000;

/// Which sizes a row of the table uses.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Choice {
    /// One size, counted as in [`Problem::stock`].
    Alone(usize),
    /// Whatever mix of sizes comes out best.
    Mix,
}

/// A nest that has passed [`verify`], with what it takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Nested {
    /// The sheets.
    pub nest: Nest,
    /// What they add up to.
    pub take: Take,
    /// Drops worth keeping, for each sheet.
    pub drops: Vec<Vec<Drop>>,
    /// The least number of sheets (and least cost) that could do.
    pub bound: Bound,
}

/// Pieces of a part for which there was no room.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LeftOver {
    /// Which part, counted as in [`Problem::parts`].
    pub part: usize,
    /// How many of them.
    pub count: u32,
}

/// Why a choice of sheets holds no nest.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoNest {
    /// Some parts fit none of its sizes.
    Misfits(Vec<Misfit>),
    /// There are not enough sheets, as far as the search found; so much was left over.
    SheetsRunOut(Vec<LeftOver>),
    /// All pieces of these parts, which are kept together, fit none of its sheets at once, as far as tried. Counted as
    /// in [`Problem::together`].
    TooManyTogether(usize),
    /// An offcut that is no rectangle must be squared up before it is sheared.
    NotSquare,
    /// Some blank cannot be cut from a whole sheet within the shear's limits.
    BeyondTheShear,
}

/// One row of the table of choices.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// Which sizes.
    pub choice: Choice,
    /// The nest, or why there is none.
    pub outcome: Result<Nested, NoNest>,
}

/// The table of choices.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Comparison {
    /// Each size alone, in the problem's order, then the best mix when there are several sizes, then mixes that are dearer but
    /// keep to shorter sheets.
    pub rows: Vec<Row>,
    /// The row to take by the sheets alone: least money, or least area where a price is missing; where two come to the same, more on sheets that
    /// cost nothing, then less area of these, then fewer sheets; the earliest of equals.
    pub best: usize,
}

/// Why nothing can be nested.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum NestError {
    /// Parts that fit no sheet at all.
    #[error("{} part(s) fit no sheet", .0.len())]
    FitsNoSheet(Vec<Misfit>),
    /// The parts need more sheets than there are, as far as the search found; so much was left over.
    #[error("the parts need more sheets than there are")]
    SheetsRunOut(Vec<LeftOver>),
    /// Some blanks cannot be cut within the shear's limits from the sheets that there are, as far as the search found.
    #[error("the blanks cannot be sheared from the sheets that there are")]
    BeyondTheShear,
    /// All pieces of a group kept together fit no sheet at once, as far as tried. Counted as in
    /// [`Problem::together`].
    #[error("the pieces of group {} fit no sheet together", .0 + 1)]
    TooManyTogether(usize),
    /// A nest found is wrong: a fault of this program. Nothing may be written.
    #[error("a nest failed its own check ({} fault(s)); please report this", .0.len())]
    Unsound(Vec<Fault>),
    /// A packing of blanks is wrong: a fault of this program. Nothing may be written.
    #[error("a packing of blanks failed its own check ({} flaw(s)); please report this", .0.len())]
    UnsoundBlanks(Vec<Flaw>),
}

/// Nests on each size alone and on the best mix, without news and without a way to stop.
///
/// # Errors
/// As for [`compare_watched`].
pub fn compare(problem: &Problem, effort: &Effort) -> Result<Comparison, NestError> {
    let stop = AtomicBool::new(false);
    compare_watched(problem, effort, &Watch { progress: &|_| {}, stop: &stop })
}

/// Nests on each size alone and on the best mix. The same problem, effort and seed give the same answer on any
/// number of threads, unless stopped early.
///
/// # Errors
/// [`NestError`] when parts fit no sheet, the sheets run out for every choice, or a nest fails [`verify`].
pub fn compare_watched(
    problem: &Problem,
    effort: &Effort,
    watch: &Watch<'_>,
) -> Result<Comparison, NestError> {
    compare_paced(problem, effort, watch, None)
}

/// The same for a caller who will not wait for ever: after all choices have had a first look, each is looked at for its share of
/// the time that is left, and the best of it is kept.
///
/// # Errors
/// As for [`compare_watched`].
pub fn compare_paced(
    problem: &Problem,
    effort: &Effort,
    watch: &Watch<'_>,
    pace: Option<Pace<'_>>,
) -> Result<Comparison, NestError> {
    let figures = Figures::new(problem);
    let all: Vec<usize> = (0..problem.stock().len()).collect();
    let nowhere = misfits(problem, &figures, &all);
    if !nowhere.is_empty() {
        let parts: Vec<usize> = nowhere.iter().map(|misfit| misfit.part).collect();
        let turned = problem.turned_to_fit(&parts, &all);
        return turned.map_or_else(
            || Err(NestError::FitsNoSheet(fits::explained(problem, nowhere))),
            |turned| compare_paced(&turned, effort, watch, pace),
        );
    }
    let table = Table::new(&figures);
    let mut choices: Vec<(Choice, Vec<usize>)> =
        all.iter().map(|&stock| (Choice::Alone(stock), vec![stock])).collect();
    if 1 < all.len() {
        choices.push((Choice::Mix, all.clone()));
    }
    let bounds = Bounds::of(problem);
    // All rows have their first look before any is looked at longer: where the search is ended early they can be compared.
    let begun = choices.iter().map(|(choice, sizes)| {
        let misfits = misfits(problem, &figures, sizes);
        if !misfits.is_empty() {
            return (*choice, Err((misfits, sizes)));
        }
        let bound = bounds.on(sizes);
        let least = least_for_search(problem, &bound);
        let task = Task { problem, figures: &figures, table: &table, sizes, least };
        (*choice, Ok((task, first_look(&task, effort, watch), bound)))
    });
    let begun: Vec<_> = begun.collect();
    let mut rows = Vec::new();
    let (flush, sets) = (problem.laid_flush(), mixes::sets(problem, &all));
    let again = sets.len() + if flush.is_some() { begun.len() } else { 0 };
    let mut looks = Looks::new(watch, pace, begun.len() + again);
    for (choice, begun) in begun {
        let watch = &looks.next();
        let outcome = match begun {
            Ok((task, look, bound)) => nested(&task, look, bound, effort, watch)?,
            Err((misfits, sizes)) => askew(problem, misfits, (sizes, bounds.on(sizes)), effort, watch)?,
        };
        rows.push(Row { choice, outcome });
    }
    keep_best_of_single(problem, &bounds, &mut rows);
    if let Some(Row { outcome: Err(NoNest::TooManyTogether(group)), .. }) = rows.last() {
        return Err(NestError::TooManyTogether(*group));
    }
    lay_flush(problem, flush, sets.len(), (effort, &mut looks), &mut rows)?;
    let whole = Task { problem, figures: &figures, table: &table, sizes: &all, least: 0 };
    mixes::look(&whole, &sets, &bounds, (effort, &mut looks), &mut rows)?;
    looks.end();
    larger::no_more_than_smaller(problem, &mut rows)?;
    keep_best_of_single(problem, &bounds, &mut rows);
    let best = best_of(problem, &rows)?;
    Ok(Comparison { rows, best })
}

/// What is nested on sizes that hold some parts of any turn only askew; the misfits where they do not hold them so either.
fn askew(
    problem: &Problem,
    misfits: Vec<Misfit>,
    (sizes, bound): (&[usize], Bound),
    effort: &Effort,
    watch: &Watch<'_>,
) -> Result<Result<Nested, NoNest>, NestError> {
    let parts: Vec<usize> = misfits.iter().map(|misfit| misfit.part).collect();
    let Some(turned) = problem.turned_to_fit(&parts, sizes) else {
        return Ok(Err(NoNest::Misfits(fits::explained(problem, misfits))));
    };
    let figures = Figures::new(&turned);
    if !fits::misfits(&turned, &figures, sizes).is_empty() {
        return Ok(Err(NoNest::Misfits(fits::explained(problem, misfits))));
    }
    let table = Table::new(&figures);
    let least = least_for_search(problem, &bound);
    let task = Task { problem: &turned, figures: &figures, table: &table, sizes, least };
    let outcome = nested(&task, first_look(&task, effort, watch), bound, effort, watch)?;
    if let Ok(nested) = &outcome {
        verify(problem, &nested.nest).map_err(NestError::Unsound)?;
    }
    Ok(outcome)
}

/// The bound on cost as the search counts it ([`Task::least`]).
fn least_for_search(problem: &Problem, bound: &Bound) -> i128 {
    if problem.is_priced() { bound.cost } else { bound.cost / search::AREA_UNIT }
}

/// Looks again, with turns that lay parts of any turn flush with one another, where a row is not proved to be the cheapest; a
/// row changes only where that is cheaper.
fn lay_flush(
    problem: &Problem,
    flush: Option<Problem>,
    later: usize,
    (effort, looks): (&Effort, &mut Looks<'_>),
    rows: &mut [Row],
) -> Result<(), NestError> {
    let open = |row: &Row| match &row.outcome {
        Ok(nested) => !is_least(problem, &nested.nest, &nested.bound),
        Err(_) => false,
    };
    let all_open = rows.iter().filter(|row| open(row)).count();
    looks.are_left(later + if flush.is_some() { all_open } else { 0 });
    let Some(flush) = flush.filter(|_| 0 < all_open) else { return Ok(()) };
    let figures = Figures::new(&flush);
    let table = Table::new(&figures);
    for row in rows.iter_mut().filter(|row| open(row)) {
        let Ok(known) = &row.outcome else { continue };
        let (bound, watch) = (known.bound.clone(), &looks.next());
        let sizes = match row.choice {
            Choice::Alone(stock) => vec![stock],
            Choice::Mix => (0..problem.stock().len()).collect(),
        };
        let least = least_for_search(problem, &bound);
        let task = Task { problem: &flush, figures: &figures, table: &table, sizes: &sizes, least };
        let other = nested(&task, first_look(&task, effort, watch), bound, effort, watch)?;
        let cost = |nested: &Nested| cost_of_nest(problem, &nested.nest, &nested.take);
        if let Ok(other) = other
            && cost(&other) < cost(known)
        {
            verify(problem, &other.nest).map_err(NestError::Unsound)?;
            row.outcome = Ok(other);
        }
    }
    Ok(())
}

fn nested(
    task: &Task<'_>,
    look: Look,
    bound: Bound,
    effort: &Effort,
    watch: &Watch<'_>,
) -> Result<Result<Nested, NoNest>, NestError> {
    let held = |group: &usize| task.sizes.iter().any(|&stock| decode::holds_together(task, stock, *group));
    if let Some(group) = (0..task.problem.together().len()).find(|group| !held(group)) {
        return Ok(Err(NoNest::TooManyTogether(group)));
    }
    let found = looked_on(task, look, effort, watch, &bound)
        .or_else(|| on_those_there_are(task, &bound, effort, watch));
    let nested = finished(task, found, bound.clone(), effort, watch)?;
    let nested = glued::cheaper(task, nested, &bound, effort, watch);
    Ok(nested.ok_or_else(|| NoNest::SheetsRunOut(decode::left_over(task))))
}

/// What was found with its drops gathered, its cuts shared, and judged; `None` where nothing was found.
fn finished(
    task: &Task<'_>,
    found: Option<Layout>,
    bound: Bound,
    effort: &Effort,
    watch: &Watch<'_>,
) -> Result<Option<Nested>, NestError> {
    let gathered = found.map(|layout| task.nest(&gathering::run(task, layout, effort, watch)));
    let Some(mut nest) = or_grids(task, gathered, &bound) else { return Ok(None) };
    share(task.problem, &mut nest);
    verify(task.problem, &nest).map_err(NestError::Unsound)?;
    let take = nest.take(task.problem);
    let drops = nest.sheets.iter().map(|sheet| drops(task.problem, sheet)).collect();
    Ok(Some(Nested { nest, take, drops, bound }))
}

/// What a first look found.
type Look = Option<(Value, Layout)>;

/// What a share of the effort finds.
fn first_look(task: &Task<'_>, effort: &Effort, watch: &Watch<'_>) -> Look {
    let first = first_effort(effort);
    // With thousands of pieces the first look would take as long as the whole.
    let is_quick = task.problem.piece_count() <= first.evaluations;
    is_quick.then(|| search::best(task, &first, watch)).flatten()
}

fn first_effort(effort: &Effort) -> Effort {
    let evaluations = (effort.evaluations / FIRST_LOOK_SHARE).min(FIRST_LOOK_MOST);
    Effort { evaluations, ..*effort }
}

fn looked_for(task: &Task<'_>, effort: &Effort, watch: &Watch<'_>, bound: &Bound) -> Option<Layout> {
    looked_on(task, first_look(task, effort, watch), effort, watch, bound)
}

/// Where the first look already reached the proven least cost, looking on could not save a sheet; else all the effort is used, and
/// what the first look found stands where that found nothing better, as when it was ended early.
fn looked_on(
    task: &Task<'_>,
    look: Look,
    effort: &Effort,
    watch: &Watch<'_>,
    bound: &Bound,
) -> Option<Layout> {
    if let Some((_, layout)) = look.as_ref()
        && is_least(task.problem, &task.nest(layout), bound)
    {
        return Some(exchanging::run(task, layout.clone(), &first_effort(effort), watch));
    }
    // The first of equals is kept.
    let found = search::best(task, effort, watch).into_iter().chain(look).min_by_key(|&(value, _)| value);
    let found = found.map(|(_, layout)| layout);
    Some(exchanging::run(task, fewer_as_boxes(task, found, effort, watch)?, effort, watch))
}

/// Where laying one part after another takes more sheets than there are: begins on further ones and works to do without.
fn on_those_there_are(task: &Task<'_>, bound: &Bound, effort: &Effort, watch: &Watch<'_>) -> Option<Layout> {
    let there: u64 = task.sizes.iter().map(|&stock| u64::from(task.sheets_there()[stock])).sum();
    if there < u64::from(bound.sheets) {
        return None;
    }
    let problem = task.problem.with_further_sheets(task.sizes)?;
    let (figures, there_are) = (Figures::new(&problem), task.problem.stock().len());
    let table = Table::new(&figures);
    let sizes: Vec<usize> = task.sizes.iter().copied().chain(there_are..problem.stock().len()).collect();
    let wider =
        Task { problem: &problem, figures: &figures, table: &table, sizes: &sizes, least: task.least };
    let (_, layout) = search::best(&wider, effort, watch)?;
    layout.iter().all(|filled| filled.stock < there_are).then_some(layout)
}

/// What was found on one size of sheet, or fewer sheets where the parts lie on such as their boxes.
fn fewer_as_boxes(
    task: &Task<'_>,
    found: Option<Layout>,
    effort: &Effort,
    watch: &Watch<'_>,
) -> Option<Layout> {
    let &[stock] = task.sizes else { return cheaper_as_boxes(task, found, effort, watch) };
    let there = task.problem.stock()[stock].limit.map_or(usize::MAX, |limit| limit as usize);
    let fewer = found.as_ref().map_or(usize::MAX, |found| found.len() - 1);
    let boxes = rectangles::pack(task, stock, &order::pieces(task), fewer.min(there), (effort, watch));
    boxes.or(found)
}

/// What was found on several sizes of sheet, or cheaper ones where the parts lie on such as their boxes.
fn cheaper_as_boxes(
    task: &Task<'_>,
    found: Option<Layout>,
    effort: &Effort,
    watch: &Watch<'_>,
) -> Option<Layout> {
    let known = found.as_ref().map_or(i128::MAX, |found| task.cost_of(found));
    rectangles::mixed(task, &order::pieces(task), known, (effort, watch)).or(found)
}

/// Whether a nest costs no more than the bound proves.
fn is_least(problem: &Problem, nest: &Nest, bound: &Bound) -> bool {
    cost_of(problem, &nest.take(problem)) <= bound.cost
}

/// Grids of equal rectangles one kerf apart, where cuts may be shared and that is cheaper than what was found.
fn or_grids(task: &Task<'_>, found: Option<Nest>, bound: &Bound) -> Option<Nest> {
    let problem = task.problem;
    let least = found.as_ref().is_some_and(|nest| is_least(problem, nest, bound));
    let Some(kerf) = problem.shared_kerf().filter(|_| !least) else { return found };
    let grids = grids(task, kerf).map(|layout| task.nest(&layout));
    // Pieces so small that every other one is still too near are no grid.
    let Some(grids) = grids.filter(|nest| verify(problem, nest).is_ok()) else { return found };
    let cost = |nest: &Nest| cost_of_nest(problem, nest, &nest.take(problem));
    let cheaper = found.as_ref().is_none_or(|found| cost(&grids) < cost(found));
    if cheaper { Some(grids) } else { found }
}

/// A single size is a mix too: the mix row never shows a dearer nest than a row above it.
fn keep_best_of_single(problem: &Problem, bounds: &Bounds<'_>, rows: &mut [Row]) {
    let singles = rows.iter().take_while(|row| row.choice != Choice::Mix).count();
    let (singles, mixes) = rows.split_at_mut(singles);
    let Some(mix) = mixes.first_mut() else { return };
    let cheapest = singles.iter().filter(|row| row.outcome.is_ok()).min_by_key(|row| cost(problem, row));
    if let Some(Row { outcome: Ok(single), .. }) =
        cheapest.filter(|row| cost(problem, row) <= cost(problem, mix))
    {
        let bound = match &mix.outcome {
            Ok(known) => known.bound.clone(),
            Err(_) => bounds.on(&(0..problem.stock().len()).collect::<Vec<_>>()),
        };
        mix.outcome = Ok(Nested { bound, ..single.clone() });
    }
}

/// The row to take.
pub(crate) fn best_of(problem: &Problem, rows: &[Row]) -> Result<usize, NestError> {
    let run_out = || {
        // Of all sizes at once, where there is such a row.
        let over = rows.iter().rev().find_map(|row| match &row.outcome {
            Err(NoNest::SheetsRunOut(over)) => Some(over.clone()),
            _ => None,
        });
        over.map_or(NestError::BeyondTheShear, NestError::SheetsRunOut)
    };
    ranked(problem, rows).first().copied().ok_or_else(run_out)
}

/// The rows that hold a nest, by what their sheets cost as for [`Comparison::best`], the least first. What an order adds to
/// the sheets, like freight, may speak for another row than the first.
#[must_use]
pub fn ranked(problem: &Problem, rows: &[Row]) -> Vec<usize> {
    let mut nested: Vec<usize> = (0..rows.len()).filter(|&row| rows[row].outcome.is_ok()).collect();
    nested.sort_by_key(|&row| cost(problem, &rows[row]));
    nested
}

/// Money where every size has a price, else area; then as much as can be on sheets that cost nothing; then as little area of these
/// as can be, so that no more pieces of the rack are used than are needed, and small ones before large ones; then the number of sheets.
/// Less is better.
pub(crate) type Cost = (i128, Reverse<i128>, i128, u32);

/// No nest costs more than any.
fn cost(problem: &Problem, row: &Row) -> Cost {
    let nested = |nested: &Nested| cost_of_nest(problem, &nested.nest, &nested.take);
    row.outcome.as_ref().map_or((i128::MAX, Reverse(0), 0, u32::MAX), nested)
}

/// What a nest counts for, with what it takes.
pub(crate) fn cost_of_nest(problem: &Problem, nest: &Nest, take: &Take) -> Cost {
    let free = nest.sheets.iter().filter(|sheet| problem.is_free(sheet.stock));
    let parts = free.flat_map(|sheet| &sheet.placements).map(|placed| &problem.parts()[placed.part]);
    let area = parts.map(|part| part.outline.doubled_area()).sum();
    let taken = nest.sheets.iter().filter(|sheet| problem.is_free(sheet.stock));
    let taken = taken.map(|sheet| problem.stock()[sheet.stock].area()).sum();
    (cost_of(problem, take), Reverse(area), taken, take.count())
}

pub(crate) fn cost_of(problem: &Problem, take: &Take) -> i128 {
    take.money.filter(|_| problem.is_priced()).map_or(take.area, i128::from)
}
