//! Two pieces held against one another by a library that the nest knows nothing of.

#![expect(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use geo::{Area, Coord, LineString, Polygon};
use geo_clipper::{Clipper, EndType, JoinType};
use geometry::grid::{GridOutline, GridPoint};

/// An outline as that library has it, in steps.
pub(crate) fn in_doubles(outline: &GridOutline) -> Polygon<f64> {
    let number = |n: i64| f64::from(i32::try_from(n).unwrap());
    let line = |ring: &[GridPoint]| {
        LineString::from_iter(ring.iter().map(|p| Coord { x: number(p.x), y: number(p.y) }))
    };
    Polygon::new(line(outline.outer()), outline.holes().iter().map(|hole| line(hole)).collect())
}

/// Area that two pieces share once the first is grown by `by` with round corners.
pub(crate) fn shared_area(first: &GridOutline, second: &GridOutline, by: i64) -> f64 {
    let by = f64::from(i32::try_from(by).unwrap());
    let grown = in_doubles(first).offset(by, JoinType::Round(0.25), EndType::ClosedPolygon, 16.0);
    grown.intersection(&in_doubles(second), 16.0).unsigned_area()
}
