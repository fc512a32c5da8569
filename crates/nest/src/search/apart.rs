//! Pulling the pieces of sheets apart, and back onto the grid.

use crate::clear::apart;
use crate::figure::Missing;
use crate::random::Chance;
use crate::search::decode::{Filled, Layout};
use crate::search::filling::Piece;
use crate::search::{LOOKS_IN_ONE, Meter, Task, Watch};
use crate::separate::ground::Ground;
use crate::separate::rounds::{Patience, separate};
use crate::separate::state::{Loose, State};
use crate::separate::{Spot, float};

/// Steps between two sheets, beside gaps and trims: room for the frames around two offcuts.
const BETWEEN_STEPS: i64 = 5_000;

impl Task<'_> {
    /// Sheets side by side, each the rectangle inside its trim.
    pub(crate) fn ground(&self, sheets: &[usize]) -> Ground {
        let rules = self.problem.rules();
        let size = |&stock: &usize| {
            let (length, width) = self.problem.stock()[stock].trimmed(rules);
            (float(length), float(width))
        };
        let between = float(2 * (rules.gap + rules.edge_trim) + BETWEEN_STEPS);
        Ground::side_by_side(sheets.iter().map(size), between)
    }

    /// What is missing of a sheet whose trimmed corner lies at `low`.
    fn missing(&self, stock: usize, low: Spot) -> Vec<Loose> {
        let loose = |missing: &Missing| {
            let at = low + Spot::new(float(missing.at.x), float(missing.at.y));
            Loose { part: usize::MAX, figure: missing.figure, at }
        };
        self.figures.missing(stock).iter().map(loose).collect()
    }
}

/// The piece on a sheet whose trimmed corner lies at `low`.
pub(crate) fn loose(piece: &Piece, low: Spot) -> Loose {
    let at = low + Spot::new(float(piece.at.x), float(piece.at.y));
    Loose { part: piece.part, figure: piece.figure, at }
}

/// Pulls pieces apart that were put on a [`Task::ground`] of these sheets; every sheet with its pieces, in the order
/// given, or `None` when that fails or two come out too near.
pub(crate) fn pulled_apart(
    task: &Task<'_>,
    (sheets, ground): (&[usize], Ground),
    pieces: Vec<Loose>,
    patience: Patience,
    chance: &mut Chance,
    meter: &mut Meter,
    watch: &Watch<'_>,
) -> Option<Layout> {
    let rooms = sheets.iter().zip(ground.rooms());
    let missing = rooms.flat_map(|(&stock, room)| task.missing(stock, room.low)).collect();
    let mut state = State::among_fixed(task.table, ground, pieces, missing);
    let mut looks = Meter { used: 0, limit: (meter.limit - meter.used).saturating_mul(LOOKS_IN_ONE) };
    let free = separate(&mut state, patience, chance, &mut looks, watch);
    meter.used += looks.used.div_ceil(LOOKS_IN_ONE).max(1);
    if !free {
        return None;
    }
    let mut on_sheets: Vec<Vec<Loose>> = vec![Vec::new(); sheets.len()];
    for piece in &state.pieces[..state.movable] {
        let room = state.ground.room_at(piece.at);
        let low = state.ground.rooms()[room].low;
        on_sheets[room].push(Loose { at: piece.at - low, ..*piece });
    }
    let filled = |(&stock, pieces): (&usize, Vec<Loose>)| {
        Some(Filled { stock, pieces: snapped(task, &pieces, stock)? })
    };
    sheets.iter().zip(on_sheets).map(filled).collect()
}

/// The pieces on the grid; `None` when two come out nearer than the gap or one beyond the sheet.
fn snapped(task: &Task<'_>, loose: &[Loose], stock: usize) -> Option<Vec<Piece>> {
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
