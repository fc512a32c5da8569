//! Parts, one struct for each shape, one file for each family. All have the same first fields.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{CornerFile, HandFile, Named, ReliefFile, Size, TurnFields};

/// The fields that all parts have.
#[derive(Debug, Clone, Copy)]
pub(crate) struct PartCommon<'a> {
    pub(crate) mark: &'a str,
    pub(crate) metal: &'a str,
    pub(crate) quantity: u32,
    pub(crate) lay: Option<PartLayFile>,
    pub(crate) opposite_hand: Option<&'a HandFile>,
    pub(crate) corner: Option<&'a CornerFile>,
    pub(crate) relief: Option<ReliefFile>,
    pub(crate) seam_gap: Option<&'a Size>,
    pub(crate) mirror: Option<MirrorFile>,
    pub(crate) turn_fields: TurnFields<'a>,
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
            #[serde(default = "super::one")]
            #[schemars(range(min = 1, max = 10_000))]
            pub(crate) quantity: u32,
            /// How the flat's x axis lies to lugs or grain. Along when not given.
            pub(crate) lay: Option<PartLayFile>,
            /// Mark of a second part, the opposite hand of this one, as many of it; or its mark and what differs.
            pub(crate) opposite_hand: Option<$crate::file::HandFile>,
            /// How its corners are made, where two plates meet without a bend. As the shop makes them when not given.
            pub(crate) corner: Option<$crate::file::CornerFile>,
            /// How its bends are relieved where they meet. As the shop relieves them when not given.
            pub(crate) relief: Option<$crate::file::ReliefFile>,
            /// Gap between the two plates where they meet without a bend. The shop's when not given.
            pub(crate) seam_gap: Option<$crate::file::Size>,
            /// Whether it may be cut from the other face of the sheet, mirrored there and turned over when it is cut: plates
            /// without a bend, of metal with two equal faces. Never when not given.
            pub(crate) mirror: Option<MirrorFile>,
            /// How it may be turned on the sheet, and its opposite hand with it. As its metal says when not given.
            pub(crate) turns: Option<$crate::file::TurnsFile>,
            /// Turns by steps of so many degrees, in place of turns: 15 for 0, 15, 30 … all round.
            pub(crate) turn_every: Option<$crate::file::Degrees>,
            /// These turns only, in degrees counter-clockwise, in place of turns.
            #[schemars(length(min = 1))]
            pub(crate) turns_at: Option<Vec<$crate::file::Degrees>>,
            $($(#[$field_doc])* pub(crate) $field: $kind,)*
        }

        impl $name {
            pub(super) fn common(&self) -> PartCommon<'_> {
                PartCommon {
                    mark: &self.mark,
                    metal: &self.metal,
                    quantity: self.quantity,
                    lay: self.lay,
                    opposite_hand: self.opposite_hand.as_ref(),
                    corner: self.corner.as_ref(),
                    relief: self.relief,
                    seam_gap: self.seam_gap.as_ref(),
                    mirror: self.mirror,
                    turn_fields: $crate::file::TurnFields {
                        turns: self.turns,
                        every: self.turn_every.as_ref(),
                        at: self.turns_at.as_deref(),
                    },
                }
            }
        }
    };
}

mod boxes;
mod gutters;
mod hoppers;
mod lids;
mod panels;
mod profiles;
mod round;
mod sets;
mod walkways;

pub(crate) use boxes::{
    BackCutFile, CutCornerFile, CutStyleFile, DividersFile, PanMadeFile, RimStepFile, TrayFile,
};
pub(crate) use boxes::{DayBoxFile, PanFile, RimFile};
pub(crate) use gutters::{CoamingFile, CoamingMadeFile, GutterFile, GutterSpoutFile};
pub(crate) use hoppers::{HopperFile, HopperMadeFile, HopperStandsFile};
pub(crate) use lids::{CrownFile, LidFile, LiftingNotchFile, SkirtEdgeFile, TaperedLidFile};
pub(crate) use lids::{HingeFile, LidMadeFile, SplitFile};
pub(crate) use panels::{PanelFile, PlateFile};
pub(crate) use profiles::{
    BendWayFile, BrakeProfileFile, EndFile, LegFile, LegToFile, MitreInFile, ProfileBendFile,
};
pub(crate) use round::{
    ConeFile, CylinderFile, DiameterToFile, MadeOfFile, PadFile, SlopeFile, StepFile, StepPipeFile,
    TransitionFile, WrapSeamFile, WrapWayFile,
};
pub(crate) use sets::{
    BulkheadFile, ConsoleFile, DeckFile, FootRecessFile, LimberHoleFile, LockerFile, LockerLidFile,
};
pub(crate) use walkways::{
    ChannelEndFile, CoverNotchFile, CoversFile, HandSlotsFile, SplitPlateFile, StraightWallFile, WalkFile,
    WallFile,
};

/// How the flat's x axis lies to lugs or grain.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum PartLayFile {
    /// Along them.
    Along,
    /// Across them.
    Across,
}

/// Whether a part may be cut from the other face of the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum MirrorFile {
    /// The marked face is always up.
    Never,
    /// Either face may be up.
    Allowed,
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

/// The drawn and marked face of a plate or panel, by its name on the part as it stands in use.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum DrawnFaceFile {
    /// Up, on a part that lies.
    Upper,
    /// Down, on a part that lies.
    Under,
    /// Away from the room or box that the part is a side of.
    Outer,
    /// Toward the room or box that the part is a side of.
    Inner,
    /// Toward who stands before it.
    Front,
    /// Away from who stands before it.
    Rear,
    /// Toward the stern.
    After,
    /// Toward the bow.
    Forward,
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
    /// A pan with dividers.
    Tray(TrayFile),
    /// A gutter round an opening.
    Gutter(GutterFile),
    /// A coaming round an opening.
    Coaming(CoamingFile),
    /// A hopper or canopy.
    Hopper(HopperFile),
    /// A panel with flanges.
    Panel(PanelFile),
    /// A flat plate.
    Plate(PlateFile),
    /// A brake-formed profile.
    BrakeProfile(BrakeProfileFile),
    /// A side deck.
    Deck(DeckFile),
    /// Covers over a channel.
    Covers(CoversFile),
    /// Lift-out panels of a walk.
    Walk(WalkFile),
    /// A flat plate in pieces.
    SplitPlate(SplitPlateFile),
    /// A cylinder wrapped of plate.
    Cylinder(CylinderFile),
    /// A cone frustum wrapped of plate.
    Cone(ConeFile),
    /// A duct transition of triangles.
    Transition(TransitionFile),
    /// A step or platform top.
    Step(StepFile),
    /// A bulkhead.
    Bulkhead(BulkheadFile),
    /// A side locker.
    Locker(LockerFile),
    /// A console.
    Console(ConsoleFile),
}

impl PartFile {
    /// The fields that all parts have.
    pub(crate) fn common(&self) -> PartCommon<'_> {
        match self {
            Self::TaperedLid(part) => part.common(),
            Self::Lid(part) => part.common(),
            Self::Pan(part) => part.common(),
            Self::DayBox(part) => part.common(),
            Self::Tray(part) => part.common(),
            Self::Gutter(part) => part.common(),
            Self::Coaming(part) => part.common(),
            Self::Hopper(part) => part.common(),
            Self::Panel(part) => part.common(),
            Self::Plate(part) => part.common(),
            Self::BrakeProfile(part) => part.common(),
            Self::Deck(part) => part.common(),
            Self::Covers(part) => part.common(),
            Self::Walk(part) => part.common(),
            Self::SplitPlate(part) => part.common(),
            Self::Cylinder(part) => part.common(),
            Self::Cone(part) => part.common(),
            Self::Transition(part) => part.common(),
            Self::Step(part) => part.common(),
            Self::Bulkhead(part) => part.common(),
            Self::Locker(part) => part.common(),
            Self::Console(part) => part.common(),
        }
    }

    /// The name of the drawn face that is given.
    pub(crate) const fn drawn_face(&self) -> Option<DrawnFaceFile> {
        match self {
            Self::Panel(part) => part.face,
            Self::Plate(part) => part.face,
            _ => None,
        }
    }

    /// The marked face that is asked for.
    pub(crate) const fn face(&self) -> Option<FaceFile> {
        match self {
            Self::TaperedLid(part) => part.face,
            Self::Lid(part) => part.face,
            Self::Pan(part) => part.face,
            Self::DayBox(part) => part.face,
            Self::Cylinder(part) => part.face,
            Self::Cone(part) => part.face,
            Self::Transition(part) => part.face,
            Self::Panel(_)
            | Self::Plate(_)
            | Self::BrakeProfile(_)
            | Self::Deck(_)
            | Self::Covers(_)
            | Self::Walk(_)
            | Self::SplitPlate(_)
            | Self::Step(_)
            | Self::Bulkhead(_)
            | Self::Locker(_)
            | Self::Console(_) => None,
            Self::Tray(part) => part.face,
            Self::Gutter(part) => part.face,
            Self::Coaming(part) => part.face,
            Self::Hopper(part) => part.face,
        }
    }
}
