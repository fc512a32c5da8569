//! V dies: which opening, the radius it makes, the shortest flange it holds.

use std::sync::LazyLock;

use serde::Deserialize;
use units::{Length, ReadError};

use crate::alloy::Family;
use crate::table;

/// Share of the V opening that a flange must reach in a standard die (The Fabricator, press brake tips on minimum
/// flange lengths, read in a copy: 70 per cent; an air-bend chart, publisher not known, gives .688 of a 1 in V).
const FLANGE_SHARE_OF_V: f64 = 0.7;

static OPENINGS: LazyLock<Vec<OpeningRow>> =
    LazyLock::new(|| table::load(include_str!("../../data/v_openings.json"), OpeningRow::from_row));

static RADII: LazyLock<Vec<RadiusRow>> = LazyLock::new(|| {
    table::load(include_str!("../../data/air_bend_radii.json"), |row: RadiusRow| Ok::<_, ReadError>(row))
});

/// The V opening that the chart takes for a thickness.
#[derive(Debug, Clone, PartialEq)]
pub struct VOpening {
    /// The opening.
    pub opening: Length,
    /// As a multiple of the thickness.
    pub times_thickness: f64,
    /// Where the row comes from and how it was got.
    pub source: String,
}

/// The inside radius that an air bend comes to.
#[derive(Debug, Clone, PartialEq)]
pub struct AirBendRadius {
    /// Least.
    pub least: Length,
    /// Largest.
    pub largest: Length,
    /// Where the row comes from and how it was got.
    pub source: String,
}

struct OpeningRow {
    up_to: Length,
    times_thickness: f64,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenOpening {
    up_to: String,
    times_thickness: f64,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RadiusRow {
    alloy: String,
    temper: Option<String>,
    least_share: f64,
    largest_share: f64,
    source: String,
}

impl OpeningRow {
    fn from_row(row: WrittenOpening) -> Result<Self, ReadError> {
        let up_to = table::length(&row.up_to)?;
        Ok(Self { up_to, times_thickness: row.times_thickness, source: row.source })
    }
}

/// The V opening that the air-bend chart takes, of which the publisher is not known, for `thickness`; none beyond the chart.
#[must_use]
pub fn v_opening(thickness: Length) -> Option<VOpening> {
    let row = OPENINGS.iter().filter(|row| thickness <= row.up_to).min_by_key(|row| row.up_to)?;
    Some(VOpening {
        opening: share_of(thickness, row.times_thickness),
        times_thickness: row.times_thickness,
        source: row.source.clone(),
    })
}

/// The die for a thickness: of the shop's own openings the one nearest to the chart's, the smaller of two; the chart's
/// where the shop names none; none beyond the chart.
#[must_use]
pub fn chosen_v_opening(own: &[Length], thickness: Length) -> Option<Length> {
    let chart = v_opening(thickness).map(|row| row.opening);
    let Some(chart) = chart else { return own.iter().min().copied() };
    own.iter().copied().min_by_key(|opening| ((*opening - chart).abs(), *opening)).or(Some(chart))
}

/// The inside radius that an air bend over `v_opening` comes to, for metals that a source names.
#[must_use]
pub fn air_bend_radius(
    alloy: &str,
    temper: Option<&str>,
    family: Family,
    v_opening: Length,
) -> Option<AirBendRadius> {
    let family_name = match family {
        Family::MildSteel => "mild steel",
        Family::StainlessSteel => "stainless steel",
        Family::Aluminium | Family::Unlisted => "",
    };
    let row = RADII
        .iter()
        .find(|row| row.alloy == alloy && row.temper.as_deref() == temper)
        .or_else(|| RADII.iter().find(|row| row.alloy == family_name && row.temper.is_none()))?;
    Some(AirBendRadius {
        least: share_of(v_opening, row.least_share),
        largest: share_of(v_opening, row.largest_share),
        source: row.source.clone(),
    })
}

/// The shortest outside flange that lies on both shoulders of a standard V die: seven tenths of the opening.
#[must_use]
pub fn shortest_flange_in_v(v_opening: Length) -> Length {
    share_of(v_opening, FLANGE_SHARE_OF_V)
}

fn share_of(length: Length, share: f64) -> Length {
    Length::from_millimetres(length.millimetres() * share)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Published air-bend chart: shortest flange .344 in a .50 V, .688 in 1.0, 1.125 in 1.5, 1.375 in 2.0, 2.188 in
    /// 3.0, 3.5 in 5.0. The rule of seven tenths stays within a tenth of it.
    #[test]
    fn shortest_flanges_of_the_chart() {
        let chart =
            [(0.5, 0.344), (1.0, 0.688), (1.5, 1.125), (2.0, 1.375), (2.5, 1.75), (3.0, 2.188), (5.0, 3.5)];
        for (v, published) in chart {
            let rule = shortest_flange_in_v(Length::from_inches(v)).inches();
            assert!((rule / published - 1.0).abs() < 0.1, "V {v}: {rule} and {published}");
        }
    }

    /// The same chart: 6 T up to .105, 8 T from .120 to .313, 10 T from .375, 12 T from .625.
    #[test]
    fn openings_of_the_chart() {
        let times = |inches: f64| v_opening(Length::from_inches(inches)).map(|v| v.times_thickness);
        let published = [(0.105, 6.0), (0.120, 8.0), (0.313, 8.0), (0.375, 10.0), (0.5, 10.0), (0.625, 12.0)];
        for (thickness, expected) in published {
            assert_eq!(times(thickness), Some(expected), "{thickness}");
        }
    }

    /// The Fabricator: 5052-H32 in a 16 mm die comes to .094 in, in a 50 mm die to .295 in.
    #[test]
    fn air_bend_radii_hold_the_published_examples() {
        for (v_mm, radius_in) in [(16.0, 0.094), (50.0, 0.295)] {
            let v = Length::from_millimetres(v_mm);
            let radius = air_bend_radius("5052", Some("H32"), Family::Aluminium, v).unwrap();
            let slack = 0.001;
            assert!(radius.least.inches() - slack <= radius_in, "{radius:?}");
            assert!(radius_in <= radius.largest.inches() + slack, "{radius:?}");
        }
        assert_eq!(air_bend_radius("5086", None, Family::Aluminium, Length::from_inches(1.0)), None);
    }
}
