//! The bend number used for one metal, and where it came from.

use geometry::tolerance;
use stock::{BendModel, Hardness};
use units::{Angle, Length};

use super::choice::StripChoice;
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
    strips: Option<StripChoice>,
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
            _ => Ok(Self { thickness, inside_radius, model, origin, strips: None }),
        }
    }

    /// The bend number that the shop's strips give: each bend goes by the K of the strip nearest to its turn.
    ///
    /// # Errors
    /// As [`BendNumber::new`].
    pub fn from_strips(strips: StripChoice) -> Result<Self, NumberError> {
        let square = &strips.nearest(std::f64::consts::FRAC_PI_2).used;
        let (thickness, inside_radius) = (strips.wanted.thickness, strips.wanted.inside_radius);
        let model = BendModel::KFactor(square.k_factor());
        let number = Self::new(thickness, inside_radius, model, Origin::Strip(*square.strip()))?;
        Ok(Self { strips: Some(strips), ..number })
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

    /// The model in use for a square bend, and for every other unless strips of several turns are known.
    #[must_use]
    pub const fn model(&self) -> BendModel {
        self.model
    }

    /// The model in use for a bend of this turn: the K-factor of the strip nearest to it, where strips are known.
    #[must_use]
    pub fn model_at(&self, turn_rad: f64) -> BendModel {
        let of_strip = |strips: &StripChoice| BendModel::KFactor(strips.nearest(turn_rad).used.k_factor());
        self.strips.as_ref().map_or(self.model, of_strip)
    }

    /// The shop's strips behind the number, when it comes from them.
    #[must_use]
    pub const fn strips(&self) -> Option<&StripChoice> {
        self.strips.as_ref()
    }

    /// How far the allowance of a bend may be off, either way, because strips bent alike differ, mm.
    ///
    /// Zero where there is one strip, or all agree within what reading explains, or the bend is so wide that it goes by
    /// the mid-line.
    #[must_use]
    pub fn spread_at_mm(&self, turn_rad: f64, inside_radius_mm: f64) -> f64 {
        if self.is_by_mid_line(inside_radius_mm) { 0.0 } else { self.single_spread_mm(turn_rad) }
    }

    /// As [`BendNumber::spread_at_mm`], of a bend that stands alone, mm: it goes by its strip whatever its radius.
    #[must_use]
    pub fn single_spread_mm(&self, turn_rad: f64) -> f64 {
        let of_strips = |strips: &StripChoice| strips.nearest(turn_rad).k_spread();
        self.strips.as_ref().map_or(0.0, of_strips) * turn_rad * self.thickness.millimetres()
    }

    /// True for a radius so wide, above five thicknesses, that the neutral line lies in the middle of the sheet (DIN 6935).
    #[must_use]
    pub fn is_wide(&self, inside_radius_mm: f64) -> bool {
        MID_LINE_RATIO * self.thickness.millimetres() < inside_radius_mm - tolerance::SAME_POINT_MM
    }

    /// True for one of many bends round a curve of a radius so wide that a K-factor found at the metal's own no longer holds
    /// for it.
    #[must_use]
    pub fn is_by_mid_line(&self, inside_radius_mm: f64) -> bool {
        let own = (inside_radius_mm - self.inside_radius.millimetres()).abs() <= tolerance::SAME_POINT_MM;
        !own && inside_radius_mm > MID_LINE_RATIO * self.thickness.millimetres()
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

    /// Allowance of what is rolled or bumped to another inside radius, one of many bends round a curve, mm.
    ///
    /// A K-factor holds for radii near the one it was found at; above five thicknesses the mid-line keeps its length
    /// (DIN 6935), and K is then a half.
    #[must_use]
    pub fn allowance_at_mm(&self, turn_rad: f64, inside_radius_mm: f64) -> f64 {
        let radius = inside_radius_mm;
        let thickness = self.thickness.millimetres();
        match self.model_at(turn_rad) {
            BendModel::KFactor(_) if self.is_by_mid_line(radius) => {
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

    /// Allowance of a bend that stands alone, pressed to this inside radius in one stroke, mm: by the metal's own model and
    /// its own K at every radius, so that a radius given with the bend and one given with the metal make one flat; with what
    /// the model neglects at a slight turn ([`formula::din_neglects`]).
    #[must_use]
    pub fn single_allowance_at_mm(&self, turn_rad: f64, inside_radius_mm: f64) -> f64 {
        let thickness = self.thickness.millimetres();
        match self.model_at(turn_rad) {
            BendModel::Din6935 if formula::din_neglects(turn_rad) => {
                2.0 * self.setback_at_mm(turn_rad, inside_radius_mm)
            }
            BendModel::KFactor(k) => formula::allowance(turn_rad, inside_radius_mm, thickness, k),
            _ => self.allowance_at_mm(turn_rad, inside_radius_mm),
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
