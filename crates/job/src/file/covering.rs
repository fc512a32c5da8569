//! Matting, carpet and liner cut from rolls, and wear liner of plastic sheet.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{Price, Size};

/// One kind of roll good, and the pieces to cut from it.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct CoveringFile {
    /// What is ordered: "deck matting, grey".
    #[schemars(length(min = 1, max = 120))]
    pub(crate) covering: String,
    /// Width of the roll.
    pub(crate) width: Size,
    /// Longest roll that can be had. No limit when not given.
    pub(crate) longest: Option<Size>,
    /// Cut off each side of the roll before it is used. Zero when not given.
    pub(crate) selvedge: Option<Size>,
    /// Cut off the end of every length bought to make it square; with a pattern, up to where it starts next. When not given,
    /// nothing is counted for it, and the lists say so.
    pub(crate) squaring: Option<Size>,
    /// False where a piece may be turned a quarter: no nap and no pattern. True when not given.
    pub(crate) nap: Option<bool>,
    /// Length of one pattern along the roll. Every piece then starts where a pattern starts.
    pub(crate) repeat: Option<Size>,
    /// Width of one pattern across the roll. Panels then meet at a seam in the pattern.
    pub(crate) repeat_across: Option<Size>,
    /// Added to each panel at a seam, to be cut through both layers. Zero when not given.
    pub(crate) seam_allowance: Option<Size>,
    /// Price of the length under `price_for`.
    pub(crate) price: Option<Price>,
    /// The length of roll that the price is for.
    pub(crate) price_for: Option<Size>,
    /// Lengths sold are multiples of this. Any length is sold when not given.
    pub(crate) sold_by: Option<Size>,
    /// Weight of an area of it by the maker's data: "0.9 lb/ft2" or "4.4 kg/m2". Not weighed when not given.
    pub(crate) weight: Option<String>,
    /// What is cut from it.
    #[schemars(length(min = 1, max = 200))]
    pub(crate) pieces: Vec<CoveringPieceFile>,
}

/// A piece of a roll good.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct CoveringPieceFile {
    /// Its mark.
    #[schemars(length(min = 1, max = 40))]
    pub(crate) mark: String,
    /// Size along the nap, then across it.
    pub(crate) size: [Size; 2],
    /// Where a seam along the nap may run, measured across from the left side, looking along the nap. None when not given.
    #[serde(default)]
    pub(crate) seams: Vec<Size>,
    /// How many. One when not given.
    #[schemars(range(min = 1, max = 200))]
    pub(crate) quantity: Option<u32>,
    /// Room or place that it lies in, for its label: "wheelhouse floor".
    #[schemars(length(min = 1, max = 60))]
    pub(crate) lies_in: Option<String>,
}

/// Wear liner of plastic sheet, laid in panels with gaps to grow.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct LinerFile {
    /// What is ordered: "UHMW-PE 3/8".
    #[schemars(length(min = 1, max = 120))]
    pub(crate) liner: String,
    /// Size of a sheet.
    pub(crate) sheet: [Size; 2],
    /// Price of one sheet.
    pub(crate) price: Option<Price>,
    /// Width of one cut. Zero when not given.
    pub(crate) kerf: Option<Size>,
    /// Weight of an area of it by the maker's data: "1.9 lb/ft2" or "9.3 kg/m2". Not weighed when not given.
    pub(crate) weight: Option<String>,
    /// How it grows with heat.
    pub(crate) expansion: ExpansionFile,
    /// Faces to line.
    #[schemars(length(min = 1, max = 200))]
    pub(crate) areas: Vec<LinedAreaFile>,
}

/// How a plastic grows with heat, and the temperatures it meets.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct ExpansionFile {
    /// Coefficient of linear expansion by the maker's data: growth of a unit of length for one degree Celsius.
    pub(crate) per_degree_c: serde_json::Number,
    /// Where the coefficient stands: "maker's data sheet, 2026-02".
    #[schemars(length(min = 1, max = 120))]
    pub(crate) source: String,
    /// Temperature at which it is laid: "68 F" or "20 C".
    pub(crate) laid_at: String,
    /// Coldest it gets.
    pub(crate) coldest: String,
    /// Warmest it gets.
    pub(crate) warmest: String,
}

/// A rectangle to line.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct LinedAreaFile {
    /// Its mark.
    #[schemars(length(min = 1, max = 40))]
    pub(crate) mark: String,
    /// Length and width.
    pub(crate) size: [Size; 2],
    /// How many. One when not given.
    #[schemars(range(min = 1, max = 200))]
    pub(crate) quantity: Option<u32>,
    /// Room or place that it lines, for the labels of its panels: "hold, port side".
    #[schemars(length(min = 1, max = 60))]
    pub(crate) lies_in: Option<String>,
}
