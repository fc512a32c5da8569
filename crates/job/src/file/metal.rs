//! Metals and sheets.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Degrees, Price, Size};

/// A metal: alloy, thickness, and whatever the tables should not decide.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct MetalFile {
    /// Alloy and temper as ordered: "5052-H32", "mild steel".
    pub(crate) alloy: String,
    /// True for an alloy that the tables lack; then give its density and its `k_factor` or `model`.
    #[serde(default)]
    pub(crate) unlisted: bool,
    /// Thickness; of tread plate that of the flat base.
    pub(crate) thickness: Size,
    /// Inside radius of bends. When not given: the thickness, or the least radius of the tables if that is more.
    pub(crate) inside_radius: Option<Size>,
    /// Least inside radius, in place of the table's.
    pub(crate) least_inside_radius: Option<Size>,
    /// The face of the sheet. Plain when not given.
    pub(crate) pattern: Option<PatternFile>,
    /// Weight of an area, lugs included: "1.95 lb/ft2", "11.6 kg/m2".
    pub(crate) weight: Option<String>,
    /// Density, in place of the table's: ".0968 lb/in3", "2.68 g/cm3".
    pub(crate) density: Option<String>,
    /// Height of the lugs over the flat base of tread plate, for the crates of a kit.
    pub(crate) lug_height: Option<Size>,
    /// Which way lugs or grain run on the sheet. Tread plate without it is taken along the long side.
    pub(crate) lay: Option<MetalLay>,
    /// Protective film. None when not given.
    pub(crate) film: Option<FilmFile>,
    /// The K-factor to bend by where no strip was bent: how far in the neutral line lies, over the thickness.
    pub(crate) k_factor: Option<f64>,
    /// The formula to bend by where no strip was bent. The K-factor when not given.
    pub(crate) model: Option<ModelFile>,
    /// True where the face of the finished parts shows: an offcut that is scratched, or whose face nobody looked at, is
    /// then not used. False when not given; metal with film is always taken so.
    #[serde(default)]
    pub(crate) face_shows: bool,
    /// How parts may be turned on the sheet. Half turns where there is a lay, else quarter turns.
    pub(crate) turns: Option<TurnsFile>,
    /// Turns by steps of so many degrees, in place of turns: 15 for 0, 15, 30 … all round.
    pub(crate) turn_every: Option<Degrees>,
    /// These turns only, in degrees counter-clockwise, in place of turns.
    #[schemars(length(min = 1))]
    pub(crate) turns_at: Option<Vec<Degrees>>,
}

/// What a metal or a part says of turns on the sheet.
#[derive(Debug, Clone, Copy)]
pub(crate) struct TurnFields<'a> {
    pub(crate) turns: Option<TurnsFile>,
    pub(crate) every: Option<&'a Degrees>,
    pub(crate) at: Option<&'a [Degrees]>,
}

impl MetalFile {
    pub(crate) fn turn_fields(&self) -> TurnFields<'_> {
        TurnFields { turns: self.turns, every: self.turn_every.as_ref(), at: self.turns_at.as_deref() }
    }
}

/// The face of a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum PatternFile {
    /// Raised lugs on one face.
    Tread,
    /// Smooth.
    Plain,
}

/// Which way lugs or grain run on the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
pub(crate) enum MetalLay {
    /// Along the long side.
    #[serde(rename = "long side")]
    LongSide,
    /// Along the short side.
    #[serde(rename = "short side")]
    ShortSide,
}

/// Protective film.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub(crate) enum FilmFile {
    /// No film.
    #[serde(rename = "none")]
    Bare,
    /// On one face, which is then the marked face.
    #[serde(rename = "one side")]
    OneSide,
    /// On both faces.
    #[serde(rename = "both sides")]
    BothSides,
}

/// Published ways to work out a bend.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
pub(crate) enum ModelFile {
    /// Turn × (radius + K × thickness), with `k_factor` or the table's K.
    #[serde(rename = "k-factor")]
    KFactor,
    /// The formula of FAA-H-8083-31, per degree.
    #[serde(rename = "faa")]
    Faa,
    /// The handbook's empirical rule for the metal: .64 T + 1.57 R for a square bend in aluminium or soft steel.
    #[serde(rename = "empirical")]
    Empirical,
    /// DIN 6935, for rolled steel.
    #[serde(rename = "din-6935")]
    Din6935,
}

/// How parts may be turned on the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum TurnsFile {
    /// Half turns: the lay stays.
    Half,
    /// Quarter turns.
    Quarter,
    /// Any angle.
    Any,
}

/// A sheet size of one metal.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct SheetFile {
    /// The metal.
    pub(crate) metal: String,
    /// Both sides, either first.
    pub(crate) size: [Size; 2],
    /// Price of one.
    pub(crate) price: Option<Price>,
    /// Cuts that the supplier makes to bring one to this size, each at `cut_charge` under `buying`. None when not given: it
    /// comes as it is in stock.
    #[schemars(range(min = 0, max = 100))]
    pub(crate) supplier_cuts: Option<u32>,
    /// How many there are. No limit when not given.
    #[schemars(range(min = 1, max = 10_000))]
    pub(crate) count: Option<u32>,
}
