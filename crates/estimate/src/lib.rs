//! Weight, bought = parts + kept drops + kerf + edge trim + scrap, and money.
//!
//! Pure sums on integers: every column of a report adds up exactly. Nothing is drawn or printed here, and no rate or
//! price is hidden: what the job does not give is left out. Modules in reading order.

mod balance;
mod breakdown;
mod crating;
mod credit;
mod cut_to_size;
mod error;
mod least_order;
mod other_goods;
mod percent;
mod price_of_mass;
mod purchase;
mod quote;
mod report;
mod sheet;
mod take_off;

pub use balance::{
    Assembly, Boxed, GasStrut, Grip, HandLift, HungLoad, Lid, LiftFactor, LiftFault, LiftLimit, Loading,
    PlacedMass, StationLoad, StrutFault, StrutMounts, StrutPlace, Support, SupportsFault, SwingStep,
    Unbalanced, gas_share,
};
pub use breakdown::{Amount, Breakdown};
pub use crating::{Crate, CrateLimits, CratingFault, FlatToSend, Layer, Packed, pack};
pub use credit::worths;
pub use cut_to_size::{Blank, CutBlank, CutToSize};
pub use error::EstimateError;
pub use least_order::{Way, least_order};
pub use other_goods::{GoodsOrder, GoodsTerms};
pub use percent::Percent;
pub use price_of_mass::{PriceOfMass, PrintedMass};
pub use purchase::{OrderLine, OverLength, Purchase, PurchaseQuestion, Terms, purchase};
pub use quote::{
    Counted, HourRates, Minutes, Pricing, Profit, Quote, QuoteLine, Step, WorkKind, WorkLine, WorkRate,
    Workload, quote, waste, work_lines,
};
pub use report::{MetalTotal, PartShare, ScrapReport, SheetReport, scrap_report};
pub use sheet::{PartOnSheet, SheetUse};
pub use take_off::{MetalWeight, PartToWeigh, PartWeight, TakeOff, take_off};
