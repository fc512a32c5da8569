//! How short a roll could ever be: proven lower limits on the length used.
//!
//! Area; the longest part; and weights of the widths. A function f of widths is taken that keeps every set of widths that fits
//! across the roll within weight 1 (as in `weights.rs`: the plain share, or the share with widths above 1 − ε counted full and
//! below ε not at all). A line across the roll meets pieces that lie across one another, so the f of their widths add up to 1 at
//! most, and all lengths times f(width) to the length of the roll. Pieces more than half as wide as the roll are the plainest
//! case: each counts with all its length. Pieces count as a rectangle within them, at the pose in which that counts least.

use crate::bound::area::Metal;
use crate::bound::weights::{Blocks, heaviest_lengths, longest_lengths, row_length};
use crate::problem::Problem;

/// Which argument proves the least length of a roll.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RollReason {
    /// The parts have so much area.
    Area,
    /// One part is so long at every turn.
    Longest,
    /// Parts too wide to lie across from one another lie in a row.
    Row,
    /// Weights of the parts' widths.
    Weights,
}

/// The least length that a roll can be used to, in steps, edge trim at both ends included; `problem` has one upright sheet, the
/// roll.
pub(crate) fn least_length(problem: &Problem) -> (i64, RollReason) {
    let (_, width) = problem.stock()[0].trimmed(problem.rules());
    let gap = problem.least_apart();
    let blocks = Blocks::of(problem);
    let by_area = |gap: i64| {
        // Twice the area over twice the width, all grown by half the gap, which the ends are, too.
        let needed = Metal::of(problem, gap).doubled();
        let across = 2 * i128::from(width + gap);
        (needed + across - 1).div_euclid(across.max(1)) - i128::from(gap)
    };
    let mut best = (by_area(0).max(by_area(gap)), RollReason::Area);
    let others = [
        (longest_lengths(&blocks, width), RollReason::Longest),
        (row_length(&blocks, width, gap), RollReason::Row),
        (heaviest_lengths(&blocks, width, gap), RollReason::Weights),
    ];
    for (length, reason) in others {
        if best.0 < length {
            best = (length, reason);
        }
    }
    let trimmed = i64::try_from(best.0.max(0)).unwrap_or(i64::MAX);
    (trimmed.saturating_add(2 * problem.rules().edge_trim), best.1)
}
