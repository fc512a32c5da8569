//! The shop's own test strip: cut a strip, bend it once, measure both outside legs.

use units::{Angle, Length};

use super::formula;

/// One bent test strip and what it proves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TestStrip {
    /// Length of the flat strip.
    pub length: Length,
    /// Both legs, outside, after bending.
    pub legs: [Length; 2],
    /// Turn from flat.
    pub turn: Angle,
    /// Thickness of the metal that was bent.
    pub thickness: Length,
    /// Inside radius it came out with.
    pub inside_radius: Length,
}

/// Why a strip proves nothing.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum StripError {
    /// A bend always makes the outside legs longer together than the strip was.
    #[error("the legs together ({legs_inch:.3}) are not longer than the strip ({strip_inch:.3})")]
    LegsTooShort {
        /// Sum of the legs, inches.
        legs_inch: f64,
        /// Strip, inches.
        strip_inch: f64,
    },
    /// The neutral line would lie outside the metal.
    #[error("the strip gives a K-factor of {k_factor:.3}; between 0 and .5 is possible")]
    ImpossibleFactor {
        /// The factor the numbers lead to.
        k_factor: f64,
    },
}

impl TestStrip {
    /// The deduction: legs together less the strip.
    #[must_use]
    pub fn deduction(&self) -> Length {
        self.legs[0] + self.legs[1] - self.length
    }

    /// The K-factor the strip proves.
    ///
    /// # Errors
    /// When the legs are not longer than the strip, or the factor falls outside 0 … .5 by more than a twentieth:
    /// then a size was misread.
    pub fn k_factor(&self) -> Result<f64, StripError> {
        if self.deduction() <= Length::ZERO {
            return Err(StripError::LegsTooShort {
                legs_inch: (self.legs[0] + self.legs[1]).inches(),
                strip_inch: self.length.inches(),
            });
        }
        let k_factor = formula::k_factor_from_deduction(
            self.deduction().millimetres(),
            self.turn.radians(),
            self.inside_radius.millimetres(),
            self.thickness.millimetres(),
        );
        if (-0.05..=0.55).contains(&k_factor) {
            Ok(k_factor)
        } else {
            Err(StripError::ImpossibleFactor { k_factor })
        }
    }
}
