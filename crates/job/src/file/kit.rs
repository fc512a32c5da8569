//! A kit: the flats sent to a buyer who folds them.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{BrakeFile, Price, Size};

/// What of the job is sent as a kit, and in what crates.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct KitFile {
    /// The crates.
    pub(crate) crates: CratesFile,
    /// What lies between the layers.
    pub(crate) packing: PackingFile,
    /// The machine that the buyer bends on. Every part must go on it, and the bend cards are for it.
    pub(crate) buyer_brake: Option<BrakeFile>,
    /// Marks of the parts that are test strips: plates of each bent metal, for the buyer to bend first.
    #[serde(default)]
    pub(crate) test_strips: Vec<String>,
    /// Words for the two hands of a pair, the part that is drawn first: ["port", "starboard"].
    pub(crate) hands: Option<[String; 2]>,
    /// What carrying all crates to the buyer costs. A quote of the kit asks for it when it is not given.
    pub(crate) carriage: Option<Price>,
    /// Marks of parts that do not go with the kit, pieces of a whole by the mark of the whole.
    #[serde(default)]
    pub(crate) stays_here: Vec<String>,
}

/// The crates.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct CratesFile {
    /// Length, width and height inside.
    pub(crate) inside: [Size; 3],
    /// Weight of an empty crate with its lid: "34 lb".
    pub(crate) empty: String,
    /// Most that a full crate may weigh: "150 lb".
    pub(crate) heaviest: String,
    /// What one empty crate costs. A quote of the kit asks for it when it is not given.
    pub(crate) price: Option<Price>,
    /// Most crates that may be sent. No limit when not given.
    #[schemars(range(min = 1, max = 1_000))]
    pub(crate) most: Option<u32>,
}

/// What lies between layers, and what is kept clear.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct PackingFile {
    /// What it is: "corrugated board".
    #[schemars(length(min = 1, max = 80))]
    pub(crate) what: String,
    /// Its thickness: under the first layer, between layers, and over the last.
    pub(crate) thickness: Size,
    /// What an area of it weighs: "0.12 lb/ft2". Not weighed when not given, and the list says so.
    pub(crate) weight: Option<String>,
    /// What is kept clear along the walls, and between the flats of a layer.
    pub(crate) clear: Size,
}
