//! A folded part as it stands on the bench: a parallel view with hidden lines taken away.

mod drawn;
mod folded;
mod hidden;
mod lines;
pub(crate) mod places;
mod view;

pub(crate) use drawn::drawn;
pub use folded::Folded;
pub(crate) use hidden::{Scene, seen_of};
pub use lines::{LineKind, ViewLine, visible};
pub(crate) use view::middle;
pub use view::{Standing, View, choose};
