//! Placing outlines on sheets, with bounds and an independent verifier.
//!
//! Sees outlines, cut-outs, allowed turns and faces, gap and stock; nothing of metal, files or the clock. All lengths are
//! whole grid steps (see [`geometry::grid`]), areas are square steps, money is whole units.
//!
//! The way through: a [`Problem`] is checked, [`compare`] nests it on every size of sheet, every nest passes
//! [`verify()`] before it is handed out, and [`Bound`] says how few sheets could ever do.
//! Modules in reading order.

pub mod problem;
pub mod sheet;

pub mod bar;
pub mod bound;
mod choice;
pub mod clear;
pub mod covering;
mod cutting_order;
pub mod drop;
mod fits;
pub mod rect;
pub mod roll;
mod search;
mod separate;
mod shared;
pub mod shear;
pub mod verify;

mod figure;
mod random;

pub use bound::{Bound, RollReason};
pub use choice::{
    Choice, Comparison, LeftOver, NestError, Nested, NoNest, Pace, Row, compare, compare_paced,
    compare_watched, ranked,
};
pub use cutting_order::{Step, cutting_order};
pub use drop::Drop;
pub use fits::{Misfit, Outlined, Tried};
pub use problem::{Mirror, Part, Pose, Problem, ProblemFault, Rules, Stock, StockShape, Together, Turns};
pub use roll::{RollError, RollNest, RollWatch, least_roll_length, nest_on_roll};
pub use search::{Effort, Progress, Watch};
pub use shared::{SharedCut, StraightCut, shared_cuts};
pub use sheet::{Nest, Placement, Sheet, Take};
pub use verify::{Fault, verify};
