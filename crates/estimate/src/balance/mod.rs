//! Weights at places: centres of gravity, the moment of a lid about its hinge, gas struts, loads on supports, and the
//! recommended weight limit of a lift by hand. Statics only; nothing here says that anything is safe.

mod assembly;
mod hand_lift;
mod lid;
mod stations;
mod strut;

pub use assembly::{Assembly, Boxed, PlacedMass};
pub use hand_lift::{Grip, HandLift, LiftFactor, LiftFault, LiftLimit};
pub use lid::{HungLoad, Lid};
pub use stations::{Loading, StationLoad, Support, SupportsFault};
pub use strut::{GasStrut, StrutFault, StrutMounts, StrutPlace, SwingStep, Unbalanced, gas_share};
