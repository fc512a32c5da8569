//! Checks a packing against the problem alone: its own code, nothing shared with the search.

use thiserror::Error;

use crate::rect::cuts::{CutFault, cuts};
use crate::rect::problem::{Cutting, Problem, Sheet};

/// What is wrong with a packing.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum Flaw {
    /// A piece is not cut as often as needed.
    #[error("piece {piece} is cut {cut} times, not {needed}")]
    Count {
        /// Which piece.
        piece: usize,
        /// How often it lies on the sheets.
        cut: usize,
        /// How often it is needed.
        needed: u32,
    },
    /// A piece that the problem does not have.
    #[error("sheet {sheet} holds piece {piece}, which is unknown")]
    Unknown {
        /// Which sheet.
        sheet: usize,
        /// The number found.
        piece: usize,
    },
    /// A piece is turned against its lay.
    #[error("sheet {sheet}: piece {piece} may not be turned")]
    Turned {
        /// Which sheet.
        sheet: usize,
        /// Which piece.
        piece: usize,
    },
    /// A piece lies over the edge.
    #[error("sheet {sheet}: piece {piece} lies over the edge")]
    Outside {
        /// Which sheet.
        sheet: usize,
        /// Which piece.
        piece: usize,
    },
    /// Two pieces are too close.
    #[error("sheet {sheet}: pieces {pieces:?} are too close")]
    Close {
        /// Which sheet.
        sheet: usize,
        /// The two pieces.
        pieces: (usize, usize),
    },
    /// The sheet cannot be cut edge to edge within the shear's limits.
    #[error("sheet {sheet}: {fault}")]
    Cuts {
        /// Which sheet.
        sheet: usize,
        /// Why not.
        fault: CutFault,
    },
}

/// Checks counts, lay, edges, gaps and, on a shear, the cuts.
///
/// # Errors
/// Every [`Flaw`] found.
pub fn verify(problem: &Problem, sheets: &[Sheet]) -> Result<(), Vec<Flaw>> {
    let mut flaws = Vec::new();
    let mut counts = vec![0_usize; problem.pieces().len()];
    for (number, sheet) in sheets.iter().enumerate() {
        let unknown = sheet.iter().find(|placed| problem.pieces().len() <= placed.piece);
        if let Some(placed) = unknown {
            flaws.push(Flaw::Unknown { sheet: number, piece: placed.piece });
            continue;
        }
        sheet.iter().for_each(|placed| counts[placed.piece] += 1);
        let before = flaws.len();
        layout(problem, number, sheet, &mut flaws);
        if let Cutting::Shear(shear) = problem.cutting()
            && before == flaws.len()
            && let Err(fault) = cuts(problem, sheet, shear)
        {
            flaws.push(Flaw::Cuts { sheet: number, fault });
        }
    }
    for (piece, (&cut, wanted)) in counts.iter().zip(problem.pieces()).enumerate() {
        if u32::try_from(cut) != Ok(wanted.quantity) {
            flaws.push(Flaw::Count { piece, cut, needed: wanted.quantity });
        }
    }
    if flaws.is_empty() { Ok(()) } else { Err(flaws) }
}

fn layout(problem: &Problem, sheet: usize, pieces: &Sheet, flaws: &mut Vec<Flaw>) {
    let (length, width) = problem.sheet();
    for (at, one) in pieces.iter().enumerate() {
        let (l, w) = problem.size(*one);
        if one.turned && !problem.pieces()[one.piece].may_turn {
            flaws.push(Flaw::Turned { sheet, piece: one.piece });
        }
        if one.x < 0 || one.y < 0 || length - l < one.x || width - w < one.y {
            flaws.push(Flaw::Outside { sheet, piece: one.piece });
        }
        for other in &pieces[at + 1..] {
            let (other_l, other_w) = problem.size(*other);
            let apart_x = (other.x - one.x - l).max(one.x - other.x - other_l);
            let apart_y = (other.y - one.y - w).max(one.y - other.y - other_w);
            if apart_x.max(apart_y) < problem.gap() {
                flaws.push(Flaw::Close { sheet, pieces: (one.piece, other.piece) });
            }
        }
    }
}
