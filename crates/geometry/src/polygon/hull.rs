//! Convex hulls.

use crate::{Point, tolerance};

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
}
