//! Flanges, holes and notches of panels and plates.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{Degrees, Size};

/// A flange: "3 up", "3/4 down", or its sizes one by one.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(untagged)]
pub(crate) enum FlangeFile {
    /// Leg and direction, square to the panel, over the whole side: "3 up".
    Words(String),
    /// Sizes one by one.
    Sizes(FlangeSizes),
}

/// The sizes of a flange.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct FlangeSizes {
    /// From the outside of the panel's corner to the edge of the flange.
    pub(crate) leg: Size,
    /// Up or down, seen from above.
    pub(crate) direction: UpDown,
    /// Turn from flat. 90 when not given.
    pub(crate) turn: Option<Degrees>,
    /// How far it stops short of the side's first and second corner. Zero when not given.
    pub(crate) short: Option<[Size; 2]>,
}

/// Which way a flange turns, seen from above.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum UpDown {
    /// Toward the viewer.
    Up,
    /// Away from the viewer.
    Down,
}

/// A hole.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(untagged)]
pub(crate) enum HoleFile {
    /// A round hole.
    Round(RoundHoleFile),
    /// A slot with round ends.
    Slot(SlotFile),
    /// A cut-out with square or rounded corners.
    Rectangle(CutOutFile),
}

/// A round hole.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RoundHoleFile {
    /// Its centre, along and across from corner A; from the centre of a disc.
    pub(crate) at: [Size; 2],
    /// Diameter.
    pub(crate) diameter: Size,
}

/// A slot with round ends.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct SlotFile {
    /// Its centre, along and across from corner A; from the centre of a disc.
    pub(crate) at: [Size; 2],
    /// Length over the round ends, and width.
    pub(crate) slot: [Size; 2],
    /// How far its length is turned counter-clockwise from the x axis. Zero when not given.
    pub(crate) turned: Option<Degrees>,
}

/// A rectangular cut-out.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct CutOutFile {
    /// Its centre, along and across from corner A; from the centre of a disc.
    pub(crate) at: [Size; 2],
    /// Size along the x axis and across it.
    pub(crate) cut_out: [Size; 2],
    /// Radius of its corners. Square when not given.
    pub(crate) corner_radius: Option<Size>,
}

/// A notch.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(untagged)]
pub(crate) enum NotchFile {
    /// Out of a corner.
    Corner(CornerNotchFile),
    /// Out of a side.
    Side(SideNotchFile),
}

/// A notch out of a corner.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct CornerNotchFile {
    /// The corner: "C".
    pub(crate) corner: String,
    /// How much it takes of the side that leads to the corner (BC for C).
    pub(crate) along: Size,
    /// How much it takes of the side that leads away from it (CD for C).
    pub(crate) across: Size,
}

/// A notch out of a side.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct SideNotchFile {
    /// The side: "AB".
    pub(crate) side: String,
    /// From the side's first corner to the middle of the notch.
    pub(crate) at: Size,
    /// Along the side.
    pub(crate) width: Size,
    /// Into the panel.
    pub(crate) depth: Size,
}
