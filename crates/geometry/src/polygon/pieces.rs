//! Straight-sided figures cut into convex pieces.

use crate::{Point, polygon, tolerance};

/// The ring cut into convex ones: itself where it turns nowhere to the right, else cut on from every inside corner
/// along one of its edges.
#[must_use]
pub fn convex_pieces(corners: &[Point]) -> Vec<Vec<Point>> {
    let mut waiting = vec![corners.to_vec()];
    let mut pieces = Vec::new();
    while let Some(ring) = waiting.pop() {
        let inside_corner = (0..ring.len()).find(|&i| !turns_left(&ring, i));
        match inside_corner.and_then(|corner| cut_on(&ring, corner)) {
            Some(halves) => waiting.extend(halves),
            None => pieces.push(ring),
        }
    }
    pieces
}

/// True when the ring turns left at corner `i`, or runs straight on.
fn turns_left(ring: &[Point], i: usize) -> bool {
    let n = ring.len();
    let (first, second) = (ring[i] - ring[(i + n - 1) % n], ring[(i + 1) % n] - ring[i]);
    first.cross(second) >= -tolerance::SAME_POINT_MM * first.length().max(second.length())
}

/// The two rings left when the edge that ends at `corner` is cut on to the other side.
fn cut_on(ring: &[Point], corner: usize) -> Option<[Vec<Point>; 2]> {
    let n = ring.len();
    let start = ring[corner];
    let ahead = (start - ring[(corner + n - 1) % n]).unit();
    let hit = |edge: usize| {
        let (a, b) = (ring[edge], ring[(edge + 1) % n]);
        let point = start.crossing(ahead, a, b - a)?;
        let reach = (point - start).dot(ahead);
        let on_edge = polygon::point_to_segment(point, (a, b)) <= tolerance::SAME_POINT_MM;
        (on_edge && reach > tolerance::SAME_POINT_MM).then_some((reach, edge, point))
    };
    let others = (1..n - 1).map(|step| (corner + step) % n);
    let (_, edge, point) = others.filter_map(hit).min_by(|a, b| a.0.total_cmp(&b.0))?;
    let walk = |from: usize, to: usize| {
        let steps = (to + n - from) % n;
        (0..=steps).map(move |step| ring[(from + step) % n])
    };
    let left = walk(corner, edge).chain(std::iter::once(point));
    let right = std::iter::once(point).chain(walk((edge + 1) % n, corner));
    let halves = [without_repeats(left), without_repeats(right)];
    let inside_corners = |ring: &[Point]| (0..ring.len()).filter(|&i| !turns_left(ring, i)).count();
    let fewer = halves.iter().map(|half| inside_corners(half)).sum::<usize>() < inside_corners(ring);
    (fewer && halves.iter().all(|half| 3 <= half.len())).then_some(halves)
}

fn without_repeats(points: impl Iterator<Item = Point>) -> Vec<Point> {
    let same = |a: &Point, b: &Point| a.distance(*b) <= tolerance::SAME_POINT_MM;
    let mut kept: Vec<Point> = Vec::new();
    for point in points {
        if kept.last().is_none_or(|last| !same(last, &point)) {
            kept.push(point);
        }
    }
    while kept.len() > 1 && same(&kept[0], &kept[kept.len() - 1]) {
        kept.pop();
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
    fn a_notched_square_is_cut_into_convex_pieces() {
        let notched = points(&[(0.0, 0.0), (5.0, 4.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]);
        let pieces = convex_pieces(&notched);
        let area: f64 = pieces.iter().map(|piece| polygon::signed_area(piece)).sum();
        assert!((area - polygon::signed_area(&notched)).abs() < tolerance::SAME_POINT_MM);
        assert_eq!(pieces.len(), 2);
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
