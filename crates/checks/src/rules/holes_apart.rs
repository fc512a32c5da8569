//! Holes do not touch or overlap one another.
//!
//! Two holes that run together are one hole of another shape; the sizes say something else than the tape.

use geometry::{Point, polygon};

use crate::{Finding, Severity, Subject};

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let holes = subject.holes();
    for (place, hole) in holes.iter().enumerate() {
        for other in &holes[..place] {
            if hole.face == other.face && meet(&hole.corners, &other.corners) {
                findings.push(Finding {
                    rule: "holes_apart",
                    severity: Severity::Refuse,
                    place: format!("holes[{}]", hole.number),
                    measured: format!("with holes[{}]", other.number),
                    wrong: "the two holes run together".to_owned(),
                    remedy: "move one, or ask for one hole of the shape you want".to_owned(),
                });
            }
        }
    }
}

fn meet(first: &[Point], second: &[Point]) -> bool {
    let crossing = polygon::edges(first)
        .any(|own| polygon::edges(second).any(|edge| polygon::segments_touch(own, edge)));
    let inside =
        |ring: &[Point], corners: &[Point]| corners.first().is_some_and(|p| polygon::contains(ring, *p));
    crossing || inside(first, second) || inside(second, first)
}
