//! The machine that bends, and the roll.

use schemars::JsonSchema;
use serde::Deserialize;

use super::{Degrees, Size};

/// The brake and its tooling. What is not given is taken at a common size and printed as an assumption.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct BrakeFile {
    /// What kind it is.
    pub(crate) kind: BrakeKindFile,
    /// Longest bend it makes.
    pub(crate) length: Option<Size>,
    /// Opening of the V die. Of a press.
    pub(crate) v_opening: Option<Size>,
    /// Openings of the V dies on the rack; the one nearest to the chart's for the thickness is taken. Of a press.
    pub(crate) v_openings: Option<Vec<Size>>,
    /// Shortest outside leg it can bend.
    pub(crate) shortest_flange: Option<Size>,
    /// From the bend line back to the frame.
    pub(crate) throat: Option<Size>,
    /// How far behind the bend line the back stop reaches; taken as 24 inches when not given. A bend with no edge square
    /// against the stop so far back goes by its scribed line.
    pub(crate) stop_reach: Option<Size>,
    /// What it presses, US tons of 2,000 lb. Of a press.
    #[schemars(range(min = 1.0, max = 5000.0))]
    pub(crate) tons: Option<f64>,
    /// Between bed and ram, open. Of a press.
    pub(crate) daylight: Option<Size>,
    /// The punch. Of a press.
    pub(crate) punch: Option<PunchFile>,
    /// Width of the die block across the bend. Of a press.
    pub(crate) die_width: Option<Size>,
    /// Height of the die block above the bed. Of a press.
    pub(crate) die_height: Option<Size>,
    /// Widths of the fingers, each written as often as there are of it. Of a finger brake.
    pub(crate) fingers: Option<Vec<Size>>,
    /// Deepest box the fingers take: their height below the beam. Of a finger brake.
    pub(crate) deepest_box: Option<Size>,
    /// Height of the clamp bar above the sheet. Of a leaf brake.
    pub(crate) bar_height: Option<Size>,
    /// Angle of the clamp's nose from the sheet. Of a leaf or finger brake.
    pub(crate) nose_angle: Option<Degrees>,
    /// Width of the leaf from the bend line outward. Of a leaf or finger brake.
    pub(crate) leaf_width: Option<Size>,
    /// Thickness of the leaf. Of a leaf or finger brake.
    pub(crate) leaf_thickness: Option<Size>,
}

/// Kinds of brakes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum BrakeKindFile {
    /// Punch and V die.
    Press,
    /// A leaf that swings up.
    Leaf,
    /// A leaf brake with fingers.
    Fingers,
}

/// A punch in side view.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct PunchFile {
    /// Straight, or cut back as a gooseneck. Straight when not given.
    pub(crate) profile: Option<ProfileFile>,
    /// From the tip to the ram.
    pub(crate) height: Option<Size>,
    /// Width of its body across the bend.
    pub(crate) width: Option<Size>,
    /// Included angle of its tip.
    pub(crate) angle: Option<Degrees>,
    /// How far a gooseneck is cut back behind the line of its tip.
    pub(crate) relief: Option<Size>,
    /// Lengths of its sections, each written as often as there are of it; one length for a punch in one piece.
    pub(crate) sections: Option<Vec<Size>>,
}

/// Side views of punches.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum ProfileFile {
    /// In line with its tip.
    Straight,
    /// Cut back on the side where the flange comes up.
    Gooseneck,
}

/// A slip roll.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RollFile {
    /// Widest sheet between its ends.
    pub(crate) length: Option<Size>,
    /// Least inside radius it rolls to.
    pub(crate) least_radius: Option<Size>,
}
