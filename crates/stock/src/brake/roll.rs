//! The slip roll: bends of large radius.

use units::Length;

/// A slip roll.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SlipRoll {
    /// Widest sheet between its ends.
    pub length: Option<Length>,
    /// Least inside radius it rolls to.
    pub least_radius: Option<Length>,
}
