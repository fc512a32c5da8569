//! Judging a nest in exact integers, by a path of its own.
//!
//! Nothing here is shared with the search but the part outlines and their turning: no no-fit polygons, no grown
//! outlines, no floating point, and none of the questions of [`crate::clear`]. Two pieces are apart by the gap when no two of their edges come nearer (squared
//! distances compared as fractions) and neither lies in the metal of the other.

mod disjoint;
mod inside;
mod matching;

use geometry::grid::{GridOutline, GridPoint, Turn};
use thiserror::Error;

use crate::problem::{Mirror, Problem};
use crate::sheet::{Nest, Placement};

pub use disjoint::keeps_gap;
use inside::inside_trimmed;
use matching::Saw;

/// Something wrong with a nest. `sheet` and `piece` count from 0.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum Fault {
    /// A sheet of a size that is not in the problem, or a piece of no part.
    #[error("sheet {sheet}: no such stock or part")]
    Unknown {
        /// Which sheet.
        sheet: usize,
    },
    /// A turn the part may not take.
    #[error("sheet {sheet}, piece {piece}: turned by {} thousandths of a degree, which is not allowed", turn.millidegrees())]
    Turn {
        /// Which sheet.
        sheet: usize,
        /// Which piece on it.
        piece: usize,
        /// The turn.
        turn: Turn,
    },
    /// A piece lies on its face, which the part may not.
    #[error("sheet {sheet}, piece {piece}: lies turned over, which is not allowed")]
    TurnedOver {
        /// Which sheet.
        sheet: usize,
        /// Which piece on it.
        piece: usize,
    },
    /// A piece reaches beyond the trimmed sheet.
    #[error("sheet {sheet}, piece {piece}: reaches beyond the trimmed sheet")]
    Outside {
        /// Which sheet.
        sheet: usize,
        /// Which piece on it.
        piece: usize,
    },
    /// Two pieces nearer than the gap.
    #[error("sheet {sheet}: pieces {first} and {second} are nearer than the gap")]
    TooNear {
        /// Which sheet.
        sheet: usize,
        /// The first piece.
        first: usize,
        /// The second piece.
        second: usize,
    },
    /// Too many or too few of a part.
    #[error("part {part}: {found} placed, {needed} needed")]
    Count {
        /// Which part.
        part: usize,
        /// Pieces placed.
        found: u32,
        /// Pieces needed.
        needed: u32,
    },
    /// Parts kept together lie on several sheets.
    #[error("group {group}: its pieces lie on {sheets} sheets")]
    Parted {
        /// Which group.
        group: usize,
        /// On how many sheets its pieces lie.
        sheets: usize,
    },
    /// The lay does not run the same way on parts kept together.
    #[error("group {group}: the lay does not run the same way on all of its pieces")]
    Lay {
        /// Which group.
        group: usize,
    },
    /// More sheets of a size than there are.
    #[error("stock {stock}: {used} used of {limit}")]
    Limit {
        /// Which size.
        stock: usize,
        /// Sheets used.
        used: u32,
        /// Sheets there are.
        limit: u32,
    },
}

/// Judges a nest.
///
/// # Errors
/// Every [`Fault`] found: pieces outside the trimmed sheet or nearer than the gap, turns or faces not allowed, wrong
/// counts, more sheets than there are.
pub fn verify(problem: &Problem, nest: &Nest) -> Result<(), Vec<Fault>> {
    let mut faults = Vec::new();
    let mut found = vec![0_u32; problem.parts().len()];
    let mut used = vec![0_u32; problem.stock().len()];
    for (index, sheet) in nest.sheets.iter().enumerate() {
        let unknown = |placed: &Placement| problem.parts().len() <= placed.part;
        if problem.stock().len() <= sheet.stock || sheet.placements.iter().any(unknown) {
            faults.push(Fault::Unknown { sheet: index });
            continue;
        }
        used[sheet.stock] += 1;
        sheet.placements.iter().for_each(|placed| found[placed.part] += 1);
        sheet_faults(problem, index, sheet.stock, &sheet.placements, &mut faults);
    }
    count_faults(problem, &found, &used, &mut faults);
    together_faults(problem, nest, &mut faults);
    if faults.is_empty() { Ok(()) } else { Err(faults) }
}

fn sheet_faults(
    problem: &Problem,
    sheet: usize,
    stock: usize,
    placements: &[Placement],
    faults: &mut Vec<Fault>,
) {
    let (size, missing) = (problem.stock()[stock].size(), problem.stock()[stock].missing());
    let mut outlines: Vec<GridOutline> = Vec::with_capacity(placements.len());
    for (piece, placed) in placements.iter().enumerate() {
        let part = &problem.parts()[placed.part];
        if !part.turns.allows(placed.pose.turn) {
            faults.push(Fault::Turn { sheet, piece, turn: placed.pose.turn });
        }
        if placed.pose.over && part.mirror != Mirror::Allowed {
            faults.push(Fault::TurnedOver { sheet, piece });
        }
        let within = |n: i64| n.abs() < geometry::grid::GRID_LIMIT / 4;
        if !within(placed.shift.x) || !within(placed.shift.y) {
            faults.push(Fault::Outside { sheet, piece });
            outlines.push(problem.parts()[placed.part].outline.shifted(GridPoint::default()));
            continue;
        }
        let outline = placed.outline(problem);
        if !inside_trimmed(size, &missing, problem.rules(), &outline) {
            faults.push(Fault::Outside { sheet, piece });
        }
        outlines.push(outline);
    }
    for second in 1..outlines.len() {
        for first in 0..second {
            let (one, other) = (&outlines[first], &outlines[second]);
            let saw = |kerf| Saw { kerf, least: problem.rules().gap };
            let shares = |kerf| matching::may_be_near(one, other, &outlines, saw(kerf));
            if !keeps_gap(one, other, problem.rules().gap) && !problem.shared_kerf().is_some_and(shares) {
                faults.push(Fault::TooNear { sheet, first, second });
            }
        }
    }
}

fn together_faults(problem: &Problem, nest: &Nest, faults: &mut Vec<Fault>) {
    for (group, together) in problem.together().iter().enumerate() {
        let own = |placed: &&Placement| together.parts.contains(&placed.part);
        let sheets =
            nest.sheets.iter().filter(|sheet| sheet.placements.iter().any(|placed| own(&placed))).count();
        if 1 < sheets {
            faults.push(Fault::Parted { group, sheets });
        }
        let half = 2 * Turn::QUARTER.millidegrees();
        let placed = nest.sheets.iter().flat_map(|sheet| &sheet.placements);
        let mut lays = placed.filter(own).map(|placed| placed.pose.turn.millidegrees() % half);
        let first = lays.next();
        if together.same_lay && lays.any(|lay| Some(lay) != first) {
            faults.push(Fault::Lay { group });
        }
    }
}

fn count_faults(problem: &Problem, found: &[u32], used: &[u32], faults: &mut Vec<Fault>) {
    for (part, &found) in found.iter().enumerate() {
        let needed = problem.parts()[part].quantity;
        if found != needed {
            faults.push(Fault::Count { part, found, needed });
        }
    }
    for (stock, &used) in used.iter().enumerate() {
        if let Some(limit) = problem.stock()[stock].limit.filter(|&limit| limit < used) {
            faults.push(Fault::Limit { stock, used, limit });
        }
    }
}
