//! What else is seen in the ring of a detail: points that belong to another detail or to none, by their numbers, and corners too
//! slight to be sawn, by the number before them and a letter. No corner in a ring is without a name.

use fold::FlatPattern;
use geometry::outline::Chords;
use geometry::{Point, polygon, tolerance};

use super::going_round::way_mm;
use super::points;

/// Corners that come out nearer to one another than this, mm of paper, are seen as one.
const SEEN_APART_MM: f64 = 1.0;

/// A corner that is no point of the part: what it steps aside is less than a saw cut shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Slight {
    /// The number of the point before it, going round.
    pub(super) after: usize,
    /// Which of the slight corners behind that point it is, from 0.
    pub(super) place: usize,
    /// Where it is.
    pub(super) at: Point,
}

impl Slight {
    /// "39a".
    pub(super) fn name(self) -> String {
        let letter = (b'a'..=b'z').nth(self.place).map_or('z', char::from);
        format!("{}{letter}", self.after)
    }
}

/// All slight corners of the outer edge of a flat, in order going round; `points` are the numbered ones.
pub(super) fn slight(flat: &FlatPattern, points: &[Point]) -> Vec<Slight> {
    let ring = flat.outline.outer.corners(Chords::On);
    let on_ring = |at: Point| {
        polygon::edges(&ring).any(|edge| polygon::point_to_segment(at, edge) <= tolerance::SAME_POINT_MM)
    };
    let mut numbered: Vec<(f64, usize)> = (1..)
        .zip(points)
        .filter(|(_, at)| on_ring(**at))
        .map(|(number, at)| (way_mm(&ring, *at), number))
        .collect();
    numbered.sort_by(|a, b| a.0.total_cmp(&b.0));
    let Some(&(_, last)) = numbered.last() else { return Vec::new() };
    let is_numbered =
        |at: &Point| points.iter().any(|point| point.distance(*at) <= tolerance::SCRIBED_LINE_MM);
    let mut corners: Vec<(f64, Point)> = points::cut_corners(&flat.outline.outer)
        .into_iter()
        .filter(|at| !is_numbered(at))
        .map(|at| (way_mm(&ring, at), at))
        .collect();
    corners.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut found: Vec<Slight> = Vec::new();
    for (way, at) in corners {
        let before = numbered.iter().rev().find(|(numbered, _)| *numbered <= way);
        let after = before.map_or(last, |(_, number)| *number);
        let place = found.iter().filter(|other| other.after == after).count();
        found.push(Slight { after, place, at });
    }
    found
}

/// The numbered points that are not `own` and lie in a ring of this radius, mm, about `centre`, as far as they are told apart
/// there.
pub(super) fn others(
    points: &[Point],
    own: &[(usize, Point)],
    (centre, radius_mm, enlarged): (Point, f64, f64),
) -> Vec<(usize, Point)> {
    let mut shown: Vec<Point> = own.iter().map(|(_, at)| *at).collect();
    let mut found = Vec::new();
    for (number, &at) in (1..).zip(points) {
        if at.distance(centre) <= radius_mm && is_apart(&shown, at, enlarged) {
            shown.push(at);
            found.push((number, at));
        }
    }
    found
}

/// Whether a corner is told apart from all that are `shown` at this enlargement.
pub(super) fn is_apart(shown: &[Point], at: Point, enlarged: f64) -> bool {
    shown.iter().all(|known| SEEN_APART_MM <= enlarged * known.distance(at))
}
