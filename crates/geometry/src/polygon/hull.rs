//! Convex hulls, and straight-sided figures cut into convex pieces.

use crate::{Point, polygon, tolerance};

/// The smallest convex figure round `points`, counter-clockwise; fewer than three corners when they lie on a line.
///
/// Source: monotone chain, Andrew, "Another efficient algorithm for convex hulls in two dimensions", 1979.
#[must_use]
pub fn hull(points: &[Point]) -> Vec<Point> {
    let mut sorted = points.to_vec();
    sorted.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    sorted.dedup_by(|a, b| a.distance(*b) <= tolerance::SAME_POINT_MM);
    if sorted.len() < 3 {
        return sorted;
    }
    let mut corners = chain(sorted.iter().copied());
    let upper = chain(sorted.iter().rev().copied());
    corners.pop();
    corners.extend(&upper[..upper.len() - 1]);
    corners
}

/// One side of the hull of points in order, left turns only.
fn chain(points: impl Iterator<Item = Point>) -> Vec<Point> {
    let mut kept: Vec<Point> = Vec::new();
    for point in points {
        while let [.., a, b] = kept.as_slice() {
            let (along, onward) = (*b - *a, point - *b);
            if along.cross(onward) > tolerance::PARALLEL_SINE * along.length() * onward.length() {
                break;
            }
            kept.pop();
        }
        kept.push(point);
    }
    kept
}

/// Convex pieces that together cover a counter-clockwise ring: itself when it is convex, else triangles.
#[must_use]
pub fn convex_pieces(corners: &[Point]) -> Vec<Vec<Point>> {
    if polygon::is_convex(corners) || corners.len() < 4 {
        return vec![corners.to_vec()];
    }
    let mut rest = corners.to_vec();
    let mut pieces = Vec::new();
    while 3 < rest.len() {
        let n = rest.len();
        let corner = |at: usize| [rest[(at + n - 1) % n], rest[at], rest[(at + 1) % n]];
        let Some(ear) = (0..n).find(|&at| is_ear(&rest, corner(at))) else { break };
        pieces.push(corner(ear).to_vec());
        rest.remove(ear);
    }
    pieces.push(rest);
    pieces
}

/// True when a triangle of three neighbours turns left (or runs straight) and holds no other corner of the ring.
///
/// Source: every simple polygon has two ears, Meisters, "Polygons have ears", 1975.
fn is_ear(ring: &[Point], [before, tip, after]: [Point; 3]) -> bool {
    let turn = (tip - before).cross(after - tip);
    let size = before.distance(tip) * tip.distance(after);
    if turn < -tolerance::PARALLEL_SINE * size {
        return false;
    }
    let edges = [(before, tip), (tip, after), (after, before)];
    let own = |point: Point| {
        [before, tip, after].iter().any(|corner| corner.distance(point) <= tolerance::SAME_POINT_MM)
    };
    let inside = |point: Point| edges.iter().all(|&(a, b)| 0.0 < (b - a).cross(point - a));
    turn <= tolerance::PARALLEL_SINE * size || !ring.iter().any(|&point| !own(point) && inside(point))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    #[test]
    fn a_hull_leaves_out_what_lies_inside_and_on_its_edges() {
        let hull = hull(&points(&[(0.0, 0.0), (5.0, 0.0), (10.0, 0.0), (4.0, 3.0), (10.0, 8.0), (0.0, 8.0)]));
        assert_eq!(hull, points(&[(0.0, 0.0), (10.0, 0.0), (10.0, 8.0), (0.0, 8.0)]));
    }

    #[test]
    fn the_pieces_of_an_angle_have_its_area_and_are_convex() {
        let angle = points(&[(0.0, 0.0), (10.0, 0.0), (10.0, 2.0), (2.0, 2.0), (2.0, 7.0), (0.0, 7.0)]);
        let pieces = convex_pieces(&angle);
        let area: f64 = pieces.iter().map(|piece| polygon::signed_area(piece)).sum();
        assert!((area - polygon::signed_area(&angle)).abs() < tolerance::SAME_POINT_MM);
        assert!(pieces.len() < 5);
    }
}
