//! Emptying the least filled sheet: its pieces go, one after another, to the sheets that have room.
//!
//! A piece that no free place takes is put on top of the others at a place chosen by chance and all are pulled apart
//! (`separate`). Where that fails it is tried in the place of a smaller piece, which goes back instead. A sheet that ends
//! up empty is saved.

use crate::random::Chance;
use crate::search::apart::{loose, pulled_apart};
use crate::search::decode::{self, Filled, Layout};
use crate::search::filling::{Filling, Piece};
use crate::search::order;
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

/// Moves what it can from the least filled sheets to the others until the evaluations are used up or nothing gets on.
pub(crate) fn run(
    task: &Task<'_>,
    layout: &Layout,
    chance: &mut Chance,
    meter: &mut Meter,
    watch: &Watch<'_>,
) -> Layout {
    Emptying { task, chance, meter, watch }.run(layout.clone())
}

/// What every move needs.
struct Emptying<'a> {
    task: &'a Task<'a>,
    chance: &'a mut Chance,
    meter: &'a mut Meter,
    watch: &'a Watch<'a>,
}

impl Emptying<'_> {
    fn run(&mut self, mut layout: Layout) -> Layout {
        let task = self.task;
        let area = |filled: &Filled| task.doubled_area(&filled.pieces);
        let mut idle = 0;
        while 1 < layout.len() && idle < IDLE_PASSES && !self.is_over() {
            // A pass without room anywhere looks at nothing, yet must end some time.
            self.meter.used += 1;
            layout.sort_by_key(|filled| (task.problem.is_free(filled.stock), area(filled)));
            // The least filled sheet first; where it stays as it was, some room is made on the others by turns.
            let rank = if idle % 2 == 0 { 0 } else { (1 + idle / 2) % layout.len() };
            let before = area(&layout[rank]);
            idle += 1;
            let Some((others, rest)) = self.emptied(&layout, rank) else { continue };
            if rank == 0 && rest.iter().map(area).sum::<i128>() < before {
                idle = 0;
            }
            layout = [others, rest].concat();
        }
        layout
    }

    fn is_over(&self) -> bool {
        self.meter.limit <= self.meter.used || self.watch.is_stopped()
    }

    /// The other sheets after what they took from one, and what is left over, laid down anew since it lay among other
    /// pieces: on a cheaper sheet where one holds it. `None` when it would cost more than the sheet did, and for a sheet that
    /// costs nothing, which is not emptied.
    fn emptied(&mut self, layout: &Layout, rank: usize) -> Option<(Layout, Layout)> {
        let (task, from) = (self.task, &layout[rank]);
        if task.problem.is_free(from.stock) {
            return None;
        }
        let mut others = layout[rank + 1..].to_vec();
        let mut moved = from.pieces.clone();
        let mut stays = Vec::new();
        if rank != 0 {
            self.chance.shuffle(&mut moved);
            stays = moved.split_off(SOME.min(moved.len()));
        }
        let left = [self.pass(moved, &mut others), stays].concat();
        others.extend_from_slice(&layout[..rank]);
        let rest = laid_anew(task, &left, &others, self.meter)?;
        let cost: i128 = rest.iter().map(|filled| task.cost(filled.stock)).sum();
        (cost <= task.cost(from.stock)).then_some((others, rest))
    }

    /// Tries each piece, largest first, on each sheet, then in the place of a smaller piece there; what is left over.
    fn pass(&mut self, mut waiting: Vec<Piece>, layout: &mut Layout) -> Vec<Piece> {
        waiting.sort_by_key(|piece| std::cmp::Reverse(area(self.task, piece)));
        let mut left = Vec::new();
        for piece in waiting {
            if !self.added(piece, layout) {
                left.push(self.exchanged(piece, layout).unwrap_or(piece));
            }
        }
        left
    }

    /// Puts the piece on some sheet; false when none takes it.
    fn added(&mut self, piece: Piece, layout: &mut Layout) -> bool {
        let slips = |sheet: &mut Filled| {
            let place = slipped_in(self.task, sheet, piece, self.meter);
            sheet.pieces.extend(place);
            place.is_some()
        };
        layout.iter_mut().any(slips)
            || layout.iter_mut().any(|sheet| {
                let pressed = self.pressed(sheet, piece);
                pressed.map(|pieces| sheet.pieces = pieces).is_some()
            })
    }

    /// Puts the piece on some sheet in the place of a smaller one, which is returned. The least filled sheet holds less with
    /// every exchange, so they come to an end.
    fn exchanged(&mut self, piece: Piece, layout: &mut Layout) -> Option<Piece> {
        let own = area(self.task, &piece);
        for sheet in layout {
            let smaller: Vec<usize> =
                (0..sheet.pieces.len()).filter(|&at| area(self.task, &sheet.pieces[at]) < own).collect();
            if smaller.is_empty() {
                continue;
            }
            let mut tried = sheet.clone();
            let out = tried.pieces.remove(smaller[self.chance.below(smaller.len())]);
            if let Some(pieces) = self.pressed(&tried, piece) {
                sheet.pieces = pieces;
                return Some(out);
            }
        }
        None
    }

    /// The sheet's pieces with one more among them; `None` when it has no room, or they could not be pulled apart.
    fn pressed(&mut self, sheet: &Filled, piece: Piece) -> Option<Vec<Piece>> {
        if !has_room(self.task, sheet, piece) || self.is_over() {
            return None;
        }
        let (task, sheets) = (self.task, [sheet.stock]);
        let ground = task.ground(&sheets);
        let [room] = ground.rooms() else { return None };
        let (low, high) = (room.low, room.high);
        let fits = |&figure: &usize| ground.holds(task.table.size(figure));
        let figure = task.figures.of_part(piece.part).iter().copied().find(fits)?;
        let mut pieces: Vec<Loose> = sheet.pieces.iter().map(|piece| loose(piece, low)).collect();
        let at = Spot::new(self.chance.share() * high.x, self.chance.share() * high.y);
        pieces.push(Loose { part: piece.part, figure, at });
        let (chance, meter) = (&mut *self.chance, &mut *self.meter);
        let mut layout = pulled_apart(task, (&sheets, ground), pieces, PATIENCE, chance, meter, self.watch)?;
        layout.pop().map(|filled| filled.pieces)
    }
}

/// The pieces on sheets beside those of `others`, the largest first.
fn laid_anew(task: &Task<'_>, pieces: &[Piece], others: &Layout, meter: &mut Meter) -> Option<Layout> {
    let mut parts: Vec<usize> = pieces.iter().map(|piece| piece.part).collect();
    order::sort(task, &mut parts, order::BY_AREA);
    decode::fill(task, &parts, &mut task.sheets_beside(others), meter)
}

fn area(task: &Task<'_>, piece: &Piece) -> i128 {
    task.figures.get(piece.figure).doubled_area
}

/// A free place for the piece as the others lie.
fn slipped_in(task: &Task<'_>, sheet: &Filled, piece: Piece, meter: &mut Meter) -> Option<Piece> {
    let mut filling = Filling::new(task.problem, task.figures, sheet.stock);
    sheet.pieces.iter().for_each(|&piece| filling.place(piece));
    decode::best_piece(task, &mut filling, piece.part, None, meter)
}

fn has_room(task: &Task<'_>, sheet: &Filled, piece: Piece) -> bool {
    let (length, width) = task.problem.stock()[sheet.stock].trimmed(task.problem.rules());
    let fits = task.figures.of_part(piece.part).iter().any(|&figure| {
        let size = task.figures.get(figure).size;
        size.x <= length && size.y <= width
    });
    let filled = task.doubled_area(&sheet.pieces) + task.doubled_area(&[piece]);
    fits && 1000 * filled <= FULL_PERMILLE * task.doubled_room(sheet.stock)
}
