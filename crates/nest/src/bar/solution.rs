//! A cutting list, stick by stick, with what it costs and what is proved about it.

use super::problem::Problem;
use super::proof::Proof;

/// One stick and what is cut from it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CutStick {
    /// Number of the stick length in the problem.
    pub stick: usize,
    /// Numbers of the pieces in cutting order, longest first.
    pub pieces: Vec<usize>,
    /// What is left after the last cut, in steps, the untrimmed far end included.
    pub rest: i64,
}

/// A rest long enough to keep.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Drop {
    /// Number of the cut stick it comes from.
    pub from: usize,
    /// Its length, in steps.
    pub length: i64,
}

/// A cutting list that has passed [`verify`](super::verify()).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Solution {
    /// The sticks, in stock order, fullest first.
    pub sticks: Vec<CutStick>,
    /// How many sticks are cut.
    pub count: usize,
    /// The prices of all sticks, added.
    pub cost: i64,
    /// No cutting list costs less than this.
    pub lower_bound: i64,
    /// Whether `cost` is proved least.
    pub proved: bool,
    /// Why no list costs less than `lower_bound`, for an independent check.
    pub proof: Proof,
    /// The rests worth keeping.
    pub drops: Vec<Drop>,
    /// Exchanges of the linear program made.
    pub evaluations: u64,
}

/// What is left of a stick after these pieces: the start is trimmed, and each piece is followed by a cut.
///
/// The last cut may run off the end; then nothing is left.
pub(super) fn rest(problem: &Problem, stick: usize, pieces: &[usize]) -> i64 {
    let saw = problem.saw();
    let used: i64 = pieces.iter().map(|&piece| problem.pieces()[piece].length + saw.kerf).sum();
    (problem.sticks()[stick].length - saw.end_trim - used).max(0)
}
