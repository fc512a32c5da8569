//! What is done to a free edge.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{Degrees, Size};

/// What is done to a free edge: exactly one of the three.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct EdgeFile {
    /// Bent back on itself.
    pub(crate) hem: Option<HemFile>,
    /// A lip.
    #[serde(rename = "return")]
    pub(crate) lip: Option<ReturnFile>,
    /// Rolled round.
    pub(crate) curl: Option<CurlFile>,
}

/// A hem.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct HemFile {
    /// How far it is closed.
    pub(crate) kind: HemKindFile,
    /// Along its leg, from the outside of the fold to its edge.
    pub(crate) length: Size,
    /// Of an open hem: between leg and plate, twice the inside radius.
    pub(crate) gap: Option<Size>,
    /// Of a tear-drop hem: its inside radius.
    pub(crate) radius: Option<Size>,
    /// To which side. The way its plate is bent when not given; must be given on a side of a panel itself.
    pub(crate) toward: Option<EdgeWayFile>,
}

/// How far a hem is closed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum HemKindFile {
    /// Pressed flat.
    Closed,
    /// A half turn, with a gap.
    Open,
    /// Past a half turn, until its edge touches the plate.
    TearDrop,
}

/// A lip.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct ReturnFile {
    /// To the outside of its bend.
    pub(crate) length: Size,
    /// Turn from flat. 90 when not given.
    pub(crate) turn: Option<Degrees>,
    /// To which side. The way its plate is bent when not given.
    pub(crate) toward: Option<EdgeWayFile>,
}

/// A curl.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct CurlFile {
    /// Inside radius.
    pub(crate) radius: Size,
    /// Turn from flat. 270 when not given.
    pub(crate) turn: Option<Degrees>,
    /// To which side. The way its plate is bent when not given; must be given on a side of a panel itself.
    pub(crate) toward: Option<EdgeWayFile>,
}

/// To which side an edge is bent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum EdgeWayFile {
    /// The way the plate itself is bent.
    In,
    /// The other way.
    Out,
    /// Toward the marked face, on a side of a panel itself.
    Up,
    /// Away from it.
    Down,
}
