//! Straight lines in the plane of a plate.

use geometry::{Frame, Plane, Point, Vector, tolerance};

/// A line by a point and a unit direction.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Line {
    pub(crate) point: Point,
    pub(crate) direction: Vector,
}

impl Line {
    /// Through two points; `None` when they are one.
    pub(crate) fn through(a: Point, b: Point) -> Option<Self> {
        (a.distance(b) > tolerance::SAME_POINT_MM).then(|| Self { point: a, direction: (b - a).unit() })
    }

    /// Where `plane` cuts the plane local z = `z_mm` of `frame`, in local coordinates; `None` when parallel.
    pub(crate) fn trace(frame: &Frame, plane: Plane, z_mm: f64) -> Option<Self> {
        let normal = Vector::new(plane.normal.dot(frame.x), plane.normal.dot(frame.y));
        let squared = normal.dot(normal);
        if squared <= tolerance::PARALLEL_SINE {
            return None;
        }
        let short = -plane.distance(frame.place(Point::default(), z_mm));
        Some(Self { point: Point::default() + normal * (short / squared), direction: normal.unit().left() })
    }

    /// Where two lines cross; `None` when parallel.
    pub(crate) fn crossing(self, other: Self) -> Option<Point> {
        self.point.crossing(self.direction, other.point, other.direction)
    }

    /// Moved sideways by `distance_mm` toward `side`.
    pub(crate) fn moved_toward(self, side: Point, distance_mm: f64) -> Self {
        let left = self.direction.left();
        let sign = if left.dot(side - self.point) >= 0.0 { 1.0 } else { -1.0 };
        Self { point: self.point + left * (sign * distance_mm), direction: self.direction }
    }
}
