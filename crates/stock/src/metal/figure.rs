//! Figures of a metal that the tables give and a job may replace.

use crate::bend_model::BendModel;
use units::{Density, Length, MassPerArea};

/// A figure of a metal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Figure {
    /// The density.
    Density,
    /// The mass per area.
    WeightPerArea,
    /// The inside radius of bends.
    InsideRadius,
    /// The least inside radius.
    LeastInsideRadius,
    /// The bend model.
    BendModel,
}

/// A figure's value, kept as a quantity so that paper can print it in the job's unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum FigureValue {
    /// A density.
    Density(Density),
    /// A mass per area.
    WeightPerArea(MassPerArea),
    /// A length.
    Length(Length),
    /// A bend model.
    BendModel(BendModel),
}

/// A table figure that the job replaced by its own.
#[derive(Debug, Clone, PartialEq)]
pub struct Override {
    /// Which figure.
    pub figure: Figure,
    /// What the table says.
    pub table: FigureValue,
    /// The table row's source.
    pub table_source: String,
    /// What the job says, and what is used.
    pub job: FigureValue,
}

impl Figure {
    /// The figure's name in plain words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Density => "density",
            Self::WeightPerArea => "weight per area",
            Self::InsideRadius => "inside radius",
            Self::LeastInsideRadius => "least inside radius",
            Self::BendModel => "bend model",
        }
    }
}
