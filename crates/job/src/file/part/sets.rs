//! Decks, and what is made as a set of plates that fit one another.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{MirrorFile, PartCommon, PartLayFile};
use crate::file::{EdgeFile, HoleFile, Named, Size};

part_file!(
    /// A side deck from widths at stations; its outboard flange follows the edge in straight runs. Drawn from above with
    /// the bow to the right and the inboard edge below, as a port deck; the upper face is marked.
    DeckFile, DeckWord "deck",
    {
        /// From aft forward, each station and the width there from the straight inboard edge: ["15", "12 1/4"].
        #[schemars(length(min = 2))]
        stations: Vec<[Size; 2]>,
        /// Flange along the outboard runs: "1 1/2 down". None when not given.
        outboard: Option<String>,
        /// Flange along the inboard edge: "3/4 down". None when not given.
        inboard: Option<String>,
        /// What is done to the edges: of a flange where there is one, else of the deck itself. Cut edges when not given.
        #[serde(default)]
        edges: DeckEdgesFile,
        /// Width of the slit between the flanges of two runs.
        slit: Size,
        /// Stations at which the deck is split, from aft forward.
        #[serde(default)]
        splits_at: Vec<Size>,
        /// Spacing of the frames, counted from station 0. A seam then lies on a frame only.
        frames_every: Option<Size>,
        /// Longest piece that can be had.
        longest: Option<Size>,
        /// Width of the backing strip under each seam. No strips when not given.
        backing_strip: Option<Size>,
    }
);

/// The edges of a deck.
#[derive(Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct DeckEdgesFile {
    /// Along the outboard runs.
    pub(crate) outboard: Option<EdgeFile>,
    /// Along the inboard edge.
    pub(crate) inboard: Option<EdgeFile>,
}

part_file!(
    /// A bulkhead from half-breadths at waterlines. Seen from aft, starboard to the right; the after face is marked.
    BulkheadFile, BulkheadWord "bulkhead",
    {
        /// From the lowest up, each height above the baseline and the half-breadth there, the same to both sides:
        /// ["5", "24"]; or to port and to starboard: ["5", "24", "23 7/8"].
        #[schemars(length(min = 2))]
        waterlines: Vec<Vec<Size>>,
        /// Flanges by edge, "port", "starboard", "top", "bottom": "1 up"; up is toward aft.
        #[serde(default)]
        flanges: Named<String>,
        /// Width of the slit between the flanges of two runs.
        slit: Size,
        /// Limber holes, drilled as low as they go.
        #[serde(default)]
        limber_holes: Vec<LimberHoleFile>,
        /// Lightening holes, from the centreline (starboard above zero) and the baseline.
        #[serde(default)]
        holes: Vec<HoleFile>,
    }
);

/// A limber hole.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct LimberHoleFile {
    /// From the centreline, starboard above zero.
    pub(crate) from_centre: Size,
    /// Diameter.
    pub(crate) diameter: Size,
}

part_file!(
    /// A side locker: top, front, two ends and backing strips, each under its own mark. Seen from above with the straight
    /// rear edge below, aft to the left, so it stands against the starboard side; the port locker is its opposite hand.
    LockerFile, LockerWord "locker",
    {
        /// Along the straight rear edge.
        length: Size,
        /// Width of the top aft and forward, from the outside of the front flange to the rear face of the rear flange.
        widths: [Size; 2],
        /// Height of the front aft and forward, from its upper edge to the outside of its bottom.
        heights: [Size; 2],
        /// Front flange of the top, down.
        front_flange: Size,
        /// Rear flange of the top, up.
        rear_flange: Size,
        /// Bottom flange of the front, in.
        bottom_flange: Size,
        /// Where top and front are split, from the aft end.
        #[serde(default)]
        splits_at: Vec<Size>,
        /// Spacing of the frames, counted from the aft end. A seam then lies on a frame only.
        frames_every: Option<Size>,
        /// Width of the backing strip under each seam. No strips when not given.
        backing_strip: Option<Size>,
        /// Where lids lie on the top.
        #[serde(default)]
        lids: Vec<LockerLidFile>,
        /// Longest bend that can be made.
        longest_bend: Option<Size>,
        /// Length, width and depth inside the crate that the flat blanks must go into.
        crate_inside: Option<[Size; 3]>,
    }
);

/// A lid on the top of a locker.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct LockerLidFile {
    /// From the aft end to the lid's aft edge.
    pub(crate) at: Size,
    /// From the rear edge of the top to the lid's rear edge.
    pub(crate) from_rear: Size,
    /// Along and across.
    pub(crate) size: [Size; 2],
    /// Opening cut in the top in the middle of the lid. None is cut when not given.
    pub(crate) opening: Option<[Size; 2]>,
}

part_file!(
    /// A console: a sheet wrapped round two side panels, each under its own mark. Drawn in side view from starboard, to
    /// the outside.
    ConsoleFile, ConsoleWord "console",
    {
        /// Corners A, B, C … once round, each along and up.
        #[schemars(length(min = 3))]
        outline: Vec<[Size; 2]>,
        /// Radii of rolled corners, outside of the wrap, by corner: "C": "3". The others are brake bends. Two that take just all of the
        /// side between them are one curve: a half round is two square corners of half its width.
        #[serde(default)]
        radii: Named<Size>,
        /// Radius of the bare corners of the side panels, which a hand or foot may touch: those that the wrap lies on neither side of.
        /// Sharp when not given.
        corner_radius: Option<Size>,
        /// In how many strikes rolled corners are bumped. Rolled when not given.
        #[schemars(range(min = 2, max = 200))]
        strikes: Option<u32>,
        /// Sides of the outline that the sheet goes round, one after another: ["BC", "CD"].
        #[schemars(length(min = 1))]
        wrapped: Vec<String>,
        /// Over the outsides of both side panels.
        width: Size,
        /// Flange of the side panels, turned in under the wrap. Plain edges when not given.
        side_flange: Option<Size>,
        /// The side that is the dash.
        dash: Option<String>,
        /// A foot recess let into a leg of the wrap.
        foot_recess: Option<FootRecessFile>,
        /// Legs of the wrap as taped on the boat, by side, to be checked against the outline.
        #[serde(default)]
        taped: Named<Size>,
    }
);

/// A box let into a leg of a console.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct FootRecessFile {
    /// The leg: "EA".
    pub(crate) leg: String,
    /// Along the leg, from its first named corner to the box.
    pub(crate) from_corner: Size,
    /// Outside of the box, across the console.
    pub(crate) width: Size,
    /// Outside of the box, along the leg.
    pub(crate) height: Size,
    /// From the face of the rim.
    pub(crate) depth: Size,
    /// Rim on the face of the wrap, beyond the outside of the walls.
    pub(crate) rim: Size,
    /// Between the box and the edge of its cut-out, each side.
    pub(crate) clearance: Size,
}
