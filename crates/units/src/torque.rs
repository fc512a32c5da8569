//! Moments of force about a line: an integer count of micronewton-millimetres.

use crate::decimal::print_ratio;
use crate::force::Force;
use crate::rounding;

const MICRO: f64 = 1_000_000.0;
const COUNT_PER_NEWTON_METRE: i128 = 1_000_000_000;
/// Micronewton-millimetres in an inch-pound, times [`INCH_POUND_SCALE`]: 4.4482216152605 N × 25.4 mm, exactly.
const INCH_POUND_SCALED: i128 = 1_129_848_290_276_167;
const INCH_POUND_SCALE: i128 = 10_000_000;

/// A moment about a line, such as the pin of a hinge. Sums stop at the ends of the range.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Torque(i64);

/// The unit that a moment is printed in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TorqueUnit {
    /// Inch-pounds: pounds-force times inches.
    InchPound,
    /// Newton-metres.
    NewtonMetre,
}

impl Torque {
    /// No moment.
    pub const ZERO: Self = Self(0);

    /// A force on an arm, mm.
    #[must_use]
    pub fn of(force: Force, arm_mm: f64) -> Self {
        Self::from_newton_millimetres(force.newtons() * arm_mm)
    }

    /// A calculated moment, rounded to the nearest micronewton-millimetre.
    #[must_use]
    pub fn from_newton_millimetres(moment: f64) -> Self {
        Self(rounding::whole_count(moment * MICRO))
    }

    /// In newton-millimetres.
    #[must_use]
    pub fn newton_millimetres(self) -> f64 {
        self.0 as f64 / MICRO
    }

    /// In the given unit.
    #[must_use]
    pub fn number(self, unit: TorqueUnit) -> f64 {
        let (scale, per_unit) = unit.ratio();
        self.0 as f64 * scale as f64 / per_unit as f64
    }

    /// The moment as it prints with so many places, to the next micronewton-millimetre: sums of such moments are sums of
    /// printed numbers.
    #[must_use]
    pub fn as_printed(self, unit: TorqueUnit, places: u8) -> Self {
        let (scale, per_unit) = unit.ratio();
        let ten = 10_i128.pow(u32::from(places.min(9)));
        let nearest = |top: i128, bottom: i128| (2 * top.abs() + bottom) / (2 * bottom) * top.signum();
        let steps = nearest(i128::from(self.0) * scale * ten, per_unit);
        Self(i64::try_from(nearest(steps * per_unit, scale * ten)).unwrap_or(self.0))
    }

    /// Prints the number, without the unit.
    #[must_use]
    pub fn print(self, unit: TorqueUnit, places: u8) -> String {
        let (scale, per_unit) = unit.ratio();
        print_ratio(i128::from(self.0) * scale, per_unit, places)
    }

    /// Prints the number and its unit.
    #[must_use]
    pub fn print_with_unit(self, unit: TorqueUnit, places: u8) -> String {
        format!("{} {}", self.print(unit, places), unit.name())
    }
}

impl TorqueUnit {
    /// Decimals that moments print with: as fine in either unit, a tenth of an inch-pound or a hundredth of a newton-metre.
    #[must_use]
    pub const fn places(self) -> u8 {
        match self {
            Self::InchPound => 1,
            Self::NewtonMetre => 2,
        }
    }

    /// The unit's short name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::InchPound => "in-lb",
            Self::NewtonMetre => "N·m",
        }
    }

    const fn ratio(self) -> (i128, i128) {
        match self {
            Self::InchPound => (INCH_POUND_SCALE, INCH_POUND_SCALED),
            Self::NewtonMetre => (1, COUNT_PER_NEWTON_METRE),
        }
    }
}

counted!(Torque, i64);

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mass::Mass;

    #[test]
    fn pounds_on_inches_are_inch_pounds() {
        let moment = Torque::of(Force::weight_of(Mass::from_pounds(37.0)), 13.0 * 25.4);
        assert_eq!(moment.print_with_unit(TorqueUnit::InchPound, 3), "481.000 in-lb");
        // 481 × 0.1129848290276167 N·m.
        assert_eq!(moment.print_with_unit(TorqueUnit::NewtonMetre, 3), "54.346 N·m");
    }
}
