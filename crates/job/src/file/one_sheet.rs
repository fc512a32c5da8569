//! Parts that come from one sheet.

use schemars::JsonSchema;
use serde::Deserialize;

/// Parts of one metal that are all cut from the same sheet, so that they match.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct OneSheetFile {
    /// Marks of the parts; the mark of a part made of pieces stands for all of them.
    #[schemars(length(min = 1))]
    pub(crate) parts: Vec<String>,
    /// True to turn them alike, so that the grain runs the same way on all of them, where the metal leaves the turn
    /// open.
    #[serde(default)]
    pub(crate) same_turn: bool,
}
