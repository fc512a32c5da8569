//! The press brake: punch and V dies.

use units::{Angle, Length};

/// A press brake. What is `None` the shop has not said.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PressBrake {
    /// Longest bend.
    pub length: Option<Length>,
    /// What it can press, US tons of 2,000 lb.
    pub limit_us_tons: Option<f64>,
    /// From the bend line back to the frame or back stop.
    pub throat: Option<Length>,
    /// How far behind the bend line its back stop reaches.
    pub stop_reach: Option<Length>,
    /// Between bed and ram, open.
    pub daylight: Option<Length>,
    /// The punch.
    pub punch: Punch,
    /// The V openings the shop has; empty when it does not say.
    pub v_openings: Vec<Length>,
    /// Width of the die block across the bend.
    pub die_width: Option<Length>,
    /// Height of the die block above the bed.
    pub die_height: Option<Length>,
}

/// A punch in side view.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Punch {
    /// Straight or cut back; taken as straight where the shop does not say.
    pub profile: Option<Profile>,
    /// From the tip to the ram.
    pub height: Option<Length>,
    /// Width of the body across the bend.
    pub width: Option<Length>,
    /// Included angle of the tip.
    pub angle: Option<Angle>,
    /// How far a gooseneck is cut back behind the line of its tip.
    pub relief: Option<Length>,
    /// Lengths of its sections along the bend; empty when the shop does not say.
    pub sections: Vec<Length>,
}

/// The side view of a punch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Profile {
    /// In line with its tip on both sides.
    Straight,
    /// Cut back on the side where the flange comes up.
    Gooseneck,
}

/// Figures taken where the shop has not given its own. Common sizes of small press brakes, no source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AssumedPress {
    /// Height of the punch.
    pub punch_height: Length,
    /// Width of the punch.
    pub punch_width: Length,
    /// Included angle of its tip.
    pub punch_angle: Angle,
    /// Relief of a gooseneck.
    pub gooseneck_relief: Length,
    /// Width of the ram above the punch.
    pub ram_width: Length,
    /// Height of the die above the bed.
    pub die_height: Length,
    /// Metal of the die outside each side of the V.
    pub die_shoulder: Length,
    /// Width of the bed under the die.
    pub bed_width: Length,
}

impl PressBrake {
    /// The figures taken where the shop has not given its own.
    #[must_use]
    pub fn assumed() -> AssumedPress {
        let tenths = |tenths_mm: i64| Length::from_nanometres(tenths_mm * 100_000);
        AssumedPress {
            punch_height: tenths(1016),
            punch_width: tenths(127),
            punch_angle: Angle::from_degrees(30.0),
            gooseneck_relief: tenths(254),
            ram_width: tenths(762),
            die_height: tenths(762),
            die_shoulder: tenths(127),
            bed_width: tenths(1524),
        }
    }
}
