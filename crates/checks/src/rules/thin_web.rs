//! Metal between a hole and an edge is not thinner than the plate.
//!
//! A web narrower than the thickness tears when cut by hand (common practice, no source).

use geometry::polygon;

use crate::subject::Hole;
use crate::{Finding, Severity, Subject};

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let thickness = subject.part.thickness_mm();
    for Hole { number, face, corners, .. } in subject.holes() {
        let ring = &subject.flat.faces[face].corners;
        let web = polygon::edges(&corners)
            .flat_map(|own| polygon::edges(ring).map(move |edge| polygon::segment_distance(own, edge)))
            .fold(f64::INFINITY, f64::min);
        if web < thickness {
            findings.push(Finding {
                rule: "thin_web",
                severity: Severity::Caution,
                place: format!("holes[{number}]"),
                measured: subject.print_mm(web),
                wrong: "less metal than the plate is thick is left to the edge".to_owned(),
                remedy: "move the hole in, or cut it through to the edge on purpose".to_owned(),
            });
        }
    }
}
