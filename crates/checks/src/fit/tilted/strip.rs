//! How much of a convex opening a part of a given width can use.
//!
//! A rectangle along x lies in a convex figure exactly when its corners do. Leftmost and rightmost places at a height are
//! convex and concave functions of it, so the length of the rectangle on a height is concave, and its most is found by
//! narrowing from both ends.

use geometry::{Point, polygon, tolerance};
use shapes::Figure;

/// Rounds of narrowing to two thirds: a metre to less than a nanometre.
const ROUNDS: u32 = 90;

/// From where to where along x the longest rectangle of this width across reaches; `None` where none has any length.
pub(super) fn longest(convex: &[Point], width_mm: f64) -> Option<(f64, f64)> {
    let (low, high) = polygon::bounds(convex);
    let (mut from, mut to) = (low.y, high.y - width_mm);
    if to < from {
        return None;
    }
    let reach = |y: f64| {
        let ((a, b), (c, d)) = (chord(convex, y), chord(convex, y + width_mm));
        (a.max(c), b.min(d))
    };
    let length = |y: f64| {
        let (a, b) = reach(y);
        b - a
    };
    for _ in 0..ROUNDS {
        let third = (to - from) / 3.0;
        if length(from + third) < length(to - third) { from += third } else { to -= third }
    }
    let (a, b) = reach(0.5 * (from + to));
    (tolerance::SAME_POINT_MM < b - a).then_some((a, b))
}

/// The widest part that clears both sides of an opening somewhere, mm; zero or less where the clearance takes it all.
pub(super) fn widest_mm(opening: &Figure, clearance_mm: f64) -> f64 {
    // A convex figure stays in one piece.
    let Some(clear) = opening.clear(clearance_mm).into_iter().next() else { return 0.0 };
    let turned: Vec<Point> = clear.iter().rev().map(|p| Point::new(p.y, p.x)).collect();
    let width = |corner: &Point| {
        let (low, high) = chord(&turned, corner.y);
        high - low
    };
    turned.iter().map(width).fold(0.0, f64::max)
}

/// Leftmost and rightmost place of a convex figure at a height.
fn chord(convex: &[Point], y: f64) -> (f64, f64) {
    let mut reach = (f64::INFINITY, f64::NEG_INFINITY);
    for (a, b) in polygon::edges(convex) {
        let (low, high) = if a.y <= b.y { (a, b) } else { (b, a) };
        if y < low.y - tolerance::SAME_POINT_MM || high.y + tolerance::SAME_POINT_MM < y {
            continue;
        }
        let rise = high.y - low.y;
        let ends = if rise <= tolerance::SAME_POINT_MM {
            [low.x, high.x]
        } else {
            [low.x + (high.x - low.x) * ((y - low.y) / rise).clamp(0.0, 1.0); 2]
        };
        for x in ends {
            reach = (reach.0.min(x), reach.1.max(x));
        }
    }
    reach
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(corners: &[(f64, f64)]) -> Vec<Point> {
        corners.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    #[test]
    fn a_rectangle_is_used_to_its_ends() {
        let (from, to) =
            longest(&ring(&[(0.0, 0.0), (600.0, 0.0), (600.0, 300.0), (0.0, 300.0)]), 200.0).unwrap();
        assert!(from.abs() < 1e-6 && (to - 600.0).abs() < 1e-6);
    }

    /// An isosceles triangle of base b and height h holds a rectangle of width w on its base, b·(1 − w/h) long.
    #[test]
    fn a_triangle_is_used_on_its_base() {
        let triangle = ring(&[(0.0, 0.0), (600.0, 0.0), (300.0, 300.0)]);
        let (from, to) = longest(&triangle, 100.0).unwrap();
        assert!((to - from - 400.0).abs() < 1e-6, "{from} {to}");
        assert!(longest(&triangle, 301.0).is_none());
    }

    /// A square on its corner, half diagonal d: a strip of width w through its middle is 2·(d − w/2) long.
    #[test]
    fn a_square_on_its_corner_is_used_through_its_middle() {
        let square = ring(&[(0.0, -300.0), (300.0, 0.0), (0.0, 300.0), (-300.0, 0.0)]);
        let (from, to) = longest(&square, 200.0).unwrap();
        assert!((from + 200.0).abs() < 1e-6 && (to - 200.0).abs() < 1e-6, "{from} {to}");
    }
}
