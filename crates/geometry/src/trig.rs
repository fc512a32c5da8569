//! Trigonometry that gives the same bits on every machine.
//!
//! The standard library's functions differ in the last digit between platforms; `libm` does not.
//! Angles are radians throughout.

/// Sine of `radians`.
#[must_use]
pub fn sin(radians: f64) -> f64 {
    libm::sin(radians)
}

/// Cosine of `radians`.
#[must_use]
pub fn cos(radians: f64) -> f64 {
    libm::cos(radians)
}

/// Tangent of `radians`.
#[must_use]
pub fn tan(radians: f64) -> f64 {
    libm::tan(radians)
}

/// Angle whose tangent is `ratio`, in radians.
#[must_use]
pub fn atan(ratio: f64) -> f64 {
    libm::atan(ratio)
}

/// Direction of (`x`, `y`) from the x axis, in radians, −π to π.
#[must_use]
pub fn atan2(y: f64, x: f64) -> f64 {
    libm::atan2(y, x)
}

/// Angle whose cosine is `ratio`, in radians. A ratio a rounding error outside −1 … 1 counts as the limit.
#[must_use]
pub fn acos(ratio: f64) -> f64 {
    libm::acos(ratio.clamp(-1.0, 1.0))
}

/// Angle whose sine is `ratio`, in radians. A ratio a rounding error outside −1 … 1 counts as the limit.
#[must_use]
pub fn asin(ratio: f64) -> f64 {
    libm::asin(ratio.clamp(-1.0, 1.0))
}

/// Length of the hypotenuse over the legs `a` and `b`.
#[must_use]
pub fn hypot(a: f64, b: f64) -> f64 {
    libm::hypot(a, b)
}
