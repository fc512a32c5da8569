//! Forces: an integer count of micronewtons.

use crate::decimal::{print_ratio, read_with_unit};
use crate::error::ReadError;
use crate::mass::Mass;
use crate::rounding;

const KNOWN_UNITS: &str = "N, lbf";
const MICRONEWTONS_PER_NEWTON: i128 = 1_000_000;
/// Micronewtons in a pound-force, times [`POUND_SCALE`]: 0.45359237 kg at standard gravity, exactly.
const POUND_FORCE_SCALED: i128 = 44_482_216_152_605;
const POUND_SCALE: i128 = 10_000_000;
/// The largest force that is read: a meganewton, a hundred tons.
const LARGEST_MICRONEWTONS: i128 = 1_000_000 * MICRONEWTONS_PER_NEWTON;
/// Standard gravity, m/s², exactly (3rd General Conference on Weights and Measures, 1901).
const STANDARD_GRAVITY: f64 = 9.806_65;

/// A force.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Force(i64);

/// The unit that a force is printed in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ForceUnit {
    /// Pounds-force.
    PoundForce,
    /// Newtons.
    Newton,
}

impl Force {
    /// A calculated force in newtons, rounded to the nearest micronewton; ends of the range as in
    /// [`rounding::whole_count`].
    #[must_use]
    pub fn from_newtons(newtons: f64) -> Self {
        Self(rounding::whole_count(newtons * MICRONEWTONS_PER_NEWTON as f64))
    }

    /// What `mass` weighs at standard gravity, 9.80665 m/s².
    #[must_use]
    pub fn weight_of(mass: Mass) -> Self {
        Self::from_newtons(mass.kilograms() * STANDARD_GRAVITY)
    }

    /// The force in newtons.
    #[must_use]
    pub fn newtons(self) -> f64 {
        self.0 as f64 / MICRONEWTONS_PER_NEWTON as f64
    }

    /// The force in pounds-force.
    #[must_use]
    pub fn pounds_force(self) -> f64 {
        self.0 as f64 * POUND_SCALE as f64 / POUND_FORCE_SCALED as f64
    }

    /// Reads `48 lbf` or `200 N`.
    ///
    /// # Errors
    /// A [`ReadError`] that says what is wrong; the unit must be written.
    pub fn read(text: &str) -> Result<Self, ReadError> {
        let (negative, decimal, unit) = read_with_unit(text)?;
        let count = match unit.to_lowercase().as_str() {
            "n" => decimal.count(MICRONEWTONS_PER_NEWTON, 1)?,
            "lbf" => decimal.count(POUND_FORCE_SCALED, POUND_SCALE)?,
            "" => return Err(ReadError::UnitMissing { known: KNOWN_UNITS }),
            _ => return Err(ReadError::UnknownUnit { unit, known: KNOWN_UNITS }),
        };
        if count > LARGEST_MICRONEWTONS {
            return Err(ReadError::TooLarge { limit: "a meganewton" });
        }
        Ok(Self(rounding::narrow(if negative { -count } else { count })))
    }

    /// The force as it prints with so many places, to the next micronewton: what is worked from it can be redone by hand.
    #[must_use]
    pub fn as_printed(self, unit: ForceUnit, places: u8) -> Self {
        let (scale, per_unit) = match unit {
            ForceUnit::Newton => (1, MICRONEWTONS_PER_NEWTON),
            ForceUnit::PoundForce => (POUND_SCALE, POUND_FORCE_SCALED),
        };
        let ten = 10_i128.pow(u32::from(places.min(9)));
        let nearest = |top: i128, bottom: i128| (2 * top.abs() + bottom) / (2 * bottom) * top.signum();
        let steps = nearest(i128::from(self.0) * scale * ten, per_unit);
        Self(i64::try_from(nearest(steps * per_unit, scale * ten)).unwrap_or(self.0))
    }

    /// Prints the number and its unit.
    #[must_use]
    pub fn print_with_unit(self, unit: ForceUnit, places: u8) -> String {
        let count = i128::from(self.0);
        match unit {
            ForceUnit::Newton => format!("{} N", print_ratio(count, MICRONEWTONS_PER_NEWTON, places)),
            ForceUnit::PoundForce => {
                format!("{} lbf", print_ratio(count * POUND_SCALE, POUND_FORCE_SCALED, places))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pound_weighs_a_pound_force() {
        let pound = Force::weight_of(Mass::from_pounds(1.0));
        assert_eq!(pound.print_with_unit(ForceUnit::PoundForce, 6), "1.000000 lbf");
        // 4.4482216152605 N exactly, from 0.45359237 × 9.80665.
        assert_eq!(pound.print_with_unit(ForceUnit::Newton, 5), "4.44822 N");
        assert_eq!(Force::read("10 lbf"), Ok(Force::from_newtons(44.482_216)));
        assert!((Force::read("10 lbf").unwrap_or_default().pounds_force() - 10.0).abs() < 0.000_001);
        let rounded = Force::read("48.37 lbf").unwrap_or_default().as_printed(ForceUnit::PoundForce, 1);
        assert_eq!(rounded.print_with_unit(ForceUnit::PoundForce, 4), "48.4000 lbf");
        assert_eq!(Force::read("10"), Err(ReadError::UnitMissing { known: KNOWN_UNITS }));
        assert!(Force::read("10 kg").is_err());
    }
}
