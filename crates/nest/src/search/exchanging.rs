//! Exchanging the sheets of a mix for cheaper ones.
//!
//! A mix is filled sheet by sheet with the size that is the cheapest for what it then holds; what that leaves for the last
//! sheets may lie on smaller or on other sheets as well. The pieces of one, two or three sheets are laid anew on every set of
//! sheets that costs less, the cheapest first, until no set is left that holds them. Sheets that cost nothing, which are in the
//! rack, are exchanged for such of less area.

use crate::random::Chance;
use crate::search::decode::{Filled, Layout, fill_one};
use crate::search::{Effort, Meter, Task, Watch, order, rectangles};

/// Share of the effort for it, one in so many.
const SHARE: u64 = 4;

/// The most sheets exchanged at once.
const MOST_SHEETS: usize = 3;

/// Orders in which pieces are laid on a set of sheets.
const ORDERS: u32 = 4;

/// Tries of laying them as boxes, before that.
const TRIES: u32 = 300;

/// Sets of sheets of a layout looked at before the rest is left as it is: with many sheets there are very many.
const MOST_SETS: usize = 400;

/// The layout with cheaper sheets where such hold its pieces.
pub(crate) fn run(task: &Task<'_>, mut layout: Layout, effort: &Effort, watch: &Watch<'_>) -> Layout {
    if task.sizes.len() < 2 {
        return layout;
    }
    let mut meter = Meter { used: 0, limit: effort.evaluations / SHARE };
    while let Some(cheaper) = exchanged(task, &layout, effort, &mut meter, watch) {
        layout = cheaper;
    }
    layout
}

/// The layout with the first set of its sheets exchanged that can be; `None` when none can.
fn exchanged(
    task: &Task<'_>,
    layout: &Layout,
    effort: &Effort,
    meter: &mut Meter,
    watch: &Watch<'_>,
) -> Option<Layout> {
    for taken in sets(layout.len()) {
        if meter.limit <= meter.used || watch.is_stopped() {
            return None;
        }
        // Of those the area may be less, even where no money can be saved.
        let are_free = taken.iter().all(|&n| task.problem.is_free(layout[n].stock));
        if !are_free && task.cost_of(layout) <= task.least {
            continue;
        }
        let kept: Vec<Filled> =
            (0..layout.len()).filter(|n| !taken.contains(n)).map(|n| layout[n].clone()).collect();
        let pieces: Vec<usize> =
            taken.iter().flat_map(|&n| &layout[n].pieces).map(|piece| piece.part).collect();
        let cost: Cost = taken.iter().map(|&n| cost(task, layout[n].stock)).fold((0, 0), plus);
        for sizes in cheaper_sets(task, &kept, taken.len(), cost) {
            if let Some(laid) = laid(task, &sizes, &pieces, (effort, watch), meter) {
                return Some(kept.into_iter().chain(laid).collect());
            }
        }
    }
    None
}

/// Sets of up to [`MOST_SHEETS`] of so many sheets, the small sets first.
fn sets(sheets: usize) -> Vec<Vec<usize>> {
    let mut all: Vec<Vec<usize>> = (0..sheets).map(|sheet| vec![sheet]).collect();
    let mut from = 0;
    for _ in 1..MOST_SHEETS {
        let grown: Vec<Vec<usize>> = all[from..]
            .iter()
            .flat_map(|set| {
                let next = set.last().map_or(0, |last| last + 1);
                (next..sheets).map(|sheet| set.iter().copied().chain([sheet]).collect())
            })
            .take(MOST_SETS)
            .collect();
        from = all.len();
        all.extend(grown);
    }
    all.truncate(MOST_SETS);
    all
}

/// Money, or area where a price is missing; then the area of what costs nothing.
type Cost = (i128, i128);

fn cost(task: &Task<'_>, stock: usize) -> Cost {
    let is_free = task.problem.is_free(stock);
    (task.cost(stock), if is_free { task.problem.stock()[stock].area() } else { 0 })
}

fn plus(sum: Cost, more: Cost) -> Cost {
    (sum.0 + more.0, sum.1 + more.1)
}

/// Whether sheets are cheaper; of the same price only such as cost nothing, when they have less area.
fn is_less(sum: Cost, than: Cost) -> bool {
    sum.0 < than.0 || (sum.0 == 0 && than.0 == 0 && sum.1 < than.1)
}

/// Sets of sheets that are there beside those kept and cost less, the cheapest first, each with its largest sheet first. As
/// many sheets as before, or one more.
fn cheaper_sets(task: &Task<'_>, kept: &[Filled], count: usize, known: Cost) -> Vec<Vec<usize>> {
    let left = task.sheets_beside(kept);
    let mut sizes: Vec<usize> = task.sizes.iter().copied().filter(|&stock| 0 < left[stock]).collect();
    sizes.sort_by_key(|&stock| (std::cmp::Reverse(task.problem.stock()[stock].area()), stock));
    let mut all: Vec<(Cost, Vec<usize>)> = Vec::new();
    let mut level: Vec<(Cost, Vec<usize>)> = vec![((0, 0), Vec::new())];
    // Of what costs nothing any number may be the less area.
    let more = if known.0 == 0 { MOST_SHEETS - 1 } else { count.min(MOST_SHEETS - 1) };
    for _ in 0..=more {
        let mut next = Vec::new();
        for (sum, set) in &level {
            let from = set.last().and_then(|last| sizes.iter().position(|size| size == last)).unwrap_or(0);
            for &stock in &sizes[from..] {
                let sum = plus(*sum, cost(task, stock));
                let used = set.iter().filter(|&&other| other == stock).count();
                if is_less(sum, known) && u32::try_from(used).is_ok_and(|used| used < left[stock]) {
                    next.push((sum, set.iter().copied().chain([stock]).collect::<Vec<_>>()));
                }
            }
        }
        all.extend(next.iter().cloned());
        level = next;
    }
    all.sort();
    all.into_iter().map(|(_, set)| set).collect()
}

/// The pieces laid on just these sheets; `None` when not all of them fit so, as far as tried.
fn laid(
    task: &Task<'_>,
    sizes: &[usize],
    pieces: &[usize],
    (effort, watch): (&Effort, &Watch<'_>),
    meter: &mut Meter,
) -> Option<Layout> {
    let room: i128 = sizes.iter().map(|&stock| task.doubled_room(stock)).sum();
    let needed: i128 = pieces.iter().map(|&part| task.problem.parts()[part].outline.doubled_area()).sum();
    if room < needed / super::AREA_UNIT {
        return None;
    }
    meter.used += u64::from(TRIES) * pieces.len() as u64 / rectangles::BOXES_IN_ONE;
    if let Some(boxes) = rectangles::onto(task, sizes, pieces, TRIES, effort.seed) {
        return Some(boxes);
    }
    if rectangles::are_boxes(task, pieces) {
        return None;
    }
    let mut chance = Chance::new(effort.seed, pieces.len() as u64);
    (0..ORDERS).find_map(|number| {
        let mut order = pieces.to_vec();
        order::sort(task, &mut order, number % order::SORTED);
        if order::SORTED <= number {
            order::disturb(&mut order, &mut chance);
        }
        in_order(task, sizes, order, watch, meter)
    })
}

fn in_order(
    task: &Task<'_>,
    sizes: &[usize],
    mut left: Vec<usize>,
    watch: &Watch<'_>,
    meter: &mut Meter,
) -> Option<Layout> {
    let mut layout = Layout::new();
    for &stock in sizes {
        if left.is_empty() || meter.limit <= meter.used || watch.is_stopped() {
            break;
        }
        let (filled, rest) = fill_one(task, stock, &left, meter);
        if !filled.pieces.is_empty() {
            layout.push(filled);
        }
        left = rest;
    }
    left.is_empty().then_some(layout)
}
