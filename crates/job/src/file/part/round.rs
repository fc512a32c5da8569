//! Round work: cylinders, cones, transitions, and steps with a rolled pipe.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{FaceFile, MirrorFile, PartCommon, PartLayFile};
use crate::file::{Degrees, FlangeFile, HoleFile, Size, TabsFile};

/// To what a diameter is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum DiameterToFile {
    /// The inside of the plate.
    Inside,
    /// The outside.
    Outside,
    /// The middle.
    Middle,
}

/// How a wrap is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum WrapWayFile {
    /// Between rolls; the lines are to sight along.
    Rolled,
    /// Bumped on the brake, a strike a line.
    Bumped,
}

/// How the seam of a wrap is made.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(untagged)]
pub(crate) enum WrapSeamFile {
    /// "butt": edge to edge, the seam gap apart.
    Words(String),
    /// One edge is joggled and lies over the other, the seam gap off it.
    Lap(WrapLapFile),
    /// Tabs and slots, as corners of boxes have them: no seam of round work is made so, and what is possible instead is told.
    Tabs(TabsFile),
}

/// A lapped seam of a wrap.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct WrapLapFile {
    /// How far one edge lies over the other, flat on flat. The metal of lap and joggle is added to the flat.
    pub(crate) lap: Size,
    /// On which face of the other edge it lies. The outside when not given; the inside then stays even.
    pub(crate) side: Option<FaceFile>,
}

/// An end cut on a slope.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct SlopeFile {
    /// Degrees from square to the axis.
    pub(crate) slope: Degrees,
    /// Where the cylinder is longest, degrees round from the seam, to the left as seen from outside with the upper end up.
    /// Opposite the seam, 180, when not given.
    pub(crate) long_side: Option<Degrees>,
}

part_file!(
    /// A cylinder wrapped of plate, ends square or sloped to stand on a slanting flat face. The outside is marked.
    CylinderFile, CylinderWord "cylinder",
    {
        /// Its diameter.
        diameter: Size,
        /// To what the diameter is measured.
        diameter_to: DiameterToFile,
        /// Along the axis.
        length: Size,
        /// Slope of the lower end. Square when not given.
        lower_end: Option<SlopeFile>,
        /// Slope of the upper end. Square when not given.
        upper_end: Option<SlopeFile>,
        /// How it is made.
        made: WrapWayFile,
        /// Strikes, or lines to sight along. By the rule of half a thickness when not given.
        #[schemars(range(min = 6, max = 180))]
        strikes: Option<u32>,
        /// How its seam is made: "butt", or { "lap": "1/2", "side": "outside" }. "butt" when not given.
        seam: Option<WrapSeamFile>,
        /// The marked face. The outside when not given.
        face: Option<FaceFile>,
    }
);

part_file!(
    /// A straight cone frustum wrapped of plate. Diameters are measured at the cut edges. The outside is marked.
    ConeFile, ConeWord "cone",
    {
        /// Diameter of the large end.
        large: Size,
        /// Diameter of the small end.
        small: Size,
        /// To what the diameters are measured.
        diameter_to: DiameterToFile,
        /// From end to end along the axis, on the mid-line.
        height: Size,
        /// How it is made.
        made: WrapWayFile,
        /// Strikes, or lines to sight along. By the rule of half a thickness when not given.
        #[schemars(range(min = 6, max = 180))]
        strikes: Option<u32>,
        /// How its seam is made: "butt", or { "lap": "1/2", "side": "outside" }. "butt" when not given.
        seam: Option<WrapSeamFile>,
        /// The marked face. The outside when not given.
        face: Option<FaceFile>,
    }
);

/// How many pieces a transition is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum MadeOfFile {
    /// One, its seam on the middle of AB.
    One,
    /// Two, seams on the middles of AB and CD.
    Halves,
    /// Four, seams on the middle of every side.
    Quarters,
}

part_file!(
    /// A duct transition, rectangle to round, of triangles. Sizes are to the outside; the inside is marked.
    TransitionFile, TransitionWord "transition",
    {
        /// Outside of the rectangle: AB and BC.
        rectangle: [Size; 2],
        /// Outside diameter of the round.
        round: Size,
        /// From the rectangle's edge to the round's.
        height: Size,
        /// How far the middle of the round stands off the middle of the rectangle, along AB and along BC. Concentric when
        /// not given.
        offset: Option<[Size; 2]>,
        /// Triangles in each quarter of the round. 4 when not given.
        #[schemars(range(min = 1, max = 12))]
        divisions: Option<u32>,
        /// How many pieces it is made of.
        made_of: MadeOfFile,
        /// How its seams are made, each down the middle of a side to the place of the round opposite: "butt", or
        /// { "lap": "1/2", "side": "outside" }, for which the round is left flat there as wide as lap and joggle need.
        /// "butt" when not given.
        seam: Option<WrapSeamFile>,
        /// The marked face. The inside when not given.
        face: Option<FaceFile>,
    }
);

part_file!(
    /// A step or platform top: a plate with a flange along AB and a rolled pipe along the other three edges.
    StepFile, StepWord "step",
    {
        /// Of the plate: along AB, and out from it.
        size: [Size; 2],
        /// Along AB, seen from above: "2 down".
        flange: Option<FlangeFile>,
        /// Along BC, CD and DA.
        pipe: Option<StepPipeFile>,
        /// Drains and other holes, from corner A.
        #[serde(default)]
        holes: Vec<HoleFile>,
        /// Flat pads of the same metal.
        #[serde(default)]
        pads: Vec<PadFile>,
    }
);

/// The pipe round a step.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct StepPipeFile {
    /// What the shop orders: "1-1/2 pipe, schedule 40".
    #[schemars(length(min = 1, max = 60))]
    pub(crate) name: String,
    /// Outside diameter.
    pub(crate) outside_diameter: Size,
    /// Radius of its bends, to the centre line.
    pub(crate) radius: Size,
    /// How far it runs straight past B and past A. Zero when not given.
    pub(crate) tails: Option<[Size; 2]>,
}

/// Pads alike.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct PadFile {
    /// Length and width.
    pub(crate) size: [Size; 2],
    /// How many to one step. One when not given.
    #[schemars(range(min = 1, max = 100))]
    pub(crate) count: Option<u32>,
    /// Where each lies under the plate, its length along AB: its corner nearest to A, along AB and out from it. The pads are
    /// then measured put together with the plate.
    pub(crate) at: Option<Vec<[Size; 2]>>,
}
