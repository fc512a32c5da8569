//! Exact sums on grid rings.

use crate::Point;
use crate::grid::GridPoint;

/// Where a place lies with regard to a ring.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// Strictly inside.
    Inside,
    /// On an edge or a corner.
    Border,
    /// Strictly outside.
    Outside,
}

/// Cross product of the shifts from `a` to `b` and from `a` to `c`: positive when `c` lies left of `a`→`b`.
#[must_use]
pub const fn cross(a: GridPoint, b: GridPoint, c: GridPoint) -> i64 {
    (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)
}

/// The edges of a ring as pairs of corners.
pub fn ring_edges(ring: &[GridPoint]) -> impl Iterator<Item = (GridPoint, GridPoint)> + '_ {
    ring.iter().copied().zip(ring.iter().copied().cycle().skip(1))
}

/// Twice the signed area of a ring, in square steps; positive for counter-clockwise.
#[must_use]
pub fn doubled_area(ring: &[GridPoint]) -> i128 {
    ring_edges(ring).map(|(a, b)| i128::from(a.x) * i128::from(b.y) - i128::from(a.y) * i128::from(b.x)).sum()
}

/// Where `point` lies with regard to a ring run in either sense (even-odd rule).
#[must_use]
pub fn place_in_ring(ring: &[GridPoint], point: GridPoint) -> Place {
    let mut inside = false;
    for (a, b) in ring_edges(ring) {
        let (low, high) = if a.y <= b.y { (a, b) } else { (b, a) };
        if point.y < low.y || high.y < point.y {
            continue;
        }
        let side = cross(low, high, point);
        if side == 0 && a.x.min(b.x) <= point.x && point.x <= a.x.max(b.x) {
            return Place::Border;
        }
        if low.y <= point.y && point.y < high.y && 0 < side {
            inside = !inside;
        }
    }
    if inside { Place::Inside } else { Place::Outside }
}

/// Least and greatest corner of the upright rectangle around `ring`; the origin for an empty ring.
#[must_use]
pub fn bounds(ring: &[GridPoint]) -> (GridPoint, GridPoint) {
    let first = ring.first().copied().unwrap_or_default();
    ring.iter().fold((first, first), |(low, high), p| {
        let least = GridPoint::new(low.x.min(p.x), low.y.min(p.y));
        (least, GridPoint::new(high.x.max(p.x), high.y.max(p.y)))
    })
}

/// A grid number as `f64`, exact below 2^53.
#[expect(clippy::cast_precision_loss, reason = "the grid limit lies far below 2^53")]
pub(crate) const fn float(steps: i64) -> f64 {
    steps as f64
}

/// The nearest grid number.
#[expect(clippy::cast_possible_truncation, reason = "the grid limit lies far below the range of i64")]
pub(crate) const fn nearest(steps: f64) -> i64 {
    steps.round() as i64
}

/// A ring in `f64` steps.
pub(crate) fn to_float(ring: &[GridPoint]) -> Vec<Point> {
    ring.iter().map(|corner| Point::new(float(corner.x), float(corner.y))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_is_inside_on_or_outside() {
        let ring = [(0, 0), (10, 0), (10, 10), (0, 10)].map(|(x, y)| GridPoint::new(x, y));
        for (x, y, place) in [
            (5, 5, Place::Inside),
            (0, 5, Place::Border),
            (10, 10, Place::Border),
            (10, 0, Place::Border),
            (11, 5, Place::Outside),
            (-1, 0, Place::Outside),
            (20, 10, Place::Outside),
        ] {
            assert_eq!(place_in_ring(&ring, GridPoint::new(x, y)), place, "{x} {y}");
        }
        assert_eq!(doubled_area(&ring), 200);
    }
}
