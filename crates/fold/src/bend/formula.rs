//! The published sums for one bend. Lengths in millimetres (any one unit will do), turns in radians from flat.
//!
//! Words: *turn* is the angle bent through, measured from flat; *setback* the distance from the bend's tangent
//! line to the mold line, where the outside faces meet; *allowance* the length of the bend zone on the flat;
//! *deduction* what two outside legs lose together.

use std::f64::consts::PI;

use geometry::{tolerance, trig};

/// Bend allowance θ·(R + K·T), mm.
///
/// Source: the neutral-line model of the trade's bending texts (common practice).
#[must_use]
pub fn allowance(turn_rad: f64, inside_radius_mm: f64, thickness_mm: f64, k_factor: f64) -> f64 {
    turn_rad * (inside_radius_mm + k_factor * thickness_mm)
}

/// Bend allowance (0.01743·R + 0.0078·T) per degree of turn, mm.
///
/// Source: FAA-H-8083-31, chapter 4, Layout and Forming. Equal to a K-factor near .447.
#[must_use]
pub fn allowance_faa(turn_rad: f64, inside_radius_mm: f64, thickness_mm: f64) -> f64 {
    turn_rad * 180.0 / PI * (0.01743 * inside_radius_mm + 0.0078 * thickness_mm)
}

/// Bend allowance (`coefficient`·T + 1.57·R) for a quarter turn, in proportion for other turns, mm.
///
/// Source: Machinery's Handbook, lengths of straight stock required for bends; the coefficient is .55 for soft
/// copper and brass, .64 for aluminium, soft steel and half-hard copper and brass, .71 for bronze, hard copper
/// and spring steel.
#[must_use]
pub fn allowance_empirical(turn_rad: f64, inside_radius_mm: f64, thickness_mm: f64, coefficient: f64) -> f64 {
    turn_rad / (PI / 2.0) * (coefficient * thickness_mm + 1.57 * inside_radius_mm)
}

/// The factor k of DIN 6935: .65 + ½·log₁₀(r/s), and 1 where r/s is above 5.
///
/// Source: DIN 6935, cold bending of flat rolled steel. The neutral line lies k/2 of the thickness in.
#[must_use]
pub fn din_factor(inside_radius_mm: f64, thickness_mm: f64) -> f64 {
    let ratio = inside_radius_mm / thickness_mm;
    if ratio > 5.0 { 1.0 } else { 0.65 + 0.5 * libm::log10(ratio) }
}

/// Turn below which DIN 6935 takes the deduction for nothing: openings above 165°, radians.
const DIN_NEGLECTED_RAD: f64 = 15.0 / 180.0 * PI;

/// True for a turn so small that DIN 6935 takes the deduction of a single bend for nothing, as below its accuracy: the
/// flat is then the sum of the outside legs.
///
/// Not meant for one of many bends that make up a curve: each would add metal, and the girth no longer come out.
///
/// Source: DIN 6935 by textbooks and extracts (the standard itself was not seen).
#[must_use]
pub fn din_neglects(turn_rad: f64) -> bool {
    turn_rad < DIN_NEGLECTED_RAD - tolerance::PARALLEL_SINE
}

/// Bend allowance by DIN 6935: θ·(r + k·s/2), mm; see [`din_factor`], and [`din_neglects`] for a single slight bend.
#[must_use]
pub fn allowance_din(turn_rad: f64, inside_radius_mm: f64, thickness_mm: f64) -> f64 {
    let k_factor = 0.5 * din_factor(inside_radius_mm, thickness_mm);
    allowance(turn_rad, inside_radius_mm, thickness_mm, k_factor)
}

/// Setback (R + T)·tan(θ/2): from the tangent line to the mold line, mm.
///
/// Source: FAA-H-8083-31, chapter 4. Holds for turns below 180°.
#[must_use]
pub fn setback(turn_rad: f64, inside_radius_mm: f64, thickness_mm: f64) -> f64 {
    (inside_radius_mm + thickness_mm) * trig::tan(turn_rad / 2.0)
}

/// Setback as the handbooks cap it: above a quarter turn it stays R + T, so that a leg is then measured to the
/// outermost metal instead of to a mold line that lies out in the air.
///
/// Source: DIN 6935, the case of opening angles up to 90°.
#[must_use]
pub fn capped_setback(turn_rad: f64, inside_radius_mm: f64, thickness_mm: f64) -> f64 {
    setback(turn_rad.min(PI / 2.0), inside_radius_mm, thickness_mm)
}

/// Bend deduction 2·setback − allowance, mm: the flat is the sum of the outside legs less this, once a bend.
#[must_use]
pub fn deduction(setback_mm: f64, allowance_mm: f64) -> f64 {
    2.0 * setback_mm - allowance_mm
}

/// The K-factor that gives a measured deduction: ((2·setback − deduction)/θ − R)/T.
///
/// Source: the deduction formula turned round.
#[must_use]
pub fn k_factor_from_deduction(
    deduction_mm: f64,
    turn_rad: f64,
    inside_radius_mm: f64,
    thickness_mm: f64,
) -> f64 {
    let setback_mm = capped_setback(turn_rad, inside_radius_mm, thickness_mm);
    ((2.0 * setback_mm - deduction_mm) / turn_rad - inside_radius_mm) / thickness_mm
}

/// Allowance of a hem pressed flat, mm: both legs, each measured to the outside of the fold, lose 43 % of the thickness
/// together, so the zone is 2·T − .43·T wide.
///
/// Source: a trade article's rule for flattened hems, printed for sheet under .080 in (read in a copy). The mid-line of
/// a fold without inside radius gives 2 − π/2 = .429, for any thickness (plane geometry).
#[must_use]
pub const fn closed_hem_allowance(thickness_mm: f64) -> f64 {
    (2.0 - CLOSED_HEM_SHARE) * thickness_mm
}

/// Share of the thickness that a flattened hem takes off its two legs.
const CLOSED_HEM_SHARE: f64 = 0.43;
