//! Areas: an integer count of square nanometres.

use crate::decimal::print_ratio;
use crate::rounding;

const PER_SQUARE_MILLIMETRE: i128 = 1_000_000_000_000;
/// One square inch is 645.16 mm² exactly, 16 CFR 500.19.
const PER_SQUARE_INCH: i128 = 645_160_000_000_000;

/// An area, or a difference of two; two lengths multiplied give one exactly.
///
/// Sums stop at the ends of the range instead of wrapping round.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Area(i128);

/// The unit that an area is printed in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum AreaUnit {
    /// Square inches.
    SquareInch,
    /// Square feet of 144 square inches.
    SquareFoot,
    /// Square millimetres.
    SquareMillimetre,
    /// Square metres.
    SquareMetre,
}

impl Area {
    /// No area.
    pub const ZERO: Self = Self(0);

    /// An area of so many square nanometres.
    #[must_use]
    pub const fn from_square_nanometres(square_nanometres: i128) -> Self {
        Self(square_nanometres)
    }

    /// The area in square nanometres.
    #[must_use]
    pub const fn square_nanometres(self) -> i128 {
        self.0
    }

    /// A calculated area in square millimetres, rounded to the nearest square nanometre; ends of the range as in
    /// [`rounding::wide_count`].
    #[must_use]
    pub fn from_square_millimetres(square_millimetres: f64) -> Self {
        Self(rounding::wide_count(square_millimetres * rounding::float(PER_SQUARE_MILLIMETRE)))
    }

    /// The area in square millimetres.
    #[must_use]
    pub fn square_millimetres(self) -> f64 {
        self.in_unit(AreaUnit::SquareMillimetre)
    }

    /// The area in square inches.
    #[must_use]
    pub fn square_inches(self) -> f64 {
        self.in_unit(AreaUnit::SquareInch)
    }

    /// The area in square feet.
    #[must_use]
    pub fn square_feet(self) -> f64 {
        self.in_unit(AreaUnit::SquareFoot)
    }

    /// The area in square metres.
    #[must_use]
    pub fn square_metres(self) -> f64 {
        self.in_unit(AreaUnit::SquareMetre)
    }

    /// Prints the number in the given unit, without the unit.
    #[must_use]
    pub fn print(self, unit: AreaUnit, places: u8) -> String {
        print_ratio(self.0, unit.square_nanometres(), places)
    }

    /// Prints the number and its unit.
    #[must_use]
    pub fn print_with_unit(self, unit: AreaUnit, places: u8) -> String {
        format!("{} {}", self.print(unit, places), unit.name())
    }

    fn in_unit(self, unit: AreaUnit) -> f64 {
        rounding::float(self.0) / rounding::float(unit.square_nanometres())
    }
}

impl AreaUnit {
    /// The unit's short name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::SquareInch => "in2",
            Self::SquareFoot => "ft2",
            Self::SquareMillimetre => "mm2",
            Self::SquareMetre => "m2",
        }
    }

    /// The unit in square nanometres, exactly.
    const fn square_nanometres(self) -> i128 {
        match self {
            Self::SquareInch => PER_SQUARE_INCH,
            Self::SquareFoot => 144 * PER_SQUARE_INCH,
            Self::SquareMillimetre => PER_SQUARE_MILLIMETRE,
            Self::SquareMetre => 1_000_000 * PER_SQUARE_MILLIMETRE,
        }
    }
}

counted!(Area, i128);
