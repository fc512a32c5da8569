//! The bend number used for one metal, and where it came from.

use geometry::tolerance;
use stock::{BendModel, Hardness};
use units::{Angle, Length};

use super::{formula, strip::TestStrip};

/// Inside radius in thicknesses above which the mid-line is taken to keep its length.
///
/// Source: DIN 6935.
const MID_LINE_RATIO: f64 = 5.0;

/// Where a bend number came from, best first.
#[derive(Debug, Clone, PartialEq)]
pub enum Origin {
    /// The shop bent a strip of this metal.
    Strip(TestStrip),
    /// The job names the number.
    Job,
    /// A row of the material table, with the row's source.
    Table(String),
    /// Nothing better was there.
    General,
}

/// The bend number of one metal: thickness, inside radius, model and origin.
#[derive(Debug, Clone, PartialEq)]
pub struct BendNumber {
    thickness: Length,
    inside_radius: Length,
    model: BendModel,
    origin: Origin,
}

/// Why no bend number can be made.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum NumberError {
    /// The thickness is not above zero.
    #[error("a thickness must be above zero")]
    NoThickness,
    /// The radius is below zero, or zero where the model divides by it.
    #[error("an inside radius must be above zero")]
    NoRadius,
    /// The K-factor lies outside 0 … .5.
    #[error("a K-factor of {0} cannot be: between 0 and .5")]
    Factor(f64),
}

impl BendNumber {
    /// The bend number for `thickness` and `inside_radius` by `model`.
    ///
    /// # Errors
    /// Thickness or radius not above zero, or a K-factor outside 0 … .5 (a strip may read a twentieth past it).
    pub fn new(
        thickness: Length,
        inside_radius: Length,
        model: BendModel,
        origin: Origin,
    ) -> Result<Self, NumberError> {
        if thickness <= Length::ZERO {
            return Err(NumberError::NoThickness);
        }
        if inside_radius <= Length::ZERO {
            return Err(NumberError::NoRadius);
        }
        match model {
            BendModel::KFactor(k) if !(-0.05..=0.55).contains(&k) => Err(NumberError::Factor(k)),
            _ => Ok(Self { thickness, inside_radius, model, origin }),
        }
    }

    /// Thickness of the metal (of the flat base, for tread plate).
    #[must_use]
    pub const fn thickness(&self) -> Length {
        self.thickness
    }

    /// Inside radius of every bend.
    #[must_use]
    pub const fn inside_radius(&self) -> Length {
        self.inside_radius
    }

    /// The model in use.
    #[must_use]
    pub const fn model(&self) -> BendModel {
        self.model
    }

    /// Where the number came from.
    #[must_use]
    pub const fn origin(&self) -> &Origin {
        &self.origin
    }

    /// Allowance of a bend: length of its zone on the flat, mm.
    #[must_use]
    pub fn allowance_mm(&self, turn_rad: f64) -> f64 {
        self.allowance_at_mm(turn_rad, self.inside_radius.millimetres())
    }

    /// Allowance of a bend of another inside radius, mm.
    ///
    /// A K-factor holds for radii near the one it was found at; above five thicknesses the mid-line keeps its length
    /// (DIN 6935), and K is then a half.
    #[must_use]
    pub fn allowance_at_mm(&self, turn_rad: f64, inside_radius_mm: f64) -> f64 {
        let radius = inside_radius_mm;
        let thickness = self.thickness.millimetres();
        let own = (radius - self.inside_radius.millimetres()).abs() <= tolerance::SAME_POINT_MM;
        match self.model {
            BendModel::KFactor(_) if !own && radius > MID_LINE_RATIO * thickness => {
                formula::allowance(turn_rad, radius, thickness, 0.5)
            }
            BendModel::KFactor(k) => formula::allowance(turn_rad, radius, thickness, k),
            BendModel::FaaHandbook => formula::allowance_faa(turn_rad, radius, thickness),
            BendModel::EmpiricalByMaterial(hardness) => {
                formula::allowance_empirical(turn_rad, radius, thickness, coefficient(hardness))
            }
            BendModel::Din6935 => formula::allowance_din(turn_rad, radius, thickness),
        }
    }

    /// Setback from tangent line to mold line, mm, for turns below 180°.
    #[must_use]
    pub fn setback_mm(&self, turn_rad: f64) -> f64 {
        formula::setback(turn_rad, self.inside_radius.millimetres(), self.thickness.millimetres())
    }

    /// Setback of a bend of another inside radius, mm, for turns below 180°.
    #[must_use]
    pub fn setback_at_mm(&self, turn_rad: f64, inside_radius_mm: f64) -> f64 {
        formula::setback(turn_rad, inside_radius_mm, self.thickness.millimetres())
    }

    /// Deduction between mold-line legs, mm.
    #[must_use]
    pub fn deduction_mm(&self, turn_rad: f64) -> f64 {
        formula::deduction(self.setback_mm(turn_rad), self.allowance_mm(turn_rad))
    }

    /// The K-factor that stands behind the allowance at this turn.
    #[must_use]
    pub fn k_factor(&self, turn: Angle) -> f64 {
        let turn_rad = turn.radians();
        (self.allowance_mm(turn_rad) / turn_rad - self.inside_radius.millimetres())
            / self.thickness.millimetres()
    }
}

/// The handbook's coefficient of T in the empirical lengths; see [`formula::allowance_empirical`].
const fn coefficient(hardness: Hardness) -> f64 {
    match hardness {
        Hardness::Soft => 0.55,
        Hardness::HalfHard => 0.64,
        Hardness::Hard => 0.71,
    }
}
