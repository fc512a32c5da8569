//! Emptying the least filled sheet: its pieces are pressed, one after another, into the sheets that have room.
//!
//! A piece is put on top of the others at a place chosen by chance and all are pulled apart (`separate`). Where
//! that succeeds the sheet keeps it. A sheet that ends up empty is saved.

use crate::figure::Missing;
use crate::random::Chance;
use crate::search::decode::{Filled, Layout};
use crate::search::filling::Piece;
use crate::search::{LOOKS_IN_ONE, Meter, Task, Watch};
use crate::separate::ground::Ground;
use crate::separate::look::Looks;
use crate::separate::rounds::{Patience, separate};
use crate::separate::state::{Loose, State};
use crate::separate::{Spot, float};
use crate::verify::apart;

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
    let (length, width) = task.problem.stock()[sheet.stock].trimmed(task.problem.rules());
    let fits = |&figure: &usize| {
        let own = task.figures.get(figure).size;
        own.x <= length && own.y <= width
    };
    let figure = task.figures.of_part(piece.part).iter().copied().find(fits)?;
    let loose = |piece: &Piece| {
        let at = Spot::new(float(piece.at.x), float(piece.at.y));
        Loose { part: piece.part, figure: piece.figure, at }
    };
    let mut pieces: Vec<Loose> = sheet.pieces.iter().map(loose).collect();
    let at = Spot::new(chance.share() * float(length), chance.share() * float(width));
    pieces.push(Loose { part: piece.part, figure, at });
    let ground = Ground::one(float(length), float(width));
    let missing = task.missing(sheet.stock, Spot::default());
    let mut state = State::among_fixed(task.table, ground, pieces, missing);
    let mut looks = Meter { used: 0, limit: (meter.limit - meter.used).saturating_mul(LOOKS_IN_ONE) };
    let free = separate(&mut state, PATIENCE, chance, &mut looks, watch);
    meter.used += looks.used.div_ceil(LOOKS_IN_ONE).max(1);
    free.then(|| snapped(task, &state.pieces[..state.movable], sheet.stock)).flatten()
}

impl Task<'_> {
    /// What is missing of a sheet whose trimmed corner lies at `low`.
    pub(crate) fn missing(&self, stock: usize, low: Spot) -> Vec<Loose> {
        let loose = |missing: &Missing| {
            let at = low + Spot::new(float(missing.at.x), float(missing.at.y));
            Loose { part: usize::MAX, figure: missing.figure, at }
        };
        self.figures.missing(stock).iter().map(loose).collect()
    }
}

/// The pieces on the grid; `None` when two come out nearer than the gap or one beyond the sheet.
pub(crate) fn snapped(task: &Task<'_>, loose: &[Loose], stock: usize) -> Option<Vec<Piece>> {
    let (length, width) = task.problem.stock()[stock].trimmed(task.problem.rules());
    let missing = task.figures.missing(stock);
    let piece = |loose: &Loose| Piece { part: loose.part, figure: loose.figure, at: loose.at.rounded() };
    let pieces: Vec<Piece> = loose.iter().map(piece).collect();
    let inside = |piece: &Piece| {
        let far = piece.at + task.figures.get(piece.figure).size;
        let within = 0 <= piece.at.x && 0 <= piece.at.y && far.x <= length && far.y <= width;
        within && task.figures.is_clear_of_missing(missing, task.figures.get(piece.figure), piece.at)
    };
    let outlines: Vec<_> =
        pieces.iter().map(|piece| task.figures.get(piece.figure).outline.shifted(piece.at)).collect();
    let gap = task.problem.rules().gap;
    let clear = (1..outlines.len()).all(|b| (0..b).all(|a| apart(&outlines[a], &outlines[b], gap)));
    (clear && pieces.iter().all(inside)).then_some(pieces)
}
