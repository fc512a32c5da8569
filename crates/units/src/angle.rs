//! Angles: an integer count of nanodegrees.

use crate::decimal::{print_ratio, read_with_unit};
use crate::error::ReadError;
use crate::rounding;
use std::f64::consts::PI;

const NANODEGREES_PER_DEGREE: i64 = 1_000_000_000;
/// The largest angle that is read: one full turn.
const LARGEST_DEGREES: i64 = 360;

/// An angle, or a difference of two. Sums stop at the ends of the range, some 9 thousand million degrees away.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Angle(i64);

impl Angle {
    /// No angle.
    pub const ZERO: Self = Self(0);
    /// A square corner, 90°.
    pub const RIGHT: Self = Self(90 * NANODEGREES_PER_DEGREE);

    /// An angle of so many nanodegrees.
    #[must_use]
    pub const fn from_nanodegrees(nanodegrees: i64) -> Self {
        Self(nanodegrees)
    }

    /// The angle in nanodegrees.
    #[must_use]
    pub const fn nanodegrees(self) -> i64 {
        self.0
    }

    /// A calculated angle in degrees, rounded to the nearest nanodegree; ends of the range as in
    /// [`rounding::whole_count`].
    #[must_use]
    pub fn from_degrees(degrees: f64) -> Self {
        Self(rounding::whole_count(degrees * NANODEGREES_PER_DEGREE as f64))
    }

    /// The angle in degrees.
    #[must_use]
    pub fn degrees(self) -> f64 {
        self.0 as f64 / NANODEGREES_PER_DEGREE as f64
    }

    /// A calculated angle in radians, rounded to the nearest nanodegree.
    #[must_use]
    pub fn from_radians(radians: f64) -> Self {
        Self::from_degrees(radians * (180.0 / PI))
    }

    /// The angle in radians.
    #[must_use]
    pub fn radians(self) -> f64 {
        self.degrees() * (PI / 180.0)
    }

    /// An angle in degrees as a user gave it.
    ///
    /// # Errors
    /// [`ReadError::NotFinite`] and, over a full turn, [`ReadError::TooLarge`].
    pub fn try_from_degrees(degrees: f64) -> Result<Self, ReadError> {
        if !degrees.is_finite() {
            return Err(ReadError::NotFinite);
        }
        Self::from_degrees(degrees).within_a_turn()
    }

    /// Reads degrees: `22.5`, `22.5°`, `22.5 deg`.
    ///
    /// # Errors
    /// A [`ReadError`] that says what is wrong; more than a full turn is refused.
    pub fn read(text: &str) -> Result<Self, ReadError> {
        let (negative, decimal, unit) = read_with_unit(text)?;
        if !matches!(unit.to_lowercase().as_str(), "" | "°" | "deg" | "deg." | "degree" | "degrees") {
            return Err(ReadError::UnknownUnit { unit, known: "°, deg" });
        }
        let count = decimal.count(i128::from(NANODEGREES_PER_DEGREE), 1)?;
        Self(rounding::narrow(if negative { -count } else { count })).within_a_turn()
    }

    /// Prints degrees to so many places, without the degree sign.
    #[must_use]
    pub fn print(self, places: u8) -> String {
        print_ratio(i128::from(self.0), i128::from(NANODEGREES_PER_DEGREE), places)
    }

    /// The angle without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.saturating_abs())
    }

    fn within_a_turn(self) -> Result<Self, ReadError> {
        if self.0.saturating_abs() > LARGEST_DEGREES * NANODEGREES_PER_DEGREE {
            return Err(ReadError::TooLarge { limit: "a full turn of 360°" });
        }
        Ok(self)
    }
}

counted!(Angle, i64);
