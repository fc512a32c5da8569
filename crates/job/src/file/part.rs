//! Parts, one struct for each shape. All have the same first fields.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{ClearanceFile, Degrees, FlangeFile, HoleFile, Named, NotchFile, OpeningOrSize, Size};

/// The fields that all parts have.
#[derive(Debug, Clone, Copy)]
pub(crate) struct PartCommon<'a> {
    pub(crate) mark: &'a str,
    pub(crate) metal: &'a str,
    pub(crate) quantity: u32,
    pub(crate) lay: Option<PartLayFile>,
    pub(crate) opposite_hand: Option<&'a str>,
}

const fn one() -> u32 {
    1
}

/// The struct of one shape, with the fields that all parts have.
macro_rules! part_file {
    (
        $(#[$doc:meta])* $name:ident, $shape:ident $word:literal,
        { $($(#[$field_doc:meta])* $field:ident: $kind:ty,)* }
    ) => {
        /// The one word.
        #[derive(Debug, Deserialize, JsonSchema)]
        pub(crate) enum $shape {
            #[serde(rename = $word)]
            Word,
        }

        $(#[$doc])*
        #[derive(Debug, Deserialize, JsonSchema)]
        #[serde(deny_unknown_fields)]
        pub(crate) struct $name {
            /// The shop's mark, once in the job: letters, digits, dashes.
            pub(crate) mark: String,
            /// The shape.
            #[expect(dead_code, reason = "the word only chooses the struct")]
            pub(crate) shape: $shape,
            /// Name of the metal.
            pub(crate) metal: String,
            /// How many. One when not given.
            #[serde(default = "one")]
            #[schemars(range(min = 1, max = 10_000))]
            pub(crate) quantity: u32,
            /// How the flat's x axis lies to lugs or grain. Along when not given.
            pub(crate) lay: Option<PartLayFile>,
            /// Mark of a second part, the opposite hand of this one, as many of it.
            pub(crate) opposite_hand: Option<String>,
            $($(#[$field_doc])* pub(crate) $field: $kind,)*
        }

        impl $name {
            fn common(&self) -> PartCommon<'_> {
                PartCommon {
                    mark: &self.mark,
                    metal: &self.metal,
                    quantity: self.quantity,
                    lay: self.lay,
                    opposite_hand: self.opposite_hand.as_deref(),
                }
            }
        }
    };
}

/// How the flat's x axis lies to lugs or grain.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum PartLayFile {
    /// Along them.
    Along,
    /// Across them.
    Across,
}

/// The marked face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum FaceFile {
    /// The outside.
    Outside,
    /// The inside.
    Inside,
}

/// One length for all sides, or lengths by name.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(untagged)]
pub(crate) enum EachSide {
    /// The same all round.
    One(Size),
    /// By name.
    Named(Named<Size>),
}

/// A part of one of the shapes.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(untagged)]
pub(crate) enum PartFile {
    /// A lid that tapers up on all sides.
    TaperedLid(TaperedLidFile),
    /// A flat lid.
    Lid(LidFile),
    /// A pan.
    Pan(PanFile),
    /// A box let into a face.
    DayBox(DayBoxFile),
    /// A panel with flanges.
    Panel(PanelFile),
    /// A flat plate.
    Plate(PlateFile),
}

impl PartFile {
    /// The fields that all parts have.
    pub(crate) fn common(&self) -> PartCommon<'_> {
        match self {
            Self::TaperedLid(part) => part.common(),
            Self::Lid(part) => part.common(),
            Self::Pan(part) => part.common(),
            Self::DayBox(part) => part.common(),
            Self::Panel(part) => part.common(),
            Self::Plate(part) => part.common(),
        }
    }

    /// The marked face that is asked for.
    pub(crate) const fn face(&self) -> Option<FaceFile> {
        match self {
            Self::TaperedLid(part) => part.face,
            Self::Lid(part) => part.face,
            Self::Pan(part) => part.face,
            Self::DayBox(part) => part.face,
            Self::Panel(_) | Self::Plate(_) => None,
        }
    }
}

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
        /// "1/2 out", "1/2 inward" or "none".
        rim: String,
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
        /// Holes.
        #[serde(default)]
        holes: Vec<HoleFile>,
        /// Notches.
        #[serde(default)]
        notches: Vec<NotchFile>,
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
    }
);
