//! Emptying the least filled sheet: its pieces are pressed, one after another, into the sheets that have room.
//!
//! A piece is put on top of the others at a place chosen by chance and all are pulled apart (`separate`). Where
//! that succeeds the sheet keeps it. A sheet that ends up empty is saved.

use crate::random::Chance;
use crate::search::apart::{loose, pulled_apart};
use crate::search::decode::{Filled, Layout};
use crate::search::filling::Piece;
use crate::search::{Meter, Task, Watch};
use crate::separate::Spot;
use crate::separate::look::Looks;
use crate::separate::rounds::Patience;
use crate::separate::state::Loose;

const PATIENCE: Patience =
    Patience { rounds: 25, tries: 1, looks: Looks { anywhere: 24, nearby: 12, walked: 3 } };

/// Fuller than this (in thousandths of the trimmed sheet) no sheet is tried.
const FULL_PERMILLE: i128 = 960;

/// Moves what it can from the least filled sheets to the others until the evaluations are used up. Pieces that
/// stay are tried again from another place.
pub(crate) fn run(
    task: &Task<'_>,
    layout: &Layout,
    chance: &mut Chance,
    meter: &mut Meter,
    watch: &Watch<'_>,
) -> Layout {
    let mut layout = layout.clone();
    while 1 < layout.len() && meter.used < meter.limit && !watch.is_stopped() {
        let least =
            (0..layout.len()).min_by_key(|&index| task.doubled_area(&layout[index].pieces)).unwrap_or(0);
        let mut from = layout.remove(least);
        pass(task, &mut from, &mut layout, chance, meter, watch);
        if !from.pieces.is_empty() {
            layout.push(from);
        }
        // A pass without room anywhere looks at nothing, yet must end some time.
        meter.used += 1;
    }
    layout
}

/// Tries each piece of `from`, largest first, on each other sheet.
fn pass(
    task: &Task<'_>,
    from: &mut Filled,
    layout: &mut Layout,
    chance: &mut Chance,
    meter: &mut Meter,
    watch: &Watch<'_>,
) {
    let mut waiting = std::mem::take(&mut from.pieces);
    waiting.sort_by_key(|piece| std::cmp::Reverse(task.figures.get(piece.figure).doubled_area));
    for piece in waiting {
        let taken = layout.iter_mut().any(|sheet| {
            let pressed = has_room(task, sheet, piece)
                .then(|| press(task, sheet, piece, chance, meter, watch))
                .flatten();
            pressed.map(|pieces| sheet.pieces = pieces).is_some()
        });
        if !taken {
            from.pieces.push(piece);
        }
    }
}

fn has_room(task: &Task<'_>, sheet: &Filled, piece: Piece) -> bool {
    let (length, width) = task.problem.stock()[sheet.stock].trimmed(task.problem.rules());
    let all = 2 * i128::from(length) * i128::from(width) / 1_000_000;
    let fits = task.figures.of_part(piece.part).iter().any(|&figure| {
        let size = task.figures.get(figure).size;
        size.x <= length && size.y <= width
    });
    let filled = task.doubled_area(&sheet.pieces) + task.doubled_area(&[piece]);
    fits && 1000 * filled <= FULL_PERMILLE * all
}

/// The sheet's pieces with one more among them; `None` when they could not be pulled apart.
fn press(
    task: &Task<'_>,
    sheet: &Filled,
    piece: Piece,
    chance: &mut Chance,
    meter: &mut Meter,
    watch: &Watch<'_>,
) -> Option<Vec<Piece>> {
    if meter.limit <= meter.used || watch.is_stopped() {
        return None;
    }
    let sheets = [sheet.stock];
    let ground = task.ground(&sheets);
    let [room] = ground.rooms() else { return None };
    let (low, high) = (room.low, room.high);
    let fits = |&figure: &usize| ground.holds(task.table.size(figure));
    let figure = task.figures.of_part(piece.part).iter().copied().find(fits)?;
    let mut pieces: Vec<Loose> = sheet.pieces.iter().map(|piece| loose(piece, low)).collect();
    let at = Spot::new(chance.share() * high.x, chance.share() * high.y);
    pieces.push(Loose { part: piece.part, figure, at });
    let mut layout = pulled_apart(task, (&sheets, ground), pieces, PATIENCE, chance, meter, watch)?;
    layout.pop().map(|filled| filled.pieces)
}
