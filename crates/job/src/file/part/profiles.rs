//! Brake-formed profiles.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{MirrorFile, PartCommon, PartLayFile};
use crate::file::{Degrees, EdgeFile, HoleFile, Size, UpDown};

part_file!(
    /// A brake-formed profile: legs and turns in order, over a length. Read off its end; up turns toward the marked face.
    BrakeProfileFile, BrakeProfileWord "brake_profile",
    {
        /// Over all, to where the mitres meet the outermost mold line or edge.
        length: Size,
        /// Legs in order: each one length, or its sizes one by one.
        #[schemars(length(min = 1, max = 40))]
        legs: Vec<LegFile>,
        /// To what the legs are measured. Past square, the outside is the outermost metal; to where insides or middles meet
        /// legs can be measured up to a turn of 150°.
        legs_to: LegToFile,
        /// Between each leg and the next: "90 up", or the sizes of a bend or joggle one by one.
        #[serde(default)]
        bends: Vec<ProfileBendFile>,
        /// The leg that lies flat: 1 for the first. Mitres in plan are laid out on it. The first when not given.
        #[schemars(range(min = 1, max = 40))]
        flat_leg: Option<u32>,
        /// Mitred ends. Square where not given.
        ends: Option<EndsFile>,
        /// Hems and curls at the free edges of its first and last leg. Cut edges where not given.
        edges: Option<ProfileEdgesFile>,
        /// Stations from the start where the profile is joined of pieces, rising.
        #[serde(default)]
        joints: Vec<Size>,
        /// Left open at each joint. Zero when not given.
        joint_gap: Option<Size>,
    }
);

/// To what legs are measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum LegToFile {
    /// The mold lines, where the outsides meet.
    Outside,
    /// Where the insides meet.
    Inside,
    /// Where the middles of the plates meet.
    Centre,
    /// The straight alone, between tangent lines.
    Straight,
}

/// A leg: one length, or its sizes one by one.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(untagged)]
pub(crate) enum LegFile {
    /// Its length.
    Length(Size),
    /// Sizes one by one.
    Sizes(LegSizes),
}

/// The sizes of a leg.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct LegSizes {
    /// Its length.
    pub(crate) leg: Size,
    /// To what it is measured. As `legs_to` when not given.
    pub(crate) to: Option<LegToFile>,
    /// How far it stops short of the profile's start and of its far end. Zero when not given.
    pub(crate) short: Option<[Size; 2]>,
    /// Holes: `at` is along from the profile's start, and across from the leg's first edge or mold line.
    #[serde(default)]
    pub(crate) holes: Vec<HoleFile>,
}

/// What lies between two legs.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(untagged)]
pub(crate) enum ProfileBendFile {
    /// Turn from flat and direction: "90 up".
    Words(String),
    /// A joggle.
    Joggle(JoggleFile),
    /// A bend, sizes one by one.
    Bend(ProfileBendSizes),
}

/// The sizes of a bend of a profile.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct ProfileBendSizes {
    /// Turn from flat, up to 180.
    pub(crate) turn: Degrees,
    /// Toward the marked face, up, or away from it.
    pub(crate) direction: UpDown,
    /// Inside radius. The metal's own when not given.
    pub(crate) radius: Option<Size>,
    /// How it is made. On the brake when not given.
    pub(crate) way: Option<BendWayFile>,
    /// With the way `bumped`: in how many strikes.
    #[schemars(range(min = 2, max = 200))]
    pub(crate) strikes: Option<u32>,
}

/// How a bend is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum BendWayFile {
    /// One stroke of the brake.
    Brake,
    /// A hem or return, left at its radius.
    Hem,
    /// Bumped in several strikes.
    Bumped,
    /// Rolled.
    Rolled,
}

/// A joggle: two bends, there and back.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct JoggleFile {
    /// How far the next leg is set off, face to like face.
    pub(crate) joggle: Size,
    /// To which side.
    pub(crate) direction: UpDown,
    /// Turn of both bends. 45 when not given.
    pub(crate) turn: Option<Degrees>,
}

/// Both ends.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct EndsFile {
    /// Where the profile starts.
    pub(crate) start: Option<EndFile>,
    /// Its far end.
    pub(crate) end: Option<EndFile>,
}

/// The free edges of a profile. Their legs then run to the outermost metal of what is bent off them; a lip is a further leg.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct ProfileEdgesFile {
    /// Of the first leg.
    pub(crate) first: Option<EdgeFile>,
    /// Of the last leg.
    pub(crate) last: Option<EdgeFile>,
}

/// A mitred end.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct EndFile {
    /// From square, above zero where later legs (in plan) or what stands on the marked face (in height) are the longer.
    pub(crate) mitre: Degrees,
    /// Laid out on the flat leg, or in height over it.
    #[serde(rename = "in")]
    pub(crate) mitre_in: MitreInFile,
}

/// Where a mitre is laid out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum MitreInFile {
    /// On the flat leg.
    Plan,
    /// In height over it.
    Height,
}
