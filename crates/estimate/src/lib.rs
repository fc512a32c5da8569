//! Weight, bought = parts + kept drops + kerf + edge trim + scrap, and money.
//!
//! Pure sums on integers: every column of a report adds up exactly. Nothing is drawn or printed here, and no rate or
//! price is hidden: what the job does not give is left out. Modules in reading order.

mod breakdown;
mod error;
mod report;
mod sheet;
mod take_off;

pub use breakdown::{Amount, Breakdown};
pub use error::EstimateError;
pub use report::{MetalTotal, PartShare, ScrapReport, SheetReport, scrap_report};
pub use sheet::{PartOnSheet, SheetUse};
pub use take_off::{MetalWeight, PartToWeigh, PartWeight, TakeOff, take_off};
