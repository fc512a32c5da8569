//! The points that get running dimensions: every corner, bend line end, hole centre and arc centre.
//!
//! A developed curve comes as many short straights. It gets as many points as a batten needs to fair it.

use fold::FlatPattern;
use geometry::outline::{Chords, arc_sweep};
use geometry::{Contour, Point, Segment, polygon, tolerance};
use units::LengthStyle;

use super::going_round::{self, Met, Rank};
use crate::drawing::printed;

/// Every point to dimension: those on the edges in going-round order, two points of a jog too small to saw being one, then the
/// centres of arcs, which are no corners and would cut a notch if they were joined.
pub(super) fn to_dimension(flat: &FlatPattern) -> Vec<Point> {
    let (low, high) = flat.outline.bounds();
    let at_an_end = |at: Point, low: f64, high: f64| {
        (at.x - low).abs() <= tolerance::SAME_POINT_MM || (at.x - high).abs() <= tolerance::SAME_POINT_MM
    };
    let is_extent =
        |at: Point| at_an_end(at, low.x, high.x) || at_an_end(Point::new(at.y, at.x), low.y, high.y);
    let corner = |(at, rank): (Point, Rank)| {
        let rank = match rank {
            Rank::BendEnd if is_extent(at) => Rank::BendEndAtExtent,
            Rank::Corner | Rank::ArcEnd if is_extent(at) => Rank::Extent,
            other => other,
        };
        Met { at, rank }
    };
    let bends = flat.marks().flat_map(|(_, (from, to))| [from, to]);
    let bends: Vec<Met> = bends.map(|at| corner((at, Rank::BendEnd))).collect();
    let mut outer: Vec<Met> = contour_points(&flat.outline.outer).into_iter().map(corner).collect();
    let mut inner: Vec<Point> = Vec::new();
    for hole in &flat.outline.holes {
        let drilled = drilled(hole);
        if drilled.is_empty() {
            inner.extend(of_opening(hole));
        }
        inner.extend(drilled.into_iter().map(|(centre, _)| centre));
    }
    outer.extend(bends);
    let met = going_round::along(&flat.outline.outer, &outer, Point::default());
    let mut points: Vec<Point> = met.into_iter().chain(inner).collect();
    for (centre, _) in arc_centres(flat) {
        if points.iter().all(|point| tolerance::SAWN_JOG_MM <= point.distance(centre)) {
            points.push(centre);
        }
    }
    points
}

/// Centre and radius, mm, of what is drilled of a hole: the whole of a round one, both ends of a slot, before the metal between them
/// is sawn out; nothing of any other.
fn drilled(hole: &Contour) -> Vec<(Point, f64)> {
    match (full_circle(hole), slot(hole)) {
        (Some(circle), _) => vec![circle],
        (None, Some(slot)) => slot.centres.map(|centre| (centre, slot.radius_mm)).to_vec(),
        (None, None) => Vec::new(),
    }
}

/// The corners of an opening that is neither round nor a slot.
pub(super) fn of_opening(hole: &Contour) -> Vec<Point> {
    let corner = |(at, rank): (Point, Rank)| Met { at, rank };
    let points: Vec<Met> = contour_points(hole).into_iter().map(corner).collect();
    going_round::along(hole, &points, Point::default())
}

/// The corner farthest right and the highest one: the size of the blank, even where jogs beside them are left out.
pub(super) fn extents(flat: &FlatPattern) -> [Point; 2] {
    let corners = flat.outline.outer.corners(Chords::On);
    let last = |way: fn(&Point) -> f64| {
        corners.iter().copied().max_by(|a, b| way(a).total_cmp(&way(b))).unwrap_or_default()
    };
    [last(|point| point.x), last(|point| point.y)]
}

/// An arc of a contour.
#[derive(Debug, Clone, Copy)]
pub(super) struct Arc {
    /// Centre.
    pub(super) centre: Point,
    /// Radius, mm.
    pub(super) radius_mm: f64,
    /// Sweep, radians, positive for counter-clockwise.
    pub(super) sweep_rad: f64,
}

/// Centre and radius, mm, of every circle that an edge follows for a part of it, each once: round holes and slots are none.
pub(super) fn arc_centres(flat: &FlatPattern) -> Vec<(Point, f64)> {
    let mut found: Vec<(Point, f64)> = Vec::new();
    for contour in std::iter::once(&flat.outline.outer).chain(&flat.outline.holes) {
        if drilled(contour).is_empty() {
            add_circles(contour, &mut found);
        }
    }
    found
}

/// Adds every circle that an edge of a contour follows and that is not among those `found`.
fn add_circles(contour: &Contour, found: &mut Vec<(Point, f64)>) {
    for arc in arcs(contour) {
        let circle = (arc.centre, arc.radius_mm);
        if found.iter().all(|known| !same_circle(*known, circle)) {
            found.push(circle);
        }
    }
}

/// The circles that the edges of an opening follow, each once.
pub(super) fn circles(opening: &Contour) -> Vec<(Point, f64)> {
    let mut found = Vec::new();
    add_circles(opening, &mut found);
    found
}

/// What a point is the centre of, in words: "R 3" of an arc, "dia 1/2" of a hole or of the end of a slot; `None` for a point of
/// an edge.
pub(super) fn centre_of(flat: &FlatPattern, at: Point, style: LengthStyle) -> Option<String> {
    let is_here = |centre: Point| centre.distance(at) < tolerance::SAWN_JOG_MM;
    let arcs = arc_centres(flat).into_iter().filter(|(centre, _)| is_here(*centre));
    let mut words: Vec<String> =
        arcs.map(|(_, radius_mm)| format!("R {}", printed(radius_mm, style))).collect();
    for hole in &flat.outline.holes {
        let here = drilled(hole).into_iter().filter(|(centre, _)| is_here(*centre));
        words.extend(here.map(|(_, radius_mm)| format!("dia {}", printed(2.0 * radius_mm, style))));
    }
    words.dedup();
    (!words.is_empty()).then(|| words.join(", "))
}

/// Centre and radius, mm, of a hole that is one whole circle.
pub(super) fn full_circle(contour: &Contour) -> Option<(Point, f64)> {
    let arcs = arcs(contour);
    let first = arcs.first()?;
    let circle = (first.centre, first.radius_mm);
    let same = arcs.iter().all(|arc| same_circle(circle, (arc.centre, arc.radius_mm)));
    (same && arcs.len() == contour.segments.len()).then_some(circle)
}

/// A hole with two straight sides and round ends.
#[derive(Debug, Clone, Copy)]
pub(super) struct Slot {
    /// Where its round ends are drilled.
    pub(super) centres: [Point; 2],
    /// Radius of its ends, mm.
    pub(super) radius_mm: f64,
}

impl Slot {
    /// Over the round ends, mm.
    pub(super) fn length_mm(self) -> f64 {
        self.centres[0].distance(self.centres[1]) + 2.0 * self.radius_mm
    }
}

/// The slot that a hole is, if it is one.
pub(super) fn slot(contour: &Contour) -> Option<Slot> {
    let arcs = arcs(contour);
    let [first, second] = arcs[..] else { return None };
    let straight = contour.segments.len() - arcs.len();
    let alike = (first.radius_mm - second.radius_mm).abs() <= tolerance::SAME_POINT_MM;
    let apart = tolerance::SAME_POINT_MM < first.centre.distance(second.centre);
    let half = |arc: &Arc| (arc.sweep_rad.abs() - std::f64::consts::PI).abs() <= tolerance::PARALLEL_SINE;
    (straight == 2 && alike && apart && half(&first) && half(&second))
        .then_some(Slot { centres: [first.centre, second.centre], radius_mm: first.radius_mm })
}

/// Every arc of a contour.
pub(super) fn arcs(contour: &Contour) -> Vec<Arc> {
    let arc = |(from, segment): (Point, Segment)| match segment {
        Segment::Arc { to, centre, counter_clockwise } => Some(Arc {
            centre,
            radius_mm: centre.distance(to),
            sweep_rad: arc_sweep(from, to, centre, counter_clockwise),
        }),
        Segment::Line { .. } => None,
    };
    contour.pieces().filter_map(arc).collect()
}

/// True when two circles, each of centre and radius, are one.
pub(super) fn same_circle(first: (Point, f64), second: (Point, f64)) -> bool {
    first.0.distance(second.0) <= tolerance::SAME_POINT_MM
        && (first.1 - second.1).abs() <= tolerance::SAME_POINT_MM
}

/// Every corner of the cut along a contour, of developed curves those that a batten needs.
pub(super) fn cut_corners(contour: &Contour) -> Vec<Point> {
    contour_points(contour).into_iter().map(|(at, _)| at).collect()
}

/// Corners and the ends of arcs; where a straight edge merely runs on there is no corner.
fn contour_points(contour: &Contour) -> Vec<(Point, Rank)> {
    let pieces: Vec<(Point, Segment)> = contour.pieces().collect();
    let following = pieces.iter().cycle().skip(1);
    let corners = pieces.iter().zip(following).filter(|(before, after)| !runs_on(**before, **after));
    let corners: Vec<(Point, bool)> =
        corners.map(|(before, after)| (before.1.end(), is_slight(*before, *after))).collect();
    let beside_arc = |at: Point| {
        pieces.iter().any(|(from, segment)| {
            let ends = [*from, segment.end()];
            matches!(segment, Segment::Arc { .. })
                && ends.iter().any(|end| end.distance(at) <= tolerance::SAME_POINT_MM)
        })
    };
    let rank = |at: Point| if beside_arc(at) { Rank::ArcEnd } else { Rank::Corner };
    faired(&corners).into_iter().map(|at| (at, rank(at))).collect()
}

/// Largest turn between two straights of one curve, as its sine (15°): true corners of a layout turn by more.
const SLIGHT_TURN_SINE: f64 = 0.258_819;

/// Points of the shortest run that is taken for a curve: the few slight corners beside a relief are corners.
const LEAST_OF_A_CURVE: usize = 8;

/// A straight of a developed curve is shorter than this, mm; stations along an edge stand farther apart.
const SHORT_STRAIGHT_MM: f64 = 30.0;

/// True when two straights, one of them short, turn so little that they belong to one curve.
fn is_slight(before: (Point, Segment), after: (Point, Segment)) -> bool {
    let (Segment::Line { to: corner }, Segment::Line { to }) = (before.1, after.1) else { return false };
    let (first, second) = ((corner - before.0).unit(), (to - corner).unit());
    let short = before.0.distance(corner).min(corner.distance(to)) < SHORT_STRAIGHT_MM;
    short && first.cross(second).abs() < SLIGHT_TURN_SINE && 0.0 < first.dot(second)
}

/// Corners that are no part of a curve, and of every curve between two of them what a batten needs.
fn faired(corners: &[(Point, bool)]) -> Vec<Point> {
    let count = corners.len();
    let hard: Vec<usize> = (0..count).filter(|&number| !corners[number].1).collect();
    let Some(&first) = hard.first() else { return corners.iter().map(|(point, _)| *point).collect() };
    let mut kept = Vec::new();
    for (place, &from) in hard.iter().enumerate() {
        let to = hard.get(place + 1).copied().unwrap_or(first + count);
        let run: Vec<Point> = (from..=to).map(|number| corners[number % count].0).collect();
        kept.push(run[0]);
        if run.len() < LEAST_OF_A_CURVE {
            kept.extend_from_slice(&run[1..run.len() - 1]);
        } else {
            needed(&run, &mut kept);
        }
    }
    kept
}

/// Adds the inner points of a run that stand off the straights between the points kept.
fn needed(run: &[Point], kept: &mut Vec<Point>) {
    let (first, last) = (run[0], run[run.len() - 1]);
    let off = |number: usize| polygon::point_to_segment(run[number], (first, last));
    let farthest = (1..run.len() - 1).max_by(|&a, &b| off(a).total_cmp(&off(b)));
    let Some(farthest) = farthest.filter(|&number| off(number) > tolerance::BATTEN_MM) else { return };
    needed(&run[..=farthest], kept);
    kept.push(run[farthest]);
    needed(&run[farthest..], kept);
}

fn runs_on(before: (Point, Segment), after: (Point, Segment)) -> bool {
    let (Segment::Line { to: corner }, Segment::Line { to }) = (before.1, after.1) else { return false };
    let (first, second) = ((corner - before.0).unit(), (to - corner).unit());
    first.cross(second).abs() <= tolerance::PARALLEL_SINE && 0.0 < first.dot(second)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_curve_is_dimensioned_by_what_a_batten_needs() {
        // A quarter circle of radius 100 in 90 straights, between two square sides.
        let arc = (0..=90).map(|degree| {
            let turn = geometry::Vector::at_angle(f64::from(degree).to_radians());
            Point::new(0.0, 0.0) + turn * 100.0
        });
        let corners: Vec<Point> = std::iter::once(Point::new(0.0, 0.0)).chain(arc).collect();
        let points = contour_points(&Contour::polygon(&corners));
        let points: Vec<Point> = points.into_iter().map(|(at, _)| at).collect();
        assert!(points.len() > 6 && points.len() < 20, "{}", points.len());
        for corner in [corners[0], corners[1], corners[91]] {
            assert!(points.iter().any(|point| point.distance(corner) < tolerance::SAME_POINT_MM));
        }
        for corner in &corners {
            let off = polygon::edges(&points).map(|edge| polygon::point_to_segment(*corner, edge));
            assert!(off.fold(f64::INFINITY, f64::min) <= tolerance::BATTEN_MM);
        }
    }

    #[test]
    fn a_slot_is_dimensioned_where_it_is_drilled() {
        let point = Point::new;
        let arc = |to, centre| Segment::Arc { to, centre, counter_clockwise: false };
        // Clockwise, as a hole runs: 120 long and 30 wide about (60, 15).
        let segments = vec![
            Segment::Line { to: point(105.0, 30.0) },
            arc(point(105.0, 0.0), point(105.0, 15.0)),
            Segment::Line { to: point(15.0, 0.0) },
            arc(point(15.0, 30.0), point(15.0, 15.0)),
        ];
        let hole = Contour { segments };
        let slot = slot(&hole).unwrap();
        assert!((slot.length_mm() - 120.0).abs() < 1e-9);
        for end in [point(15.0, 15.0), point(105.0, 15.0)] {
            assert!(slot.centres.iter().any(|at| at.distance(end) < 1e-9), "{:?}", slot.centres);
        }
    }

    #[test]
    fn a_small_notch_keeps_its_corners() {
        let corners =
            [(0.0, 0.0), (50.0, 0.0), (50.0, 0.3), (50.3, 0.3), (50.3, 0.0), (90.0, 0.0), (90.0, 40.0)];
        let corners = corners.map(|(x, y)| Point::new(x, y));
        assert_eq!(contour_points(&Contour::polygon(&corners)).len(), 7);
    }
}
