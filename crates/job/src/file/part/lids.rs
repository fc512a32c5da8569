//! Lids.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{EachSide, FaceFile, PartCommon, PartLayFile};
use crate::file::{ClearanceFile, OpeningOrSize, Size};

part_file!(
    /// A lid over an opening that tapers up on all sides to a flat top. Sizes are to the outside of the metal.
    TaperedLidFile, TaperedLidWord "tapered_lid",
    {
        /// The opening it covers.
        over: OpeningOrSize,
        /// How far the outside of the skirt stands outside the opening, all round.
        outset: Size,
        /// From the rim, where slope meets skirt, up to the top.
        rise: Size,
        /// How far in from the rim the top begins, in plan: one length, or one for each side ("AB": "3").
        inset: EachSide,
        /// From the rim down to the edge of the skirt.
        skirt: Size,
        /// Width of a lip turned in at the foot of the skirt. No lip when not given.
        #[serde(rename = "return")]
        return_width: Option<Size>,
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
        /// With `over`: between that and the inside of the skirt, each side; one length, or items by name that add up.
        clearance: Option<ClearanceFile>,
        /// Length and width outside the skirt.
        outside: Option<[Size; 2]>,
        /// From the top down to the edge of the skirt.
        skirt: Size,
        /// The marked face. The outside when not given.
        face: Option<FaceFile>,
    }
);
