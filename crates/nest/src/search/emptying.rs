//! Emptying the least filled sheet: its pieces go, one after another, to the sheets that have room.
//!
//! A piece that no free place takes is put on top of the others at a place chosen by chance and all are pulled apart
//! (`separate`). Where that fails it is tried in the place of a smaller piece, which goes back instead. A sheet that ends
//! up empty is saved.

use crate::random::Chance;
use crate::search::apart::{loose, pulled_apart};
use crate::search::decode::{self, Filled, Layout};
use crate::search::filling::{Filling, Piece};
use crate::search::{Meter, Task, Watch};
use crate::separate::Spot;
use crate::separate::look::Looks;
use crate::separate::rounds::Patience;
use crate::separate::state::Loose;

const PATIENCE: Patience =
    Patience { rounds: 12, tries: 1, looks: Looks { anywhere: 24, nearby: 12, walked: 3 } };

/// Pieces are not pressed into a sheet that would be fuller than this, in thousandths inside its trim.
const FULL_PERMILLE: i128 = 880;

/// Passes without a less filled sheet before it is given up.
const IDLE_PASSES: usize = 12;

/// Pieces moved where only some room is to be made.
const SOME: usize = 4;

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
    let mut idle = 0;
    while 1 < layout.len() && idle < IDLE_PASSES && meter.used < meter.limit && !watch.is_stopped() {
        // A pass without room anywhere looks at nothing, yet must end some time.
        meter.used += 1;
        let area = |filled: &Filled| task.doubled_area(&filled.pieces);
        layout.sort_by_key(|filled| (task.problem.is_free(filled.stock), area(filled)));
        // The least filled sheet first; where it stays as it was, some room is made on the others by turns.
        let rank = if idle % 2 == 0 { 0 } else { (1 + idle / 2) % layout.len() };
        if task.problem.is_free(layout[rank].stock) {
            idle += 1;
            continue;
        }
        let before = area(&layout[rank]);
        let Some((others, rest)) = emptied(task, &layout, rank, chance, meter, watch) else {
            idle += 1;
            continue;
        };
        let after: i128 = rest.iter().map(area).sum();
        idle = if rank == 0 && after < before { 0 } else { idle + 1 };
        layout = [others, rest].concat();
    }
    layout
}

/// The other sheets after what they took from one, and what is left over, laid down anew since it lay among other pieces:
/// on a cheaper sheet where one holds it. `None` when it would cost more than the sheet did.
fn emptied(
    task: &Task<'_>,
    layout: &Layout,
    rank: usize,
    chance: &mut Chance,
    meter: &mut Meter,
    watch: &Watch<'_>,
) -> Option<(Layout, Layout)> {
    let (before, mut others) = (&layout[..rank], layout[rank + 1..].to_vec());
    let from = &layout[rank];
    let (moved, stays) = if rank == 0 { (from.pieces.clone(), Vec::new()) } else { some(from, chance) };
    let left = [pass(task, moved, &mut others, chance, meter, watch), stays].concat();
    others.extend_from_slice(before);
    let rest = laid_anew(task, &left, &others, meter)?;
    let cost: i128 = rest.iter().map(|filled| task.cost(filled.stock)).sum();
    (cost <= task.cost(from.stock)).then_some((others, rest))
}

/// A few pieces of a sheet, and the others.
fn some(from: &Filled, chance: &mut Chance) -> (Vec<Piece>, Vec<Piece>) {
    let mut pieces = from.pieces.clone();
    chance.shuffle(&mut pieces);
    let stay = pieces.split_off(SOME.min(pieces.len()));
    (pieces, stay)
}

/// The pieces on sheets beside those of `others`, the largest first.
fn laid_anew(task: &Task<'_>, pieces: &[Piece], others: &Layout, meter: &mut Meter) -> Option<Layout> {
    let mut left = task.sheets_there();
    for filled in others {
        left[filled.stock] -= 1;
    }
    let mut parts: Vec<usize> = pieces.iter().map(|piece| piece.part).collect();
    parts.sort_by_key(|&part| std::cmp::Reverse((task.problem.parts()[part].outline.doubled_area(), part)));
    decode::fill(task, &parts, &mut left, meter)
}

/// Tries each piece of `from`, largest first, on each other sheet, then in the place of a smaller piece there; what is
/// left over.
fn pass(
    task: &Task<'_>,
    mut waiting: Vec<Piece>,
    layout: &mut Layout,
    chance: &mut Chance,
    meter: &mut Meter,
    watch: &Watch<'_>,
) -> Vec<Piece> {
    waiting.sort_by_key(|piece| std::cmp::Reverse(area(task, piece)));
    let mut left = Vec::new();
    for piece in waiting {
        if !added(task, piece, layout, chance, meter, watch) {
            left.push(exchanged(task, piece, layout, chance, meter, watch).unwrap_or(piece));
        }
    }
    left
}

fn area(task: &Task<'_>, piece: &Piece) -> i128 {
    task.figures.get(piece.figure).doubled_area
}

/// Puts the piece on some other sheet; false when none takes it.
fn added(
    task: &Task<'_>,
    piece: Piece,
    layout: &mut Layout,
    chance: &mut Chance,
    meter: &mut Meter,
    watch: &Watch<'_>,
) -> bool {
    let slips = |sheet: &mut Filled, meter: &mut Meter| {
        let place = slipped_in(task, sheet, piece, meter);
        sheet.pieces.extend(place);
        place.is_some()
    };
    if layout.iter_mut().any(|sheet| slips(sheet, meter)) {
        return true;
    }
    layout.iter_mut().any(|sheet| {
        let pressed =
            has_room(task, sheet, piece).then(|| press(task, sheet, piece, chance, meter, watch)).flatten();
        pressed.map(|pieces| sheet.pieces = pieces).is_some()
    })
}

/// A free place for the piece as the others lie.
fn slipped_in(task: &Task<'_>, sheet: &Filled, piece: Piece, meter: &mut Meter) -> Option<Piece> {
    let mut filling = Filling::new(task.problem, task.figures, sheet.stock);
    sheet.pieces.iter().for_each(|&piece| filling.place(piece));
    decode::best_piece(task, &mut filling, piece.part, None, meter)
}

/// Puts the piece on some other sheet in the place of a smaller one, which is returned. The least filled sheet holds less
/// with every exchange, so they come to an end.
fn exchanged(
    task: &Task<'_>,
    piece: Piece,
    layout: &mut Layout,
    chance: &mut Chance,
    meter: &mut Meter,
    watch: &Watch<'_>,
) -> Option<Piece> {
    let own = area(task, &piece);
    for sheet in layout {
        let smaller: Vec<usize> =
            (0..sheet.pieces.len()).filter(|&at| area(task, &sheet.pieces[at]) < own).collect();
        if smaller.is_empty() {
            continue;
        }
        let mut tried = sheet.clone();
        let out = tried.pieces.remove(smaller[chance.below(smaller.len())]);
        if !has_room(task, &tried, piece) {
            continue;
        }
        if let Some(pieces) = press(task, &tried, piece, chance, meter, watch) {
            sheet.pieces = pieces;
            return Some(out);
        }
    }
    None
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
