//! The folder: a clamp holds the sheet on the bed, a leaf swings the flange up. The clamp is one bar (bench folder) or
//! a row of fingers (box-and-pan brake).

use units::{Angle, Length};

/// A folder. What is `None` the shop has not said.
#[derive(Debug, Clone, PartialEq)]
pub struct Folder {
    /// Longest bend.
    pub length: Option<Length>,
    /// From the bend line back to the frame.
    pub throat: Option<Length>,
    /// How far behind the bend line its back stop reaches.
    pub stop_reach: Option<Length>,
    /// The clamp.
    pub clamp: Clamp,
    /// Angle of the clamp's nose from the sheet.
    pub nose_angle: Option<Angle>,
    /// Depth of the leaf's edge, at right angles to the sheet it lifts.
    pub leaf_thickness: Option<Length>,
    /// Width of the leaf from the bend line outward.
    pub leaf_width: Option<Length>,
}

/// What clamps the sheet.
#[derive(Debug, Clone, PartialEq)]
pub enum Clamp {
    /// One bar over the whole length.
    Bar {
        /// Its height above the sheet, to the beam that carries it.
        height: Option<Length>,
    },
    /// Fingers of these widths, in any order.
    Fingers {
        /// Width of each finger; empty when the shop does not say.
        widths: Vec<Length>,
        /// Their height below the beam: the deepest box.
        deepest_box: Option<Length>,
    },
}

/// Figures taken where the shop has not given its own. Common sizes of small folders, no source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AssumedFolder {
    /// Height of a clamp bar.
    pub bar_height: Length,
    /// Height of fingers.
    pub finger_height: Length,
    /// Angle of the nose from the sheet.
    pub nose_angle: Angle,
    /// Depth of the clamp across the bend.
    pub clamp_depth: Length,
    /// Thickness of the leaf.
    pub leaf_thickness: Length,
    /// Width of the leaf.
    pub leaf_width: Length,
}

impl Folder {
    /// The figures taken where the shop has not given its own.
    #[must_use]
    pub fn assumed() -> AssumedFolder {
        let tenths = |tenths_mm: i64| Length::from_nanometres(tenths_mm * 100_000);
        AssumedFolder {
            bar_height: tenths(508),
            finger_height: tenths(1016),
            nose_angle: Angle::from_degrees(45.0),
            clamp_depth: tenths(1016),
            leaf_thickness: tenths(190),
            leaf_width: tenths(508),
        }
    }
}
