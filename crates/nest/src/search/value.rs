//! How good a layout is. Less is better.

use std::cmp::Reverse;

use crate::search::Task;
use crate::search::decode::Layout;

/// Cost first; then more of the parts on sheets that cost nothing, which are in the rack, and less area of these taken into use; then parts gathered on few sheets, so that one may become empty; then a short reach on the
/// least filled sheet, so that its drop is long.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Value {
    cost: i128,
    free: Reverse<i128>,
    free_taken: i128,
    gathered: Reverse<i128>,
    reach: i64,
}

impl Value {
    /// Values a layout.
    pub(crate) fn of(task: &Task<'_>, layout: &Layout) -> Self {
        let areas: Vec<i128> = layout.iter().map(|filled| task.doubled_area(&filled.pieces)).collect();
        let free = layout.iter().filter(|filled| task.problem.is_free(filled.stock));
        // To the step: small pieces count as well.
        let free =
            free.flat_map(|filled| &filled.pieces).map(|piece| task.figures.get(piece.figure).doubled_area);
        let least = areas.iter().enumerate().min_by_key(|(_, area)| **area).map(|(index, _)| &layout[index]);
        let far = least.iter().flat_map(|filled| filled.pieces.iter());
        Self {
            cost: task.cost_of(layout),
            free: Reverse(free.sum()),
            free_taken: task.free_area(layout),
            gathered: Reverse(areas.iter().map(|area| area * area).sum()),
            reach: far.map(|piece| piece.at.x + task.figures.get(piece.figure).size.x).max().unwrap_or(0),
        }
    }
}
