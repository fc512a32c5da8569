//! Improving a layout by taking a few sheets apart and filling them again.

use crate::random::Chance;
use crate::search::decode::{self, Layout};
use crate::search::value::Value;
use crate::search::{Meter, Progress, Task, Watch, emptying, order, pressing};

/// Up to which tenth of the evaluations sheets are rebuilt first, then pieces pressed onto cheaper sheets, then the
/// least filled sheets emptied. What is left goes into rebuilding again.
const REBUILD_TENTHS: u64 = 1;
const PRESS_TENTHS: u64 = 2;
const EMPTY_TENTHS: u64 = 9;

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
    (watch.progress)(&Progress { sheets: layout.len(), evaluations: meter.used });
    let mut best = Best { task, watch, value: Value::of(task, &layout), layout };
    let whole = meter.limit;
    // Pieces that are moved one by one could be parted from their group.
    if task.problem.together().is_empty() {
        meter.limit = whole / 10 * REBUILD_TENTHS;
        best.rebuild(&mut chance, meter);
        meter.limit = whole / 10 * PRESS_TENTHS;
        let pressed = pressing::run(task, &best.layout, task.least, &mut chance, meter, watch);
        best.keep(pressed, false, meter);
        meter.limit = whole / 10 * EMPTY_TENTHS;
        let emptied = emptying::run(task, &best.layout, &mut chance, meter, watch);
        best.keep(emptied, false, meter);
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
}

impl Best<'_> {
    /// Takes a layout that is better; one as good too, when `even`.
    fn keep(&mut self, tried: Layout, even: bool, meter: &Meter) {
        let value = Value::of(self.task, &tried);
        if value < self.value || (even && value == self.value) {
            if tried.len() < self.layout.len() {
                let (sheets, evaluations) = (tried.len(), meter.used);
                (self.watch.progress)(&Progress { sheets, evaluations });
            }
            (self.value, self.layout) = (value, tried);
        }
    }

    /// Rebuilds until the evaluations are used up.
    fn rebuild(&mut self, chance: &mut Chance, meter: &mut Meter) {
        while meter.used < meter.limit && !self.watch.is_stopped() {
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
