//! Flat plates of real thickness in space: how far apart two of them are, or how deep one runs into the other.

use crate::{Frame, Point, Point3, Vector3, polygon, tolerance};

/// A plate of convex outline and even thickness.
#[derive(Debug, Clone, PartialEq)]
pub struct Slab {
    frame: Frame,
    outline: Vec<Point>,
    thickness_mm: f64,
    /// Corners on z = 0, then those on z = thickness.
    corners: Vec<Point3>,
}

impl Slab {
    /// The plate that lies between local z = 0 and `thickness_mm` of `frame`, its `outline` convex and
    /// counter-clockwise (see [`polygon::convex_pieces`]).
    #[must_use]
    pub fn new(frame: Frame, outline: Vec<Point>, thickness_mm: f64) -> Self {
        let corners = [0.0, thickness_mm]
            .into_iter()
            .flat_map(|z| outline.iter().map(move |&corner| (corner, z)))
            .map(|(corner, z)| frame.place(corner, z))
            .collect();
        Self { frame, outline, thickness_mm, corners }
    }

    /// Its corners, those of z = 0 first.
    #[must_use]
    pub fn corners(&self) -> &[Point3] {
        &self.corners
    }

    /// Its thickness, mm.
    #[must_use]
    pub const fn thickness_mm(&self) -> f64 {
        self.thickness_mm
    }

    /// The corners of its two faces: those of z = 0, and those of z = thickness.
    #[must_use]
    pub fn faces(&self) -> [&[Point3]; 2] {
        let (back, face) = self.corners.split_at(self.outline.len());
        [back, face]
    }

    /// Shortest distance from `point` to the plate, mm; zero inside.
    #[must_use]
    pub fn distance_to_point_mm(&self, point: Point3) -> f64 {
        let (local, z) = self.frame.local(point);
        let above = (z - self.thickness_mm).max(-z).max(0.0);
        let beside = polygon::distance_outside_mm(&self.outline, local);
        (above * above + beside * beside).sqrt()
    }

    /// How far apart the plates are, mm; where they run into one another, the shortest way out, below zero.
    ///
    /// Convex bodies are apart exactly when some face normal or cross product of two edges parts them (separating
    /// axis theorem); the shortest way between two such bodies ends on a corner of one or on an edge of each.
    #[must_use]
    pub fn separation_mm(&self, other: &Self) -> f64 {
        let parted = self.parted_mm(other);
        if parted <= 0.0 {
            return parted;
        }
        let from_corners = |a: &Self, b: &Self| {
            a.corners.iter().map(|&corner| b.distance_to_point_mm(corner)).fold(f64::INFINITY, f64::min)
        };
        let mut least = from_corners(self, other).min(from_corners(other, self));
        for first in self.edges() {
            for second in other.edges() {
                least = least.min(edge_distance(first, second));
            }
        }
        least
    }

    /// The piece of a straight edge that lies over the plate's outline, seen square to the plate; `None` where none does.
    #[must_use]
    pub fn beneath(&self, edge: [Point3; 2]) -> Option<[Point3; 2]> {
        self.beneath_within(edge, tolerance::SAME_POINT_MM)
    }

    /// How far a point lies above the nearer face of the plate, seen square to it, mm; zero between its two faces.
    #[must_use]
    pub fn height_over_mm(&self, point: Point3) -> f64 {
        let (_, z) = self.frame.local(point);
        (z - self.thickness_mm).max(-z).max(0.0)
    }

    /// As [`Slab::beneath`], over an outline that is wider by `margin_mm` all round.
    #[must_use]
    pub fn beneath_within(&self, [a, b]: [Point3; 2], margin_mm: f64) -> Option<[Point3; 2]> {
        let (start, end) = (self.frame.local(a).0, self.frame.local(b).0);
        let (mut low, mut high) = (0.0_f64, 1.0_f64);
        for (p, q) in polygon::edges(&self.outline) {
            let inward = (q - p).left().unit();
            let (at_start, at_end) = (inward.dot(start - p), inward.dot(end - p));
            let share = (at_start + margin_mm) / (at_start - at_end);
            match (at_start >= -margin_mm, at_end >= -margin_mm) {
                (true, true) => {}
                (true, false) => high = high.min(share),
                (false, true) => low = low.max(share),
                (false, false) => return None,
            }
        }
        (low < high).then(|| [a.toward(b, low), a.toward(b, high)])
    }

    /// Lower limit on [`Slab::separation_mm`] from the upright boxes around both, mm; zero where these meet.
    #[must_use]
    pub fn boxes_apart_mm(&self, other: &Self) -> f64 {
        let axes: [fn(&Point3) -> f64; 3] = [|p| p.x, |p| p.y, |p| p.z];
        let apart = |axis: fn(&Point3) -> f64| {
            let (low, high) = range(self.corners.iter().map(axis));
            let (other_low, other_high) = range(other.corners.iter().map(axis));
            (other_low - high).max(low - other_high).max(0.0)
        };
        axes.into_iter().map(apart).fold(0.0, f64::max)
    }

    /// The widest gap between the plates along any axis that may part them, mm; below zero, by how deep they run into
    /// one another, when none does. Cheaper than [`Slab::separation_mm`], and never more than it.
    #[must_use]
    pub fn parted_mm(&self, other: &Self) -> f64 {
        let (own, others) = (self.directions(), other.directions());
        let normals = |slab: &Self, directions: &[Vector3]| -> Vec<Vector3> {
            let sides = directions.iter().skip(1).map(|along| along.cross(slab.frame.z));
            std::iter::once(slab.frame.z).chain(sides).collect()
        };
        let crossed = own.iter().flat_map(|a| others.iter().map(move |b| a.cross(*b)));
        let mut widest = f64::NEG_INFINITY;
        for axis in normals(self, &own).into_iter().chain(normals(other, &others)).chain(crossed) {
            if axis.length() > tolerance::PARALLEL_SINE {
                widest = widest.max(self.gap_along(other, axis.unit()));
            }
        }
        widest
    }

    fn gap_along(&self, other: &Self, axis: Vector3) -> f64 {
        let along = |corner: &Point3| axis.dot(*corner - Point3::default());
        let (low, high) = range(self.corners.iter().map(along));
        let (other_low, other_high) = range(other.corners.iter().map(along));
        (other_low - high).max(low - other_high)
    }

    /// Directions of its edges, the one through the thickness first.
    fn directions(&self) -> Vec<Vector3> {
        let along = polygon::edges(&self.outline).map(|(a, b)| self.frame.direct((b - a).unit()));
        std::iter::once(self.frame.z).chain(along).collect()
    }

    fn edges(&self) -> impl Iterator<Item = (Point3, Point3)> + '_ {
        let count = self.outline.len();
        (0..count).flat_map(move |i| {
            let next = (i + 1) % count;
            [(i, next), (count + i, count + next), (i, count + i)]
                .map(|(from, to)| (self.corners[from], self.corners[to]))
        })
    }
}

fn range(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)))
}

/// Shortest distance between two straight edges where it ends inside both, mm; infinite else, for the ends are corners
/// and measured as such.
fn edge_distance((a, b): (Point3, Point3), (c, d): (Point3, Point3)) -> f64 {
    let (first, second, between) = (b - a, d - c, a - c);
    let (first_squared, second_squared, mixed) = (first.dot(first), second.dot(second), first.dot(second));
    let determinant = first_squared * second_squared - mixed * mixed;
    if determinant <= tolerance::PARALLEL_SINE * first_squared * second_squared {
        return f64::INFINITY;
    }
    let (along_first, along_second) = (first.dot(between), second.dot(between));
    let share = (mixed * along_second - second_squared * along_first) / determinant;
    let other_share = (first_squared * along_second - mixed * along_first) / determinant;
    if (0.0..=1.0).contains(&share) && (0.0..=1.0).contains(&other_share) {
        a.toward(b, share).distance(c.toward(d, other_share))
    } else {
        f64::INFINITY
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(frame: Frame) -> Slab {
        let corners = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)].map(|(x, y)| Point::new(x, y));
        Slab::new(frame, corners.to_vec(), 2.0)
    }

    fn at(x: f64, y: f64, z: f64) -> Frame {
        Frame { origin: Point3::new(x, y, z), ..Frame::WORLD }
    }

    fn near(a: f64, b: f64) -> bool {
        (a - b).abs() < tolerance::SAME_POINT_MM
    }

    #[test]
    fn plates_side_by_side_and_one_over_the_other() {
        let first = square(Frame::WORLD);
        assert!(near(first.separation_mm(&square(at(13.0, 0.0, 0.0))), 3.0));
        assert!(near(first.separation_mm(&square(at(0.0, 0.0, 7.0))), 5.0));
        assert!(near(first.separation_mm(&square(at(13.0, 14.0, 0.0))), 5.0));
        assert!(near(first.separation_mm(&square(at(5.0, 5.0, 1.5))), -0.5));
    }

    #[test]
    fn crossed_ridges_are_nearest_between_their_ends() {
        // One plate stands on its edge with its highest ridge along x, the other with its lowest along y, 3 above it.
        let half = std::f64::consts::FRAC_1_SQRT_2;
        let below =
            Frame { y: Vector3::new(0.0, half, half), z: Vector3::new(0.0, -half, half), ..Frame::WORLD };
        let above = Frame {
            origin: Point3::new(5.0, -1.0, 12.0 * half + 3.0),
            x: Vector3::new(half, 0.0, half),
            y: Vector3::new(0.0, 1.0, 0.0),
            z: Vector3::new(-half, 0.0, half),
        };
        assert!(near(square(below).separation_mm(&square(above)), 3.0));
    }

    #[test]
    fn a_point_is_measured_to_the_nearest_place() {
        let slab = square(Frame::WORLD);
        assert!(near(slab.distance_to_point_mm(Point3::new(-3.0, 5.0, 6.0)), 5.0));
        assert!(near(slab.distance_to_point_mm(Point3::new(5.0, 5.0, 1.0)), 0.0));
        let [a, b] = slab.beneath([Point3::new(-5.0, 5.0, 4.0), Point3::new(15.0, 5.0, 4.0)]).unwrap();
        // The outline is taken wider by a hair.
        let hair = 2.0 * tolerance::SAME_POINT_MM;
        assert!(a.x.abs() < hair && (b.x - 10.0).abs() < hair);
    }
}
