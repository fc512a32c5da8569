//! Lengths on the grid of nests and cutting lists: whole steps of an eighth of a micrometre ([`geometry::tolerance::GRID_STEP_MM`]).

use units::{Area, Length};

/// Nanometres to a step.
const NANOMETRES_PER_STEP: i64 = 125;

/// A length in whole steps, rounded up: for what must come out or be kept clear.
pub(crate) const fn steps_up(length: Length) -> i64 {
    let nanometres = length.nanometres();
    nanometres.div_euclid(NANOMETRES_PER_STEP)
        + if nanometres.rem_euclid(NANOMETRES_PER_STEP) == 0 { 0 } else { 1 }
}

/// A length in whole steps, rounded down: for sheets and sticks.
pub(crate) const fn steps_down(length: Length) -> i64 {
    length.nanometres().div_euclid(NANOMETRES_PER_STEP)
}

/// The area of so many square steps.
pub(crate) fn area_of(square_steps: i128) -> Area {
    let each = i128::from(NANOMETRES_PER_STEP * NANOMETRES_PER_STEP);
    Area::from_square_nanometres(square_steps.saturating_mul(each))
}

/// The length of so many steps.
pub(crate) const fn length_of(steps: i64) -> Length {
    Length::from_nanometres(steps * NANOMETRES_PER_STEP)
}
