//! Checks a cutting list against its problem, on a path of its own: it shares no code with the search.

use thiserror::Error;

use super::problem::Problem;
use super::solution::CutStick;

/// What is wrong with a cutting list.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum Fault {
    /// A stick or piece number that the problem does not have.
    #[error("cut stick {cut}: no such stick or piece")]
    Unknown {
        /// Number of the cut stick.
        cut: usize,
    },
    /// The pieces and the cuts between them are longer than the trimmed stick.
    #[error("cut stick {cut}: {used} steps of pieces and cuts on {usable} steps of stick")]
    TooFull {
        /// Number of the cut stick.
        cut: usize,
        /// Pieces and the cuts between them.
        used: i64,
        /// Stick less both trimmed ends.
        usable: i64,
    },
    /// A stick from which nothing is cut.
    #[error("cut stick {cut}: nothing is cut from it")]
    Empty {
        /// Number of the cut stick.
        cut: usize,
    },
    /// The rest written on the list is not what the saw leaves.
    #[error("cut stick {cut}: rest {told} should be {left}")]
    Rest {
        /// Number of the cut stick.
        cut: usize,
        /// As written.
        told: i64,
        /// As measured.
        left: i64,
    },
    /// A piece cut more or less often than asked.
    #[error("piece {piece} is cut {cut} times, not {asked}")]
    Count {
        /// Number of the piece.
        piece: usize,
        /// Times cut.
        cut: usize,
        /// Times asked.
        asked: usize,
    },
    /// More sticks of one length than there are.
    #[error("stick {stick} is taken {taken} times, there are {limit}")]
    Limit {
        /// Number of the stick length.
        stick: usize,
        /// Times taken.
        taken: usize,
        /// How many there are.
        limit: usize,
    },
}

/// Finds every fault of a cutting list.
///
/// # Errors
/// The faults: pieces cut too often or not often enough, sticks overfull once kerf and end trim are taken off,
/// more sticks than there are, rests wrongly told.
pub fn verify(problem: &Problem, sticks: &[CutStick]) -> Result<(), Vec<Fault>> {
    let mut faults = Vec::new();
    let mut cut_times = vec![0_usize; problem.pieces().len()];
    let mut taken = vec![0_usize; problem.sticks().len()];
    for (cut, stick) in sticks.iter().enumerate() {
        let known = stick.stick < taken.len() && stick.pieces.iter().all(|&piece| piece < cut_times.len());
        if !known {
            faults.push(Fault::Unknown { cut });
            continue;
        }
        taken[stick.stick] += 1;
        stick.pieces.iter().for_each(|&piece| cut_times[piece] += 1);
        walk(problem, cut, stick, &mut faults);
    }
    for (piece, (&cut, asked)) in cut_times.iter().zip(problem.pieces()).enumerate() {
        if cut != asked.quantity {
            faults.push(Fault::Count { piece, cut, asked: asked.quantity });
        }
    }
    for (stick, (&taken, stock)) in taken.iter().zip(problem.sticks()).enumerate() {
        if let Some(limit) = stock.limit.filter(|&limit| limit < taken) {
            faults.push(Fault::Limit { stick, taken, limit });
        }
    }
    if faults.is_empty() { Ok(()) } else { Err(faults) }
}

/// Walks along one stick as the saw does, from the trimmed end.
fn walk(problem: &Problem, cut: usize, stick: &CutStick, faults: &mut Vec<Fault>) {
    let saw = problem.saw();
    let whole = problem.sticks()[stick.stick].length;
    let start = saw.end_trim;
    let (mut blade, mut end) = (start, start);
    for &piece in &stick.pieces {
        end = blade + problem.pieces()[piece].length;
        blade = end + saw.kerf;
    }
    if stick.pieces.is_empty() {
        faults.push(Fault::Empty { cut });
    }
    if whole - saw.end_trim < end {
        faults.push(Fault::TooFull { cut, used: end - start, usable: whole - 2 * saw.end_trim });
    }
    let left = if whole < blade { 0 } else { whole - blade };
    if left != stick.rest {
        faults.push(Fault::Rest { cut, told: stick.rest, left });
    }
}
