//! Bars, pipe and section: what is cut to length from sticks.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{Price, Size};

/// One kind of bar, pipe or section, the sticks it comes in and the lengths to cut.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct BarFile {
    /// What is ordered: "1 1/2 sch 40 pipe, 6061-T6". Rolled pipe of steps with this name is cut from it too.
    #[schemars(length(min = 1, max = 120))]
    pub(crate) bar: String,
    /// Lengths it comes in.
    #[schemars(length(min = 1))]
    pub(crate) sticks: Vec<StickFile>,
    /// Lengths to cut besides.
    #[serde(default)]
    pub(crate) pieces: Vec<BarPieceFile>,
    /// Width of one saw cut of the bars, which need not be that of the sheets; it must be given. 0 where they are sheared.
    pub(crate) kerf: Option<Size>,
    /// Cut off each end of every stick, the squaring cut counted. Zero when not given.
    pub(crate) end_trim: Option<Size>,
    /// Shortest rest worth keeping. None is kept when not given.
    pub(crate) keep_rest: Option<Size>,
}

/// A length of stick.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct StickFile {
    /// Its length.
    pub(crate) length: Size,
    /// Price of one. When any bought stick has none, the least length is bought instead of the least money.
    pub(crate) price: Option<Price>,
    /// How many there are. No limit when not given.
    #[schemars(range(min = 1, max = 10_000))]
    pub(crate) count: Option<u32>,
    /// True for a piece on the rack: it is used before anything is bought, and needs a count.
    #[serde(default)]
    pub(crate) on_rack: bool,
}

/// A length to cut.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct BarPieceFile {
    /// Its mark.
    #[schemars(length(min = 1, max = 40))]
    pub(crate) mark: String,
    /// Finished length.
    pub(crate) length: Size,
    /// How many. One when not given.
    #[schemars(range(min = 1, max = 10_000))]
    pub(crate) quantity: Option<u32>,
}
