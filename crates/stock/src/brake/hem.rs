//! Force that presses a hem.

use std::sync::LazyLock;

use serde::Deserialize;
use units::{Length, ReadError};

use crate::table;

static ROWS: LazyLock<Vec<HemForce>> =
    LazyLock::new(|| table::load(include_str!("../../data/hem_force.json"), Row::model));

/// US tons of 2,000 lb in a ton of 1,000 kg: 1 / (.45359237 · 2).
const US_TONS_PER_TON: f64 = 1.0 / (0.453_592_37 * 2.0);
const METRES_PER_FOOT: f64 = 0.3048;

/// Force for a hem in cold-rolled steel of one thickness.
#[derive(Debug, Clone)]
struct HemForce {
    thickness: Length,
    /// Tons of 1,000 kg to the metre: left open, closed flat.
    open: f64,
    closed: f64,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    thickness: String,
    open: f64,
    closed: f64,
    source: String,
}

impl Row {
    fn model(self) -> Result<HemForce, ReadError> {
        let Self { thickness, open, closed, source } = self;
        Ok(HemForce { thickness: table::length(&thickness)?, open, closed, source })
    }
}

/// Force that presses a hem in cold-rolled steel, tons of 2,000 lb to the foot, and where it comes from; between the rows in
/// proportion, and for thinner sheet as for the thinnest of them. `None` for sheet thicker than any row.
///
/// Source: a trade table that cites Benson, *Press Brake Technology*, SME 1997, p. 138.
#[must_use]
pub fn hem_us_tons_per_foot(thickness: Length, is_closed: bool) -> Option<(f64, &'static str)> {
    let of = |row: &HemForce| if is_closed { row.closed } else { row.open };
    let after = ROWS.iter().position(|row| thickness <= row.thickness)?;
    let (above, below) = (&ROWS[after], &ROWS[after.saturating_sub(1)]);
    let span = above.thickness.millimetres() - below.thickness.millimetres();
    let share = if 0.0 < span {
        ((thickness.millimetres() - below.thickness.millimetres()) / span).max(0.0)
    } else {
        1.0
    };
    let per_metre = of(below) + share * (of(above) - of(below));
    Some((per_metre * US_TONS_PER_TON * METRES_PER_FOOT, above.source.as_str()))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The table's own rows: 1.6 mm takes 24 open and 63 closed, 4.5 mm 105 and 200 tons to the metre; a ton to the metre is
    /// 2204.62 / 2000 / 3.28084 = .33598 US tons to the foot. Half-way from 1.6 to 2.0 mm closed it is 71.5.
    #[test]
    fn rows_and_what_lies_between() {
        let per_foot = |mm: f64, is_closed| {
            hem_us_tons_per_foot(Length::from_millimetres(mm), is_closed).map(|(tons, _)| tons / 0.335_98)
        };
        for (mm, is_closed, tons) in [
            (1.6, false, 24.0),
            (1.6, true, 63.0),
            (4.5, false, 105.0),
            (4.5, true, 200.0),
            (1.8, true, 71.5),
            (0.4, true, 23.0),
        ] {
            let found = per_foot(mm, is_closed).unwrap();
            assert!((found - tons).abs() < 0.01, "{mm} {is_closed}: {found}");
        }
        assert_eq!(per_foot(4.6, true), None);
        // By rule of thumb a closed hem takes some two and a half times an open one; thick sheet less.
        let times = per_foot(1.0, true).unwrap() / per_foot(1.0, false).unwrap();
        assert!((2.4..2.8).contains(&times), "{times}");
    }
}
