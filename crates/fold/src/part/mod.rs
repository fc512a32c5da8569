//! The folded part: flat faces joined by bends into a tree, and the seams that stay open.
//!
//! Every face has its own plane coordinates in millimetres, seen from its **face side** (the marked side, z = T;
//! the back is z = 0), corners counter-clockwise. A bent edge runs on the bend's **mold line**, where the outside
//! faces of both plates meet. An up bend (toward the face side) has its mold line on the back, a down bend on the
//! face side; both project to the same coordinates, so a leg between reversed bends needs no correction.
//!
//! A child face has its origin where the parent's bent edge *ends*, x back along that edge, y away from the
//! parent; its edge number 0 lies on y = 0 and is the bend.

mod bend;
mod edit;
mod frames;
mod hand;
mod relief;
mod round;
mod seam;

use geometry::{Contour, Point, tolerance};

pub use bend::{Bend, Forming, LegsTo, MOST_SPRUNG_DEGREES};
pub use frames::child_frame;
pub use relief::{HoleSize, Relief};
pub use round::Round;
pub use seam::{Beyond, Mitre, Seam, SeamSide, SeamStyle, Tip};

use crate::bend::BendNumber;

/// Which side of a face: the marked one or the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// The marked side, z = T.
    Face,
    /// The other side, z = 0.
    Back,
}

/// Which way a bend turns, as seen from the face side.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Direction {
    /// Toward the viewer of the marked face.
    Up,
    /// Away from the viewer of the marked face.
    Down,
}

/// What an edge of a face is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edge {
    /// Cut.
    Free,
    /// The bend to the parent face; always edge 0 of a child.
    Parent,
    /// A bend to a child, by its number in [`FoldedPart::bends`].
    Bend(usize),
}

/// One flat face.
#[derive(Debug, Clone, PartialEq)]
pub struct Face {
    /// What the shop calls it: "top", "side AB", "skirt AB".
    pub name: String,
    /// Corners, counter-clockwise from the face side; bent edges on mold lines, cut edges where they are cut.
    pub corners: Vec<Point>,
    /// Edge i runs from corner i to the next.
    pub edges: Vec<Edge>,
    /// Cut-outs, clockwise, in the face's coordinates.
    pub holes: Vec<Contour>,
    /// The true outer contour of a part that is one face without bends and not straight-sided; its corners then
    /// lie on the arcs.
    pub rim: Option<Contour>,
}

/// True when an edge of a face lies on the line through another.
#[must_use]
pub(crate) fn on_line(face: &Face, line: usize, edge: usize) -> bool {
    let (c, d) = face.edge(edge);
    off_line(face, line, c).max(off_line(face, line, d)) <= tolerance::SAME_POINT_MM
}

/// True when an end of an edge of a face lies on the line through another.
#[must_use]
pub(crate) fn touches_line(face: &Face, line: usize, edge: usize) -> bool {
    let (c, d) = face.edge(edge);
    off_line(face, line, c).min(off_line(face, line, d)) <= tolerance::SAME_POINT_MM
}

fn off_line(face: &Face, line: usize, point: Point) -> f64 {
    let (a, b) = face.edge(line);
    (point - a).cross((b - a).unit()).abs()
}

/// A plane of the folded part: one side of one face.
pub type FacePlane = (usize, Side);

/// A place on one side of a face, in the face's own coordinates.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// The face.
    pub face: usize,
    /// Where on it.
    pub at: Point,
    /// On which side of it.
    pub side: Side,
}

/// How a size of the finished part is taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Measure {
    /// Between two mold corners, each where three planes meet.
    Corners([FacePlane; 3], [FacePlane; 3]),
    /// Between two parallel planes.
    Planes(FacePlane, FacePlane),
    /// From the farthest corner of one side of a face to a plane.
    Reach(FacePlane, FacePlane),
    /// From a mold corner, square to a plane.
    CornerToPlane([FacePlane; 3], FacePlane),
    /// From the farthest corner of one side of a face back to a mold corner, square to a plane.
    ReachPast(FacePlane, [FacePlane; 3], FacePlane),
    /// Between two places, straight through the air where they lie on two faces.
    Spots(Spot, Spot),
    /// From a place, square to a plane.
    SpotToPlane(Spot, FacePlane),
}

/// A size the finished part must have.
#[derive(Debug, Clone, PartialEq)]
pub struct Size {
    /// What it is, and to which faces: "outside length", "slant AB, outside".
    pub name: String,
    /// How to measure it on the folded part.
    pub measure: Measure,
    /// What the design asks for, mm.
    pub expected_mm: f64,
}

/// A folded part: what the shop wants to hold in its hands.
#[derive(Debug, Clone, PartialEq)]
pub struct FoldedPart {
    /// Bend number of the metal.
    pub number: BendNumber,
    /// Faces; number 0 is the root.
    pub faces: Vec<Face>,
    /// Bends; children come after their parents.
    pub bends: Vec<Bend>,
    /// Seams.
    pub seams: Vec<Seam>,
    /// Cut edges that meet other pieces.
    pub mitres: Vec<Mitre>,
    /// Corners that lie beside other pieces.
    pub tips: Vec<Tip>,
    /// Sizes to be proven by refolding.
    pub sizes: Vec<Size>,
    /// Relief where two bends of a face meet.
    pub relief: Relief,
    /// Width of the saw notch beside a bend that stops along an edge, mm.
    pub notch_width_mm: f64,
    /// For a part wrapped round an axis: its inside radius square to the metal where it is tightest, mm. The flat is the
    /// development of the middle of the plate, and the bends are the lines to strike on or to sight by.
    pub wrapped_inside_mm: Option<f64>,
}

impl Direction {
    /// The other way.
    #[must_use]
    pub const fn reversed(self) -> Self {
        match self {
            Self::Up => Self::Down,
            Self::Down => Self::Up,
        }
    }

    /// The side on which the mold line of such a bend lies.
    #[must_use]
    pub const fn outside(self) -> Side {
        match self {
            Self::Up => Side::Back,
            Self::Down => Side::Face,
        }
    }
}

impl Face {
    /// Start and end of edge `number`.
    #[must_use]
    pub fn edge(&self, number: usize) -> (Point, Point) {
        (self.corners[number], self.corners[(number + 1) % self.corners.len()])
    }
}

impl FoldedPart {
    /// A part of these faces with nothing bent, joined or measured yet; it closes as drawn.
    #[must_use]
    pub const fn unbent(number: BendNumber, faces: Vec<Face>, relief: Relief, notch_width_mm: f64) -> Self {
        Self {
            number,
            faces,
            bends: Vec::new(),
            seams: Vec::new(),
            mitres: Vec::new(),
            tips: Vec::new(),
            sizes: Vec::new(),
            relief,
            notch_width_mm,
            wrapped_inside_mm: None,
        }
    }

    /// Thickness, mm.
    #[must_use]
    pub fn thickness_mm(&self) -> f64 {
        self.number.thickness().millimetres()
    }

    /// Height of a side above the back of its face, mm.
    #[must_use]
    pub fn side_mm(&self, side: Side) -> f64 {
        match side {
            Side::Face => self.thickness_mm(),
            Side::Back => 0.0,
        }
    }
}
