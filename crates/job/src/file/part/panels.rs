//! Panels and plates, drawn from above.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{DrawnFaceFile, MirrorFile, PartCommon, PartLayFile};
use crate::file::{EdgeFile, FlangeFile, HoleFile, Named, NotchFile, Size};

part_file!(
    /// A panel drawn from above, with flanges up or down. Sides and legs are to the outside; the upper face is marked.
    PanelFile, PanelWord "panel",
    {
        /// Length and width of a square-cornered panel, corner A at the origin, AB along its length.
        size: Option<[Size; 2]>,
        /// Corners A, B, C … once round, each along and across.
        #[schemars(length(min = 3))]
        outline: Option<Vec<[Size; 2]>>,
        /// Flanges by side: "AB": "3 up".
        #[serde(default)]
        flanges: Named<FlangeFile>,
        /// What is done to the edge of a side, or of its flange, by side: "AB": {"hem": ...}. Cut edges where not given.
        #[serde(default)]
        edges: Named<EdgeFile>,
        /// Holes.
        #[serde(default)]
        holes: Vec<HoleFile>,
        /// Notches.
        #[serde(default)]
        notches: Vec<NotchFile>,
        /// The drawn and marked face, by its name on the part as it stands in use: corners, holes and which way is up are as
        /// seen from it. Naming it turns nothing over. The upper one when not given.
        face: Option<DrawnFaceFile>,
    }
);

part_file!(
    /// A flat plate, straight-sided or round, drawn from above.
    PlateFile, PlateWord "plate",
    {
        /// Length and width of a square-cornered plate, corner A at the origin, AB along its length.
        size: Option<[Size; 2]>,
        /// Corners A, B, C … once round, each along and across.
        #[schemars(length(min = 3))]
        outline: Option<Vec<[Size; 2]>>,
        /// Diameter of a round plate.
        diameter: Option<Size>,
        /// Holes.
        #[serde(default)]
        holes: Vec<HoleFile>,
        /// Notches.
        #[serde(default)]
        notches: Vec<NotchFile>,
        /// The drawn and marked face, by its name on the part as it stands in use: corners, holes and which way is up are as
        /// seen from it. Naming it turns nothing over. The upper one when not given.
        face: Option<DrawnFaceFile>,
    }
);
