//! Seams: where two faces meet without a bend.

use geometry::Vector3;

use super::Round;

/// Two cut edges that meet when the part is folded.
#[derive(Debug, Clone, PartialEq)]
pub struct Seam {
    /// What the shop calls it: "hip B", "skirt corner B".
    pub name: String,
    /// Face and edge number on one side.
    pub first: (usize, usize),
    /// Face and edge number on the other.
    pub second: (usize, usize),
    /// Angle between the two plates inside the corner, radians; π where they lie in one plane.
    pub inside_angle_rad: f64,
    /// Length of the outside hip line between mold corners, mm.
    pub length_mm: f64,
    /// How the two plates meet.
    pub style: SeamStyle,
    /// The gap the design asks for along the seam, mm, between the nearest edges.
    pub gap_mm: f64,
}

/// A cut edge that meets an edge of another piece once both are put together.
///
/// The metal of this piece, the rounds of its bends beside the edge with it, stays on its own side of the plane between the
/// two: a flat holds one piece only, so the piece must know of the other what keeps clear of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Mitre {
    /// Face and edge number.
    pub edge: (usize, usize),
    /// Which way the other piece lies: the unit normal of the plane between the two, off this piece, in the face's own
    /// coordinates, z toward its face side. The plane touches the edge where that reaches farthest.
    pub normal: Vector3,
    /// Where this edge stops against a plate of the other piece: the rounds of that plate's bends beside the seam, in the
    /// face's own coordinates, and their turns, radians. They turn away to the side that this edge comes from.
    pub rounds: Vec<(Round, f64)>,
    /// How far this piece keeps off those rounds, mm.
    pub gap_mm: f64,
}

/// One of the two sides of a seam.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SeamSide {
    /// [`Seam::first`].
    First,
    /// [`Seam::second`].
    Second,
}

/// How two plates meet at a seam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SeamStyle {
    /// Inside edges touch, or stand a stated gap apart; V outside for a full weld.
    Open,
    /// One side runs through to the outside, the other stops against its inside face.
    Butt {
        /// The side that runs through.
        through: SeamSide,
    },
    /// One side carries a strip that lies along the other.
    Lap {
        /// Width of the strip, mm.
        width_mm: f64,
        /// The side that carries it.
        carrier: SeamSide,
        /// True when the strip lies outside the other plate.
        outside: bool,
    },
    /// Tabs of one side stand in slots of the other.
    TabAndSlot {
        /// Width of each tab along the seam, mm.
        tab_mm: f64,
        /// Play of a tab in its slot, on each side, mm.
        clearance_mm: f64,
        /// How many tabs.
        count: u32,
        /// The side that has the tabs.
        tabs: SeamSide,
    },
}
