//! Planar outlines with holes and arcs, 3D frames, no-fit polygons and every tolerance.
//!
//! Knows nothing of metal. Lengths inside are `f64` millimetres, angles radians.
//! This is the only crate that names the polygon libraries it stands on.
//! Modules in reading order.

pub mod tolerance;
pub mod trig;

mod point;
mod slab;
mod space;

pub mod outline;
pub mod polygon;
pub mod region;

pub mod grid;
pub mod nofit;

pub use outline::{Contour, Outline, Segment};
pub use point::{Point, Vector};
pub use polygon::Polygon;
pub use region::Region;
pub use slab::Slab;
pub use space::{Frame, Plane, Point3, Vector3};
