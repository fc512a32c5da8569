//! Seams: where two faces meet without a bend.

use geometry::{Plane, Point, Vector3};

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
    /// Metal of the other piece beside the seam that this edge keeps clear of, in the face's own coordinates. Where it stops
    /// against a plate, that plate's bends, which turn away to the side that it comes from; where it runs through past a
    /// plate, what is bent off that plate to the outside.
    pub beyond: Vec<Beyond>,
    /// How far this piece keeps off the rounds among them, mm.
    pub gap_mm: f64,
}

/// A corner of a face that comes to lie beside plates of another piece without an edge of it meeting them: two plates of two
/// pieces that meet there only with their tips.
#[derive(Debug, Clone, PartialEq)]
pub struct Tip {
    /// The face.
    pub face: usize,
    /// The corner, in the face's own coordinates.
    pub at: Point,
    /// Metal of the other pieces there that it keeps clear of, in the same coordinates.
    pub beyond: Vec<Beyond>,
    /// How far it keeps off the rounds among them, mm.
    pub gap_mm: f64,
}

/// Metal of another piece.
#[derive(Debug, Clone, PartialEq)]
pub enum Beyond {
    /// The round of a bend.
    Round {
        /// Its round.
        round: Round,
        /// Its turn, radians.
        turn_rad: f64,
        /// Where it ends: all of it lies behind this plane, whose normal points off it. Kept clear of as if it ran on where
        /// not given.
        behind: Option<Plane>,
    },
    /// A plate, with the gap added: all of it that is near the edge lies behind each of these planes, whose normals point off
    /// it.
    Plate {
        /// The planes.
        behind: Vec<Plane>,
    },
}

impl Beyond {
    /// The same metal with every round and every plane moved so.
    pub(super) fn moved(&mut self, round: impl Fn(&Round) -> Round, plane: impl Fn(&Plane) -> Plane) {
        match self {
            Self::Round { round: own, behind, .. } => {
                *own = round(own);
                *behind = behind.as_ref().map(plane);
            }
            Self::Plate { behind } => behind.iter_mut().for_each(|own| *own = plane(own)),
        }
    }
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
