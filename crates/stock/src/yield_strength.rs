//! Yield strengths and moduli, which the springback estimate needs.

use crate::table;
use serde::Deserialize;
use std::convert::Infallible;
use std::sync::LazyLock;

static YIELDS: LazyLock<Vec<YieldStrength>> =
    LazyLock::new(|| table::load(include_str!("../data/yield_strengths.json"), Ok::<_, Infallible>));

/// How far a metal of one alloy and temper can be strained before it stays bent.
///
/// Typical values of sheet as delivered, in thousands of pounds per square inch. They serve to estimate springback and
/// nothing else: no part is judged strong by them.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
#[non_exhaustive]
pub struct YieldStrength {
    /// The alloy's name.
    pub alloy: String,
    /// The temper; none for metals that are not sold by temper.
    pub temper: Option<String>,
    /// Yield strength, ksi.
    pub yield_ksi: f64,
    /// Modulus of elasticity, ksi.
    pub modulus_ksi: f64,
    /// Where the row comes from and how it was got.
    pub source: String,
}

/// The row for an alloy and temper, if the table has it. A temper that is not named has no row where tempers matter.
#[must_use]
pub fn yield_strength(alloy: &str, temper: Option<&str>) -> Option<&'static YieldStrength> {
    YIELDS.iter().find(|row| row.alloy == alloy && row.temper.as_deref() == temper)
}

impl YieldStrength {
    /// The strain at yield: yield strength over modulus.
    #[must_use]
    pub fn strain(&self) -> f64 {
        self.yield_ksi / self.modulus_ksi
    }
}
