//! Weights at places: hinged lids with their hardware and struts, loads on stations, lifts by hand.

use schemars::JsonSchema;
use serde::Deserialize;

use super::quantity::Percentage;
use super::{AssemblyFile, Degrees, Size};

/// What is asked about weights.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct WeightsFile {
    /// Hinged lids.
    #[serde(default)]
    pub(crate) lids: Vec<HingedLidFile>,
    /// Loads along a trailer or a hull.
    #[serde(default)]
    pub(crate) stations: Vec<StationsFile>,
    /// Wholes made of several parts or pieces, each at its place.
    #[serde(default)]
    pub(crate) assemblies: Vec<AssemblyFile>,
    /// Lifts by hand.
    #[serde(default)]
    pub(crate) lifts: Vec<LiftFile>,
}

/// A hinged lid, seen along its hinge: it lies level when closed.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct HingedLidFile {
    /// Mark of the part, or of a whole that is made of pieces.
    pub(crate) part: String,
    /// The side that is hinged: "AB".
    pub(crate) hinge: String,
    /// The middle of the hinge pin: how far behind the outside of the hinge side, and how far above its lower edge.
    pub(crate) pin: [Size; 2],
    /// How far it opens, from closed.
    pub(crate) opens: Degrees,
    /// What is fixed to it.
    #[serde(default)]
    pub(crate) hardware: Vec<HungFile>,
    /// From the pin out to the handle.
    pub(crate) handle: Option<Size>,
    /// Gas struts that hold it.
    pub(crate) struts: Option<StrutsFile>,
}

/// Something fixed to a lid.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct HungFile {
    /// What it is.
    #[schemars(length(min = 1, max = 60))]
    pub(crate) item: String,
    /// What it weighs, all together: "4.6 lb", "2.1 kg".
    pub(crate) weight: String,
    /// Its centre with the lid closed: out from the pin toward the free edge, and up from the pin.
    pub(crate) at: [Size; 2],
}

/// Gas struts, all alike.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct StrutsFile {
    /// How many.
    #[schemars(range(min = 1, max = 20))]
    pub(crate) count: u32,
    /// The end on the frame: out from the pin toward the lid's free edge, and up from the pin.
    pub(crate) fixed: [Size; 2],
    /// The end on the lid, lid closed: out from the pin, and up from it.
    pub(crate) on_lid: [Size; 2],
    /// The coldest and the hottest that it must work at: "-20 C", "104 F".
    pub(crate) temperatures: [String; 2],
    /// What is added to the force for friction and age, percent. 0 for nothing.
    pub(crate) margin: Percentage,
    /// The strut that is chosen, by its maker's data.
    pub(crate) maker: Option<MakerFile>,
}

/// A strut by its maker's data. Nothing of it is guessed.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct MakerFile {
    /// What the maker calls it.
    #[schemars(length(min = 1, max = 60))]
    pub(crate) name: String,
    /// Force near full extension at 20 °C: "200 N", "45 lbf".
    pub(crate) force: String,
    /// Force compressed over force extended, as the maker gives it: 1.3.
    #[schemars(range(min = 0.0, max = 5.0))]
    pub(crate) ratio: f64,
    /// Length between the ends' centres, compressed.
    pub(crate) compressed: Size,
    /// Length between the ends' centres, extended.
    pub(crate) extended: Size,
    /// The coldest and the hottest that the maker allows.
    pub(crate) temperatures: Option<[String; 2]>,
}

/// Loads along one line, such as a trailer's or a hull's length.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct StationsFile {
    /// What is loaded.
    #[schemars(length(min = 1, max = 60))]
    pub(crate) name: String,
    /// The datum that stations count from: "transom", "coupling".
    #[schemars(length(min = 1, max = 60))]
    pub(crate) datum: String,
    /// The loads.
    #[schemars(length(min = 1))]
    pub(crate) loads: Vec<StationLoadFile>,
    /// Two places that carry everything: axle and coupling.
    pub(crate) supports: Option<[SupportFile; 2]>,
}

/// A load at its station: a part of the job, or an item with its weight.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct StationLoadFile {
    /// Mark of a part of the job, or of a whole made of pieces.
    pub(crate) part: Option<String>,
    /// What else it is.
    #[schemars(length(min = 1, max = 60))]
    pub(crate) item: Option<String>,
    /// What one weighs. Of an item.
    pub(crate) weight: Option<String>,
    /// How many. One when not given.
    #[schemars(range(min = 1, max = 10000))]
    pub(crate) count: Option<u32>,
    /// Station of its centre of gravity, from the datum.
    pub(crate) at: Size,
}

/// A place that carries.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct SupportFile {
    /// What it is called.
    #[schemars(length(min = 1, max = 60))]
    pub(crate) name: String,
    /// Its station.
    pub(crate) at: Size,
}

/// One lift by hand.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct LiftFile {
    /// Mark of the part, or of a whole that is made of pieces.
    pub(crate) part: String,
    /// From between the ankles out to the hands.
    pub(crate) reach: Size,
    /// Height of the hands above the floor where the lift begins.
    pub(crate) from: Size,
    /// Height of the hands where it ends.
    pub(crate) to: Size,
    /// How far the body is turned aside. Not at all when not given.
    pub(crate) turned: Option<Degrees>,
    /// How well it can be gripped.
    pub(crate) grip: GripFile,
}

/// How well a load can be gripped.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum GripFile {
    /// Handles or cut-outs for the hands.
    Good,
    /// Fingers under an edge.
    Fair,
    /// Neither.
    Poor,
}
