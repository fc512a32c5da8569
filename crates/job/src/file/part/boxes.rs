//! Pans and boxes.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{FaceFile, MirrorFile, PartCommon, PartLayFile};
use crate::file::{ClearanceFile, Degrees, EdgeFile, Named, OpeningOrSize, Size};

/// A step beyond an outward rim.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RimStepFile {
    /// From the top of the rim to the top of the outer rim, up or down: "1/2 up".
    pub(crate) step: String,
    /// Outward beyond the step.
    pub(crate) out: Size,
}

/// How a pan is made up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum PanMadeFile {
    /// One piece, a cross in the flat.
    OnePiece,
    /// The floor and every wall for itself.
    Panels,
}

/// A drain hole in the floor of a pan.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct PanDrainFile {
    /// Its centre from corner A of the floor, outside: along AB, and square to it.
    pub(crate) at: [Size; 2],
    /// Diameter, 1/8 in (3 mm) or more: a finer one clogs, and water stands over it.
    pub(crate) diameter: Size,
}

/// A slot that a pan slides out through, level.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct SlideThroughFile {
    /// Width and height of the slot; the pan's side AB lies along the width.
    pub(crate) slot: [Size; 2],
    /// From the outside of the floor to the top of the handle, no more than the height of the slot. No handle when not
    /// given.
    pub(crate) handle: Option<Size>,
}

/// Dividers of a tray.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct DividersFile {
    /// Those that run across, beside DA: from the inside of wall DA at the floor to the near face of each.
    #[serde(default)]
    pub(crate) across: Vec<Size>,
    /// Those that run along, beside AB: from the inside of wall AB at the floor to the near face of each.
    #[serde(default)]
    pub(crate) along: Vec<Size>,
    /// Height above the floor.
    pub(crate) height: Size,
    /// What stays free at each end and at each side of a slot. Nothing when not given.
    pub(crate) play: Option<Size>,
    /// Flange at both ends of every divider, to rivet or weld by. None when not given.
    pub(crate) flange: Option<Size>,
}

/// A corner cut off the back of a box.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct BackCutFile {
    /// The lower or the upper corner of the back.
    pub(crate) corner: CutCornerFile,
    /// How much of the back it takes, along it.
    pub(crate) back: Size,
    /// How much of the bottom or top it takes, along it.
    pub(crate) level: Size,
    /// Closed by one sloping plate, or by a step.
    pub(crate) style: CutStyleFile,
}

/// Which corner of the back is cut off.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum CutCornerFile {
    /// Between bottom and back.
    Lower,
    /// Between back and top.
    Upper,
}

/// How a cut corner is closed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum CutStyleFile {
    /// By one sloping plate.
    Sloped,
    /// By a step of two plates.
    Stepped,
}

/// One rim all round, or rims by side.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(untagged)]
pub(crate) enum RimFile {
    /// The same all round.
    One(String),
    /// By side.
    Named(Named<String>),
}

part_file!(
    /// A pan: floor, walls, rim. By its outside, by the inside of its floor, or by the opening it must lift out of.
    PanFile, PanWord "pan",
    {
        /// Length and width outside the walls, at the floor.
        outside: Option<[Size; 2]>,
        /// Length and width of the flat floor between the inside faces of the walls.
        inside_floor: Option<[Size; 2]>,
        /// The opening it must lift out of, level, with its rim and what is bent at its edge.
        lifts_through: Option<OpeningOrSize>,
        /// With `lifts_through`: what must stay free, each side; one length, or items by name that add up.
        clearance: Option<ClearanceFile>,
        /// From the outside of the floor to the top of the rim, or to the highest metal of a wall without one. What is
        /// bent up at the edge of a rim counts.
        height: Size,
        /// "1/2 out", "1/2 inward" or "none"; or by side, "AB": "1/2 out", with none where not given.
        rim: RimFile,
        /// Lean of walls outward from plumb, by side: "AB": 8; below zero inward. Plumb where not given.
        #[serde(default)]
        lean: Named<Degrees>,
        /// What is done to the edge of rims and of walls without a rim, all round. A cut edge when not given.
        edge: Option<EdgeFile>,
        /// A step beyond a rim that is turned outward all round. None when not given.
        rim_step: Option<RimStepFile>,
        /// How it is made up. One piece when not given.
        made: Option<PanMadeFile>,
        /// A drain hole in the floor. None when not given.
        drain: Option<PanDrainFile>,
        /// The slot it slides out through, level. None when not given.
        slides_through: Option<SlideThroughFile>,
        /// The marked face. The inside when not given.
        face: Option<FaceFile>,
    }
);

part_file!(
    /// A tray: a square-cornered pan with dividers, slotted into one another where they cross.
    TrayFile, TrayWord "tray",
    {
        /// Length and width outside the walls, at the floor.
        outside: Option<[Size; 2]>,
        /// Length and width of the flat floor between the inside faces of the walls.
        inside_floor: Option<[Size; 2]>,
        /// The opening it must lift out of, level, with its rim and what is bent at its edge.
        lifts_through: Option<OpeningOrSize>,
        /// With `lifts_through`: what must stay free, each side; one length, or items by name that add up.
        clearance: Option<ClearanceFile>,
        /// From the outside of the floor to the top of the rim, or to the highest metal of a wall without one. What is
        /// bent up at the edge of a rim counts.
        height: Size,
        /// "1/2 out", "1/2 inward" or "none"; or by side, "AB": "1/2 out", with none where not given.
        rim: RimFile,
        /// Lean of walls outward from plumb, by side: "AB": 8; below zero inward. Plumb where not given.
        #[serde(default)]
        lean: Named<Degrees>,
        /// What is done to the edge of rims and of walls without a rim, all round. A cut edge when not given.
        edge: Option<EdgeFile>,
        /// Its dividers.
        dividers: DividersFile,
        /// The marked face. The inside when not given.
        face: Option<FaceFile>,
    }
);

part_file!(
    /// A box let into a face: back, four walls, rim round the face. Sizes are to the outside; depths run from the front
    /// of the rim. Seen from the face AB is the bottom, BC the right end, CD the top, DA the left end.
    DayBoxFile, DayBoxWord "day_box",
    {
        /// Between the outsides of the ends.
        width: Size,
        /// Of the walls at the face.
        height: Size,
        /// Depth, the same at top and bottom.
        depth: Option<Size>,
        /// Depth at the top, where the back slopes: square to the face.
        depth_top: Option<Size>,
        /// Depth at the bottom, where the back slopes: square to the face, to the lower corner of the back, wherever a
        /// sloping bottom has taken that. Where the face itself leans: level, along the bottom.
        depth_bottom: Option<Size>,
        /// Height of the back, down from the level top, where the bottom slopes. The height at the face when not given.
        back_height: Option<Size>,
        /// How far the face leans back from plumb, its top away from you. Plumb when not given.
        face_lean: Option<Degrees>,
        /// A corner cut off the back to clear what is behind. None when not given.
        cut: Option<BackCutFile>,
        /// "1 out", "1 inward" or "none".
        rim: String,
        /// A lip forward from the edge of an outward rim, in which a door lies. None when not given.
        door_lip: Option<Size>,
        /// The marked face. The inside when not given.
        face: Option<FaceFile>,
    }
);
