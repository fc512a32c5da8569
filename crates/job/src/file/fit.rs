//! Fit checks: questions about the places that finished parts go to, one struct a question.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{ClearanceFile, Degrees, OpeningOrSize, Size};

/// A fit check.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(untagged)]
pub(crate) enum FitFile {
    /// Straight out through an opening.
    LiftOut(LiftOutFile),
    /// Out one end first.
    TiltOut(TiltOutFile),
    /// Past a door that does not swing clear.
    Door(DoorFile),
    /// A hinged lid.
    LidSwing(LidSwingFile),
    /// Two parts in one space.
    Together(TogetherFile),
}

/// The struct of one question, with its word in `fit`.
macro_rules! fit_file {
    (
        $(#[$doc:meta])* $name:ident, $word_type:ident $word:literal,
        { $($(#[$field_doc:meta])* $field:ident: $kind:ty,)* }
    ) => {
        /// The one word.
        #[derive(Debug, Deserialize, JsonSchema)]
        pub(crate) enum $word_type {
            #[serde(rename = $word)]
            Word,
        }

        $(#[$doc])*
        #[derive(Debug, Deserialize, JsonSchema)]
        #[serde(deny_unknown_fields)]
        pub(crate) struct $name {
            /// The question.
            #[expect(dead_code, reason = "the word only chooses the struct")]
            pub(crate) fit: $word_type,
            $($(#[$field_doc])* pub(crate) $field: $kind,)*
        }
    };
}

fit_file!(
    /// Does the part go straight through an opening, level?
    LiftOutFile, LiftOutWord "lift_out",
    {
        /// Mark of the part.
        part: String,
        /// The opening it goes through: by name, or its length and width. From the end or side: width and height.
        through: Option<OpeningOrSize>,
        /// The opening by its corners A, B, C … once round.
        #[schemars(length(min = 3))]
        outline: Option<Vec<[Size; 2]>>,
        /// What must stay free, each side; one length, or items by name that add up.
        clearance: ClearanceFile,
        /// Which way it goes out, in the part's own terms. Up when not given.
        way: Option<WayFile>,
        /// How far it may be turned in the plane of the opening. Not at all when not given.
        turn: Option<PlanTurnFile>,
    }
);

fit_file!(
    /// Does the part come out one end or one side first, through an opening shorter or narrower than itself?
    TiltOutFile, TiltOutWord "tilt_out",
    {
        /// Mark of the part.
        part: String,
        /// The opening: its length and its width; or by name, its side AB along its length.
        through: Option<OpeningOrSize>,
        /// The opening by its corners A, B, C … once round, each along and across; no inside corners.
        #[schemars(length(min = 3))]
        outline: Option<Vec<[Size; 2]>>,
        /// What must stay free, each side and each end; one length, or items by name that add up.
        clearance: ClearanceFile,
        /// Whether the part's side AB lies along the opening or across it. Along when not given.
        lies: Option<LiesFile>,
        /// From the top of the deck or coaming down to its lower edge.
        deck: Size,
        /// From there down to the floor of the space below.
        depth_below: Size,
        /// How far the space below reaches past the first and the second end of the opening.
        reach_below: [Size; 2],
        /// How far it reaches past the first and the second side. No farther than the opening when not given.
        reach_sides: Option<[Size; 2]>,
        /// Clear height above the deck. Open sky when not given.
        headroom: Option<Size>,
    }
);

fit_file!(
    /// Does the part pass a doorway whose door stops short?
    DoorFile, DoorWord "door",
    {
        /// Mark of the part.
        part: String,
        /// Clear width and height of the doorway, without the door.
        through: [Size; 2],
        /// What must stay free, each side; one length, or items by name that add up.
        clearance: ClearanceFile,
        /// Whether the part comes out endwise, along its side AB, or sideways.
        way: DoorWayFile,
        /// How far the door opens, from closed.
        opens: Degrees,
        /// How far the opened door stands into the doorway, as taped at the farthest place of the whole door. It must
        /// agree with `opens`: a door that closes the doorway takes about its width times the cosine of that angle.
        intrusion: Option<Size>,
        /// The door itself, to work that out from.
        leaf: Option<LeafFile>,
        /// With `leaf`: how far past the frame the part is pulled out, its own length at least. All of the
        /// door counts when not given.
        travel: Option<Size>,
    }
);

fit_file!(
    /// Does the lid swing open without touching what is around it?
    LidSwingFile, LidSwingWord "lid_swing",
    {
        /// Mark of the lid.
        part: String,
        /// The side that is hinged: "AB".
        hinge: String,
        /// The middle of the hinge pin: how far behind the outside of the hinge side, and how far above its lower edge.
        pin: [Size; 2],
        /// How far it should open, from closed.
        opens: Degrees,
        /// What must stay free round obstacles that the closed lid does not touch. Nothing when not given.
        clearance: Option<ClearanceFile>,
        /// For a lid that stands proud on a deck: how far the deck lies below the pin.
        deck_below_pin: Option<Size>,
        /// What stands around it.
        #[serde(default)]
        around: Vec<ObstacleFile>,
    }
);

fit_file!(
    /// Do two parts go into one space together?
    TogetherFile, TogetherWord "together",
    {
        /// Marks of the two parts; one mark twice for two of a kind.
        parts: [String; 2],
        /// The space in plan: an opening by name, or length and width.
        space: Option<OpeningOrSize>,
        /// The space in plan by its corners A, B, C … once round.
        #[schemars(length(min = 3))]
        outline: Option<Vec<[Size; 2]>>,
        /// Height of the space. Not judged when not given.
        height: Option<Size>,
        /// What must stay free to each wall and between the parts; one length, or items by name that add up.
        clearance: ClearanceFile,
        /// Whether either may be turned by quarter turns. Not at all when not given.
        turn: Option<QuarterFile>,
    }
);

/// A door leaf, flat on its frame when closed, swinging outward.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct LeafFile {
    /// From the pin to the free edge, along the closed door.
    pub(crate) reach: Size,
    /// From the side of the doorway back to the pin, along the frame.
    pub(crate) pin_beside: Size,
    /// From the face of the frame out to the pin.
    pub(crate) pin_out: Size,
    /// Thickness of the door.
    pub(crate) thickness: Size,
}

/// Something around a lid, seen along the hinge: one of `box`, `point` and `outline`.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct ObstacleFile {
    /// What it is.
    #[schemars(length(min = 1, max = 40))]
    pub(crate) name: String,
    /// Two opposite corners, each how far behind the pin (away from the lid) and how far above it.
    #[serde(rename = "box")]
    pub(crate) corners: Option<[[Size; 2]; 2]>,
    /// A rail or pipe seen end on.
    pub(crate) point: Option<[Size; 2]>,
    /// Corners once round.
    #[schemars(length(min = 3))]
    pub(crate) outline: Option<Vec<[Size; 2]>>,
    /// Where along the hinge it stands, from the hinge side's first corner. All along when not given.
    pub(crate) along: Option<[Size; 2]>,
    /// True for what the closed lid lies on or against: no clearance is kept to it.
    pub(crate) touches: Option<bool>,
}

/// Which way a part goes out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum WayFile {
    /// Straight up.
    Up,
    /// Along its side AB.
    Endwise,
    /// Across its side AB.
    Sideways,
}

/// Which way a part goes through a doorway.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum DoorWayFile {
    /// Along its side AB.
    Endwise,
    /// Across its side AB.
    Sideways,
}

/// How far a part may be turned in the plane of an opening.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum PlanTurnFile {
    /// By half a turn.
    Half,
    /// By quarter turns.
    Quarter,
    /// Freely.
    Any,
}

/// Turning by quarters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum QuarterFile {
    /// By quarter turns.
    Quarter,
}

/// How a part lies in an opening.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum LiesFile {
    /// Its side AB along the opening.
    Along,
    /// Its side AB across the opening.
    Across,
}
