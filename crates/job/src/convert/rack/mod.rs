//! The shop's rack of offcuts: what stands in it, reading and writing it, and what an offcut may be used for.

mod blemishes;
mod offcut;
mod read;
mod suits;
mod write;

pub use offcut::{FaceState, Offcut, OffcutLay, OffcutMetal, Rack, Standing, TornZone};
pub use read::{NewOffcut, NewTornZone, new_offcut, read_rack};
pub use suits::{Mismatch, Wanted, is_thickness, suits};
pub use write::{exact_length, rack_text};

/// Version of the rack that is written and read.
const VERSION: u64 = 1;
