//! A hole lies in its face and clear of every bend.
//!
//! A hole that runs into a bend zone is drawn out of round and weakens the bend; one outside the face is a slip of the
//! tape. Near a bend it still distorts: closer to the tangent line than twice the thickness plus the inside radius is
//! worth a look (common practice, no source).

use fold::flat::BendLine;
use geometry::outline::Chords;
use geometry::{Point, polygon, tolerance};

use super::apart;
use crate::subject::PlacedHole;
use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "hole_place";

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    let metal = subject.flat.outline.outer.corners(Chords::On);
    for hole in subject.holes() {
        let cover = hole.cover();
        let clear_mm = nearest_bend_mm(subject, hole.face, &cover);
        let in_face = apart::inside(&subject.flat.faces[hole.face].corners, &cover);
        let (severity, wrong, remedy) = if clear_mm <= tolerance::SAME_POINT_MM {
            let remedy = "move it, make it smaller, or cut it after bending";
            (Severity::Refuse, "runs into a bend".to_owned(), remedy)
        } else if !in_face || !apart::inside(&metal, &cover) {
            let remedy = "check its place from the datum corner and its size";
            (Severity::Refuse, "lies outside its face or runs over its edge".to_owned(), remedy)
        } else if clear_mm < worth_a_look_mm(subject) {
            let wrong = format!(
                "stands only {} off a bend and may draw out of round; clear is {} or more",
                subject.print_mm(clear_mm),
                subject.print_mm(worth_a_look_mm(subject))
            );
            (Severity::Caution, wrong, "cut it after bending if it must stay round")
        } else {
            continue;
        };
        findings.push(Finding {
            rule: NAME,
            severity,
            place: hole.place(),
            measured: size(subject, &hole),
            wrong,
            remedy: remedy.to_owned(),
        });
    }
}

/// Length and width of a hole along the flat's axes, and its face.
fn size(subject: &Subject<'_>, hole: &PlacedHole) -> String {
    let (low, high) = hole.contour.bounds();
    let (length, width) = (subject.print_mm(high.x - low.x), subject.print_mm(high.y - low.y));
    format!("{length} × {width} in {}", subject.flat.faces[hole.face].name)
}

fn worth_a_look_mm(subject: &Subject<'_>) -> f64 {
    2.0 * subject.part.thickness_mm() + subject.flat.inside_radius_mm
}

/// Distance from a hole to the nearest bend zone of its face, zero when it reaches in, infinite without bends, mm.
fn nearest_bend_mm(subject: &Subject<'_>, face: usize, hole: &[Point]) -> f64 {
    let of_face = subject.flat.bends.iter().filter(|bend| bend.parent == face || bend.child == face);
    of_face.map(|bend| apart::distance_mm(&zone(bend), hole)).fold(f64::INFINITY, f64::min)
}

/// Corners of a bend zone, counter-clockwise.
fn zone(bend: &BendLine) -> Vec<Point> {
    let half = bend.across() * (0.5 * bend.zone_mm);
    let zone = vec![bend.from + half, bend.to + half, bend.to - half, bend.from - half];
    debug_assert!(0.0 <= polygon::signed_area(&zone), "the child lies on the right of its bend");
    zone
}
