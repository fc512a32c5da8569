//! Money: the supplier's terms and the shop's own rates. Nothing here has a hidden value: what is not given is asked for
//! on the quote.

use schemars::JsonSchema;
use serde::Deserialize;

use super::quantity::{MinutesFile, Percentage};
use super::{OrderFile, Price, Size};

/// What buying and selling metal costs and brings.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct BuyingFile {
    /// The supplier's least sum of goods in one order. 0 for none.
    pub(crate) minimum_charge: Option<Price>,
    /// What the supplier asks for one cut through a sheet that is brought to its size; `supplier_cuts` under `sheets`
    /// says which are. 0 for nothing.
    pub(crate) cut_charge: Option<Price>,
    /// Freight for sheets that are too long to go with the rest.
    pub(crate) over_length: Option<OverLengthFile>,
    /// Delivery of one order. 0 for none.
    pub(crate) delivery: Option<Price>,
    /// Tax on metal, bars with it, percent. 0 for none, and where the prices include it.
    pub(crate) tax: Option<Percentage>,
    /// What the dealer pays for scrap.
    pub(crate) scrap_credit: Option<PriceOfMassFile>,
    /// What a kept drop is worth to the shop.
    pub(crate) drop_value: Option<PriceOfMassFile>,
    /// What the supplier asks for rectangles cut to size.
    pub(crate) cut_to_size: Option<CutToSizeFile>,
    /// The terms of who sells coverings and wear liner: an order of its own.
    pub(crate) coverings: Option<GoodsTermsFile>,
    /// What the order says beside the sheets.
    pub(crate) order: Option<OrderFile>,
}

/// The terms of who sells coverings and wear liner.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct GoodsTermsFile {
    /// The least sum of goods in one order. 0 for none.
    pub(crate) minimum_charge: Option<Price>,
    /// Delivery of one order. 0 for none.
    pub(crate) delivery: Option<Price>,
    /// Tax, percent. 0 for none, and where the prices include it.
    pub(crate) tax: Option<Percentage>,
}

/// Freight for long sheets, once an order. What is not given is asked for.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct OverLengthFile {
    /// Sheets longer than this pay it.
    pub(crate) longer_than: Option<Size>,
    /// The freight. 0 for nothing.
    pub(crate) freight: Option<Price>,
}

/// A price by weight. What is not given is asked for.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct PriceOfMassFile {
    /// Price of one unit.
    pub(crate) price: Option<Price>,
    /// The unit.
    pub(crate) per: Option<MassUnitFile>,
}

/// What the supplier asks for rectangles cut to size. What is not given is asked for.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct CutToSizeFile {
    /// Price of the metal.
    pub(crate) price: Option<Price>,
    /// The unit of weight that the price is for.
    pub(crate) per: Option<MassUnitFile>,
    /// What cutting one rectangle costs. 0 for nothing.
    pub(crate) cut_charge: Option<Price>,
    /// What is added at each edge of a blank, to trim at the bench. 0 for none.
    pub(crate) allowance: Option<Size>,
}

/// A unit of weight.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
pub(crate) enum MassUnitFile {
    /// Pounds.
    #[serde(rename = "lb")]
    Pound,
    /// Kilograms.
    #[serde(rename = "kg")]
    Kilogram,
}

/// The shop's own rates for a quote.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct QuoteFile {
    /// Whether the job pays for all that is bought, kept drops less their worth, or for its share of each sheet.
    pub(crate) material: Option<MaterialFile>,
    /// What an hour costs.
    pub(crate) hour: Option<Price>,
    /// What an hour of the second hand costs.
    pub(crate) second_hand_hour: Option<Price>,
    /// Minutes for each kind of work.
    #[serde(default)]
    pub(crate) work: WorkFile,
    /// Welds that join the pieces of a whole, or parts to one another; an empty list where there is none. Those within a
    /// part are counted from its corners.
    pub(crate) welds_between: Option<Vec<WeldFile>>,
    /// Wire, gas, discs, blades; an empty list where none is charged.
    pub(crate) consumables: Option<Vec<ConsumableFile>>,
    /// Work done elsewhere: anodising, powder coat, hinges welded; an empty list where there is none.
    pub(crate) outside_work: Option<Vec<LumpFile>>,
    /// For what may go wrong, percent of cost; apart from profit. 0 for none.
    pub(crate) risk: Option<Percentage>,
    /// Profit as percent on cost and risk. Give this or `margin`.
    pub(crate) markup: Option<Percentage>,
    /// Profit as percent of the price. Give this or `markup`.
    pub(crate) margin: Option<Percentage>,
    /// The price before tax is rounded up to a multiple of this. 0.01 for the cent.
    pub(crate) round_up_to: Option<Price>,
    /// Tax that the customer pays, percent. 0 for none.
    pub(crate) sales_tax: Option<Percentage>,
    /// The last day the quote holds: "2026-04-01".
    pub(crate) valid_until: Option<String>,
}

/// How the metal is charged.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
pub(crate) enum MaterialFile {
    /// All that is bought, less what the kept drops are worth.
    #[serde(rename = "bought")]
    Bought,
    /// The share of each sheet that is no kept drop.
    #[serde(rename = "share of sheets")]
    Share,
}

/// Minutes for each kind of work.
#[derive(Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct WorkFile {
    /// Marking out, a piece.
    pub(crate) lay_out: Option<WorkRateFile>,
    /// Straight cuts, a foot or metre.
    pub(crate) cut_straight: Option<WorkRateFile>,
    /// Curved cuts, a foot or metre; round holes apart.
    pub(crate) cut_curved: Option<WorkRateFile>,
    /// Strokes of the shear, each, where the shop cuts by shear.
    pub(crate) shear: Option<WorkRateFile>,
    /// Round holes, each.
    pub(crate) holes: Option<WorkRateFile>,
    /// Bends, each.
    pub(crate) bend: Option<WorkRateFile>,
    /// Weld of open corners, a foot or metre.
    pub(crate) weld_open: Option<WorkRateFile>,
    /// Weld of butted corners, a foot or metre.
    pub(crate) weld_butt: Option<WorkRateFile>,
    /// Weld of laps, a foot or metre.
    pub(crate) weld_lap: Option<WorkRateFile>,
    /// Weld of tabs, a foot or metre.
    pub(crate) weld_tab: Option<WorkRateFile>,
    /// Closing and dressing a corner, each.
    pub(crate) corners: Option<WorkRateFile>,
    /// Breaking edges and cleaning, a piece.
    pub(crate) finish: Option<WorkRateFile>,
    /// Sawing bars, pipe and section, a piece.
    pub(crate) saw_bars: Option<WorkRateFile>,
    /// Cutting and fitting coverings and liner, a panel.
    pub(crate) fit_coverings: Option<WorkRateFile>,
    /// Labels and packing of a kit, a piece.
    pub(crate) pack: Option<WorkRateFile>,
}

/// Minutes for one kind of work. What is not given is asked for.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct WorkRateFile {
    /// Minutes to set up, once a job. 0 for none.
    pub(crate) set_up: Option<MinutesFile>,
    /// Minutes for each; for cuts and welds a foot in inch jobs, a metre in millimetre jobs.
    pub(crate) each: Option<MinutesFile>,
    /// Minutes of a second hand for each; 0 where nobody else is at it.
    pub(crate) second_hand: Option<MinutesFile>,
}

/// Welds of one kind between pieces.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct WeldFile {
    /// What is joined.
    #[schemars(length(min = 1, max = 80))]
    pub(crate) what: String,
    /// The joint, which decides the rate.
    pub(crate) joint: JointFile,
    /// Length of one weld.
    pub(crate) length: Size,
    /// How many. One when not given.
    #[schemars(range(min = 1, max = 10_000))]
    pub(crate) count: Option<u32>,
}

/// A joint.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum JointFile {
    /// Edges that stand open for a full weld.
    Open,
    /// Edges that butt.
    Butt,
    /// One plate on the other.
    Lap,
    /// Tabs in slots.
    Tab,
}

/// Something used up. What is not given is asked for.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct ConsumableFile {
    /// What it is.
    #[schemars(length(min = 1, max = 80))]
    pub(crate) item: String,
    /// Its price. 0 for nothing.
    pub(crate) price: Option<Price>,
    /// What the price is for.
    pub(crate) per: Option<PerFile>,
}

/// What a consumable is used up by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
pub(crate) enum PerFile {
    /// The whole job.
    #[serde(rename = "job")]
    Job,
    /// One piece.
    #[serde(rename = "piece")]
    Piece,
    /// A foot or metre of cut.
    #[serde(rename = "cut length")]
    CutLength,
    /// A foot or metre of weld.
    #[serde(rename = "weld length")]
    WeldLength,
}

/// Hinges, latches, rivets: counted by the user, listed with the take-off.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct HardwareFile {
    /// What it is.
    #[schemars(length(min = 1, max = 80))]
    pub(crate) item: String,
    /// How many.
    #[schemars(range(min = 1, max = 100_000))]
    pub(crate) count: u32,
    /// What one costs. The quote asks for it when it is not given; 0 for what the customer brings.
    pub(crate) price: Option<Price>,
}

/// Something at a price for the whole job.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct LumpFile {
    /// What it is.
    #[schemars(length(min = 1, max = 80))]
    pub(crate) item: String,
    /// Its price. The quote asks for it when it is not given; 0 for nothing.
    pub(crate) price: Option<Price>,
}
