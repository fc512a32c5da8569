//! Flanges along the two hips of one face: both lie flat on it, and must not lie over one another.

use geometry::{Point3, Vector3, tolerance};
use units::Length;

use crate::shell::{Shell, ShellPlate};
use crate::{Making, Problem};

/// That flanges `width` wide that lie on the same face find room beside one another.
///
/// # Errors
/// The face where they do not, and by how much.
pub(super) fn check(shell: &Shell, width: Length, making: &Making) -> Result<(), Vec<Problem>> {
    let flanges: Vec<(usize, &ShellPlate)> =
        shell.plates.iter().filter_map(|plate| Some((plate.lies_on?, plate))).collect();
    for (number, (on, one)) in flanges.iter().enumerate() {
        for (_, other) in flanges[number + 1..].iter().filter(|(other_on, _)| other_on == on) {
            let over_mm = depth_mm(&rectangle(one), &rectangle(other));
            if tolerance::SCRIBED_LINE_MM < over_mm {
                let wrong = format!(
                    "the flanges along both its hips lie over one another on {}, by {}",
                    shell.plates[*on].name,
                    making.print_least_mm(over_mm)
                );
                return Err(vec![Problem::new(
                    "weld_flange",
                    making.print(width),
                    wrong,
                    "make it narrower",
                )]);
            }
        }
    }
    Ok(())
}

/// The corners of a flange less what it stops short of rim and collar.
fn rectangle(flange: &ShellPlate) -> Vec<Point3> {
    let along = (flange.corners[1] - flange.corners[0]).unit();
    // The carrier's edge starts at the second corner.
    let [at_second, at_first] = flange.short_mm;
    let moved = [at_first, -at_second, -at_second, at_first];
    flange.corners.iter().zip(moved).map(|(&corner, mm)| corner + along * mm).collect()
}

/// How deep two rectangles in one plane lie over one another along the sides of either, at the least, mm; below zero where they lie
/// apart.
fn depth_mm(one: &[Point3], other: &[Point3]) -> f64 {
    let sides = [one, other].into_iter().flat_map(|own| [own[1] - own[0], own[2] - own[1]]);
    let depth = |side: Vector3| {
        let way = side.unit();
        let span = |corners: &[Point3]| {
            corners
                .iter()
                .map(|&at| (at - one[0]).dot(way))
                .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)))
        };
        let ((low, high), (other_low, other_high)) = (span(one), span(other));
        high.min(other_high) - low.max(other_low)
    };
    sides.map(depth).fold(f64::INFINITY, f64::min)
}
