//! The metal that a job uses: table rows resolved, and what the job set itself.

mod builder;
mod figure;
mod measured;

pub use builder::{MetalBuilder, MetalError};
pub use figure::{Figure, FigureValue, Override};

use crate::alloy::Alloy;
use crate::bend_model::BendModel;
use crate::inside_radius::LeastInsideRadius;
use units::{Density, Length, MassPerArea};

/// The metal of some parts of a job, with every figure settled.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Metal {
    /// The job's own name for it, like `skin`.
    pub name: String,
    /// The alloy's row.
    pub alloy: Alloy,
    /// The temper, if one is named.
    pub temper: Option<String>,
    /// Plain or with lugs.
    pub pattern: Pattern,
    /// The thickness; of tread plate that of the flat base.
    pub thickness: Length,
    /// The inside radius of its bends.
    pub inside_radius: Length,
    /// The least inside radius that the tables or the job allow; none if neither says.
    pub least_inside_radius: Option<LeastInsideRadius>,
    /// The density.
    pub density: Density,
    /// The mass per area.
    pub weight_per_area: MassPerArea,
    /// False if this is tread plate weighed without its lugs; the paper then says so.
    pub pattern_included: bool,
    /// Which way lugs or grain run on the sheet; none if they do not matter.
    pub lay: Option<Lay>,
    /// Protective film.
    pub film: Film,
    /// The model for bends where nobody has bent a strip.
    pub bend_model: BendModel,
    /// Where each figure came from, in the order of [`Figure`].
    pub sources: Vec<(Figure, String)>,
    /// Table figures that the job replaced.
    pub overrides: Vec<Override>,
}

/// The face of the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pattern {
    /// Smooth both sides.
    Plain,
    /// Raised lugs on one face.
    Tread,
}

/// Which way lugs or grain run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lay {
    /// Along the sheet's long side.
    LongSide,
    /// Along the sheet's short side.
    ShortSide,
}

/// Protective film on the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Film {
    /// None.
    Bare,
    /// On one face, which then is the face side.
    OneSide,
    /// On both faces.
    BothSides,
}

impl Metal {
    /// Alloy and temper as they are ordered, like `5052-H32`.
    #[must_use]
    pub fn alloy_and_temper(&self) -> String {
        match &self.temper {
            Some(temper) => format!("{}-{temper}", self.alloy.name),
            None => self.alloy.name.clone(),
        }
    }

    /// Whether the two faces differ, so that a part must not be turned over.
    #[must_use]
    pub fn has_face_side(&self) -> bool {
        self.pattern == Pattern::Tread || self.film == Film::OneSide
    }

    /// Where a figure came from.
    #[must_use]
    pub fn source(&self, figure: Figure) -> Option<&str> {
        self.sources.iter().find(|(known, _)| *known == figure).map(|(_, source)| source.as_str())
    }
}
