//! Weights of tread plate.

use crate::alloy::{Alloy, Family};
use crate::table;
use serde::Deserialize;
use std::sync::LazyLock;
use units::{Length, MassPerArea, ReadError};

static WEIGHTS: LazyLock<Vec<FloorPlate>> =
    LazyLock::new(|| table::load(include_str!("../data/tread_plate.json"), FloorPlate::from_row));

/// The weight of tread plate and how much of it that is.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct TreadWeight {
    /// Mass per area.
    pub weight: MassPerArea,
    /// Whether the lugs are counted. If not, this is the weight of the flat base: the true one is more.
    pub pattern_included: bool,
    /// Where the figure comes from and how it was got.
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    family: Family,
    thickness: String,
    weight: String,
    source: String,
}

struct FloorPlate {
    family: Family,
    thickness: Length,
    weight: TreadWeight,
}

impl FloorPlate {
    fn from_row(row: Row) -> Result<Self, ReadError> {
        let weight = MassPerArea::read(&row.weight)?;
        Ok(Self {
            family: row.family,
            thickness: table::length(&row.thickness)?,
            weight: TreadWeight { weight, pattern_included: true, source: row.source },
        })
    }
}

/// The weight of tread plate with a flat base of this thickness: the table's row for exactly this thickness, or else
/// the weight of the flat base alone, marked as without the pattern.
///
/// # Errors
/// As [`MassPerArea::of_thickness`]: for a thickness of zero or less, and an absurd one.
pub fn tread_floor_weight(alloy: &Alloy, thickness: Length) -> Result<TreadWeight, ReadError> {
    let row = WEIGHTS.iter().find(|row| row.family == alloy.family && row.thickness == thickness);
    if let Some(row) = row {
        return Ok(row.weight.clone());
    }
    Ok(TreadWeight {
        weight: MassPerArea::of_thickness(alloy.density, thickness)?,
        pattern_included: false,
        source: format!("thickness × density, pattern not included; density: {}", alloy.source),
    })
}
