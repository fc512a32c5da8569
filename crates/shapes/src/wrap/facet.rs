//! One flat between two element lines.

use geometry::{Point, Vector, tolerance};

/// A flat. Its bend to the flat before lies on y = 0, x running along the element line, so that both flats read the same
/// x at a bend; edge 0 is that bend or the seam.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Facet {
    /// Corners, counter-clockwise, on mold lines where bent.
    pub(crate) corners: Vec<Point>,
    /// The edge that is the bend to the next flat, or the seam.
    pub(crate) high_edge: usize,
    /// Origin and direction of the next bend's mold line, where x along it is counted from.
    pub(crate) next: (Point, Vector),
}

/// The end of a facet's far edge.
#[derive(Debug, Clone, Copy)]
pub(crate) struct HighEnd {
    /// Where it lies along its own mold line.
    pub(crate) x_along: f64,
}

/// Where a curved edge ends: on a mold line it is run on to, or where it is.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Limit {
    /// The curve ends at a tangent line; the edge runs on straight to the mold line (a place on it, its direction).
    Bend(Point, Vector),
    /// The curve ends at the seam.
    Seam,
}

impl Facet {
    /// A facet between an inner and an outer curve, both running from the low side to the high side.
    pub(crate) fn between(inner: &[Point], outer: &[Point], next: (Point, Vector)) -> Self {
        let mut corners = vec![inner[0]];
        corners.extend_from_slice(outer);
        let high_edge = corners.len() - 1;
        corners.extend(inner[1..].iter().rev());
        Self { corners, high_edge, next }
    }

    /// Where the far edge ends and begins, along its mold line, mm: the lower place first.
    pub(super) fn high_edge_along(&self) -> [f64; 2] {
        let along = |corner: Point| (corner - self.next.0).dot(self.next.1);
        [self.high_end().x_along, along(self.corners[self.high_edge])]
    }

    /// Where the far edge ends.
    pub(crate) fn high_end(&self) -> HighEnd {
        let end = self.corners[(self.high_edge + 1) % self.corners.len()];
        HighEnd { x_along: (end - self.next.0).dot(self.next.1) }
    }
}

/// A curve as a polyline within the chord tolerance, from parameter `range[0]` to `range[1]`, its ends run on to the
/// mold lines beyond.
pub(crate) fn sampled(curve: &dyn Fn(f64) -> Point, range: [f64; 2], limits: [Limit; 2]) -> Vec<Point> {
    let mut points = vec![curve(range[0])];
    halve(curve, range, &mut points);
    let count = points.len();
    let run_on = |near: Point, end: Point, limit: Limit| match limit {
        Limit::Seam => end,
        Limit::Bend(on, along) => end.crossing(end - near, on, along).unwrap_or(end),
    };
    let (first, last) =
        (run_on(points[1], points[0], limits[0]), run_on(points[count - 2], points[count - 1], limits[1]));
    points[0] = first;
    points[count - 1] = last;
    points
}

/// Adds the points after the start of `range`, halving until the middle lies on its chord.
fn halve(curve: &dyn Fn(f64) -> Point, [from, to]: [f64; 2], points: &mut Vec<Point>) {
    let (a, b) = (curve(from), curve(to));
    let sag = [0.25, 0.5, 0.75].map(|share| {
        let on = curve(from + (to - from) * share);
        geometry::polygon::point_to_segment(on, (a, b))
    });
    if sag.into_iter().fold(0.0, f64::max) <= tolerance::ARC_CHORD_MM {
        points.push(b);
        return;
    }
    let middle = 0.5 * (from + to);
    halve(curve, [from, middle], points);
    halve(curve, [middle, to], points);
}
