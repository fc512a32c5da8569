//! Springback: how much further than its turn a bend must be pressed, so that it comes back to it.
//!
//! None of this changes a flat. The flat is worked from the bend as it lies on the bench, with its final radius and
//! turn; the overbend is only told to whoever stands at the brake.

use std::f64::consts::PI;

use stock::YieldStrength;

use super::BendNumber;
use super::shop_strip::ShopStrip;

/// Share of the thickness by which a bend's radius may differ from its strip's, for the strip to tell its springback.
const RADIUS_SHARE: f64 = 0.25;

/// Halvings that bring a radius within less than a thousand-millionth of its range.
const HALVINGS: usize = 60;

/// Where an overbend came from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum OverbendOrigin<'a> {
    /// The shop measured a strip in the die and on the bench.
    Strip(&'a ShopStrip),
    /// The published formula, with this yield strength.
    Estimate(&'a YieldStrength),
}

/// How far to press one bend.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Overbend<'a> {
    /// Turn under the punch, radians.
    pub turn_in_die_rad: f64,
    /// Where it came from.
    pub origin: OverbendOrigin<'a>,
}

/// Why no overbend can be told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum SpringbackError {
    /// Neither a strip nor a yield strength.
    #[error("no strip says how far it springs back, and no yield strength of this metal is known")]
    Unknown,
    /// The sheet would have to be pressed past a half turn.
    #[error(
        "it cannot be pressed to this turn in one stroke: swing it as far as it goes, then press it closed"
    )]
    PastHalfTurn,
}

/// Inside radius in the die over inside radius on the bench: 4x³ − 3x + 1 with x = Ri·Y/(E·T).
///
/// `yield_strain` is Y/E. Source: Schey, Introduction to Manufacturing Processes, and Kalpakjian and Schmid,
/// Manufacturing Engineering and Technology (from memory). Holds for x up to ½, where the sheet springs back flat.
#[must_use]
pub fn radius_ratio(radius_in_die_mm: f64, thickness_mm: f64, yield_strain: f64) -> f64 {
    let x = radius_in_die_mm * yield_strain / thickness_mm;
    4.0 * x * x * x - 3.0 * x + 1.0
}

/// Turn on the bench over turn in the die: (2·Ri/T + 1)/(2·Rf/T + 1). The mid-line keeps its length.
///
/// Source: Kalpakjian and Schmid, springback factor.
#[must_use]
pub fn turn_ratio(radius_in_die_mm: f64, radius_on_bench_mm: f64, thickness_mm: f64) -> f64 {
    (2.0 * radius_in_die_mm / thickness_mm + 1.0) / (2.0 * radius_on_bench_mm / thickness_mm + 1.0)
}

/// The inside radius in the die that springs back to `radius_on_bench_mm`, mm; [`radius_ratio`] turned round.
///
/// The radius on the bench grows steadily with the one in the die, so halving the range finds the only answer.
#[must_use]
pub fn radius_in_die_mm(radius_on_bench_mm: f64, thickness_mm: f64, yield_strain: f64) -> f64 {
    let (mut low, mut high) = (0.0, radius_on_bench_mm.min(0.5 * thickness_mm / yield_strain));
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if middle < radius_on_bench_mm * radius_ratio(middle, thickness_mm, yield_strain) {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

/// How far to press a bend of `turn_rad` with this inside radius on the bench: by the shop's strip nearest in turn that
/// was measured in the die, else by the formula.
///
/// The share that springs back depends on metal, thickness and radius, hardly on the turn, so a strip serves for
/// other turns too, but not for a hem's or a rolled edge's radius.
///
/// # Errors
/// [`SpringbackError`] when nothing is known, or the answer lies past a half turn.
pub fn overbend<'a>(
    number: &'a BendNumber,
    yield_strength: Option<&'a YieldStrength>,
    turn_rad: f64,
    inside_radius_mm: f64,
) -> Result<Overbend<'a>, SpringbackError> {
    let off_mm = (inside_radius_mm - number.inside_radius().millimetres()).abs();
    let near = off_mm <= RADIUS_SHARE * number.thickness().millimetres();
    let measured = number.strips().filter(|_| near).and_then(|strips| strips.measured_in_die(turn_rad));
    let (ratio, origin) = match (measured, yield_strength) {
        (Some((strip, ratio)), _) => (ratio, OverbendOrigin::Strip(strip)),
        (None, Some(row)) => {
            let thickness_mm = number.thickness().millimetres();
            let in_die_mm = radius_in_die_mm(inside_radius_mm, thickness_mm, row.strain());
            (turn_ratio(in_die_mm, inside_radius_mm, thickness_mm), OverbendOrigin::Estimate(row))
        }
        (None, None) => return Err(SpringbackError::Unknown),
    };
    let turn_in_die_rad = turn_rad / ratio;
    if turn_in_die_rad < PI {
        Ok(Overbend { turn_in_die_rad, origin })
    } else {
        Err(SpringbackError::PastHalfTurn)
    }
}
