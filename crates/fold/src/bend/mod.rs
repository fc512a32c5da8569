//! Bend numbers: the formulas, the shop's test strip, and the number chosen for a metal.

pub mod formula;
mod number;
mod strip;

pub use number::{BendNumber, NumberError, Origin};
pub use strip::{StripError, TestStrip};
