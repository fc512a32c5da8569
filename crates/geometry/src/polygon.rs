//! Straight-sided figures: area, bounds, convexity, crossing.

mod hull;
mod pieces;

pub use hull::hull;
pub use pieces::convex_pieces;

use crate::{Point, Vector, tolerance};

/// A straight-sided figure: outer corners counter-clockwise, each hole clockwise.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Polygon {
    /// Outer corners, counter-clockwise, without repeating the first.
    pub outer: Vec<Point>,
    /// Corners of each hole, clockwise.
    pub holes: Vec<Vec<Point>>,
}

impl Polygon {
    /// Net area, mm².
    #[must_use]
    pub fn area_mm2(&self) -> f64 {
        signed_area(&self.outer) + self.holes.iter().map(|hole| signed_area(hole)).sum::<f64>()
    }
}

/// Signed area of a ring, mm²; positive for counter-clockwise.
#[must_use]
pub fn signed_area(corners: &[Point]) -> f64 {
    let Some(&first) = corners.first() else { return 0.0 };
    let doubled: f64 = edges(corners).map(|(a, b)| (a - first).cross(b - first)).sum();
    0.5 * doubled
}

/// Centre of area of a ring; the first corner when it has no area.
#[must_use]
pub fn centroid(corners: &[Point]) -> Point {
    let first = corners.first().copied().unwrap_or_default();
    let mut doubled = 0.0;
    let mut moment = Vector::default();
    for (a, b) in edges(corners) {
        let part = (a - first).cross(b - first);
        doubled += part;
        moment = moment + ((a - first) + (b - first)) * part;
    }
    if doubled.abs() > 0.0 { first + moment * (1.0 / (3.0 * doubled)) } else { first }
}

/// The edges of a ring as pairs of corners.
pub fn edges(corners: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    corners.iter().copied().zip(corners.iter().copied().cycle().skip(1))
}

/// Least and greatest corner of the smallest upright rectangle around `corners`.
#[must_use]
pub fn bounds(corners: &[Point]) -> (Point, Point) {
    let first = corners.first().copied().unwrap_or_default();
    corners.iter().fold((first, first), |(low, high), p| {
        (Point::new(low.x.min(p.x), low.y.min(p.y)), Point::new(high.x.max(p.x), high.y.max(p.y)))
    })
}

/// True when every corner of a counter-clockwise ring turns left.
#[must_use]
pub fn is_convex(corners: &[Point]) -> bool {
    let n = corners.len();
    n >= 3
        && (0..n).all(|i| {
            let (a, b, c) = (corners[i], corners[(i + 1) % n], corners[(i + 2) % n]);
            let (first, second) = (b - a, c - b);
            first.cross(second) > tolerance::PARALLEL_SINE * first.length() * second.length()
        })
}

/// The numbers of two edges of the ring that cross or touch without being neighbours.
#[must_use]
pub fn self_crossing(corners: &[Point]) -> Option<(usize, usize)> {
    let ring: Vec<(Point, Point)> = edges(corners).collect();
    let n = ring.len();
    for i in 0..n {
        for j in (i + 2)..n {
            if (i != 0 || j != n - 1) && segments_touch(ring[i], ring[j]) {
                return Some((i, j));
            }
        }
    }
    None
}

/// True when two straight pieces share at least one point, to within [`tolerance::SAME_POINT_MM`].
#[must_use]
pub fn segments_touch(first: (Point, Point), second: (Point, Point)) -> bool {
    let bounds = [first, second].map(|(from, to)| bounds(&[from, to]));
    are_near(bounds[0], bounds[1]) && segment_distance(first, second) <= tolerance::SAME_POINT_MM
}

/// True when two upright rectangles, each by its low and high corner, overlap or nearly so: a quick look before things in them are
/// asked whether they touch to within [`tolerance::SAME_POINT_MM`].
#[must_use]
pub fn are_near(first: (Point, Point), second: (Point, Point)) -> bool {
    apart_mm(first, second) <= 4.0 * tolerance::SAME_POINT_MM
}

/// How far two upright rectangles are apart along x or along y, whichever is more, mm; below zero where they overlap. What lies in
/// one is no nearer to what lies in the other.
fn apart_mm((low, high): (Point, Point), (other_low, other_high): (Point, Point)) -> f64 {
    let along_x = (other_low.x - high.x).max(low.x - other_high.x);
    let along_y = (other_low.y - high.y).max(low.y - other_high.y);
    along_x.max(along_y)
}

/// Shortest distance between two straight pieces, mm; zero when they cross.
#[must_use]
pub fn segment_distance(first: (Point, Point), second: (Point, Point)) -> f64 {
    if properly_cross(first, second) {
        return 0.0;
    }
    let gaps = [
        gap_to_segment(first.0, second),
        gap_to_segment(first.1, second),
        gap_to_segment(second.0, first),
        gap_to_segment(second.1, first),
    ];
    // Roots are dear: only those are taken that may be the least, with room for the rounding of a square.
    let squares = gaps.map(|gap| gap.dot(gap));
    let least = squares.into_iter().fold(f64::INFINITY, f64::min) * (1.0 + tolerance::SQUARE_ROUNDING);
    let may_be = gaps.into_iter().zip(squares).filter(|(_, square)| *square <= least);
    may_be.map(|(gap, _)| gap.length()).fold(f64::INFINITY, f64::min)
}

/// Shortest distance between the edges of two rings, mm; zero when they cross.
#[must_use]
pub fn edges_distance(first: &[Point], second: &[Point]) -> f64 {
    let others: Vec<_> = edges(second).map(|other| (other, bounds(&[other.0, other.1]))).collect();
    let mut least = f64::INFINITY;
    for own in edges(first) {
        let own_bounds = bounds(&[own.0, own.1]);
        for &(other, other_bounds) in &others {
            if apart_mm(own_bounds, other_bounds) <= least + tolerance::SAME_POINT_MM {
                least = least.min(segment_distance(own, other));
            }
        }
    }
    least
}

/// Shortest distance from a point to a straight piece, mm.
#[must_use]
pub fn point_to_segment(point: Point, segment: (Point, Point)) -> f64 {
    gap_to_segment(point, segment).length()
}

/// From the nearest place of a straight piece to a point.
fn gap_to_segment(point: Point, (a, b): (Point, Point)) -> Vector {
    let along = b - a;
    let squared = along.dot(along);
    let share = if squared > 0.0 { ((point - a).dot(along) / squared).clamp(0.0, 1.0) } else { 0.0 };
    point - a.toward(b, share)
}

/// True when `point` lies strictly inside the ring (either sense), by the even-odd rule.
#[must_use]
pub fn contains(corners: &[Point], point: Point) -> bool {
    let crossings = edges(corners).filter(|(a, b)| {
        (a.y > point.y) != (b.y > point.y) && point.x < a.x + (b.x - a.x) * (point.y - a.y) / (b.y - a.y)
    });
    crossings.count() % 2 == 1
}

/// Distance from `point` to a convex counter-clockwise ring, mm; zero inside.
#[must_use]
pub fn distance_outside_mm(convex: &[Point], point: Point) -> f64 {
    if edges(convex).all(|(a, b)| (b - a).cross(point - a) >= 0.0) {
        return 0.0;
    }
    edges(convex).map(|edge| point_to_segment(point, edge)).fold(f64::INFINITY, f64::min)
}

/// True when each piece has its ends on both sides of the other. Of two pieces on one line the sides are mere rounding, so
/// pieces whose upright boxes lie apart are none that cross.
fn properly_cross((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    let apart = |a: f64, b: f64, c: f64, d: f64| a.max(b) < c.min(d) || c.max(d) < a.min(b);
    if apart(a.x, b.x, c.x, d.x) || apart(a.y, b.y, c.y, d.y) {
        return false;
    }
    let side = |p: Point, q: Point, r: Point| (q - p).cross(r - p);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Vector;

    fn square() -> Vec<Point> {
        [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)].map(|(x, y)| Point::new(x, y)).to_vec()
    }

    #[test]
    fn a_square_has_its_area_and_centre() {
        assert!((signed_area(&square()) - 100.0).abs() < tolerance::SAME_POINT_MM);
        assert!(centroid(&square()).distance(Point::new(5.0, 5.0)) < tolerance::SAME_POINT_MM);
        assert!(is_convex(&square()));
    }

    /// Pieces of a leaning wall's edge between slots, an inch and more apart on one line: by the signs of their cross
    /// products, all of them rounding, some of these crossed.
    #[test]
    fn pieces_apart_on_one_line_do_not_cross() {
        for degrees in 1..90 {
            let along = Vector::at_angle(f64::from(degrees).to_radians());
            for step in 0..500 {
                let at = |mm: f64| Point::new(-198.7734, -73.9588) + along * (mm + 0.7 * f64::from(step));
                let (first, second) = ((at(0.0), at(93.4567)), (at(104.5692), at(151.4142)));
                let off = segment_distance(first, second) - 11.1125;
                assert!(off.abs() < tolerance::SAME_POINT_MM, "{degrees}° {step}: {off}");
            }
        }
    }

    #[test]
    fn a_point_beside_a_square_is_measured_to_its_corner() {
        assert!(
            (distance_outside_mm(&square(), Point::new(13.0, 14.0)) - 5.0).abs() < tolerance::SAME_POINT_MM
        );
    }

    /// What is left out as too far off changes no digit: against every root of every pair.
    #[test]
    fn distances_are_the_least_of_all_to_the_last_digit() {
        let of_ends = |(a, b): (Point, Point), (c, d): (Point, Point)| {
            let ends = [(a, (c, d)), (b, (c, d)), (c, (a, b)), (d, (a, b))];
            let least =
                ends.map(|(at, piece)| point_to_segment(at, piece)).into_iter().fold(f64::INFINITY, f64::min);
            if properly_cross((a, b), (c, d)) { 0.0 } else { least }
        };
        let mut state = 7_u64;
        let mut next = || {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (state >> 40) as f64 / 65_536.0
        };
        let mut crossed = 0;
        for round in 0..400 {
            let far = if round % 2 == 0 { 0.0 } else { 300.0 };
            let ring = |next: &mut dyn FnMut() -> f64, off: f64| -> Vec<Point> {
                (0..7).map(|_| Point::new(off + next(), next())).collect()
            };
            let (one, other) = (ring(&mut next, 0.0), ring(&mut next, far));
            let mut least = f64::INFINITY;
            for own in edges(&one) {
                for piece in edges(&other) {
                    let plain = of_ends(own, piece);
                    assert_eq!(segment_distance(own, piece).to_bits(), plain.to_bits());
                    assert_eq!(segments_touch(own, piece), plain <= tolerance::SAME_POINT_MM);
                    crossed += usize::from(plain <= 0.0);
                    least = least.min(plain);
                }
            }
            assert_eq!(edges_distance(&one, &other).to_bits(), least.to_bits());
        }
        assert!(100 < crossed);
    }

    #[test]
    fn a_bow_tie_crosses_itself() {
        let mut bow = square();
        bow.swap(2, 3);
        assert_eq!(self_crossing(&bow), Some((1, 3)));
        assert_eq!(self_crossing(&square()), None);
    }
}
