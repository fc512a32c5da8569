//! Points and vectors in the plane, in millimetres.

use std::ops::{Add, Mul, Neg, Sub};

use crate::trig;

/// A place in the plane, coordinates in millimetres.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// Millimetres along x.
    pub x: f64,
    /// Millimetres along y.
    pub y: f64,
}

/// A displacement in the plane, in millimetres (or a direction without unit).
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Vector {
    /// Millimetres along x.
    pub x: f64,
    /// Millimetres along y.
    pub y: f64,
}

impl Point {
    /// The point at (`x`, `y`) millimetres.
    #[must_use]
    #[inline]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// Distance to `other` in millimetres.
    #[must_use]
    #[inline]
    pub fn distance(self, other: Self) -> f64 {
        (other - self).length()
    }

    /// The point `share` of the way to `other`: 0 is here, 1 is there.
    #[must_use]
    #[inline]
    pub fn toward(self, other: Self, share: f64) -> Self {
        self + (other - self) * share
    }

    /// Where the line through `self` along `direction` meets the line through `other` along `other_direction`;
    /// `None` when they run parallel.
    #[must_use]
    pub fn crossing(self, direction: Vector, other: Self, other_direction: Vector) -> Option<Self> {
        let denominator = direction.cross(other_direction);
        let scale = direction.length() * other_direction.length();
        if denominator.abs() <= crate::tolerance::PARALLEL_SINE * scale {
            return None;
        }
        Some(self + direction * ((other - self).cross(other_direction) / denominator))
    }
}

impl Vector {
    /// The vector (`x`, `y`).
    #[must_use]
    #[inline]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The unit vector at `radians` from the x axis.
    #[must_use]
    pub fn at_angle(radians: f64) -> Self {
        Self::new(trig::cos(radians), trig::sin(radians))
    }

    /// Length in millimetres.
    #[must_use]
    #[inline]
    pub fn length(self) -> f64 {
        trig::hypot(self.x, self.y)
    }

    /// Same direction, length one. A zero vector stays zero.
    #[must_use]
    #[inline]
    pub fn unit(self) -> Self {
        let length = self.length();
        if length > 0.0 { self * (1.0 / length) } else { self }
    }

    /// A quarter turn to the left.
    #[must_use]
    #[inline]
    pub const fn left(self) -> Self {
        Self::new(-self.y, self.x)
    }

    /// A quarter turn to the right.
    #[must_use]
    #[inline]
    pub const fn right(self) -> Self {
        Self::new(self.y, -self.x)
    }

    /// Scalar product.
    #[must_use]
    #[inline]
    pub const fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// Cross product: positive when `other` lies to the left of `self`.
    #[must_use]
    #[inline]
    pub const fn cross(self, other: Self) -> f64 {
        self.x * other.y - self.y * other.x
    }

    /// Direction from the x axis in radians, −π to π.
    #[must_use]
    pub fn angle(self) -> f64 {
        trig::atan2(self.y, self.x)
    }

    /// Turned left by `radians`.
    #[must_use]
    pub fn turned(self, radians: f64) -> Self {
        let (s, c) = (trig::sin(radians), trig::cos(radians));
        Self::new(self.x * c - self.y * s, self.x * s + self.y * c)
    }
}

impl Sub for Point {
    type Output = Vector;
    #[inline]
    fn sub(self, other: Self) -> Vector {
        Vector::new(self.x - other.x, self.y - other.y)
    }
}

impl Add<Vector> for Point {
    type Output = Self;
    #[inline]
    fn add(self, by: Vector) -> Self {
        Self::new(self.x + by.x, self.y + by.y)
    }
}

impl Sub<Vector> for Point {
    type Output = Self;
    #[inline]
    fn sub(self, by: Vector) -> Self {
        Self::new(self.x - by.x, self.y - by.y)
    }
}

impl Add for Vector {
    type Output = Self;
    #[inline]
    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y)
    }
}

impl Sub for Vector {
    type Output = Self;
    #[inline]
    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y)
    }
}

impl Mul<f64> for Vector {
    type Output = Self;
    #[inline]
    fn mul(self, by: f64) -> Self {
        Self::new(self.x * by, self.y * by)
    }
}

impl Neg for Vector {
    type Output = Self;
    #[inline]
    fn neg(self) -> Self {
        Self::new(-self.x, -self.y)
    }
}
