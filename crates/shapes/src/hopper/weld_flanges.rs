//! Flanges along the two hips of one face: both lie flat on it, and must not lie over one another.

use geometry::{Point3, tolerance};
use units::Length;

use super::Hopper;
use crate::shell::Shell;
use crate::{Making, Problem};

impl Hopper {
    /// That flanges on the same face, laid along these edges of these plates, find room beside one another.
    ///
    /// # Errors
    /// The face where they do not, and by how much.
    pub(super) fn check_weld_flanges(
        &self,
        shell: &Shell,
        laid: &[(usize, usize)],
        (width, making): (Length, &Making),
    ) -> Result<(), Vec<Problem>> {
        let Some((plate, over_mm)) = self.lie_over(shell, laid, width.millimetres(), making) else {
            return Ok(());
        };
        let wrong = format!(
            "the flanges along both its hips lie over one another on {}, by {}",
            shell.plates[plate].name,
            making.print_least_mm(over_mm)
        );
        Err(vec![Problem::new("weld_flange", making.print(width), wrong, "make it narrower")])
    }

    /// The first plate on which two flanges so wide lie over one another, and by how much at the least, mm.
    fn lie_over(
        &self,
        shell: &Shell,
        laid: &[(usize, usize)],
        width_mm: f64,
        making: &Making,
    ) -> Option<(usize, f64)> {
        let rectangle = |&place: &(usize, usize)| {
            let flange = self.weld_flange(shell, place, width_mm, making);
            let [from, to, ..] = flange.corners[..] else { return flange.corners };
            let along = (to - from).unit();
            let [at_to, at_from] = flange.short_mm;
            let ends = [along * at_from, along * at_to, along * at_to, along * at_from];
            let signs = [1.0, -1.0, -1.0, 1.0];
            let corners = flange.corners.iter().zip(ends.into_iter().zip(signs));
            corners.map(|(&corner, (end, sign))| corner + end * sign).collect()
        };
        let pairs = laid.iter().enumerate().flat_map(|(number, one)| {
            laid[number + 1..].iter().filter(|other| other.0 == one.0).map(move |other| (one, other))
        });
        pairs.into_iter().find_map(|(one, other)| {
            let over_mm = depth_mm(&rectangle(one), &rectangle(other));
            (tolerance::SCRIBED_LINE_MM < over_mm).then_some((one.0, over_mm))
        })
    }
}

/// How deep two rectangles in one plane lie over one another along the sides of either, at the least, mm; below zero where they lie
/// apart.
fn depth_mm(one: &[Point3], other: &[Point3]) -> f64 {
    let sides = [one, other].into_iter().flat_map(|own| [own[1] - own[0], own[2] - own[1]]);
    let depth = |side: geometry::Vector3| {
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
