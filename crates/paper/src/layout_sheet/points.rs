//! The points that get running dimensions: every corner, bend line end, hole centre and arc centre.

use fold::FlatPattern;
use geometry::outline::arc_sweep;
use geometry::{Contour, Point, Segment, tolerance};

/// Every point to dimension, in the order of the outline.
pub(super) fn to_dimension(flat: &FlatPattern) -> Vec<Point> {
    let mut points = contour_points(&flat.outline.outer);
    for hole in &flat.outline.holes {
        match full_circle(hole) {
            Some((centre, _)) => points.push(centre),
            None => points.extend(contour_points(hole)),
        }
    }
    points.extend(flat.bends.iter().flat_map(|bend| [bend.from, bend.to]));
    points
}

/// An arc of a contour.
#[derive(Debug, Clone, Copy)]
pub(super) struct Arc {
    /// Centre.
    pub(super) centre: Point,
    /// Radius, mm.
    pub(super) radius_mm: f64,
    /// Sweep, radians, positive for counter-clockwise.
    pub(super) sweep_rad: f64,
}

/// Centre and radius, mm, of a hole that is one whole circle.
pub(super) fn full_circle(contour: &Contour) -> Option<(Point, f64)> {
    let arcs = arcs(contour);
    let first = arcs.first()?;
    let circle = (first.centre, first.radius_mm);
    let same = arcs.iter().all(|arc| same_circle(circle, (arc.centre, arc.radius_mm)));
    (same && arcs.len() == contour.segments.len()).then_some(circle)
}

/// Every arc of a contour.
pub(super) fn arcs(contour: &Contour) -> Vec<Arc> {
    let arc = |(from, segment): (Point, Segment)| match segment {
        Segment::Arc { to, centre, counter_clockwise } => Some(Arc {
            centre,
            radius_mm: centre.distance(to),
            sweep_rad: arc_sweep(from, to, centre, counter_clockwise),
        }),
        Segment::Line { .. } => None,
    };
    contour.pieces().filter_map(arc).collect()
}

/// True when two circles, each of centre and radius, are one.
pub(super) fn same_circle(first: (Point, f64), second: (Point, f64)) -> bool {
    first.0.distance(second.0) <= tolerance::SAME_POINT_MM
        && (first.1 - second.1).abs() <= tolerance::SAME_POINT_MM
}

/// Corners and arc centres; where a straight edge merely runs on there is no corner.
fn contour_points(contour: &Contour) -> Vec<Point> {
    let pieces: Vec<(Point, Segment)> = contour.pieces().collect();
    let following = pieces.iter().cycle().skip(1);
    let corners = pieces.iter().zip(following).filter(|(before, after)| !runs_on(**before, **after));
    let corners = corners.map(|((_, segment), _)| segment.end());
    corners.chain(arcs(contour).into_iter().map(|arc| arc.centre)).collect()
}

fn runs_on(before: (Point, Segment), after: (Point, Segment)) -> bool {
    let (Segment::Line { to: corner }, Segment::Line { to }) = (before.1, after.1) else { return false };
    let (first, second) = ((corner - before.0).unit(), (to - corner).unit());
    first.cross(second).abs() <= tolerance::PARALLEL_SINE && 0.0 < first.dot(second)
}
