//! Improving a layout by taking a few sheets apart and filling them again.

use crate::random::Chance;
use crate::search::decode::{self, Layout};
use crate::search::value::Value;
use crate::search::{Meter, Progress, Task, Watch, emptying, order, pressing};

/// Shares of the evaluations in tenths: rebuilding, then pressing onto cheaper sheets; the rest goes into emptying
/// the least filled.
const REBUILD_TENTHS: u64 = 8;
const PRESS_TENTHS: u64 = 1;

/// One start: an order is decoded, then sheets are rebuilt until the evaluations are used up.
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
    let mut layout = decode::fill(task, &first, &mut task.sheets_there(), meter)?;
    let mut value = Value::of(task, &layout);
    (watch.progress)(&Progress { sheets: layout.len(), evaluations: meter.used });
    // Pieces that are moved one by one could be parted from their group.
    let moves_single = task.problem.together().is_empty();
    let rebuilding = if moves_single { meter.limit / 10 * REBUILD_TENTHS } else { meter.limit };
    while meter.used < rebuilding && !watch.is_stopped() {
        let before = meter.used;
        if let Some(tried) = rebuilt(task, &layout, &mut chance, meter) {
            let tried_value = Value::of(task, &tried);
            if tried.len() < layout.len() {
                (watch.progress)(&Progress { sheets: tried.len(), evaluations: meter.used });
            }
            if tried_value <= value {
                (value, layout) = (tried_value, tried);
            }
        }
        // A try that looks at nothing still counts, or the loop might never end.
        meter.used = meter.used.max(before + 1);
    }
    if !moves_single {
        return Some((value, layout));
    }
    let mut pressing = Meter { limit: meter.used + meter.limit / 10 * PRESS_TENTHS, ..*meter };
    let pressed = pressing::run(task, &layout, task.least, &mut chance, &mut pressing, watch);
    meter.used = pressing.used;
    let pressed_value = Value::of(task, &pressed);
    if pressed_value < value {
        (watch.progress)(&Progress { sheets: pressed.len(), evaluations: meter.used });
        (value, layout) = (pressed_value, pressed);
    }
    let emptied = emptying::run(task, &layout, &mut chance, meter, watch);
    let emptied_value = Value::of(task, &emptied);
    if emptied_value < value {
        (watch.progress)(&Progress { sheets: emptied.len(), evaluations: meter.used });
        (value, layout) = (emptied_value, emptied);
    }
    Some((value, layout))
}

/// The layout with one to three sheets taken apart and filled again, the least filled one among them as a rule.
fn rebuilt(task: &Task<'_>, layout: &Layout, chance: &mut Chance, meter: &mut Meter) -> Option<Layout> {
    let taken = chosen(task, layout, chance);
    let (mut pooled, mut kept, mut left) = (Vec::new(), Layout::new(), task.sheets_there());
    for (index, filled) in layout.iter().enumerate() {
        if taken.contains(&index) {
            pooled.extend(filled.pieces.iter().map(|piece| piece.part));
        } else {
            left[filled.stock] -= 1;
            kept.push(filled.clone());
        }
    }
    order::sort(task, &mut pooled, u32::try_from(chance.below(3)).unwrap_or(0));
    order::disturb(&mut pooled, chance);
    kept.extend(decode::fill(task, &pooled, &mut left, meter)?);
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
