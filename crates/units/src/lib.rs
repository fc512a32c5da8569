//! Length, angle, area, mass, density and money, read and printed as a tape does.
//!
//! Every quantity is an integer count of a small unit, so that sums never drift. A floating-point number enters
//! or leaves only through a function that names its unit, and is rounded in one place, [`rounding`].
//! This crate knows no geometry and holds no defaults. Modules in reading order.

pub mod rounding;

#[macro_use]
mod counted;
mod decimal;
mod error;

pub mod length;

mod angle;
mod area;
mod density;
mod force;
mod mass;
mod mass_per_area;
mod money;
mod temperature;
mod torque;

pub mod apportion;

pub use angle::Angle;
pub use apportion::{ApportionError, apportion};
pub use area::{Area, AreaUnit};
pub use density::{Density, DensityUnit};
pub use error::ReadError;
pub use force::{Force, ForceUnit};
pub use length::{Length, LengthStyle, LengthUnit, TapeDenominator};
pub use mass::{Mass, MassUnit};
pub use mass_per_area::{MassPerArea, MassPerAreaUnit};
pub use money::Money;
pub use temperature::{Temperature, TemperatureUnit};
pub use torque::{Torque, TorqueUnit};
