//! Alloys, sheet sizes, tread plate, inside radii, bend models and yield strengths, each row with its source.
//!
//! The tables are JSON files in `data/`, built into the program. [`Metal`] is what a job uses: table rows resolved
//! for one alloy, temper and thickness, with every figure that the job set itself kept on record.
//! This crate holds no algorithms: the bend formulas live in `fold`. Modules in reading order.

mod table;

mod alloy;
mod bend_model;
mod inside_radius;
mod nearest_radius;
mod sheet_size;
mod supply_standard;
mod tread;
mod yield_strength;

pub mod brake;
pub mod metal;

pub use alloy::{Alloy, AlloyError, AlloyTemper, Family, alloys, find_alloy};
pub use bend_model::{
    BendModel, Forming, Hardness, KFactorRow, NeutralFactorRow, find_neutral_factor, neutral_factors,
    recommended_k_factor,
};
pub use inside_radius::{LeastInsideRadius, least_inside_radius};
pub use metal::{Figure, FigureValue, Film, Lay, Metal, MetalBuilder, MetalError, Override, Pattern};
pub use nearest_radius::{NearestRadius, TemperBeside, nearest_inside_radius};
pub use sheet_size::{SheetSize, sheet_sizes};
pub use supply_standard::{SupplyStandard, supply_standard, supply_standards};
pub use tread::{TreadWeight, tread_floor_weight};
pub use yield_strength::{YieldStrength, yield_strength};
