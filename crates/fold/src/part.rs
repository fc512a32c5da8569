//! The folded part: flat faces joined by bends into a tree, and the seams that stay open.
//!
//! Every face has its own plane coordinates in millimetres, seen from its **face side** (the marked side, z = T;
//! the back is z = 0), corners counter-clockwise. A bent edge runs on the bend's **mold line**, where the outside
//! faces of both plates meet. An up bend (toward the face side) has its mold line on the back, a down bend on the
//! face side; both project to the same coordinates, so a leg between reversed bends needs no correction.
//!
//! A child face has its origin where the parent's bent edge *ends*, x back along that edge, y away from the
//! parent; its edge number 0 lies on y = 0 and is the bend.

use geometry::{Contour, Frame, Point, trig};

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

/// One bend.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bend {
    /// The face nearer the root.
    pub parent: usize,
    /// The parent's edge number.
    pub parent_edge: usize,
    /// The face beyond.
    pub child: usize,
    /// Turn from flat, radians, above 0 and below π.
    pub turn_rad: f64,
    /// Up or down.
    pub direction: Direction,
}

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
    /// The gap the design asks for along the seam, mm, between the nearest edges.
    pub gap_mm: f64,
}

/// A plane of the folded part: one side of one face.
pub type FacePlane = (usize, Side);

/// How a size of the finished part is taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Measure {
    /// Between two mold corners, each where three planes meet.
    Corners([FacePlane; 3], [FacePlane; 3]),
    /// Between two parallel planes.
    Planes(FacePlane, FacePlane),
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

/// How bends that meet at a corner are relieved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Relief {
    /// Sawn notch: both bend zones are cut square where the inside tangent lines cross.
    Square,
    /// Drilled hole about that crossing, of this radius in mm.
    Round {
        /// Radius, mm.
        radius_mm: f64,
    },
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
    /// Sizes to be proven by refolding.
    pub sizes: Vec<Size>,
    /// Relief where two bends of a face meet.
    pub relief: Relief,
    /// Width of the saw notch beside a bend that stops along an edge, mm.
    pub notch_width_mm: f64,
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

    /// The folded place of every face, worked out over mold lines; the root lies in the world's xy plane.
    #[must_use]
    pub fn frames(&self) -> Vec<Frame> {
        let mut frames = vec![Frame::WORLD; self.faces.len()];
        for bend in &self.bends {
            let edge = self.faces[bend.parent].edge(bend.parent_edge);
            frames[bend.child] =
                child_frame(&frames[bend.parent], edge, (bend.turn_rad, bend.direction), self.thickness_mm());
        }
        frames
    }

    /// The same part seen from its other side: outlines mirrored, up and down exchanged, nothing else changed.
    #[must_use]
    pub fn seen_from_back(&self) -> Self {
        let mut part = self.mirrored();
        for bend in &mut part.bends {
            bend.direction = bend.direction.reversed();
        }
        for size in &mut part.sizes {
            size.measure = size.measure.with_sides_exchanged();
        }
        part
    }

    /// The opposite hand: mirrored, with the same face side and the same bend directions.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        let mut part = self.clone();
        let mut shift = vec![0.0; part.faces.len()];
        for bend in &self.bends {
            let (a, b) = self.faces[bend.parent].edge(bend.parent_edge);
            shift[bend.child] = a.distance(b);
        }
        for (number, face) in part.faces.iter_mut().enumerate() {
            mirror_face(face, number != 0, shift[number]);
        }
        let counts: Vec<usize> = part.faces.iter().map(|face| face.edges.len()).collect();
        let renumber = |face: usize, edge: usize| mirrored_edge(face != 0, edge, counts[face]);
        for bend in &mut part.bends {
            bend.parent_edge = renumber(bend.parent, bend.parent_edge);
        }
        for seam in &mut part.seams {
            seam.first.1 = renumber(seam.first.0, seam.first.1);
            seam.second.1 = renumber(seam.second.0, seam.second.1);
        }
        part
    }
}

impl Measure {
    fn with_sides_exchanged(self) -> Self {
        let other = |(face, side): FacePlane| match side {
            Side::Face => (face, Side::Back),
            Side::Back => (face, Side::Face),
        };
        match self {
            Self::Corners(a, b) => Self::Corners(a.map(other), b.map(other)),
            Self::Planes(a, b) => Self::Planes(other(a), other(b)),
        }
    }
}

/// The frame of a child beyond a bend: the parent's, turned about the mold line.
#[must_use]
pub fn child_frame(
    parent: &Frame,
    edge: (Point, Point),
    (turn_rad, direction): (f64, Direction),
    thickness_mm: f64,
) -> Frame {
    let along = (edge.1 - edge.0).unit();
    let (cosine, sine) = (trig::cos(turn_rad), trig::sin(turn_rad));
    let outward = parent.direct(along.right());
    let x = parent.direct(-along);
    let (mold_z, lift) = match direction {
        Direction::Up => (0.0, sine),
        Direction::Down => (thickness_mm, -sine),
    };
    let y = outward * cosine + parent.z * lift;
    let z = x.cross(y);
    Frame { origin: parent.place(edge.1, mold_z) + z * -mold_z, x, y, z }
}

/// Edge `edge` of a mirrored face that runs the other way; a child keeps its parent edge as number 0.
const fn mirrored_edge(child: bool, edge: usize, count: usize) -> usize {
    if child { (count - edge) % count } else { count - 1 - edge }
}

fn mirror_face(face: &mut Face, child: bool, shift_mm: f64) {
    let flip = |p: Point| Point::new(shift_mm - p.x, p.y);
    let count = face.corners.len();
    let mirrored: Vec<Point> = face.corners.iter().map(|&p| flip(p)).collect();
    let edges = face.edges.clone();
    for (number, edge) in edges.iter().enumerate() {
        let target = mirrored_edge(child, number, count);
        face.edges[target] = *edge;
        face.corners[target] = mirrored[(number + 1) % count];
    }
    face.holes = face.holes.iter().map(|hole| hole.mapped(true, flip)).collect();
    face.rim = face.rim.as_ref().map(|rim| rim.mapped(true, flip));
}
