//! Openings as taped.

use schemars::JsonSchema;
use serde::Deserialize;

use super::Size;

/// An opening with four corners A, B, C, D, named once round: four sides and one or, better, two diagonals, each 1 in
/// (25 mm) or more.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct OpeningFile {
    /// Corner A to corner B.
    #[serde(rename = "AB")]
    pub(crate) ab: Size,
    /// Corner B to corner C.
    #[serde(rename = "BC")]
    pub(crate) bc: Size,
    /// Corner C to corner D.
    #[serde(rename = "CD")]
    pub(crate) cd: Size,
    /// Corner D to corner A.
    #[serde(rename = "DA")]
    pub(crate) da: Size,
    /// The diagonal from A to C.
    #[serde(rename = "AC")]
    pub(crate) ac: Option<Size>,
    /// The diagonal from B to D.
    #[serde(rename = "BD")]
    pub(crate) bd: Option<Size>,
    /// The diagonal to go by when the two disagree.
    pub(crate) trust: Option<TrustFile>,
    /// Which way A, B, C, D go round, seen from above. Lengths alone do not tell an opening from its mirror image.
    pub(crate) corners_run: CornersRun,
}

/// A diagonal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
pub(crate) enum TrustFile {
    /// From A to C.
    AC,
    /// From B to D.
    BD,
}

/// Which way corners go round, seen from above.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum CornersRun {
    /// As a clock's hands.
    Clockwise,
    /// Against a clock's hands.
    CounterClockwise,
}

/// An opening's name, or two sizes of a square-cornered one, each 1 in (25 mm) or more.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(untagged)]
pub(crate) enum OpeningOrSize {
    /// The name of an opening.
    Name(String),
    /// Length and width of a square-cornered opening.
    Size([Size; 2]),
}
