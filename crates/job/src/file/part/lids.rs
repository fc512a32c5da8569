//! Lids.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{EachSide, FaceFile, MirrorFile, PartCommon, PartLayFile};
use crate::file::{ClearanceFile, EdgeFile, Named, OpeningOrSize, Size};

/// How a tapered lid is made up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum LidMadeFile {
    /// One piece.
    OnePiece,
    /// The top, and the sides as one strip.
    TopAndRing,
    /// Two pieces, parted along a line: give `split` too.
    TwoHalves,
    /// The top and every side for itself.
    Plates,
}

/// The hinge of a lid.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct HingeFile {
    /// The side it is on: "DA".
    pub(crate) side: String,
    /// What the hinge leaf takes between the skirt and what it hinges to: its thickness, not its length. More than
    /// 1/2 in (13 mm) is pointed out.
    pub(crate) leaf: Size,
}

/// The line that parts a lid.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct SplitFile {
    /// The two sides it crosses, and where along the rim from each side's first corner: "AB": "15", "CD": "17".
    pub(crate) across: Named<Size>,
    /// Depth of a flange turned down on both halves to join them by. Butted when not given.
    pub(crate) flange: Option<Size>,
}

/// A notch in the edge of a skirt to lift the lid by.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct LiftingNotchFile {
    /// The side: "AB". Not the one with the hinge.
    pub(crate) side: String,
    /// From the rim's first corner of the side to the middle of the notch. The middle of the side when not given.
    pub(crate) at: Option<Size>,
    /// Along the skirt.
    pub(crate) width: Size,
    /// Up from the edge of the skirt.
    pub(crate) depth: Size,
    /// How far the inner corners are taken off at 45°. Square when not given.
    pub(crate) corner: Option<Size>,
}

/// A crown by one bend across the middle of a lid.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct CrownFile {
    /// How far the middle stands above the ends, outside.
    pub(crate) rise: Size,
    /// A side along which the top rises: "AB". The longer pair when not given.
    pub(crate) along: Option<String>,
    /// How the lower edge of the skirts of those sides runs. Level when not given.
    pub(crate) skirt_edge: Option<SkirtEdgeFile>,
}

/// How the lower edge of a crowned side's skirt runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum SkirtEdgeFile {
    /// Level: the skirt is deeper by the rise in the middle.
    Level,
    /// Along the crown: the skirt is as deep all along.
    AlongCrown,
}

part_file!(
    /// A lid over an opening that tapers up on all sides to a flat top. Sizes are to the outside of the metal.
    TaperedLidFile, TaperedLidWord "tapered_lid",
    {
        /// The opening it covers.
        over: OpeningOrSize,
        /// Of a proud lid: how far the outside of the skirt stands outside the opening, all round, zero or more. Metal and
        /// return come off what it leaves free round a coaming; less than they take is pointed out.
        outset: Option<Size>,
        /// Of a lid that sits flush in the opening: what stays free on each side; one length, or items by name.
        flush: Option<ClearanceFile>,
        /// From the rim, where slope meets skirt, up to the top.
        rise: Size,
        /// How far in from the rim the top begins, in plan: one length, or one for each side ("AB": "3"). Zero is plumb.
        inset: EachSide,
        /// From the rim down to the edge of the skirt.
        skirt: Size,
        /// Width of a lip turned in at the foot of the skirt. No lip when not given.
        #[serde(rename = "return")]
        return_width: Option<Size>,
        /// What is done to the edge of the skirt, all round; on a proud lid of one piece that slopes on all sides, without
        /// a lip, hinge or notch. A cut edge when not given.
        edge: Option<EdgeFile>,
        /// The hinge. None when not given.
        hinge: Option<HingeFile>,
        /// How it is made up. One piece when not given.
        made: Option<LidMadeFile>,
        /// With `made` of two halves: the line that parts it.
        split: Option<SplitFile>,
        /// A notch in a skirt to lift it by. None when not given.
        notch: Option<LiftingNotchFile>,
        /// The marked face. The outside when not given.
        face: Option<FaceFile>,
    }
);

part_file!(
    /// A flat lid, flanged down all round: over an opening with clearance, or by its outside.
    LidFile, LidWord "lid",
    {
        /// The opening or coaming it goes over.
        over: Option<OpeningOrSize>,
        /// With `over`: between that and the inside of the skirt, or what its edge has turned in, each side; one length, or
        /// items by name that add up.
        clearance: Option<ClearanceFile>,
        /// Length and width outside the skirt.
        outside: Option<[Size; 2]>,
        /// From the top down to the edge of the skirt.
        skirt: Size,
        /// What is done to the edge of the skirt, all round. A cut edge when not given.
        edge: Option<EdgeFile>,
        /// A crown by one bend across the middle; the skirt is then as deep as given at the ends. Flat when not given.
        crown: Option<CrownFile>,
        /// The marked face. The outside when not given.
        face: Option<FaceFile>,
    }
);
