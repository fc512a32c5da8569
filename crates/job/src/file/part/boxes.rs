//! Pans and boxes.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{FaceFile, PartCommon, PartLayFile};
use crate::file::{ClearanceFile, Degrees, Named, OpeningOrSize, Size};

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
        /// The opening it must lift out of, level.
        lifts_through: Option<OpeningOrSize>,
        /// With `lifts_through`: what must stay free, each side; one length, or items by name that add up.
        clearance: Option<ClearanceFile>,
        /// From the outside of the floor to the top of the rim.
        height: Size,
        /// "1/2 out", "1/2 inward" or "none"; or by side, "AB": "1/2 out", with none where not given.
        rim: RimFile,
        /// Lean of walls outward from plumb, by side: "AB": 8. Plumb where not given.
        #[serde(default)]
        lean: Named<Degrees>,
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
        /// Depth at the top, where the back slopes.
        depth_top: Option<Size>,
        /// Depth at the bottom, where the back slopes.
        depth_bottom: Option<Size>,
        /// Height of the back, where the bottom slopes. The height at the face when not given.
        back_height: Option<Size>,
        /// "1 out", "1 inward" or "none".
        rim: String,
        /// The marked face. The inside when not given.
        face: Option<FaceFile>,
    }
);
