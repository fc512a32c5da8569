//! Lengths: an integer count of nanometres.
//!
//! One inch is 25.4 mm exactly (international inch, 16 CFR 500.19), so 1/64 in is 396,875 nm exactly and every
//! millimetre size is exact too: taped sums never drift.

mod print;
mod read;
mod scan;

pub use print::{LengthStyle, TapeDenominator};

use crate::area::Area;
use crate::error::ReadError;
use crate::rounding;
use std::ops::Mul;

/// Nanometres in a millimetre.
pub(crate) const NANOMETRES_PER_MILLIMETRE: i64 = 1_000_000;
/// Nanometres in an inch: 25.4 mm exactly, 16 CFR 500.19.
pub(crate) const NANOMETRES_PER_INCH: i64 = 25_400_000;
/// Nanometres in 1/64 inch.
const NANOMETRES_PER_SIXTY_FOURTH: i64 = NANOMETRES_PER_INCH / 64;
/// The longest length that is read: one kilometre.
pub(crate) const LONGEST_NANOMETRES: i64 = 1_000_000 * NANOMETRES_PER_MILLIMETRE;

/// A length, a position along a line, or a difference of two.
///
/// Sums and products stop at the ends of the range, some 9 million kilometres away, instead of wrapping round.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Length(i64);

/// The unit a bare number is in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LengthUnit {
    /// Inches of 25.4 mm.
    Inch,
    /// Millimetres.
    Millimetre,
}

impl Length {
    /// No length.
    pub const ZERO: Self = Self(0);
    /// The end of the range, where sums stop and where a calculation that went wrong ends.
    pub const MAX: Self = Self(i64::MAX);

    /// A length of so many nanometres.
    #[must_use]
    pub const fn from_nanometres(nanometres: i64) -> Self {
        Self(nanometres)
    }

    /// The length in nanometres.
    #[must_use]
    pub const fn nanometres(self) -> i64 {
        self.0
    }

    /// A calculated length in millimetres, rounded to the nearest nanometre.
    ///
    /// A value that is not a number gives [`Length::MAX`], as [`rounding::whole_count`] says. For numbers that a user
    /// wrote there is [`Length::try_from_millimetres`].
    #[must_use]
    pub fn from_millimetres(millimetres: f64) -> Self {
        Self(rounding::whole_count(millimetres * NANOMETRES_PER_MILLIMETRE as f64))
    }

    /// The length in millimetres.
    #[must_use]
    pub fn millimetres(self) -> f64 {
        self.0 as f64 / NANOMETRES_PER_MILLIMETRE as f64
    }

    /// A calculated length in inches, rounded to the nearest nanometre; ends of the range as in
    /// [`Length::from_millimetres`].
    #[must_use]
    pub fn from_inches(inches: f64) -> Self {
        Self(rounding::whole_count(inches * NANOMETRES_PER_INCH as f64))
    }

    /// The length in inches.
    #[must_use]
    pub fn inches(self) -> f64 {
        self.0 as f64 / NANOMETRES_PER_INCH as f64
    }

    /// A length of so many 64ths of an inch, exactly.
    #[must_use]
    pub const fn from_sixty_fourths(sixty_fourths: i64) -> Self {
        Self(sixty_fourths.saturating_mul(NANOMETRES_PER_SIXTY_FOURTH))
    }

    /// A length in millimetres as a user gave it, rounded to the nearest nanometre.
    ///
    /// # Errors
    /// [`ReadError::NotFinite`] and, over one kilometre, [`ReadError::TooLarge`].
    pub fn try_from_millimetres(millimetres: f64) -> Result<Self, ReadError> {
        Self::from_millimetres(millimetres).checked(millimetres)
    }

    /// A length in inches as a user gave it, rounded to the nearest nanometre.
    ///
    /// # Errors
    /// As [`Length::try_from_millimetres`].
    pub fn try_from_inches(inches: f64) -> Result<Self, ReadError> {
        Self::from_inches(inches).checked(inches)
    }

    /// A number as a user gave it in the given unit, rounded to the nearest nanometre.
    ///
    /// # Errors
    /// As [`Length::try_from_millimetres`].
    pub fn try_from_number(number: f64, unit: LengthUnit) -> Result<Self, ReadError> {
        match unit {
            LengthUnit::Inch => Self::try_from_inches(number),
            LengthUnit::Millimetre => Self::try_from_millimetres(number),
        }
    }

    /// The length without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.saturating_abs())
    }

    /// Reads a length as a tape reads; a number without a unit is in `default_unit`.
    ///
    /// Reads `23 5/16`, `23-5/16"`, `23.3125 in`, `4' 7-1/2"`, `4 ft 7.5 in`, `589 mm`, `58.9 cm`, `0.589 m`, and
    /// the printed form with a leftover, `23 5/16 + .004`. Halves to 64ths are exact; decimals are rounded to the
    /// nearest nanometre.
    ///
    /// # Errors
    /// A [`ReadError`] that says what is wrong. Whatever could mean two things is refused, not guessed.
    pub fn read(text: &str, default_unit: LengthUnit) -> Result<Self, ReadError> {
        read::read(text, default_unit)
    }

    /// Prints the number in the given style, without its unit.
    #[must_use]
    pub fn print(self, style: LengthStyle) -> String {
        print::print(self, style)
    }

    /// Prints the number so that it says no more than the length: for the largest size that may be.
    #[must_use]
    pub fn print_down(self, style: LengthStyle) -> String {
        print::print_toward(self, style, false)
    }

    /// Prints the number so that it says no less than the length: for the least size that may be.
    #[must_use]
    pub fn print_up(self, style: LengthStyle) -> String {
        print::print_toward(self, style, true)
    }

    /// Prints the number to a mark that the style lays out by, without thousandths: of a tape its division, else a tenth of an inch
    /// or a millimetre. For lengths that nothing is laid out by: a curve along its chords, what a saw runs in all.
    #[must_use]
    pub fn print_about(self, style: LengthStyle) -> String {
        print::print_about(self, style)
    }

    /// Prints the number in the given style and its unit, `in` or `mm`.
    #[must_use]
    pub fn print_with_unit(self, style: LengthStyle) -> String {
        format!("{} {}", print::print(self, style), style.unit().name())
    }

    fn checked(self, given: f64) -> Result<Self, ReadError> {
        if !given.is_finite() {
            return Err(ReadError::NotFinite);
        }
        if self.0.saturating_abs() > LONGEST_NANOMETRES {
            return Err(ReadError::TooLarge { limit: "a kilometre" });
        }
        Ok(self)
    }
}

impl LengthUnit {
    /// The unit's short name, `in` or `mm`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Inch => "in",
            Self::Millimetre => "mm",
        }
    }
}

counted!(Length, i64);

impl Mul for Length {
    type Output = Area;
    fn mul(self, other: Self) -> Area {
        Area::from_square_nanometres(i128::from(self.0) * i128::from(other.0))
    }
}
