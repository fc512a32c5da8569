//! A flange is long enough for the brake to hold.
//!
//! A leg that does not reach both shoulders of the die, or the jaw of a folder, slips and comes out crooked. Without
//! the shop's own figure, seven tenths of the V opening are taken as an estimate (The Fabricator, press brake bending
//! tips on minimum flange lengths; read in a copy).

use fold::part::Edge;
use geometry::Point;
use units::Length;

use crate::{Finding, Severity, Subject};

/// Share of the V opening that a flange must reach in a standard die.
const SHARE_OF_V: f64 = 0.7;

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let limits = subject.limits;
    let estimate = limits.v_opening.map(|v| Length::from_millimetres(SHARE_OF_V * v.millimetres()));
    let (shortest, severity, whose) = match (limits.shortest_flange, estimate) {
        (Some(own), _) => (own, Severity::Refuse, "the brake's shortest flange"),
        (None, Some(estimate)) => (estimate, Severity::Caution, "seven tenths of the V opening"),
        (None, None) => return,
    };
    for bend in &subject.part.bends {
        let leg_mm = leg_mm(subject, bend.child);
        if leg_mm < shortest.millimetres() - geometry::tolerance::SAME_POINT_MM {
            findings.push(Finding {
                rule: "short_flange",
                severity,
                place: subject.part.faces[bend.child].name.clone(),
                measured: subject.print_mm(leg_mm),
                wrong: format!("shorter than {whose}, {}", shortest.print(subject.style)),
                remedy: "lengthen the leg, or bend it on another machine and say so in the brake's sizes"
                    .to_owned(),
            });
        }
    }
}

/// Outside leg of a plate: from its mold line square to the farthest edge or next mold line, mm.
fn leg_mm(subject: &Subject<'_>, face: usize) -> f64 {
    let face = &subject.part.faces[face];
    debug_assert_eq!(face.edges.first(), Some(&Edge::Parent), "a child's first edge is its bend");
    face.corners.iter().map(|corner: &Point| corner.y).fold(0.0, f64::max)
}
