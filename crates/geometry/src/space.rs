//! Points, vectors, planes and frames in space, in millimetres.

use std::ops::{Add, Mul, Neg, Sub};

use crate::{Point, Vector, tolerance, trig};

/// A place in space, coordinates in millimetres.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point3 {
    /// Millimetres along x.
    pub x: f64,
    /// Millimetres along y.
    pub y: f64,
    /// Millimetres along z.
    pub z: f64,
}

/// A displacement or direction in space.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Vector3 {
    /// Millimetres along x.
    pub x: f64,
    /// Millimetres along y.
    pub y: f64,
    /// Millimetres along z.
    pub z: f64,
}

/// A plane: all points p with `normal · p = offset`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plane {
    /// Unit normal.
    pub normal: Vector3,
    /// Distance from the origin along the normal, millimetres.
    pub offset_mm: f64,
}

/// A right-handed frame: an origin and three unit axes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Where local (0, 0, 0) lies.
    pub origin: Point3,
    /// Direction of local x.
    pub x: Vector3,
    /// Direction of local y.
    pub y: Vector3,
    /// Direction of local z.
    pub z: Vector3,
}

impl Point3 {
    /// The point (`x`, `y`, `z`) millimetres.
    #[must_use]
    #[inline]
    pub const fn new(x: f64, y: f64, z: f64) -> Self {
        Self { x, y, z }
    }

    /// Distance to `other` in millimetres.
    #[must_use]
    #[inline]
    pub fn distance(self, other: Self) -> f64 {
        (other - self).length()
    }

    /// The point `share` of the way to `other`.
    #[must_use]
    #[inline]
    pub fn toward(self, other: Self, share: f64) -> Self {
        self + (other - self) * share
    }
}

impl Vector3 {
    /// The vector (`x`, `y`, `z`).
    #[must_use]
    #[inline]
    pub const fn new(x: f64, y: f64, z: f64) -> Self {
        Self { x, y, z }
    }

    /// Length in millimetres.
    #[must_use]
    #[inline]
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// Same direction, length one. A zero vector stays zero.
    #[must_use]
    #[inline]
    pub fn unit(self) -> Self {
        let length = self.length();
        if length > 0.0 { self * (1.0 / length) } else { self }
    }

    /// Scalar product.
    #[must_use]
    #[inline]
    pub const fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y + self.z * other.z
    }

    /// Cross product.
    #[must_use]
    #[inline]
    pub const fn cross(self, other: Self) -> Self {
        Self::new(
            self.y * other.z - self.z * other.y,
            self.z * other.x - self.x * other.z,
            self.x * other.y - self.y * other.x,
        )
    }

    /// The vector turned right-handed about the unit `axis`.
    #[must_use]
    pub fn turned_about(self, axis: Self, radians: f64) -> Self {
        let (sine, cosine) = (trig::sin(radians), trig::cos(radians));
        self * cosine + axis.cross(self) * sine + axis * (axis.dot(self) * (1.0 - cosine))
    }

    /// Angle to `other` in radians, 0 to π.
    #[must_use]
    pub fn angle_to(self, other: Self) -> f64 {
        trig::atan2(self.cross(other).length(), self.dot(other))
    }
}

impl Plane {
    /// The plane through `point` with the given normal (any length but zero).
    #[must_use]
    pub fn through(point: Point3, normal: Vector3) -> Self {
        let normal = normal.unit();
        Self { normal, offset_mm: normal.dot(point - Point3::default()) }
    }

    /// The plane moved along its normal by `distance_mm`.
    #[must_use]
    pub fn moved(self, distance_mm: f64) -> Self {
        Self { normal: self.normal, offset_mm: self.offset_mm + distance_mm }
    }

    /// Signed distance of `point` from the plane, positive on the normal's side, millimetres.
    #[must_use]
    #[inline]
    pub fn distance(self, point: Point3) -> f64 {
        self.normal.dot(point - Point3::default()) - self.offset_mm
    }

    /// The one point on all three planes; `None` when two of them are parallel or all three share a direction.
    #[must_use]
    pub fn meeting(self, second: Self, third: Self) -> Option<Point3> {
        let cross = second.normal.cross(third.normal);
        let determinant = self.normal.dot(cross);
        if determinant.abs() <= tolerance::PARALLEL_SINE {
            return None;
        }
        let sum = cross * self.offset_mm
            + third.normal.cross(self.normal) * second.offset_mm
            + self.normal.cross(second.normal) * third.offset_mm;
        Some(Point3::default() + sum * (1.0 / determinant))
    }

    /// The same plane in the coordinates of `frame`.
    #[must_use]
    pub fn within(self, frame: &Frame) -> Self {
        let offset_mm = -self.distance(frame.origin);
        Self { normal: frame.within(self.normal), offset_mm }
    }

    /// Where a plane lies whose coordinates are those of `frame`.
    #[must_use]
    pub fn placed(self, frame: &Frame) -> Self {
        let normal = frame.turned(self.normal);
        let offset_mm = self.offset_mm + normal.dot(frame.origin - Point3::default());
        Self { normal, offset_mm }
    }
}

impl Frame {
    /// Where the frame of a body lies once the whole it is in is mirrored across the plane through the origin that is square to
    /// `across`, of length one, and the body itself has become its own mirror image about its x = 0: right-handed as before.
    #[must_use]
    pub fn of_mirrored(&self, across: Vector3) -> Self {
        let image = |vector: Vector3| vector + across * (-2.0 * vector.dot(across));
        Self {
            origin: Point3::default() + image(self.origin - Point3::default()),
            x: -image(self.x),
            y: image(self.y),
            z: image(self.z),
        }
    }

    /// The frame whose axes are the world's.
    pub const WORLD: Self = Self {
        origin: Point3::new(0.0, 0.0, 0.0),
        x: Vector3::new(1.0, 0.0, 0.0),
        y: Vector3::new(0.0, 1.0, 0.0),
        z: Vector3::new(0.0, 0.0, 1.0),
    };

    /// The world place of local (`point`, `z_mm`).
    #[must_use]
    #[inline]
    pub fn place(&self, point: Point, z_mm: f64) -> Point3 {
        self.origin + self.x * point.x + self.y * point.y + self.z * z_mm
    }

    /// The world direction of a local vector in the plane.
    #[must_use]
    #[inline]
    pub fn direct(&self, vector: Vector) -> Vector3 {
        self.x * vector.x + self.y * vector.y
    }

    /// The world direction of a local vector in space.
    #[must_use]
    #[inline]
    pub fn turned(&self, vector: Vector3) -> Vector3 {
        self.x * vector.x + self.y * vector.y + self.z * vector.z
    }

    /// The local vector of a world direction.
    #[must_use]
    #[inline]
    pub const fn within(&self, direction: Vector3) -> Vector3 {
        Vector3::new(direction.dot(self.x), direction.dot(self.y), direction.dot(self.z))
    }

    /// The frame `place` in the coordinates of this one.
    #[must_use]
    pub fn seen(&self, place: &Self) -> Self {
        let origin = Point3::default() + self.within(place.origin - self.origin);
        let [x, y, z] = [place.x, place.y, place.z].map(|axis| self.within(axis));
        Self { origin, x, y, z }
    }

    /// Local plane coordinates and local z (mm) of a world point.
    #[must_use]
    pub fn local(&self, point: Point3) -> (Point, f64) {
        let d = point - self.origin;
        (Point::new(d.dot(self.x), d.dot(self.y)), d.dot(self.z))
    }

    /// The plane of local z = `z_mm`, normal along local z.
    #[must_use]
    pub fn plane(&self, z_mm: f64) -> Plane {
        Plane::through(self.origin + self.z * z_mm, self.z)
    }
}

impl Sub for Point3 {
    type Output = Vector3;
    #[inline]
    fn sub(self, other: Self) -> Vector3 {
        Vector3::new(self.x - other.x, self.y - other.y, self.z - other.z)
    }
}

impl Add<Vector3> for Point3 {
    type Output = Self;
    #[inline]
    fn add(self, by: Vector3) -> Self {
        Self::new(self.x + by.x, self.y + by.y, self.z + by.z)
    }
}

impl Add for Vector3 {
    type Output = Self;
    #[inline]
    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y, self.z + other.z)
    }
}

impl Sub for Vector3 {
    type Output = Self;
    #[inline]
    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y, self.z - other.z)
    }
}

impl Mul<f64> for Vector3 {
    type Output = Self;
    #[inline]
    fn mul(self, by: f64) -> Self {
        Self::new(self.x * by, self.y * by, self.z * by)
    }
}

impl Neg for Vector3 {
    type Output = Self;
    #[inline]
    fn neg(self) -> Self {
        Self::new(-self.x, -self.y, -self.z)
    }
}
