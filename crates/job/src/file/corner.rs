//! How the corners of a part are made, where two plates meet without a bend.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{FaceFile, Named, Size};

/// How two plates meet at a corner: "open", "butt", or its sizes one by one. Of a console the two are "wrap" and "sides", of
/// a locker "front" (with the top) and "ends"; there a lap is a joining flange of sides or ends, turned in.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(untagged)]
pub(crate) enum CornerFile {
    /// "open": inside edges touch or stand the seam gap apart, V outside for a full weld. "butt": the plates of the long
    /// sides run through.
    Words(String),
    /// Open, a gap of its own between the inside edges.
    Gap(GapFile),
    /// One plate runs through.
    Butt(ButtFile),
    /// One plate carries a strip that lies along the other.
    Lap(LapFile),
    /// Tabs of one plate stand in slots of the other.
    Tabs(TabsFile),
    /// Corners or single seams in a style of their own.
    ByName(ByNameFile),
}

/// Corners or single seams in a style of their own.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct ByNameFile {
    /// The style of a corner, by its letter, or of one seam by the name that the packet gives it: `{"A": "open", "skirt at
    /// corner B": "butt"}`. A seam's own goes before that of its corner.
    pub(crate) at: Named<CornerFile>,
    /// How all others are made. As the shop makes them when not given.
    pub(crate) others: Option<Box<CornerFile>>,
}

/// An open corner with a gap of its own between the inside edges.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct GapFile {
    /// Between the inside edges, in place of the seam gap. Plates that lie in one plane are mitred with the seam gap all the
    /// same.
    pub(crate) gap: Size,
}

/// One plate runs through, the other stops against its inside face.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct ButtFile {
    /// Whose plates run through.
    pub(crate) butt_through: ChosenFile,
}

/// One plate carries a strip, bent off its end, that lies along the other.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct LapFile {
    /// Width of the strip, from the outside of its bend to its edge.
    pub(crate) lap: Size,
    /// Whose plates carry it. The long sides when not given.
    pub(crate) carried_by: Option<ChosenFile>,
    /// On which face of the other plate it lies. The inside when not given.
    pub(crate) side: Option<FaceFile>,
}

/// Tabs of one plate stand in slots, open at the edge, of the other.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct TabsFile {
    /// Width of each tab along the corner.
    pub(crate) tab: Size,
    /// How many tabs at each corner.
    #[schemars(range(min = 1, max = 100))]
    pub(crate) count: u32,
    /// Play of a tab in its slot, at each end. Zero when not given.
    pub(crate) clearance: Option<Size>,
    /// Whose plates have the tabs. The short sides when not given.
    pub(crate) tabs_on: Option<ChosenFile>,
}

/// Which of the two plates at a corner: "long sides", "short sides", or sides by name, one at every corner.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(untagged)]
pub(crate) enum ChosenFile {
    /// "long sides" or "short sides".
    Words(String),
    /// Sides by name: `["AB", "CD"]`.
    Sides(Vec<String>),
}
