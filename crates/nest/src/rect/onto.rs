//! Laying rectangles on just these sheets, whatever their sizes.

use crate::random::Chance;
use crate::rect::Problem;
use crate::rect::ground::Spaces;
use crate::rect::problem::Sheet;
use crate::rect::search::Items;

/// Lays all pieces on sheets of these sizes, tried in orders drawn by chance; `None` when no try holds them all. The sheet of
/// the problem must be as long and as wide as any of them. Free cutting.
pub(crate) fn onto(problem: &Problem, sheets: &[(i64, i64)], tries: u32, seed: u64) -> Option<Vec<Sheet>> {
    let items = Items::new(problem);
    let gap = problem.gap();
    let mut chance = Chance::new(seed, 0);
    let mut order: Vec<usize> = (0..items.piece.len()).collect();
    (0..tries).find_map(|_| {
        items.draw(&mut order, &mut chance);
        let how = items.way(&mut chance);
        let mut grounds: Vec<(Spaces, Sheet)> = sheets
            .iter()
            .map(|&(length, width)| (Spaces::new(length + gap, width + gap), Sheet::new()))
            .collect();
        let all = order.iter().all(|&item| {
            grounds.iter_mut().any(|(ground, sheet)| {
                let placed = items.lay(ground, item, how);
                placed.inspect(|&placed| sheet.push(placed)).is_some()
            })
        });
        all.then(|| grounds.into_iter().map(|(_, sheet)| sheet).collect())
    })
}
