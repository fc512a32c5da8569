//! Orders in which parts are laid down.

use crate::random::Chance;
use crate::search::Task;

/// How many different sorted orders there are before chance sets in.
pub(crate) const SORTED: u32 = 3;

/// The measure that is the area.
pub(crate) const BY_AREA: u32 = 0;

/// The order for a start: by area, by longest side, by girth, then these with neighbours exchanged by chance.
pub(crate) fn order(task: &Task<'_>, start: u32, chance: &mut Chance) -> Vec<usize> {
    let mut order = pieces(task);
    sort(task, &mut order, start % SORTED);
    if SORTED <= start {
        disturb(&mut order, chance);
    }
    order
}

/// The part of every single piece, part by part.
pub(crate) fn pieces(task: &Task<'_>) -> Vec<usize> {
    let parts = task.problem.parts().iter().enumerate();
    parts.flat_map(|(number, part)| (0..part.quantity).map(move |_| number)).collect()
}

/// Largest first, by the measure numbered `measure`; equal parts stay together.
pub(crate) fn sort(task: &Task<'_>, order: &mut [usize], measure: u32) {
    let size = |part: usize| {
        let figure = task.figures.get(task.figures.of_part(part)[0]);
        match measure {
            BY_AREA => figure.doubled_area,
            1 => i128::from(figure.size.x.max(figure.size.y)),
            _ => i128::from(figure.size.x + figure.size.y),
        }
    };
    order.sort_by_key(|&part| (std::cmp::Reverse(size(part)), part));
}

/// Moves about a quarter of the entries a short way.
pub(crate) fn disturb(order: &mut [usize], chance: &mut Chance) {
    let reach = (order.len() / 4).max(2);
    for _ in 0..order.len().div_ceil(4) {
        let from = chance.below(order.len());
        let to = (from + chance.below(reach)).min(order.len().saturating_sub(1));
        order[from..=to].rotate_left(usize::from(from < to));
    }
}
