//! Least inside radii of cold bends.

use crate::table;
use serde::Deserialize;
use std::sync::LazyLock;
use units::{Length, ReadError};

static RADII: LazyLock<Vec<RadiusRow>> =
    LazyLock::new(|| table::load(include_str!("../data/least_inside_radii.json"), RadiusRow::from_row));

/// The least inside radius for one sheet, and the row that says so.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct LeastInsideRadius {
    /// The radius.
    pub radius: Length,
    /// The row's multiple of the thickness, if the row is written so.
    pub times_thickness: Option<f64>,
    /// The thickness in the head of the row.
    pub row_thickness: Length,
    /// Whether the sheet lies between two rows, so that the next thicker one was taken.
    pub next_thicker_row: bool,
    /// Where the row comes from and how it was got.
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    alloy: String,
    temper: Option<String>,
    thickness: String,
    up_to: String,
    times_thickness: Option<f64>,
    radius: Option<String>,
    source: String,
}

enum Radius {
    TimesThickness(f64),
    Fixed(Length),
}

struct RadiusRow {
    alloy: String,
    temper: Option<String>,
    thickness: Length,
    up_to: Length,
    radius: Radius,
    source: String,
}

impl RadiusRow {
    fn from_row(row: Row) -> Result<Self, ReadError> {
        let radius = match (row.times_thickness, row.radius) {
            (Some(times), None) => Radius::TimesThickness(times),
            (None, Some(text)) => Radius::Fixed(table::length(&text)?),
            _ => return Err(ReadError::Empty),
        };
        let (thickness, up_to) = (table::length(&row.thickness)?, table::length(&row.up_to)?);
        let Row { alloy, temper, source, .. } = row;
        Ok(Self { alloy, temper, thickness, up_to, radius, source })
    }

    /// What the row says of sheet of this thickness.
    fn least_of(&self, thickness: Length) -> LeastInsideRadius {
        let (radius, times_thickness) = match self.radius {
            Radius::TimesThickness(times) => {
                (Length::from_millimetres(thickness.millimetres() * times), Some(times))
            }
            Radius::Fixed(radius) => (radius, None),
        };
        LeastInsideRadius {
            radius,
            times_thickness,
            row_thickness: self.thickness,
            next_thicker_row: thickness < self.thickness,
            source: self.source.clone(),
        }
    }
}

/// The least inside radius for a 90° bend in this alloy and temper, if the table has it.
///
/// A row holds for its own thickness and the decimal and metric sizes sold for it (.063 for 1/16, 3.2 mm for 1/8).
/// A sheet between two rows takes the next thicker one, which asks for more. Thicker than the last row: no answer.
#[must_use]
pub fn least_inside_radius(
    alloy: &str,
    temper: Option<&str>,
    thickness: Length,
) -> Option<LeastInsideRadius> {
    let rows = RADII.iter().filter(|row| row.alloy == alloy && row.temper.as_deref() == temper);
    let row = rows.filter(|row| thickness <= row.up_to).min_by_key(|row| row.up_to)?;
    Some(row.least_of(thickness))
}

/// The thickest row of an alloy and temper, whatever it goes up to.
pub(crate) fn thickest_row(
    alloy: &str,
    temper: Option<&str>,
    thickness: Length,
) -> Option<LeastInsideRadius> {
    let rows = RADII.iter().filter(|row| row.alloy == alloy && row.temper.as_deref() == temper);
    rows.max_by_key(|row| row.up_to).map(|row| row.least_of(thickness))
}

/// The temper of every row of an alloy, in the table's order.
pub(crate) fn rows_of(alloy: &str) -> impl Iterator<Item = Option<&'static str>> {
    RADII.iter().filter(move |row| row.alloy == alloy).map(|row| row.temper.as_deref())
}
