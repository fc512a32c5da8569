//! A hole lies in its face and clear of every bend.
//!
//! A hole that runs into a bend zone is drawn out of round and weakens the bend; one outside the face is a slip of the
//! tape. Near a bend it still distorts: closer to the tangent line than twice the thickness plus the inside radius is
//! worth a look (common practice, no source).

use geometry::polygon;

use crate::subject::Hole;
use crate::{Finding, Severity, Subject};

const RULE: &str = "hole_place";

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    for Hole { number, face, corners, size } in subject.holes() {
        let place = format!("holes[{number}]");
        let measured = format!("{size} in {}", subject.flat.faces[face].name);
        let finding = |severity, wrong: String, remedy: &str| Finding {
            rule: RULE,
            severity,
            place: place.clone(),
            measured: measured.clone(),
            wrong,
            remedy: remedy.to_owned(),
        };
        let ring = &subject.flat.faces[face].corners;
        let inside = corners.iter().filter(|corner| polygon::contains(ring, **corner)).count();
        let clear = nearest_bend_mm(subject, face, &corners);
        if clear.is_some_and(|clear| clear <= 0.0) {
            let remedy = "move it, make it smaller, or cut it after bending";
            findings.push(finding(Severity::Refuse, "runs into a bend".to_owned(), remedy));
        } else if inside < corners.len() || crosses(ring, &corners) {
            let remedy = "check its place from the datum corner and its size";
            findings.push(finding(
                Severity::Refuse,
                "lies outside its face or runs over its edge".to_owned(),
                remedy,
            ));
        } else if let Some(clear) = clear.filter(|clear| *clear < worth_a_look_mm(subject)) {
            let wrong =
                format!("stands only {} off a bend and may draw out of round", subject.print_mm(clear));
            findings.push(finding(Severity::Caution, wrong, "cut it after bending if it must stay round"));
        }
    }
}

fn worth_a_look_mm(subject: &Subject<'_>) -> f64 {
    2.0 * subject.part.thickness_mm() + subject.flat.inside_radius_mm
}

/// Distance from a hole to the nearest bend zone of its face; not above zero when it reaches in, mm.
fn nearest_bend_mm(subject: &Subject<'_>, face: usize, corners: &[geometry::Point]) -> Option<f64> {
    let of_face = subject.flat.bends.iter().filter(|bend| bend.parent == face || bend.child == face);
    let distances = of_face.filter_map(|bend| {
        let (along, length) = (bend.along(), bend.from.distance(bend.to));
        let away = if bend.parent == face { along.left() } else { along.right() };
        let beside = corners.iter().any(|corner| (0.0..=length).contains(&(*corner - bend.from).dot(along)));
        let nearest =
            corners.iter().map(|corner| (*corner - bend.from).dot(away)).fold(f64::INFINITY, f64::min);
        beside.then_some(nearest - 0.5 * bend.zone_mm)
    });
    distances.min_by(f64::total_cmp)
}

/// True when a hole's edge crosses the edge of its face.
fn crosses(ring: &[geometry::Point], corners: &[geometry::Point]) -> bool {
    polygon::edges(corners).any(|own| polygon::edges(ring).any(|edge| polygon::segments_touch(own, edge)))
}
