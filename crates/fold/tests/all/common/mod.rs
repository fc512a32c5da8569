//! Reading of published tables, shared by the tests of bend numbers.
#![allow(dead_code, unreachable_pub, reason = "each test file uses its own share")]
#![allow(clippy::unwrap_used, reason = "only tests use it")]

use fold::BendNumber;
use fold::bend::Origin;
use serde_json::Value;
use stock::BendModel;
use units::Length;

/// One published row.
pub struct Row(Value);

/// All rows of a file, which must be as many as the test knows of.
pub fn rows(text: &str, count: usize) -> Vec<Row> {
    let file: Value = serde_json::from_str(text).unwrap();
    let rows: Vec<Row> = file["rows"].as_array().unwrap().iter().cloned().map(Row).collect();
    assert_eq!(rows.len(), count, "rows of {}", file["topic"]);
    rows
}

/// A value common to all rows of a file.
pub fn shared(text: &str) -> Row {
    Row(serde_json::from_str(text).unwrap())
}

impl Row {
    /// True when the row has the field.
    pub fn has(&self, field: &str) -> bool {
        !self.0[field].is_null()
    }

    /// A number of the row.
    pub fn number(&self, field: &str) -> f64 {
        self.0[field].as_f64().unwrap_or_else(|| panic!("{field} in {}", self.0))
    }

    /// A whole number of the row.
    pub fn count(&self, field: &str) -> u64 {
        self.0[field].as_u64().unwrap_or_else(|| panic!("{field} in {}", self.0))
    }

    /// A list of numbers of the row.
    pub fn numbers(&self, field: &str) -> Vec<f64> {
        self.0[field].as_array().unwrap().iter().map(|number| number.as_f64().unwrap()).collect()
    }

    /// A word of the row.
    pub fn word(&self, field: &str) -> &str {
        self.0[field].as_str().unwrap_or_else(|| panic!("{field} in {}", self.0))
    }

    /// An angle of the row in radians.
    pub fn radians(&self, field: &str) -> f64 {
        self.number(field).to_radians()
    }

    /// The bend number of the row's metal in inches.
    pub fn bend_number(&self, model: BendModel) -> BendNumber {
        let length = |field: &str| Length::from_inches(self.number(field));
        BendNumber::new(length("thickness_in"), length("inside_radius_in"), model, Origin::General).unwrap()
    }

    /// Asserts that `computed` rounds to the row's `field` at the places it was printed to.
    pub fn is_rounded(&self, field: &str, computed: f64, places: u64) {
        self.is_within(field, computed, 0.501 * unit_of(places));
    }

    /// Asserts that `computed` lies within `allowed` of the row's `field`.
    pub fn is_within(&self, field: &str, computed: f64, allowed: f64) {
        let off = (computed - self.number(field)).abs();
        assert!(off <= allowed, "{field}: {computed} is off by {off}: {}", self.0);
    }
}

/// One unit of the last of so many decimal places.
pub fn unit_of(places: u64) -> f64 {
    (0..places).fold(1.0, |unit, _| unit / 10.0)
}

/// Millimetres as inches.
pub fn in_inches(millimetres: f64) -> f64 {
    millimetres / 25.4
}
