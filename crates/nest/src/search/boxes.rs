//! A first valid nest at once: parts as their upright boxes.
//!
//! Rectangular sheets only, and no parts kept together. Every sheet keeps its largest free rectangles; a box goes to the leftmost, lowest free corner that holds it, and
//! the free rectangles it overlaps are split into up to four. The size of sheet is the cheapest for its area.

use geometry::grid::GridPoint;

use crate::search::decode::{Filled, Layout};
use crate::search::filling::Piece;
use crate::search::{Task, order};

/// A free rectangle from `low` to `high`.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Room {
    pub(crate) low: GridPoint,
    pub(crate) high: GridPoint,
}

struct Shelf {
    filled: Filled,
    rooms: Vec<Room>,
}

/// Lays all parts down as boxes; `None` when the sheets run out or a part fits none.
pub(crate) fn fill(task: &Task<'_>) -> Option<Layout> {
    if !task.problem.together().is_empty() {
        return None;
    }
    let mut chance = crate::random::Chance::new(0, 0);
    let mut left = task.sheets_there();
    let mut shelves: Vec<Shelf> = Vec::new();
    for part in order::order(task, 2, &mut chance) {
        if shelves.iter_mut().any(|shelf| lay(task, shelf, part)) {
            continue;
        }
        shelves.push(opened(task, part, &mut left)?);
    }
    Some(shelves.into_iter().map(|shelf| shelf.filled).collect())
}

fn opened(task: &Task<'_>, part: usize, left: &mut [u32]) -> Option<Shelf> {
    let mut sizes: Vec<usize> = task
        .sizes
        .iter()
        .copied()
        .filter(|&stock| 0 < left[stock] && task.figures.missing(stock).is_empty())
        .collect();
    let per_area =
        |&stock: &usize| task.cost(stock) * 1_000_000_000 / task.problem.stock()[stock].area().max(1);
    sizes.sort_by_key(|stock| {
        (per_area(stock), std::cmp::Reverse(task.problem.stock()[*stock].area()), *stock)
    });
    sizes.into_iter().find_map(|stock| {
        let (length, width) = task.problem.stock()[stock].trimmed(task.problem.rules());
        let gap = task.problem.rules().gap;
        let all = Room { low: GridPoint::default(), high: GridPoint::new(length + gap, width + gap) };
        let mut shelf = Shelf { filled: Filled { stock, pieces: Vec::new() }, rooms: vec![all] };
        let fits = lay(task, &mut shelf, part);
        if fits {
            left[stock] -= 1;
        }
        fits.then_some(shelf)
    })
}

/// Lays a part on a sheet if some free rectangle holds its box and the gap.
fn lay(task: &Task<'_>, shelf: &mut Shelf, part: usize) -> bool {
    let gap = task.problem.rules().gap;
    let mut best: Option<(GridPoint, Piece)> = None;
    for &figure in task.figures.of_part(part) {
        let need = task.figures.get(figure).size + GridPoint::new(gap, gap);
        for room in &shelf.rooms {
            let far = room.low + need;
            let fits = far.x <= room.high.x && far.y <= room.high.y;
            if fits && best.as_ref().is_none_or(|(known, _)| far < *known) {
                best = Some((far, Piece { part, figure, at: room.low }));
            }
        }
    }
    let Some((far, piece)) = best else { return false };
    shelf.filled.pieces.push(piece);
    shelf.rooms = split(&shelf.rooms, Room { low: piece.at, high: far });
    true
}

/// The largest free rectangles that are left when another is taken.
pub(crate) fn split(rooms: &[Room], taken: Room) -> Vec<Room> {
    let mut next: Vec<Room> = rooms.iter().flat_map(|&room| around(room, taken)).collect();
    next.sort_unstable();
    next.dedup();
    let within = |inner: &Room, outer: &Room| {
        inner != outer
            && outer.low.x <= inner.low.x
            && outer.low.y <= inner.low.y
            && inner.high.x <= outer.high.x
            && inner.high.y <= outer.high.y
    };
    next.iter().copied().filter(|room| !next.iter().any(|other| within(room, other))).collect()
}

/// What is left of a free rectangle beside one taken out of it.
fn around(room: Room, taken: Room) -> Vec<Room> {
    let apart = taken.high.x <= room.low.x
        || room.high.x <= taken.low.x
        || taken.high.y <= room.low.y
        || room.high.y <= taken.low.y;
    if apart {
        return vec![room];
    }
    let place = GridPoint::new;
    let beside = [
        Room { low: room.low, high: place(taken.low.x, room.high.y) },
        Room { low: place(taken.high.x, room.low.y), high: room.high },
        Room { low: room.low, high: place(room.high.x, taken.low.y) },
        Room { low: place(room.low.x, taken.high.y), high: room.high },
    ];
    beside.into_iter().filter(|rest| rest.low.x < rest.high.x && rest.low.y < rest.high.y).collect()
}
