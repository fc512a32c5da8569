//! Bending force in a V die.

use std::sync::LazyLock;

use serde::Deserialize;
use units::{Length, ReadError};

use crate::alloy::Family;
use crate::table;

/// Tons per foot times V over T², inches: the constant of press brake charts, common practice. 60,000 psi over a foot are 360 tons
/// an inch of T²/V, so it stands for a factor of 1.6; textbooks of forming give 1.33 for a V die (from memory), which is
/// the fifth less by which charts differ.
const CHART_CONSTANT: f64 = 575.0;

static FACTORS: LazyLock<Vec<ForceFactor>> =
    LazyLock::new(|| table::load(include_str!("../../data/bend_force_factors.json"), Row::model));

/// Force of a metal as a multiple of mild steel.
#[derive(Debug, Clone, PartialEq)]
pub struct ForceFactor {
    /// The metal as the chart names it.
    pub alloy: String,
    /// Its temper, where the chart names one.
    pub temper: Option<String>,
    /// Multiple of the force for mild steel.
    pub factor: f64,
    /// Where the row comes from and how it was got.
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    alloy: String,
    temper: Option<String>,
    factor: f64,
    source: String,
}

impl Row {
    #[expect(clippy::unnecessary_wraps, reason = "every table is read by a conversion that may fail")]
    fn model(self) -> Result<ForceFactor, ReadError> {
        let Self { alloy, temper, factor, source } = self;
        Ok(ForceFactor { alloy, temper, factor, source })
    }
}

/// Force for an air bend in mild steel of 60,000 psi: 575·T²/V tons of 2,000 lb to the foot of bend, T and V in inches.
///
/// Source: the formula printed beside press brake charts, common practice; the copies read name no publisher. Charts differ
/// from it by up to a fifth.
#[must_use]
pub fn us_tons_per_foot(thickness: Length, v_opening: Length) -> f64 {
    let (thickness_in, v_in) = (thickness.inches(), v_opening.inches());
    CHART_CONSTANT * thickness_in * thickness_in / v_in
}

/// The factor of a metal: its own row, else another temper of the alloy, else the row of its family; none for a metal
/// that no chart names.
#[must_use]
pub fn force_factor(alloy: &str, temper: Option<&str>, family: Family) -> Option<&'static ForceFactor> {
    let named = |name: &str, temper: Option<&str>| {
        FACTORS.iter().find(|row| row.alloy == name && row.temper.as_deref() == temper)
    };
    let family_name = match family {
        Family::Aluminium => "aluminium",
        Family::MildSteel => "mild steel",
        Family::StainlessSteel => "stainless steel",
        Family::Unlisted => return None,
    };
    let soft = if temper == Some("O") { named(family_name, temper) } else { None };
    named(alloy, temper)
        .or(soft)
        .or_else(|| FACTORS.iter().find(|row| row.alloy == alloy))
        .or_else(|| named(family_name, None))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A worked example printed beside a chart, publisher not known: .125 in mild steel in a 1 in V takes 9.0 tons to the foot, 4 ft take 36 tons.
    #[test]
    fn the_worked_example_of_the_formula() {
        let per_foot = us_tons_per_foot(Length::from_inches(0.125), Length::from_inches(1.0));
        assert!((per_foot - 8.984).abs() < 0.001, "{per_foot}");
        assert!((4.0 * per_foot - 35.94).abs() < 0.01);
    }

    /// A chart, publisher not known: 1/4 in plate in a 2 in V, 15.5 tons to the foot, 10 ft 155 tons. Charts differ from the
    /// formula by up to a fifth.
    #[test]
    fn a_chart_within_a_fifth() {
        let per_foot = us_tons_per_foot(Length::from_inches(0.25), Length::from_inches(2.0));
        assert!((per_foot / 15.5 - 1.0).abs() < 0.2, "{per_foot}");
    }

    /// Multipliers of charts, publishers not known: 3003-H14 .35, 5052-H34 .65, 6061-T6 .75, stainless 1.55.
    #[test]
    fn factors_of_the_charts() {
        let factor = |alloy, temper, family| force_factor(alloy, temper, family).map(|row| row.factor);
        assert_eq!(factor("3003", Some("H14"), Family::Aluminium), Some(0.35));
        assert_eq!(factor("5052", Some("H34"), Family::Aluminium), Some(0.65));
        assert_eq!(factor("5052", Some("H32"), Family::Aluminium), Some(0.65), "another temper of the alloy");
        assert_eq!(factor("6061", Some("T6"), Family::Aluminium), Some(0.75));
        assert_eq!(factor("5086", Some("H32"), Family::Aluminium), Some(1.0), "no row: the highest");
        assert_eq!(factor("304", None, Family::StainlessSteel), Some(1.55));
        assert_eq!(factor("unobtainium", None, Family::Unlisted), None);
    }
}
