//! Metal between a hole and the edge, or the next hole, is not thinner than the plate.
//!
//! A web narrower than the thickness tears when cut by hand (common practice, no source).

use geometry::outline::Chords;
use geometry::{polygon, tolerance};

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "thin_web";

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let edge = subject.flat.outline.outer.corners(Chords::On);
    let holes = subject.holes();
    for (place, hole) in holes.iter().enumerate() {
        let own = hole.edge();
        note(subject, hole.place(), polygon::edges_distance(&own, &edge), "the edge", findings);
        for other in &holes[..place] {
            let web_mm = polygon::edges_distance(&own, &other.edge());
            note(subject, hole.place(), web_mm, &other.place(), findings);
        }
    }
}

/// A web of no width is a fault of another rule.
fn note(subject: &Subject<'_>, place: String, web_mm: f64, to: &str, findings: &mut Vec<Finding>) {
    if web_mm <= tolerance::SAME_POINT_MM || subject.part.thickness_mm() - tolerance::SAME_POINT_MM <= web_mm
    {
        return;
    }
    findings.push(Finding {
        rule: NAME,
        severity: Severity::Caution,
        place,
        measured: subject.print_mm(web_mm),
        wrong: format!("less metal than the plate is thick is left to {to}"),
        remedy: "move the hole, or run it through on purpose".to_owned(),
    });
}
