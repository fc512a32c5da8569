//! Openings as taped.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{Named, Size};

/// An opening: four sides and their diagonals, three to eight sides and theirs, or its corners. No inside corners.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(untagged)]
pub(crate) enum OpeningFile {
    /// Four sides.
    Four(FourSidesFile),
    /// Three to eight sides.
    Sides(SidesFile),
    /// By its corners.
    Outline(OutlineFile),
}

/// An opening with three to eight corners A, B, C … named once round, by its sides, each 1 in (25 mm) or more.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct SidesFile {
    /// From each corner to the next, by their two letters: AB, BC … and back to A.
    pub(crate) sides: Named<Size>,
    /// Diagonals by the letters of their ends. All from one corner fix the opening, as many as it has sides less three;
    /// every further one is a check. A three-sided opening has none.
    #[serde(default)]
    pub(crate) diagonals: Named<Size>,
    /// Which way A, B, C … go round, seen from above. Lengths alone do not tell an opening from its mirror image.
    pub(crate) corners_run: CornersRun,
}

/// An opening with three to eight corners by its outline.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct OutlineFile {
    /// The corners A, B, C … once round as seen from above, whichever way that runs, each along to the right and across
    /// away from you.
    #[schemars(length(min = 3))]
    pub(crate) outline: Vec<[Size; 2]>,
}

/// An opening with four corners A, B, C, D, named once round: four sides and one or, better, two diagonals, each 1 in
/// (25 mm) or more.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct FourSidesFile {
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
