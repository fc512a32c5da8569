//! Improving a layout by taking a few sheets apart and filling them again.

use crate::random::Chance;
use crate::search::decode::{self, Layout};
use crate::search::value::Value;
use crate::search::{Meter, Progress, Task, Watch, emptying, order, pressing};

/// Up to which tenth of the evaluations sheets are rebuilt first, then pieces pressed onto cheaper sheets, then the
/// least filled sheets emptied. Half of what is left goes into pressing again, the rest into rebuilding.
const REBUILD_TENTHS: u64 = 1;
const PRESS_TENTHS: u64 = 2;
const EMPTY_TENTHS: u64 = 9;

/// A start that has reached the least cost, so that only the drops can grow, ends once so many evaluations, and as many as it had
/// used when it last got better, have brought nothing.
const IDLE_AT_LEAST: u64 = 10_000;

/// One start: an order is decoded and made better by all means in turn, until the evaluations are used up.
pub(crate) fn run(
    task: &Task<'_>,
    seed: u64,
    start: u32,
    meter: &mut Meter,
    watch: &Watch<'_>,
) -> Option<(Value, Layout)> {
    if watch.is_stopped() {
        return None;
    }
    let mut chance = Chance::new(seed, u64::from(start));
    let first = order::order(task, start, &mut chance);
    let layout = decode::fill(task, &first, &mut task.sheets_there(), meter)?;
    (watch.progress)(&Progress { choice: task.choice(), sheets: layout.len(), evaluations: meter.used });
    let mut best = Best { task, watch, value: Value::of(task, &layout), layout, bettered: 0 };
    let whole = meter.limit;
    // Pieces that are moved one by one could be parted from their group.
    if task.problem.together().is_empty() {
        meter.limit = whole / 10 * REBUILD_TENTHS;
        best.rebuild(&mut chance, meter);
        meter.limit = whole / 10 * PRESS_TENTHS;
        let pressed = pressing::run(task, &best.layout, pressing::FULL_AT_FIRST, &mut chance, meter, watch);
        best.keep(pressed, false, meter);
        meter.limit = whole / 10 * EMPTY_TENTHS;
        let emptied = emptying::run(task, &best.layout, &mut chance, meter, watch);
        best.keep(emptied, false, meter);
        meter.limit = meter.used + whole.saturating_sub(meter.used) / 2;
        let persisted = pressing::persist(task, &best.layout, &mut chance, meter, watch);
        best.keep(persisted, false, meter);
        meter.limit = whole;
    }
    best.rebuild(&mut chance, meter);
    Some((best.value, best.layout))
}

/// The best layout of a start so far.
struct Best<'a> {
    task: &'a Task<'a>,
    watch: &'a Watch<'a>,
    value: Value,
    layout: Layout,
    /// Evaluations used when it last got better.
    bettered: u64,
}

impl Best<'_> {
    /// Takes a layout that is better; one as good too, when `even`.
    fn keep(&mut self, tried: Layout, even: bool, meter: &Meter) {
        let value = Value::of(self.task, &tried);
        if value < self.value || (even && value == self.value) {
            if value < self.value {
                self.bettered = meter.used;
            }
            if tried.len() < self.layout.len() {
                let (sheets, evaluations) = (tried.len(), meter.used);
                let choice = self.task.choice();
                (self.watch.progress)(&Progress { choice, sheets, evaluations });
            }
            (self.value, self.layout) = (value, tried);
        }
    }

    /// Whether nothing but the drops could still be better, and they have not been for long.
    fn is_settled(&self, used: u64) -> bool {
        let idle = used - self.bettered;
        self.task.cost_of(&self.layout) <= self.task.least && IDLE_AT_LEAST.max(self.bettered) <= idle
    }

    /// Rebuilds until the evaluations are used up, or it is settled.
    fn rebuild(&mut self, chance: &mut Chance, meter: &mut Meter) {
        while meter.used < meter.limit && !self.watch.is_stopped() && !self.is_settled(meter.used) {
            let before = meter.used;
            if let Some(tried) = rebuilt(self.task, &self.layout, chance, meter) {
                self.keep(tried, true, meter);
            }
            // A try that looks at nothing still counts, or the loop might never end.
            meter.used = meter.used.max(before + 1);
        }
    }
}

/// The layout with one to three sheets taken apart and filled again, the least filled one among them as a rule.
fn rebuilt(task: &Task<'_>, layout: &Layout, chance: &mut Chance, meter: &mut Meter) -> Option<Layout> {
    let taken = chosen(task, layout, chance);
    let (mut pooled, mut kept) = (Vec::new(), Layout::new());
    for (index, filled) in layout.iter().enumerate() {
        if taken.contains(&index) {
            pooled.extend(filled.pieces.iter().map(|piece| piece.part));
        } else {
            kept.push(filled.clone());
        }
    }
    order::sort(task, &mut pooled, u32::try_from(chance.below(3)).unwrap_or(0));
    order::disturb(&mut pooled, chance);
    kept.extend(decode::fill(task, &pooled, &mut task.sheets_beside(&kept), meter)?);
    Some(kept)
}

fn chosen(task: &Task<'_>, layout: &Layout, chance: &mut Chance) -> Vec<usize> {
    let least = (0..layout.len()).min_by_key(|&index| task.doubled_area(&layout[index].pieces)).unwrap_or(0);
    let mut others: Vec<usize> = (0..layout.len()).filter(|&index| index != least).collect();
    chance.shuffle(&mut others);
    let count = chance.below(3).min(others.len());
    others.truncate(count);
    others.push(least);
    others
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::AtomicBool;

    use geometry::grid::GridOutline;

    use super::*;
    use crate::figure::Figures;
    use crate::problem::{Mirror, Part, Problem, Rules, Stock, StockShape, Turns};
    use crate::separate::table::Table;

    /// A start with a million million evaluations ends soon after the least cost, one sheet, is reached; while a cheaper nest is
    /// not excluded, it goes on.
    #[test]
    fn a_start_that_has_reached_the_least_cost_ends_when_the_drop_grows_no_more() {
        let outline = GridOutline::rectangle(40_000, 8_000).unwrap();
        let part =
            Part { mark: String::new(), outline, quantity: 3, turns: Turns::Half, mirror: Mirror::Never };
        let shape = StockShape::Rectangle { length: 100_000, width: 50_000 };
        let stock = vec![Stock { name: String::new(), shape, price: Some(7), limit: None }];
        let rules = Rules { gap: 300, edge_trim: 500, least_drop: 10_000 };
        let problem = Problem::new(vec![part], stock, rules).unwrap();
        let figures = Figures::new(&problem);
        let table = Table::new(&figures);
        let stop = AtomicBool::new(false);
        let watch = Watch { progress: &|_| {}, stop: &stop };
        let used = |least: i128, limit: u64| {
            let task = Task { problem: &problem, figures: &figures, table: &table, sizes: &[0], least };
            let mut meter = Meter { used: 0, limit };
            run(&task, 1, 0, &mut meter, &watch).unwrap();
            meter.used
        };
        let ended = used(7, 1_000_000_000_000);
        assert!((IDLE_AT_LEAST..10 * IDLE_AT_LEAST).contains(&ended), "{ended}");
        assert!(20 * IDLE_AT_LEAST <= used(6, 20 * IDLE_AT_LEAST));
    }
}
