//! Parts put together, to find the centre of the whole.

use schemars::JsonSchema;
use serde::Deserialize;

use super::Size;

/// A whole made of several parts, pieces or things, each at its place.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct AssemblyFile {
    /// What it is called.
    #[schemars(length(min = 1, max = 60))]
    pub(crate) name: String,
    /// What is in it.
    #[schemars(length(min = 1))]
    pub(crate) loads: Vec<PlacedFile>,
}

/// A part in the whole, or an item with its weight.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct PlacedFile {
    /// Mark of the part or piece, or of a whole that is made of pieces.
    pub(crate) part: Option<String>,
    /// What else it is.
    #[schemars(length(min = 1, max = 60))]
    pub(crate) item: Option<String>,
    /// What the item weighs.
    pub(crate) weight: Option<String>,
    /// Of a part: where the left front lower corner of its box comes to lie, once it is turned. Of an item: its centre.
    pub(crate) at: [Size; 3],
    /// Quarter turns of the part in order, each about an axis of the whole, counter-clockwise as seen with that axis
    /// pointing at you. None when not given: it lies as `weights` has it.
    #[serde(default)]
    pub(crate) turned_about: Vec<AxisFile>,
}

/// An axis of the whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum AxisFile {
    /// To the right.
    X,
    /// To the rear.
    Y,
    /// Up.
    Z,
}
