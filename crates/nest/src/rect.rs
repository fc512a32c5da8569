//! Rectangles on sheets of one size, cut freely or edge to edge on a shear.
//!
//! The way through: a [`Problem`] is checked, [`pack`] packs it, every packing passes [`verify()`] before it is handed
//! out, [`bound()`] says how few sheets could ever do, and [`cuts()`] gives the order of the cuts on the shear.
//! All sizes are whole steps. Modules in reading order.

mod problem;

mod bound;
mod cuts;
mod exact;
mod ground;
mod mixed;
mod onto;
mod search;
mod verify;

pub use bound::{Bound, bound};
pub use cuts::{Axis, Cut, CutFault, Parted, cuts, parted, parted_for_drops};
pub(crate) use exact::{Settled, Steps, settled};
pub(crate) use mixed::{Ask, Size, pack_mixed};
pub(crate) use onto::onto;
pub use problem::{Cutting, Fault, Piece, Placed, Problem, Shear, Sheet};
pub use search::{PackError, Packing, Watch, pack};
pub use verify::{Flaw, verify};
