//! The weight of sheet: an integer count of micrograms in a square metre.

use crate::area::Area;
use crate::decimal::{print_ratio, read_with_unit};
use crate::density::Density;
use crate::error::ReadError;
use crate::length::{Length, NANOMETRES_PER_INCH};
use crate::mass::{MICROGRAMS_PER_POUND, Mass};
use crate::rounding;

const KNOWN_UNITS: &str = "lb/ft2, kg/m2";
const MICROGRAMS_PER_KILOGRAM: i128 = 1_000_000_000;
const SQUARE_NANOMETRES_PER_SQUARE_METRE: i128 = 1_000_000_000_000_000_000;
/// The heaviest sheet that is read, in kilograms in a square metre: 127 mm of steel.
const LARGEST_KILOGRAMS: i128 = 1000;

/// The mass of one square metre of sheet, above zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct MassPerArea(i64);

/// The unit that a weight of sheet is printed in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MassPerAreaUnit {
    /// Pounds in a square foot.
    PoundPerSquareFoot,
    /// Kilograms in a square metre.
    KilogramPerSquareMetre,
}

impl MassPerArea {
    /// A weight of sheet of so many micrograms in a square metre.
    ///
    /// # Errors
    /// [`ReadError::Negative`] for zero or less, [`ReadError::TooLarge`] above 1000 kg/m2.
    pub fn from_micrograms_per_square_metre(micrograms: i64) -> Result<Self, ReadError> {
        if micrograms <= 0 {
            return Err(ReadError::Negative);
        }
        if i128::from(micrograms) > LARGEST_KILOGRAMS * MICROGRAMS_PER_KILOGRAM {
            return Err(ReadError::TooLarge { limit: "1000 kg/m2" });
        }
        Ok(Self(micrograms))
    }

    /// The weight of sheet in micrograms in a square metre.
    #[must_use]
    pub const fn micrograms_per_square_metre(self) -> i64 {
        self.0
    }

    /// The weight of sheet in kilograms in a square metre.
    #[must_use]
    pub fn kilograms_per_square_metre(self) -> f64 {
        self.0 as f64 / rounding::float(MICROGRAMS_PER_KILOGRAM)
    }

    /// The weight of plain sheet: thickness × density, which is kg/m2 for millimetres and g/cm3.
    ///
    /// # Errors
    /// As [`MassPerArea::from_micrograms_per_square_metre`]: for a thickness of zero or less, and an absurd one.
    pub fn of_thickness(density: Density, thickness: Length) -> Result<Self, ReadError> {
        let micrograms =
            i128::from(density.micrograms_per_cubic_centimetre()) * i128::from(thickness.nanometres());
        // 1 µg/cm3 × 1 nm = 1e6 µg/m3 × 1e-9 m.
        let rounded = rounding::divide(micrograms, 1000).unwrap_or(i128::MAX);
        Self::from_micrograms_per_square_metre(rounding::narrow(rounded))
    }

    /// The mass of an area of this sheet, rounded to the nearest microgram.
    #[must_use]
    pub fn over(self, area: Area) -> Mass {
        let product = i128::from(self.0).saturating_mul(area.square_nanometres());
        let rounded = rounding::divide(product, SQUARE_NANOMETRES_PER_SQUARE_METRE).unwrap_or(i128::MAX);
        Mass::from_micrograms(rounding::narrow(rounded))
    }

    /// Reads `1.95 lb/ft2`, `11.6 kg/m2` or `11.6 kg/m²`.
    ///
    /// # Errors
    /// A [`ReadError`] that says what is wrong; the unit must be written and the weight above zero.
    pub fn read(text: &str) -> Result<Self, ReadError> {
        let (negative, decimal, unit) = read_with_unit(text)?;
        let (above, below) = match unit.to_lowercase().as_str() {
            "lb/ft2" | "lbs/ft2" | "psf" => MassPerAreaUnit::PoundPerSquareFoot.ratio(),
            "kg/m2" => MassPerAreaUnit::KilogramPerSquareMetre.ratio(),
            "" => return Err(ReadError::UnitMissing { known: KNOWN_UNITS }),
            _ => return Err(ReadError::UnknownUnit { unit, known: KNOWN_UNITS }),
        };
        let count = rounding::narrow(decimal.count(above, below)?);
        Self::from_micrograms_per_square_metre(if negative { -count } else { count })
    }

    /// Prints the number in the given unit, without the unit.
    #[must_use]
    pub fn print(self, unit: MassPerAreaUnit, places: u8) -> String {
        let (above, below) = unit.ratio();
        print_ratio(i128::from(self.0) * below, above, places)
    }

    /// Prints the number and its unit.
    #[must_use]
    pub fn print_with_unit(self, unit: MassPerAreaUnit, places: u8) -> String {
        format!("{} {}", self.print(unit, places), unit.name())
    }
}

impl MassPerAreaUnit {
    /// The unit's short name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::PoundPerSquareFoot => "lb/ft2",
            Self::KilogramPerSquareMetre => "kg/m2",
        }
    }

    /// The unit in micrograms in a square metre, as a fraction: exact for both units.
    const fn ratio(self) -> (i128, i128) {
        match self {
            // One foot is 0.3048 m, so one square foot is 3048^2 / 10^8 m2.
            Self::PoundPerSquareFoot => {
                let tenth_millimetres = (12 * NANOMETRES_PER_INCH / 100_000) as i128;
                (MICROGRAMS_PER_POUND as i128 * 100_000_000, tenth_millimetres * tenth_millimetres)
            }
            Self::KilogramPerSquareMetre => (MICROGRAMS_PER_KILOGRAM, 1),
        }
    }
}
