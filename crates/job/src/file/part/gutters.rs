//! Gutters and coamings.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{FaceFile, MirrorFile, PartCommon, PartLayFile};
use crate::file::{OpeningOrSize, Size};

/// A drain hole in the bottom of a gutter.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct GutterDrainFile {
    /// The corner beside which it is: "A".
    pub(crate) corner: String,
    /// Diameter of the hole, or of the inside of its spout, 1/8 in (3 mm) or more: a finer one clogs, and water stands over it.
    pub(crate) diameter: Size,
    /// A spout through the hole, rolled of the gutter's metal; the hole is then cut to the outside of that. A bare hole when not
    /// given.
    pub(crate) spout: Option<GutterSpoutFile>,
}

/// A tube through the bottom of a gutter, its upper end flush with the inside of that.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct GutterSpoutFile {
    /// From its upper end.
    pub(crate) length: Size,
    /// Between the spout and the edge of its hole, all round. Zero when not given.
    pub(crate) clearance: Option<Size>,
}

/// How a coaming is made up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum CoamingMadeFile {
    /// One strip, bent round the corners and welded at the first.
    Strip,
    /// A piece for each side.
    Sides,
}

part_file!(
    /// A gutter round an opening: a channel for each side, mitred to the opening's own angles. Sizes are to the outside.
    GutterFile, GutterWord "gutter",
    {
        /// The opening.
        opening: OpeningOrSize,
        /// How far the outside of the outer wall stands outside the opening; below zero it stands inside. Zero when not
        /// given.
        outset: Option<Size>,
        /// Over both walls, 1/4 in (6 mm) or more.
        width: Size,
        /// From the outside of the bottom to the top of the outer wall, 1/4 in (6 mm) or more.
        depth: Size,
        /// The same for the inner wall. The depth when not given.
        inner_depth: Option<Size>,
        /// A drain hole, with or without a spout. None when not given.
        drain: Option<GutterDrainFile>,
        /// The marked face. The inside when not given.
        face: Option<FaceFile>,
    }
);

part_file!(
    /// A coaming: a plumb upstand round an opening, with or without a flange at its top. Sized to the inside.
    CoamingFile, CoamingWord "coaming",
    {
        /// The opening.
        opening: OpeningOrSize,
        /// How far the inside stands outside the opening, zero or more: it stands on the deck. Zero when not given.
        outset: Option<Size>,
        /// From its foot to its top.
        height: Size,
        /// Flange at the top, from the inside of the wall: "1 out", "1 inward" or "none".
        top: String,
        /// How it is made up.
        made: CoamingMadeFile,
        /// The marked face. The outside when not given.
        face: Option<FaceFile>,
    }
);
