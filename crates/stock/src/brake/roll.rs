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

/// Half the way from the pinch to the rear roll, of the roll's least inside radius: rolls as thick as that asks for, which stand a
/// quarter of their thickness apart (common practice, no source).
const FLAT_END_SHARE: f64 = 1.25;

impl SlipRoll {
    /// About how much of a sheet stays flat at either end unless it is bent before: what reaches from the pinch half the way to the
    /// rear roll. An estimate from the least inside radius; none where that is not given.
    #[must_use]
    pub fn flat_end(&self) -> Option<Length> {
        self.least_radius.map(|radius| Length::from_millimetres(FLAT_END_SHARE * radius.millimetres()))
    }
}
