//! Closed outlines of straight pieces and arcs, with holes.

use crate::{Point, Polygon, Vector, polygon, tolerance, trig};

/// One piece of a contour, from the end of the piece before to `to`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Segment {
    /// Straight to a point.
    Line {
        /// Where it ends.
        to: Point,
    },
    /// Along a circle to a point.
    Arc {
        /// Where it ends.
        to: Point,
        /// Centre of the circle.
        centre: Point,
        /// True when it runs counter-clockwise.
        counter_clockwise: bool,
    },
}

/// A closed contour. It starts where its last segment ends. A full circle is two arcs.
#[derive(Debug, Clone, PartialEq)]
pub struct Contour {
    /// The pieces in order.
    pub segments: Vec<Segment>,
}

/// An outer contour (counter-clockwise) with holes (clockwise).
#[derive(Debug, Clone, PartialEq)]
pub struct Outline {
    /// The outer contour, counter-clockwise.
    pub outer: Contour,
    /// The holes, each clockwise.
    pub holes: Vec<Contour>,
}

/// On which side of an arc the chords that replace it must lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Chords {
    /// The straight-sided figure contains the true one: parts that must not be cut into.
    Outside,
    /// The corners lie on the arc: drawings and areas.
    On,
}

impl Segment {
    /// Where the segment ends.
    #[must_use]
    pub const fn end(&self) -> Point {
        match self {
            Self::Line { to } | Self::Arc { to, .. } => *to,
        }
    }
}

impl Contour {
    /// A straight-sided contour through `corners`.
    #[must_use]
    pub fn polygon(corners: &[Point]) -> Self {
        let turned = corners.iter().cycle().skip(1).take(corners.len());
        Self { segments: turned.map(|&to| Segment::Line { to }).collect() }
    }

    /// A clockwise circle, as a hole.
    #[must_use]
    pub fn round_hole(centre: Point, radius_mm: f64) -> Self {
        let (east, west) =
            (Point::new(centre.x + radius_mm, centre.y), Point::new(centre.x - radius_mm, centre.y));
        let arc = |to| Segment::Arc { to, centre, counter_clockwise: false };
        Self { segments: vec![arc(west), arc(east)] }
    }

    /// Where the contour starts and ends; the origin for a contour without segments.
    #[must_use]
    pub fn start(&self) -> Point {
        self.segments.last().map_or(Point::default(), Segment::end)
    }

    /// The pieces, each with the point where it starts.
    pub fn pieces(&self) -> impl Iterator<Item = (Point, Segment)> + '_ {
        let starts = std::iter::once(self.start())
            .chain(self.segments.iter().map(Segment::end))
            .take(self.segments.len());
        starts.zip(self.segments.iter().copied())
    }

    /// The contour with every point sent through `place`, which must keep shapes (turns and shifts, and
    /// mirroring when `mirrored`; the contour then also runs the other way round).
    #[must_use]
    pub fn mapped(&self, mirrored: bool, place: impl Fn(Point) -> Point) -> Self {
        let flip = |(_, segment): (Point, Segment)| match segment {
            Segment::Line { to } => Segment::Line { to: place(to) },
            Segment::Arc { to, centre, counter_clockwise } => Segment::Arc {
                to: place(to),
                centre: place(centre),
                counter_clockwise: counter_clockwise != mirrored,
            },
        };
        let contour = Self { segments: self.pieces().map(flip).collect() };
        if mirrored { contour.reversed() } else { contour }
    }

    /// The same contour run the other way.
    #[must_use]
    pub fn reversed(&self) -> Self {
        let back = |(from, segment)| match segment {
            Segment::Line { .. } => Segment::Line { to: from },
            Segment::Arc { centre, counter_clockwise, .. } => {
                Segment::Arc { to: from, centre, counter_clockwise: !counter_clockwise }
            }
        };
        let mut segments: Vec<Segment> = self.pieces().map(back).collect();
        segments.reverse();
        Self { segments }
    }

    /// Total length of the contour in millimetres: what a saw or torch travels.
    #[must_use]
    pub fn length_mm(&self) -> f64 {
        self.pieces().map(|(from, segment)| segment_length(from, &segment)).sum()
    }

    /// Signed area enclosed, mm², positive for counter-clockwise; arcs counted exactly.
    #[must_use]
    pub fn area_mm2(&self) -> f64 {
        let corners: Vec<Point> = self.segments.iter().map(Segment::end).collect();
        let bulges: f64 = self.pieces().map(|(from, segment)| bulge_area(from, &segment)).sum();
        polygon::signed_area(&corners) + bulges
    }

    /// Least and greatest corner of the smallest upright rectangle around it, arcs counted exactly.
    #[must_use]
    pub fn bounds(&self) -> (Point, Point) {
        let mut reached: Vec<Point> = self.segments.iter().map(Segment::end).collect();
        for (from, segment) in self.pieces() {
            if let Segment::Arc { to, centre, counter_clockwise } = segment {
                reached.extend(quarter_points(from, to, centre, counter_clockwise));
            }
        }
        polygon::bounds(&reached)
    }

    /// Corners of a straight-sided stand-in, off the arcs by no more than [`tolerance::ARC_CHORD_MM`].
    #[must_use]
    pub fn corners(&self, chords: Chords) -> Vec<Point> {
        let mut corners = Vec::new();
        for (from, segment) in self.pieces() {
            if let Segment::Arc { to, centre, counter_clockwise } = segment {
                arc_corners(from, to, centre, counter_clockwise, chords, &mut corners);
            }
            corners.push(segment.end());
        }
        corners
    }
}

impl Outline {
    /// A straight-sided outline without holes.
    #[must_use]
    pub fn polygon(corners: &[Point]) -> Self {
        Self { outer: Contour::polygon(corners), holes: Vec::new() }
    }

    /// Net area in mm²: outer less holes.
    #[must_use]
    pub fn area_mm2(&self) -> f64 {
        self.outer.area_mm2() + self.holes.iter().map(Contour::area_mm2).sum::<f64>()
    }

    /// Length of all edges in millimetres.
    #[must_use]
    pub fn cut_length_mm(&self) -> f64 {
        self.outer.length_mm() + self.holes.iter().map(Contour::length_mm).sum::<f64>()
    }

    /// A straight-sided stand-in; with [`Chords::Outside`] it covers all the metal of the true outline.
    #[must_use]
    pub fn to_polygon(&self, chords: Chords) -> Polygon {
        Polygon {
            outer: self.outer.corners(chords),
            holes: self.holes.iter().map(|hole| hole.corners(chords)).collect(),
        }
    }

    /// The outline with every point sent through `place` (see [`Contour::mapped`]).
    #[must_use]
    pub fn mapped(&self, mirrored: bool, place: impl Fn(Point) -> Point) -> Self {
        Self {
            outer: self.outer.mapped(mirrored, &place),
            holes: self.holes.iter().map(|hole| hole.mapped(mirrored, &place)).collect(),
        }
    }

    /// Least and greatest corner of the smallest upright rectangle around the outer contour, arcs counted exactly.
    #[must_use]
    pub fn bounds(&self) -> (Point, Point) {
        self.outer.bounds()
    }
}

/// Signed sweep of an arc in radians, positive for counter-clockwise.
#[must_use]
pub fn arc_sweep(from: Point, to: Point, centre: Point, counter_clockwise: bool) -> f64 {
    let full = 2.0 * std::f64::consts::PI;
    let raw = (to - centre).angle() - (from - centre).angle();
    let positive = if raw < 0.0 { raw + full } else { raw };
    if counter_clockwise {
        positive
    } else if positive > 0.0 {
        positive - full
    } else {
        0.0
    }
}

/// The points of an arc that lie straight right, above, left of and below its centre.
fn quarter_points(from: Point, to: Point, centre: Point, counter_clockwise: bool) -> Vec<Point> {
    let radius = centre.distance(to);
    let whole = arc_sweep(from, to, centre, counter_clockwise).abs();
    let directions =
        [Vector::new(1.0, 0.0), Vector::new(0.0, 1.0), Vector::new(-1.0, 0.0), Vector::new(0.0, -1.0)];
    let points = directions.into_iter().map(|direction| centre + direction * radius);
    points.filter(|&point| arc_sweep(from, point, centre, counter_clockwise).abs() <= whole).collect()
}

fn segment_length(from: Point, segment: &Segment) -> f64 {
    match *segment {
        Segment::Line { to } => from.distance(to),
        Segment::Arc { to, centre, counter_clockwise } => {
            arc_sweep(from, to, centre, counter_clockwise).abs() * centre.distance(to)
        }
    }
}

/// Area between an arc and its chord, signed.
fn bulge_area(from: Point, segment: &Segment) -> f64 {
    match *segment {
        Segment::Line { .. } => 0.0,
        Segment::Arc { to, centre, counter_clockwise } => {
            let sweep = arc_sweep(from, to, centre, counter_clockwise);
            let radius = centre.distance(to);
            0.5 * radius * radius * (sweep - trig::sin(sweep))
        }
    }
}

/// Corners between the ends of an arc. A counter-clockwise arc bulges out of the figure (metal on its left), so
/// its outside stand-in runs along tangents; a clockwise one has the metal outside the circle, so chords do.
fn arc_corners(
    from: Point,
    to: Point,
    centre: Point,
    counter_clockwise: bool,
    chords: Chords,
    corners: &mut Vec<Point>,
) {
    let sweep = arc_sweep(from, to, centre, counter_clockwise);
    let radius = centre.distance(to);
    let half_step = trig::acos(1.0 - (tolerance::ARC_CHORD_MM / radius).min(0.5));
    let pieces = (sweep.abs() / (2.0 * half_step)).ceil().max(1.0);
    let step = sweep / pieces;
    let tangents = counter_clockwise && chords == Chords::Outside;
    let (shift, reach) = if tangents { (0.5, radius / trig::cos(0.5 * step)) } else { (1.0, radius) };
    let start = (from - centre).angle();
    let mut k = 0.0;
    while k + shift < pieces {
        corners.push(centre + Vector::at_angle(start + (k + shift) * step) * reach);
        k += 1.0;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_round_hole_has_the_area_and_length_of_a_circle() {
        let hole = Contour::round_hole(Point::new(3.0, 4.0), 10.0);
        assert!((hole.area_mm2() + 100.0 * std::f64::consts::PI).abs() < tolerance::SAME_POINT_MM);
        assert!((hole.length_mm() - 20.0 * std::f64::consts::PI).abs() < tolerance::SAME_POINT_MM);
    }

    #[test]
    fn the_rectangle_round_a_slanted_slot_touches_its_arcs() {
        let disc = Contour::round_hole(Point::new(3.0, 4.0), 10.0)
            .mapped(false, |p| Point::default() + (p - Point::default()).turned(0.3));
        let (low, high) = disc.bounds();
        assert!((high.x - low.x - 20.0).abs() < tolerance::SAME_POINT_MM);
        assert!((high.y - low.y - 20.0).abs() < tolerance::SAME_POINT_MM);
    }

    #[test]
    fn stand_ins_lie_on_the_safe_side() {
        let disc = Contour::round_hole(Point::default(), 10.0).reversed();
        let outside = polygon::signed_area(&disc.corners(Chords::Outside));
        assert!(outside > disc.area_mm2());
        let hole = Contour::round_hole(Point::default(), 10.0);
        assert!(polygon::signed_area(&hole.corners(Chords::Outside)) > hole.area_mm2());
    }

    #[test]
    fn bounds_reach_the_outermost_places_of_arcs() {
        for radius_mm in [1.0, 4.7625, 10.0, 333.3] {
            let (low, high) = Contour::round_hole(Point::new(3.0, 4.0), radius_mm).bounds();
            assert!(low.distance(Point::new(3.0 - radius_mm, 4.0 - radius_mm)) < tolerance::SAME_POINT_MM);
            assert!(high.distance(Point::new(3.0 + radius_mm, 4.0 + radius_mm)) < tolerance::SAME_POINT_MM);
        }
        // A quarter round from east to north reaches no farther than its ends and its centre's corner.
        let centre = Point::default();
        let arc = Segment::Arc { to: Point::new(0.0, 2.0), centre, counter_clockwise: true };
        let quarter = [Segment::Line { to: centre }, Segment::Line { to: Point::new(2.0, 0.0) }, arc];
        let (low, high) = Contour { segments: quarter.to_vec() }.bounds();
        assert!(low.distance(centre) < tolerance::SAME_POINT_MM);
        assert!(high.distance(Point::new(2.0, 2.0)) < tolerance::SAME_POINT_MM);
    }

    #[test]
    fn mirroring_keeps_area_and_sense() {
        let slot = Contour::round_hole(Point::new(5.0, 0.0), 2.0);
        let mirrored = slot.mapped(true, |p| Point::new(-p.x, p.y));
        assert!((mirrored.area_mm2() - slot.area_mm2()).abs() < tolerance::SAME_POINT_MM);
    }
}
