//! Regions of the plane: union, difference, intersection, and growing by a distance.
//!
//! Booleans stand on `geo`, growing on `geo-clipper`: two libraries with unlike arithmetic, used for what each does
//! well.

use geo::{Area as _, BooleanOps, Coord, LineString, MultiPolygon};
use geo_clipper::{Clipper, EndType, JoinType};

use crate::{Point, Polygon, polygon, tolerance};

/// Grid steps to the millimetre inside the growing library: ten nanometres.
const STEPS_PER_MM: f64 = 100_000.0;

/// A corner carried out to a point stands no farther off than so many times the distance; sharper ones are cut square.
const SHARPEST: f64 = 100.0;

/// A set of points of the plane, bounded by straight pieces; possibly in several parts, possibly with holes.
#[derive(Debug, Clone, PartialEq)]
pub struct Region(MultiPolygon<f64>);

impl Region {
    /// The region with nothing in it.
    #[must_use]
    pub const fn empty() -> Self {
        Self(MultiPolygon(Vec::new()))
    }

    /// The region a polygon covers.
    #[must_use]
    pub fn of(polygon: &Polygon) -> Self {
        let holes = polygon.holes.iter().map(|hole| ring(hole)).collect();
        Self(MultiPolygon(vec![geo::Polygon::new(ring(&polygon.outer), holes)]))
    }

    /// An upright rectangle.
    #[must_use]
    pub fn rectangle(low: Point, high: Point) -> Self {
        let corners = vec![low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)];
        Self::of(&Polygon { outer: corners, holes: Vec::new() })
    }

    /// All that lies in either.
    #[must_use]
    pub fn union(&self, other: &Self) -> Self {
        Self(BooleanOps::union(&self.0, &other.0))
    }

    /// All that lies in both.
    #[must_use]
    pub fn intersection(&self, other: &Self) -> Self {
        Self(BooleanOps::intersection(&self.0, &other.0))
    }

    /// All that lies in this and not in the other.
    #[must_use]
    pub fn difference(&self, other: &Self) -> Self {
        Self(BooleanOps::difference(&self.0, &other.0))
    }

    /// All points no farther than `distance_mm` from the region; corners go round.
    #[must_use]
    pub fn grown(&self, distance_mm: f64) -> Self {
        let join = JoinType::Round(tolerance::ARC_CHORD_MM * STEPS_PER_MM);
        Self(Clipper::offset(&self.0, distance_mm, join, EndType::ClosedPolygon, STEPS_PER_MM))
    }

    /// All points of the region that are at least `distance_mm` from its border. Round inside corners the new border is an
    /// arc, laid in chords that come nearer by no more than [`tolerance::ARC_CHORD_MM`].
    #[must_use]
    pub fn shrunk(&self, distance_mm: f64) -> Self {
        self.grown(-distance_mm)
    }

    /// Every side moved outward by `distance_mm`; corners are carried out to a point.
    #[must_use]
    pub fn carried_out(&self, distance_mm: f64) -> Self {
        let join = JoinType::Miter(SHARPEST);
        Self(Clipper::offset(&self.0, distance_mm, join, EndType::ClosedPolygon, STEPS_PER_MM))
    }

    /// Area, mm².
    #[must_use]
    pub fn area_mm2(&self) -> f64 {
        self.0.unsigned_area()
    }

    /// Its parts, outer corners counter-clockwise, holes clockwise.
    #[must_use]
    pub fn polygons(&self) -> Vec<Polygon> {
        let part = |polygon: &geo::Polygon<f64>| Polygon {
            outer: corners(polygon.exterior(), true),
            holes: polygon.interiors().iter().map(|hole| corners(hole, false)).collect(),
        };
        self.0.iter().map(part).collect()
    }

    /// True when nothing is in it.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.0.is_empty()
    }
}

impl FromIterator<Self> for Region {
    /// The union of regions.
    fn from_iter<I: IntoIterator<Item = Self>>(regions: I) -> Self {
        regions.into_iter().fold(Self::empty(), |all, region| all.union(&region))
    }
}

fn ring(corners: &[Point]) -> LineString<f64> {
    LineString(corners.iter().map(|corner| Coord { x: corner.x, y: corner.y }).collect())
}

/// Corners of a ring without its repeated last, in the sense asked for.
fn corners(ring: &LineString<f64>, counter_clockwise: bool) -> Vec<Point> {
    let count = ring.0.len().saturating_sub(1);
    let mut corners: Vec<Point> = ring.0[..count].iter().map(|at| Point::new(at.x, at.y)).collect();
    if (0.0 < polygon::signed_area(&corners)) != counter_clockwise {
        corners.reverse();
    }
    corners
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_region_gives_back_its_polygons() {
        let whole = Region::rectangle(Point::new(0.0, 0.0), Point::new(100.0, 50.0));
        let hole = Region::rectangle(Point::new(40.0, 20.0), Point::new(60.0, 30.0));
        let polygons = whole.difference(&hole).polygons();
        assert_eq!((polygons.len(), polygons[0].outer.len(), polygons[0].holes.len()), (1, 4, 1));
        assert!((polygons[0].area_mm2() - 4800.0).abs() < tolerance::SAME_POINT_MM);
        assert!(0.0 < polygon::signed_area(&polygons[0].outer));
    }

    #[test]
    fn a_grown_square_has_rounded_corners() {
        let square = Region::rectangle(Point::new(0.0, 0.0), Point::new(100.0, 100.0));
        let expected = 10_000.0 + 4.0 * 100.0 * 5.0 + std::f64::consts::PI * 25.0;
        assert!((square.grown(5.0).area_mm2() - expected).abs() < 1.0);
    }

    /// A step of 1 in a side of a rectangle 100 × 50: moved in by 5 the step's short side is gone, and where two sides
    /// lay there is one and an arc round the step's inside corner. Moved out by 5 a notch 2 wide closes.
    #[test]
    fn sides_may_vanish() {
        let ring = |corners: &[(f64, f64)]| Polygon {
            outer: corners.iter().map(|&(x, y)| Point::new(x, y)).collect(),
            holes: Vec::new(),
        };
        let chamfered =
            Region::of(&ring(&[(1.0, 0.0), (100.0, 0.0), (100.0, 50.0), (0.0, 50.0), (0.0, 1.0)]));
        let shrunk = chamfered.shrunk(5.0).polygons();
        assert_eq!((shrunk.len(), shrunk[0].outer.len()), (1, 4), "{shrunk:?}");
        assert!((shrunk[0].area_mm2() - 90.0 * 40.0).abs() < tolerance::SAME_POINT_MM);
        let notched =
            [(0.0, 0.0), (100.0, 0.0), (100.0, 50.0), (52.0, 50.0), (52.0, 40.0), (50.0, 40.0), (50.0, 50.0)];
        let notched = [&notched[..], &[(0.0, 50.0)]].concat();
        let carried = Region::of(&ring(&notched)).carried_out(5.0).polygons();
        assert!((carried[0].area_mm2() - 110.0 * 60.0).abs() < tolerance::SAME_POINT_MM, "{carried:?}");
        let shrunk = Region::of(&ring(&notched)).shrunk(5.0);
        // Off the notch two quarter circles stand in for square corners.
        let square = 90.0 * 40.0 - 12.0 * 10.0;
        let expected = square + 2.0 * 25.0 * (1.0 - 0.25 * std::f64::consts::PI);
        assert!((shrunk.area_mm2() - expected).abs() < 1.0, "{}", shrunk.area_mm2());
    }

    #[test]
    fn parts_of_a_whole_add_up() {
        let whole = Region::rectangle(Point::new(0.0, 0.0), Point::new(100.0, 50.0));
        let bite = Region::rectangle(Point::new(80.0, 20.0), Point::new(120.0, 70.0));
        let sum = whole.difference(&bite).area_mm2() + whole.intersection(&bite).area_mm2();
        assert!((sum - whole.area_mm2()).abs() < tolerance::SAME_POINT_MM);
        assert!(whole.difference(&whole).is_empty());
    }
}
