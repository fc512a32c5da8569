//! A joggle: two bends, there and back, and the short slant between them.

use fold::bend::formula;
use geometry::trig;
use units::{Angle, Length};

use crate::{Making, Problem};

/// Length of the slant, from the mold line on one face to the mold line on the other, mm.
///
/// With turn θ and thickness T the mold lines stand m apart, and the next plate is set off by m·sin θ − T·(1 − cos θ).
/// Source: plane geometry of two plates of thickness T.
pub(crate) fn slant_mm(depth_mm: f64, turn_rad: f64, thickness_mm: f64) -> f64 {
    (depth_mm + thickness_mm * (1.0 - trig::cos(turn_rad))) / trig::sin(turn_rad)
}

/// What is wrong with a joggle: a turn past square, or a depth that leaves no slant between its bends.
pub(super) fn problem(field: &str, depth: Length, turn: Angle, making: &Making) -> Option<Problem> {
    let degrees = turn.degrees();
    if !(degrees > 0.0 && degrees <= 90.0) {
        let remedy = "measure the turn from flat; 45 is usual";
        let wrong = "a joggle turns by more than 0 and up to 90°";
        return Some(Problem::new(format!("{field}.turn"), format!("{degrees}°"), wrong, remedy));
    }
    let (turn_rad, thickness) = (turn.radians(), making.thickness_mm());
    let setback = formula::setback(turn_rad, making.number.inside_radius().millimetres(), thickness);
    let least = 2.0 * setback * trig::sin(turn_rad) - thickness * (1.0 - trig::cos(turn_rad));
    (depth.millimetres() <= least).then(|| {
        let wrong = format!("leaves no slant between its two bends of {degrees}°");
        let remedy = format!("set it off by more than {}, or turn less", making.print_mm(least));
        Problem::new(format!("{field}.joggle"), making.print(depth), wrong, remedy)
    })
}
