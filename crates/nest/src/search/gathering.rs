//! Gathering what is left of a sheet into one large drop.
//!
//! The pieces of a sheet are laid anew on the same sheet, from its left end and from its lower side, in several orders. A
//! layout whose largest drop is larger replaces the one before; nothing else changes, so cost and counts stay.

use crate::drop::drops;
use crate::random::Chance;
use crate::search::decode::{Filled, Layout, best_piece};
use crate::search::filling::{Filling, Toward};
use crate::search::{Effort, Meter, Task, Watch, order};

/// Share of the effort that all sheets together may take, one in so many.
const SHARE: u64 = 10;

/// Orders tried on a sheet from each end.
const ORDERS: u32 = 6;

/// The layout with larger drops, where drops are kept at all. Parts that are kept together stay as they lie.
pub(crate) fn run(task: &Task<'_>, mut layout: Layout, effort: &Effort, watch: &Watch<'_>) -> Layout {
    if task.problem.rules().least_drop == i64::MAX || !task.problem.together().is_empty() {
        return layout;
    }
    let mut meter = Meter { used: 0, limit: effort.evaluations / SHARE };
    // The emptiest sheet has most to gather.
    let mut turn: Vec<usize> = (0..layout.len()).collect();
    turn.sort_by_key(|&sheet| (task.doubled_area(&layout[sheet].pieces), sheet));
    for sheet in turn {
        let mut chance = Chance::new(effort.seed, sheet as u64);
        gather(task, &mut layout[sheet], &mut chance, &mut meter, watch);
    }
    layout
}

/// One sheet.
fn gather(task: &Task<'_>, filled: &mut Filled, chance: &mut Chance, meter: &mut Meter, watch: &Watch<'_>) {
    let mut largest = largest_drop(task, filled);
    for number in 0..ORDERS {
        let mut order: Vec<usize> = filled.pieces.iter().map(|piece| piece.part).collect();
        order::sort(task, &mut order, number % order::SORTED);
        if order::SORTED <= number {
            order::disturb(&mut order, chance);
        }
        for toward in [Toward::Left, Toward::Bottom] {
            if meter.limit <= meter.used || watch.is_stopped() {
                return;
            }
            let Some(laid) = laid(task, filled.stock, &order, toward, meter) else { continue };
            let drop = largest_drop(task, &laid);
            if largest < drop {
                (*filled, largest) = (laid, drop);
            }
        }
    }
}

/// The pieces laid on a sheet in this order; `None` when not all of them fit so.
fn laid(task: &Task<'_>, stock: usize, order: &[usize], toward: Toward, meter: &mut Meter) -> Option<Filled> {
    let mut filling = Filling::toward(task.problem, task.figures, stock, toward);
    for &part in order {
        let piece = best_piece(task, &mut filling, part, None, meter)?;
        filling.place(piece);
    }
    Some(Filled { stock, pieces: filling.into_pieces() })
}

/// Area of the largest drop that may be worth keeping; nothing where there is none.
fn largest_drop(task: &Task<'_>, filled: &Filled) -> i128 {
    let nest = task.nest(&vec![filled.clone()]);
    nest.sheets.iter().flat_map(|sheet| drops(task.problem, sheet)).map(|drop| drop.area()).max().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::AtomicBool;

    use geometry::grid::{GridOutline, GridPoint};

    use super::*;
    use crate::figure::Figures;
    use crate::problem::{Mirror, Part, Problem, Rules, Stock, StockShape, Turns};
    use crate::search::filling::Piece;
    use crate::separate::table::Table;
    use crate::verify::verify;

    /// Two bars strewn over a sheet so that no large rectangle is free: laid side by side they leave one.
    #[test]
    fn strewn_pieces_are_gathered_and_the_drop_grows() {
        let outline = GridOutline::rectangle(40_000, 8_000).unwrap();
        let part =
            Part { mark: String::new(), outline, quantity: 2, turns: Turns::Half, mirror: Mirror::Never };
        let shape = StockShape::Rectangle { length: 100_000, width: 50_000 };
        let stock = vec![Stock { name: String::new(), shape, price: None, limit: None }];
        let rules = Rules { gap: 300, edge_trim: 500, least_drop: 10_000 };
        let problem = Problem::new(vec![part], stock, rules).unwrap();
        let figures = Figures::new(&problem);
        let table = Table::new(&figures);
        let task = Task { problem: &problem, figures: &figures, table: &table, sizes: &[0], least: 0 };
        let figure = figures.of_part(0)[0];
        let piece = |x, y| Piece { part: 0, figure, at: GridPoint::new(x, y) };
        let strewn = vec![Filled { stock: 0, pieces: vec![piece(20_000, 10_000), piece(45_000, 30_000)] }];
        let stop = AtomicBool::new(false);
        let watch = Watch { progress: &|_| {}, stop: &stop };
        let effort = Effort { evaluations: 1_000, starts: 1, seed: 1 };
        let gathered = run(&task, strewn.clone(), &effort, &watch);
        assert_eq!(verify(&problem, &task.nest(&gathered)), Ok(()));
        assert!(largest_drop(&task, &strewn[0]) < largest_drop(&task, &gathered[0]));
        // Both on the lower side, end to end, leave 99,000 by 49,000 - 8,000 - 300.
        assert_eq!(largest_drop(&task, &gathered[0]), 99_000 * 40_700);
    }
}
