//! Masses, which the shop calls weights: an integer count of micrograms.

use crate::decimal::{print_ratio, read_with_unit};
use crate::error::ReadError;
use crate::rounding;

const KNOWN_UNITS: &str = "lb, kg";
const MICROGRAMS_PER_KILOGRAM: i64 = 1_000_000_000;
/// Micrograms in a pound avoirdupois: 453.59237 g exactly, international yard and pound agreement of 1959.
pub(crate) const MICROGRAMS_PER_POUND: i64 = 453_592_370;
/// The largest mass that is read: a thousand tonnes.
const LARGEST_MICROGRAMS: i64 = 1_000_000 * MICROGRAMS_PER_KILOGRAM;

/// A mass, or a difference of two. Sums stop at the ends of the range instead of wrapping round.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Mass(i64);

/// The unit that a mass is printed in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MassUnit {
    /// Pounds avoirdupois.
    Pound,
    /// Kilograms.
    Kilogram,
}

impl Mass {
    /// No mass.
    pub const ZERO: Self = Self(0);

    /// A mass of so many micrograms.
    #[must_use]
    pub const fn from_micrograms(micrograms: i64) -> Self {
        Self(micrograms)
    }

    /// The mass in micrograms.
    #[must_use]
    pub const fn micrograms(self) -> i64 {
        self.0
    }

    /// A calculated mass in kilograms, rounded to the nearest microgram; ends of the range as in
    /// [`rounding::whole_count`].
    #[must_use]
    pub fn from_kilograms(kilograms: f64) -> Self {
        Self(rounding::whole_count(kilograms * MICROGRAMS_PER_KILOGRAM as f64))
    }

    /// The mass in kilograms.
    #[must_use]
    pub fn kilograms(self) -> f64 {
        self.0 as f64 / MICROGRAMS_PER_KILOGRAM as f64
    }

    /// A calculated mass in pounds, rounded to the nearest microgram.
    #[must_use]
    pub fn from_pounds(pounds: f64) -> Self {
        Self(rounding::whole_count(pounds * MICROGRAMS_PER_POUND as f64))
    }

    /// The mass in pounds.
    #[must_use]
    pub fn pounds(self) -> f64 {
        self.0 as f64 / MICROGRAMS_PER_POUND as f64
    }

    /// Reads `12.5 lb` or `5.7 kg`.
    ///
    /// # Errors
    /// A [`ReadError`] that says what is wrong; the unit must be written.
    pub fn read(text: &str) -> Result<Self, ReadError> {
        let (negative, decimal, unit) = read_with_unit(text)?;
        let per_unit = match unit.to_lowercase().as_str() {
            "lb" | "lb." | "lbs" | "lbs." => MassUnit::Pound.micrograms(),
            "kg" => MassUnit::Kilogram.micrograms(),
            "" => return Err(ReadError::UnitMissing { known: KNOWN_UNITS }),
            _ => return Err(ReadError::UnknownUnit { unit, known: KNOWN_UNITS }),
        };
        let count = decimal.count(i128::from(per_unit), 1)?;
        if count > i128::from(LARGEST_MICROGRAMS) {
            return Err(ReadError::TooLarge { limit: "a thousand tonnes" });
        }
        Ok(Self(rounding::narrow(if negative { -count } else { count })))
    }

    /// Prints the number in the given unit, without the unit.
    #[must_use]
    pub fn print(self, unit: MassUnit, places: u8) -> String {
        print_ratio(i128::from(self.0), i128::from(unit.micrograms()), places)
    }

    /// The mass as it prints with so many places, to the next microgram: sums of such masses are sums of printed numbers.
    #[must_use]
    pub fn as_printed(self, unit: MassUnit, places: u8) -> Self {
        let scale = 10_i128.pow(u32::from(places.min(9)));
        let unit = i128::from(unit.micrograms());
        let nearest = |top: i128, bottom: i128| (2 * top.abs() + bottom) / (2 * bottom) * top.signum();
        let steps = nearest(i128::from(self.0) * scale, unit);
        Self(i64::try_from(nearest(steps * unit, scale)).unwrap_or(self.0))
    }

    /// Prints the number and its unit.
    #[must_use]
    pub fn print_with_unit(self, unit: MassUnit, places: u8) -> String {
        format!("{} {}", self.print(unit, places), unit.name())
    }

    /// Decimals of the weight of one piece in lists: two, and four below one pound or kilogram, so that many small pieces
    /// together still weigh what they do.
    #[must_use]
    pub const fn places_of_one(self, unit: MassUnit) -> u8 {
        if unit.micrograms() <= self.0.abs() { 2 } else { 4 }
    }

    /// The weight of so many pieces, from the weight of one as lists print it; as it prints with two decimals.
    #[must_use]
    pub fn of_pieces(self, quantity: u32, unit: MassUnit) -> Self {
        // In whole last digits, so that halves go the way they do by hand.
        let finer = 10_i128.pow(u32::from(self.places_of_one(unit)));
        let unit = i128::from(unit.micrograms());
        let nearest = |top: i128, bottom: i128| (2 * top.abs() + bottom) / (2 * bottom) * top.signum();
        let all = nearest(i128::from(self.0) * finer, unit) * i128::from(quantity);
        let hundredths = nearest(all * 100, finer);
        Self(i64::try_from(nearest(hundredths * unit, 100)).unwrap_or(self.0))
    }

    /// The weight of one part as every list prints it, with its unit: one number wherever it stands.
    #[must_use]
    pub fn print_of_one(self, unit: MassUnit) -> String {
        self.print_with_unit(unit, self.places_of_one(unit))
    }
}

impl MassUnit {
    /// The unit's short name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Pound => "lb",
            Self::Kilogram => "kg",
        }
    }

    const fn micrograms(self) -> i64 {
        match self {
            Self::Pound => MICROGRAMS_PER_POUND,
            Self::Kilogram => MICROGRAMS_PER_KILOGRAM,
        }
    }
}

counted!(Mass, i64);
