//! Distances between straight-sided rings, shared by the rules about holes and by the lids that swing past things.

use geometry::{Point, polygon, tolerance};

/// How far two rings, lines or points are apart, mm; zero where they meet.
pub(crate) fn distance_mm(first: &[Point], second: &[Point]) -> f64 {
    if meet(first, second) { 0.0 } else { polygon::edges_distance(first, second) }
}

/// True when two rings share a point, or one lies within the other.
pub(crate) fn meet(first: &[Point], second: &[Point]) -> bool {
    let within = |ring: &[Point], other: &[Point]| {
        other.first().is_some_and(|corner| polygon::contains(ring, *corner))
    };
    polygon::edges_distance(first, second) <= tolerance::SAME_POINT_MM
        || within(first, second)
        || within(second, first)
}

/// True when `inner` lies in `ring` and clear of its edges.
pub(crate) fn inside(ring: &[Point], inner: &[Point]) -> bool {
    tolerance::SAME_POINT_MM < polygon::edges_distance(ring, inner)
        && inner.first().is_some_and(|corner| polygon::contains(ring, *corner))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(low: f64, high: f64) -> Vec<Point> {
        [(low, low), (high, low), (high, high), (low, high)].map(|(x, y)| Point::new(x, y)).to_vec()
    }

    #[test]
    fn rings_meet_when_they_touch_cross_or_hold_one_another() {
        assert!(meet(&square(0.0, 10.0), &square(10.0, 12.0)));
        assert!(meet(&square(0.0, 10.0), &square(8.0, 12.0)));
        assert!(meet(&square(0.0, 10.0), &square(4.0, 6.0)));
        assert!(meet(&square(4.0, 6.0), &square(0.0, 10.0)));
        assert!(!meet(&square(0.0, 10.0), &square(10.01, 12.0)));
    }

    #[test]
    fn a_ring_on_the_edge_is_not_inside() {
        assert!(inside(&square(0.0, 10.0), &square(1.0, 9.0)));
        assert!(!inside(&square(0.0, 10.0), &square(0.0, 9.0)));
        assert!(!inside(&square(0.0, 10.0), &square(11.0, 12.0)));
        assert!(!inside(&square(1.0, 9.0), &square(0.0, 10.0)));
    }
}
