//! The points of a flat in the order in which a finger meets them going round: the datum corner first, then
//! counter-clockwise along the outer edge, then the openings one by one. Their numbers are their places in it.

use geometry::outline::Chords;
use geometry::{Contour, Point, polygon, tolerance};

/// A point and how much it matters that its number is its own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Met {
    /// Where it is.
    pub(super) at: Point,
    /// Kept before its neighbours where a jog is too small to saw.
    pub(super) rank: Rank,
}

/// Which of two points that are one in the metal keeps its number, least first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Rank {
    /// The centre of an arc.
    Centre,
    /// A corner of the cut.
    Corner,
    /// Where a straight edge runs into a round one.
    ArcEnd,
    /// The end of a bend line: where it lies decides the finished size.
    BendEnd,
    /// A corner that the size of the blank runs to.
    Extent,
    /// A bend line's end there.
    BendEndAtExtent,
}

/// The points met along one closed edge, in order from the one nearest to `start`; of those nearer to the one before than a
/// jog that can be sawn one stays.
pub(super) fn along(contour: &Contour, points: &[Met], start: Point) -> Vec<Point> {
    let ring = contour.corners(Chords::On);
    let mut placed: Vec<(f64, Met)> = points.iter().map(|met| (way_mm(&ring, met.at), *met)).collect();
    placed.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut kept: Vec<Met> = Vec::new();
    for (_, met) in placed {
        match kept.last_mut().filter(|last| last.at.distance(met.at) < tolerance::SAWN_JOG_MM) {
            Some(last) if last.rank < met.rank => *last = met,
            Some(_) => {}
            None => kept.push(met),
        }
    }
    // Round the end of the ring too.
    if let [first, .., last] = kept[..]
        && first.at.distance(last.at) < tolerance::SAWN_JOG_MM
    {
        kept[0] = if first.rank < last.rank { last } else { first };
        kept.pop();
    }
    straighten(&mut kept);
    let nearest = (0..kept.len())
        .min_by(|&a, &b| kept[a].at.distance(start).total_cmp(&kept[b].at.distance(start)))
        .unwrap_or(0);
    kept.rotate_left(nearest);
    kept.into_iter().map(|met| met.at).collect()
}

/// Leaves out corners at which an edge steps aside by less than can be sawn, beside a piece too short to be seen bent.
/// Everything left out stays that near to the straight between the points that are kept.
fn straighten(kept: &mut Vec<Met>) {
    // What is left out behind every point.
    let mut gone: Vec<Vec<Point>> = vec![Vec::new(); kept.len()];
    let mut place = 0;
    while place < kept.len() {
        let on_edge = |met: &Met| met.rank != Rank::Centre;
        let count = kept.len();
        let turns = 1..count;
        let before = turns.clone().map(|step| (place + count - step) % count).find(|&at| on_edge(&kept[at]));
        let after = turns.map(|step| (place + step) % count).find(|&at| on_edge(&kept[at]));
        if let (Some(before), Some(after)) = (before, after)
            && before != after
            && kept[place].rank == Rank::Corner
        {
            let (from, at, to) = (kept[before].at, kept[place].at, kept[after].at);
            let short = from.distance(at).min(at.distance(to)) < SHORT_PIECE_MM;
            let mut left_out = gone[before].clone();
            left_out.push(at);
            left_out.extend(&gone[place]);
            let near = |point: &Point| polygon::point_to_segment(*point, (from, to)) < tolerance::SAWN_JOG_MM;
            if short && left_out.iter().all(near) {
                gone[before] = left_out;
                kept.remove(place);
                gone.remove(place);
                place = place.saturating_sub(1);
                continue;
            }
        }
        place += 1;
    }
}

/// An edge that runs on for longer on both sides of a corner shows that it turns there, mm.
const SHORT_PIECE_MM: f64 = 30.0;

/// How far along a ring the place nearest to a point lies, mm.
pub(super) fn way_mm(ring: &[Point], point: Point) -> f64 {
    let mut gone = 0.0;
    let mut best = (f64::INFINITY, 0.0);
    for (from, to) in polygon::edges(ring) {
        let off = polygon::point_to_segment(point, (from, to));
        let length = from.distance(to);
        if off + tolerance::SAME_POINT_MM < best.0 {
            let share = (point - from).dot((to - from).unit()).clamp(0.0, length);
            best = (off, gone + share);
        }
        gone += length;
    }
    best.1
}

#[cfg(test)]
mod tests {
    use super::*;

    fn met(x: f64, y: f64, rank: Rank) -> Met {
        Met { at: Point::new(x, y), rank }
    }

    #[test]
    fn points_come_going_round_from_the_datum_corner() {
        let corners = [(50.0, 0.0), (50.0, 30.0), (0.0, 30.0), (0.0, 0.0)].map(|(x, y)| Point::new(x, y));
        let mut points: Vec<Met> = corners.iter().map(|at| met(at.x, at.y, Rank::Corner)).collect();
        points.extend([met(20.0, 0.0, Rank::BendEnd), met(20.0, 30.0, Rank::BendEnd)]);
        let order = along(&Contour::polygon(&corners), &points, Point::default());
        let expected = [(0.0, 0.0), (20.0, 0.0), (50.0, 0.0), (50.0, 30.0), (20.0, 30.0), (0.0, 30.0)];
        assert_eq!(order, expected.map(|(x, y)| Point::new(x, y)));
    }

    #[test]
    fn a_step_too_small_to_saw_is_no_corner_and_a_true_one_is() {
        let ring = |step: f64| {
            [(0.0, 0.0), (60.0, 0.0), (60.0, 20.0), (60.0 - step, 25.0), (60.0 - step, 60.0), (0.0, 60.0)]
                .map(|(x, y)| Point::new(x, y))
        };
        let found = |step: f64| {
            let corners = ring(step);
            let points: Vec<Met> = corners.iter().map(|at| met(at.x, at.y, Rank::Corner)).collect();
            along(&Contour::polygon(&corners), &points, Point::default())
        };
        // 5 mm along and less than 1/64 in aside: both corners are left out; the edge then slants by that much.
        assert_eq!(found(0.3).len(), 4, "{:?}", found(0.3));
        assert_eq!(found(3.0).len(), 6);
        // The ends of bend lines there stay.
        let corners = ring(0.3);
        let mut points: Vec<Met> = corners.iter().map(|at| met(at.x, at.y, Rank::Corner)).collect();
        points.push(met(59.85, 22.5, Rank::BendEnd));
        assert_eq!(along(&Contour::polygon(&corners), &points, Point::default()).len(), 5);
    }

    #[test]
    fn a_jog_too_small_to_saw_is_one_point_and_bend_lines_keep_their_places() {
        let jog = 0.9 * tolerance::SAWN_JOG_MM;
        let corners =
            [(0.0, 0.0), (50.0, 0.0), (50.0, 10.0), (50.0 - jog, 10.0), (50.0 - jog, 30.0), (0.0, 30.0)]
                .map(|(x, y)| Point::new(x, y));
        let mut points: Vec<Met> = corners.iter().map(|at| met(at.x, at.y, Rank::Corner)).collect();
        let bend = met(50.0 - 0.5 * jog, 10.0, Rank::BendEnd);
        points.push(bend);
        let order = along(&Contour::polygon(&corners), &points, Point::default());
        assert_eq!(order.len(), 5, "{order:?}");
        assert!(order.contains(&bend.at));
        // One that can be sawn stays.
        let wide = corners
            .map(|at| if at.x > 49.0 && at.x < 50.0 { at + geometry::Vector::new(-0.1, 0.0) } else { at });
        let points: Vec<Met> = wide.iter().map(|at| met(at.x, at.y, Rank::Corner)).collect();
        assert_eq!(along(&Contour::polygon(&wide), &points, Point::default()).len(), 6);
    }
}
