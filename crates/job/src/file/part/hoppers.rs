//! Hoppers and canopies.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{FaceFile, MirrorFile, PartCommon, PartLayFile};
use crate::file::{Degrees, Size};

/// How a hopper is made up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum HopperMadeFile {
    /// One piece, bent at three hips and welded at the fourth.
    OnePiece,
    /// Two pieces, bent at the hips B and D and welded at A and C.
    TwoHalves,
    /// Four plates, welded at every hip.
    FourPlates,
}

/// Which way up a hopper stands where its corners are taped.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum HopperStandsFile {
    /// Rim below, collar above: a canopy.
    RimDown,
    /// Rim above, collar below: a hopper.
    RimUp,
}

part_file!(
    /// A hopper, or turned over a canopy: four faces from a rim to a collar. Rim and collar are sized to the inside, and
    /// taped from above, corners A, B, C, D counter-clockwise.
    HopperFile, HopperWord "hopper",
    {
        /// Length and width inside the rim, corner A at the origin, AB along its length.
        rim: Option<[Size; 2]>,
        /// Corners A, B, C, D inside the rim, each along and across.
        #[schemars(length(min = 4, max = 4))]
        rim_outline: Option<Vec<[Size; 2]>>,
        /// Length and width inside the collar; with `collar_at`.
        collar: Option<[Size; 2]>,
        /// Place of the collar's corner A from the rim's corner A, along and across.
        collar_at: Option<[Size; 2]>,
        /// Which way up it stands, seen from above; the same sizes rim up and rim down make opposite hands. Rim down when
        /// not given, which is then said.
        stands: Option<HopperStandsFile>,
        /// How far the collar is turned, counter-clockwise from above, about its centre, 45° at most either way. Zero when not given.
        collar_turned: Option<Degrees>,
        /// Corners A, B, C, D inside the collar, each along and across from the rim's origin.
        #[schemars(length(min = 4, max = 4))]
        collar_outline: Option<Vec<[Size; 2]>>,
        /// Square from the plane of the rim to the plane of the collar.
        rise: Size,
        /// Height of a plumb collar. No collar when not given.
        collar_height: Option<Size>,
        /// Width of a level flange turned outward at the rim.
        rim_flange: Option<Size>,
        /// A drip channel turned inside at the rim: down from the rim, inward over leg and lip, up to the lip's edge;
        /// each 1/4 in (6 mm) or more.
        drip: Option<[Size; 3]>,
        /// How it is made up.
        made: HopperMadeFile,
        /// With `made` of four plates: width of a flange inside along every hip to weld on. Edge to edge when not given.
        weld_flange: Option<Size>,
        /// The flattest slope from level that a face may have: more than 0, less than 90.
        least_slope: Option<Degrees>,
        /// The marked face. The outside when not given.
        face: Option<FaceFile>,
    }
);
