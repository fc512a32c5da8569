//! Folded parts, bend numbers, flat patterns and the refold proof.
//!
//! A [`FoldedPart`] is a tree of flat faces joined by bends. [`flat::unfold`] lays it out on the sheet;
//! [`refold::prove`] folds the flat again by another road and measures what came out; [`facets::of`] gives the folded
//! part as flat facets, for drawing, and [`thin::unfold`] the part without thickness, for a model of paper.
//! Lengths inside are `f64` millimetres and angles radians, as in `geometry`. Modules in reading order.

pub mod bend;
pub mod flat;
pub mod order;
pub mod part;
pub mod refold;

pub mod facets;
pub mod thin;

pub use bend::BendNumber;
pub use flat::FlatPattern;
pub use part::{Bend, Direction, Edge, Face, FoldedPart, Forming, LegsTo, Seam, SeamSide, SeamStyle, Side};
