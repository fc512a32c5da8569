//! Walks, landings and channel covers.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{MirrorFile, PartCommon, PartLayFile};
use crate::file::{OpeningOrSize, Size};

part_file!(
    /// Covers over a channel, from each station to the next. The flat's x axis runs down the channel; each cover is a
    /// part of its own, numbered as laid.
    CoversFile, CoversWord "covers",
    {
        /// Clear widths of the channel at the stations, going down it.
        #[schemars(length(min = 2, max = 200))]
        widths: Vec<Size>,
        /// From one station to the next.
        spacing: Size,
        /// How far a cover bears on each wall.
        bearing: Size,
        /// Open between two covers; half of it stays free at both ends of the channel.
        joint: Size,
        /// Which wall is straight, looking down the channel. Neither when not given: both walls give alike.
        straight_wall: Option<StraightWallFile>,
        /// The most that one may weigh, bare: "12 kg".
        heaviest: Option<String>,
        /// A pair of slots to lift each cover by.
        hand_slots: Option<HandSlotsFile>,
        /// Bites out of corners.
        #[serde(default)]
        notches: Vec<CoverNotchFile>,
    }
);

/// Which wall of a channel is straight, looking down it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum StraightWallFile {
    /// The centre line is.
    Neither,
    /// The left wall.
    Left,
    /// The right wall.
    Right,
}

/// A pair of slots with round ends, their length along the channel.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct HandSlotsFile {
    /// Length over the round ends, and width.
    pub(crate) slot: [Size; 2],
    /// From the bearing end of the cover to the middle of the slot.
    pub(crate) from_end: Size,
}

/// A bite out of one corner of one cover.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct CoverNotchFile {
    /// Number of the cover, 1 for the first.
    #[schemars(range(min = 1, max = 200))]
    pub(crate) cover: u32,
    /// At which of its ends.
    pub(crate) end: ChannelEndFile,
    /// At which wall, looking down the channel.
    pub(crate) wall: WallFile,
    /// Along the channel.
    pub(crate) along: Size,
    /// Across it, from the end of the cover.
    pub(crate) across: Size,
}

/// An end of a cover.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum ChannelEndFile {
    /// The upstream one.
    Upstream,
    /// The downstream one.
    Downstream,
}

/// A wall of a channel, looking down it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum WallFile {
    /// The left one.
    Left,
    /// The right one.
    Right,
}

part_file!(
    /// Lift-out panels of a walk, joined on beams. The flat's x axis runs along the walk.
    WalkFile, WalkWord "walk",
    {
        /// Over all.
        length: Size,
        /// Of every panel.
        width: Size,
        /// From one beam to the next, from the start on.
        beams: Size,
        /// Open between two panels; half of it stays free at both ends of the walk.
        joint: Size,
        /// The most that one panel may weigh, bare: "30 kg".
        heaviest: Option<String>,
        /// The longest panel, whatever it weighs.
        longest: Option<Size>,
    }
);

part_file!(
    /// A flat plate in pieces, parted along straight seams.
    SplitPlateFile, SplitPlateWord "split_plate",
    {
        /// The opening or landing it fills: by name, or length and width. Corners keep their letters.
        fills: OpeningOrSize,
        /// The two sides that the seams run between: ["AB", "CD"].
        between: [String; 2],
        /// Where each seam meets the first and the second of them, from its first-named corner.
        #[schemars(length(min = 1, max = 40))]
        seams: Vec<[Size; 2]>,
        /// Open along each seam.
        joint: Size,
        /// The most that one piece may weigh, bare: "30 kg".
        heaviest: Option<String>,
    }
);
