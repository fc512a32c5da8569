//! Densities: an integer count of micrograms in a cubic centimetre.

use crate::decimal::{print_ratio, read_with_unit};
use crate::error::ReadError;
use crate::length::NANOMETRES_PER_INCH;
use crate::mass::MICROGRAMS_PER_POUND;
use crate::rounding;

const KNOWN_UNITS: &str = "g/cm3, lb/in3";
const MICROGRAMS_PER_GRAM: i128 = 1_000_000;
/// The largest density that is read, in grams in a cubic centimetre; osmium, the densest metal, has 22.6.
const LARGEST_GRAMS: i128 = 25;

/// A density above zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Density(i64);

/// The unit that a density is printed in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DensityUnit {
    /// Grams in a cubic centimetre.
    GramPerCubicCentimetre,
    /// Pounds in a cubic inch.
    PoundPerCubicInch,
}

impl Density {
    /// A density of so many micrograms in a cubic centimetre.
    ///
    /// # Errors
    /// [`ReadError::Negative`] for zero or less, [`ReadError::TooLarge`] above 25 g/cm3.
    pub fn from_micrograms_per_cubic_centimetre(micrograms: i64) -> Result<Self, ReadError> {
        if micrograms <= 0 {
            return Err(ReadError::Negative);
        }
        if i128::from(micrograms) > LARGEST_GRAMS * MICROGRAMS_PER_GRAM {
            return Err(ReadError::TooLarge { limit: "25 g/cm3" });
        }
        Ok(Self(micrograms))
    }

    /// The density in micrograms in a cubic centimetre.
    #[must_use]
    pub const fn micrograms_per_cubic_centimetre(self) -> i64 {
        self.0
    }

    /// The density in grams in a cubic centimetre.
    #[must_use]
    pub fn grams_per_cubic_centimetre(self) -> f64 {
        self.0 as f64 / rounding::float(MICROGRAMS_PER_GRAM)
    }

    /// Reads `2.68 g/cm3`, `2.68 g/cm³` or `.0968 lb/in3`.
    ///
    /// # Errors
    /// A [`ReadError`] that says what is wrong; the unit must be written and the density above zero.
    pub fn read(text: &str) -> Result<Self, ReadError> {
        let (negative, decimal, unit) = read_with_unit(text)?;
        let (above, below) = match unit.to_lowercase().as_str() {
            "g/cm3" => DensityUnit::GramPerCubicCentimetre.ratio(),
            "lb/in3" => DensityUnit::PoundPerCubicInch.ratio(),
            "" => return Err(ReadError::UnitMissing { known: KNOWN_UNITS }),
            _ => return Err(ReadError::UnknownUnit { unit, known: KNOWN_UNITS }),
        };
        let count = rounding::narrow(decimal.count(above, below)?);
        Self::from_micrograms_per_cubic_centimetre(if negative { -count } else { count })
    }

    /// Prints the number in the given unit, without the unit.
    #[must_use]
    pub fn print(self, unit: DensityUnit, places: u8) -> String {
        let (above, below) = unit.ratio();
        print_ratio(i128::from(self.0) * below, above, places)
    }

    /// Prints the number and its unit.
    #[must_use]
    pub fn print_with_unit(self, unit: DensityUnit, places: u8) -> String {
        format!("{} {}", self.print(unit, places), unit.name())
    }
}

impl DensityUnit {
    /// The unit's short name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::GramPerCubicCentimetre => "g/cm3",
            Self::PoundPerCubicInch => "lb/in3",
        }
    }

    /// The unit in micrograms in a cubic centimetre, as a fraction: exact for both units.
    const fn ratio(self) -> (i128, i128) {
        match self {
            Self::GramPerCubicCentimetre => (MICROGRAMS_PER_GRAM, 1),
            // One cubic inch is 2.54^3 = 16.387064 cm3.
            Self::PoundPerCubicInch => {
                let hundredth_centimetres = (NANOMETRES_PER_INCH / 100_000) as i128;
                let cube = hundredth_centimetres * hundredth_centimetres * hundredth_centimetres;
                (MICROGRAMS_PER_POUND as i128 * 1_000_000, cube)
            }
        }
    }
}
