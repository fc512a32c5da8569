//! The points of a flat in the order in which a finger meets them going round: the datum corner first, then
//! counter-clockwise along the outer edge, then the openings one by one, last the centres of arcs. Their numbers are their places
//! in it.

use std::cmp::Ordering;

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

/// The points met along one closed edge, in order from the one nearest to `start`; of those nearer to one another than a jog
/// that can be sawn one stays. Which one does not depend on the way round or on where it begins: mirror images, the hands of a
/// pair or the halves of one part, keep the same points.
pub(super) fn along(contour: &Contour, points: &[Met], start: Point) -> Vec<Point> {
    let ring = contour.corners(Chords::On);
    let middle = polygon::centroid(&ring);
    let mut placed: Vec<(f64, Met)> = points.iter().map(|met| (way_mm(&ring, met.at), *met)).collect();
    placed.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut kept: Vec<Met> = placed.into_iter().map(|(_, met)| met).collect();
    merge(&mut kept, middle);
    straighten(&mut kept, middle);
    let nearest = (0..kept.len())
        .min_by(|&a, &b| kept[a].at.distance(start).total_cmp(&kept[b].at.distance(start)))
        .unwrap_or(0);
    kept.rotate_left(nearest);
    kept.into_iter().map(|met| met.at).collect()
}

/// What leaving out a point does, the least first: how near it is to the one that stays in its place, how much of the figure it
/// changes, how far it lies from the middle. All are alike in a mirror.
type Loss = [f64; 3];

/// Whether a loss is clearly the lesser; what arithmetic alone tells apart is alike.
fn is_less(loss: Loss, other: Loss) -> bool {
    let apart = loss.iter().zip(other).find(|(one, other)| tolerance::SAME_POINT_MM < (*one - other).abs());
    apart.is_some_and(|(one, other)| *one < other)
}

/// Twice the area that a corner takes in between its neighbours, and how far it lies from the middle.
fn corner_loss(kept: &[Met], place: usize, middle: Point) -> [f64; 2] {
    let count = kept.len();
    let [before, at, after] =
        [(place + count - 1) % count, place, (place + 1) % count].map(|place| kept[place].at);
    [(at - before).cross(after - before).abs(), at.distance(middle)]
}

/// Makes one of points nearer to one another than a jog that can be sawn, nearest first: the one that matters more stays, and of
/// two corners the one that shapes the figure more, so that no long edge is tilted by a step at its end.
fn merge(kept: &mut Vec<Met>, middle: Point) {
    while 1 < kept.len() {
        let count = kept.len();
        let mut gone: Option<(Loss, usize)> = None;
        for place in 0..count {
            let next = (place + 1) % count;
            let apart_mm = kept[place].at.distance(kept[next].at);
            if tolerance::SAWN_JOG_MM <= apart_mm {
                continue;
            }
            let [own, other] = [place, next].map(|place| corner_loss(kept, place, middle));
            let [own, other] = [own, other].map(|[area, off]| [apart_mm, area, off]);
            let (loss, place) = match kept[place].rank.cmp(&kept[next].rank) {
                Ordering::Less => (own, place),
                Ordering::Greater => (other, next),
                Ordering::Equal if is_less(own, other) => (own, place),
                Ordering::Equal => (other, next),
            };
            if gone.is_none_or(|(least, _)| is_less(loss, least)) {
                gone = Some((loss, place));
            }
        }
        let Some((_, place)) = gone else { break };
        kept.remove(place);
    }
}

/// Leaves out corners at which an edge steps aside by less than can be sawn, beside a piece too short to be seen bent, the
/// slightest first. Everything left out stays that near to the straight between the points that are kept.
fn straighten(kept: &mut Vec<Met>, middle: Point) {
    // What is left out behind every point.
    let mut gone: Vec<Vec<Point>> = vec![Vec::new(); kept.len()];
    loop {
        let mut slightest: Option<(Loss, usize, usize, Vec<Point>)> = None;
        for place in 0..kept.len() {
            let Some((before, loss, left_out)) = left_out_at(kept, &gone, place, middle) else { continue };
            if slightest.as_ref().is_none_or(|(least, ..)| is_less(loss, *least)) {
                slightest = Some((loss, place, before, left_out));
            }
        }
        let Some((_, place, before, left_out)) = slightest else { break };
        gone[before] = left_out;
        kept.remove(place);
        gone.remove(place);
    }
}

/// The point before a corner that may be left out, what leaving it out does, and all that is then left out behind that point;
/// `None` for a corner that stays.
fn left_out_at(
    kept: &[Met],
    gone: &[Vec<Point>],
    place: usize,
    middle: Point,
) -> Option<(usize, Loss, Vec<Point>)> {
    if kept[place].rank != Rank::Corner {
        return None;
    }
    let count = kept.len();
    let (before, after) = ((place + count - 1) % count, (place + 1) % count);
    let (from, at, to) = (kept[before].at, kept[place].at, kept[after].at);
    let short_mm = from.distance(at).min(at.distance(to));
    if before == after || SHORT_PIECE_MM <= short_mm {
        return None;
    }
    let left_out: Vec<Point> =
        gone[before].iter().copied().chain([at]).chain(gone[place].iter().copied()).collect();
    let off = |point: &Point| polygon::point_to_segment(*point, (from, to));
    let is_near = left_out.iter().all(|point| off(point) < tolerance::SAWN_JOG_MM);
    let loss = [(at - from).cross(to - from).abs(), short_mm, at.distance(middle)];
    is_near.then_some((before, loss, left_out))
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
    use proptest::prelude::*;

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

    /// A step of .35 mm where an edge of a metre ends: the corner on the long edge stays, not the one beside it.
    #[test]
    fn a_jog_at_its_end_tilts_no_long_edge() {
        let corners = [(0.0, 0.0), (900.0, 0.0), (900.0, 300.0), (7.0, 300.0), (5.35, 298.7), (5.0, 298.7)];
        let corners = corners.map(|(x, y)| Point::new(x, y));
        let points: Vec<Met> = corners.iter().map(|at| met(at.x, at.y, Rank::Corner)).collect();
        let kept = along(&Contour::polygon(&corners), &points, Point::default());
        assert_eq!(kept, [corners[0], corners[1], corners[2], corners[3], corners[5]]);
    }

    proptest! {
        /// Any ring with jogs keeps the mirror images of its points when it is mirrored.
        #[test]
        fn mirror_images_keep_the_same_points(
            jogs in prop::collection::vec((-0.5..0.5_f64, 0.05..2.0_f64), 3..12),
            turn in 0.0..1.0_f64,
        ) {
            let count = jogs.len();
            let mut corners: Vec<Point> = Vec::new();
            for (number, (aside, long)) in jogs.iter().enumerate() {
                let share = (f64::from(u32::try_from(number).unwrap()) + turn) / f64::from(u32::try_from(count).unwrap());
                let way = geometry::Vector::at_angle(share * 2.0 * std::f64::consts::PI);
                let at = Point::default() + way * 60.0;
                corners.extend([at, at + way.left() * *long + way * *aside, at + way.left() * (*long + 0.3)]);
            }
            let mirror = |at: Point| Point::new(-at.x, at.y);
            let mirrored: Vec<Point> = corners.iter().rev().map(|at| mirror(*at)).collect();
            let kept = |corners: &[Point]| {
                let points: Vec<Met> = corners.iter().map(|at| met(at.x, at.y, Rank::Corner)).collect();
                along(&Contour::polygon(corners), &points, Point::default())
            };
            let (one, other) = (kept(&corners), kept(&mirrored));
            prop_assert_eq!(one.len(), other.len());
            for at in one {
                prop_assert!(other.iter().any(|other| other.distance(mirror(at)) < 1e-9), "{:?}", at);
            }
        }
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
