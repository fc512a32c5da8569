//! Bend numbers: the formulas, the shop's test strips, and the number chosen for a metal.

pub mod choice;
pub mod formula;
mod number;
mod shop_strip;
pub mod springback;
mod strip;

pub use number::{BendNumber, NumberError, Origin};
pub use shop_strip::{ShopStrip, StripMetal};
pub use strip::{StripError, TestStrip};
