//! The frame of shapes that are no simple ring: any set of flat plates that meet along edges, each edge bent or welded
//! as the shop chooses, so that one design can be made in one piece or in several.
//!
//! A plate is given by its corners in space on the side that its sizes are to. Two plates meet wherever they share an
//! edge. Bends, mold lines, weld edges and true lengths follow from where the planes of their two sides cross:
//! * a bend's mold line is where the **outer** sides cross;
//! * at a weld both plates are cut square where their **inner** sides cross, so that the inner edges touch (or stand the
//!   seam gap apart) and a V is open outside. This is the open corner: it stands back T·cot(φ/2) from the outside
//!   corner line, φ being the angle inside;
//! * plates that lie in one plane are mitred along the edge they share.

mod between;
mod corner;
mod edge;
mod flange;
mod mitre;
mod piece;
mod size;
mod weld;

use fold::part::Side;
use fold::{BendNumber, Direction};
use geometry::{Plane, Point3, Vector3, tolerance};

use crate::making::ring_problem;
use crate::ring::{Corners, RingError};
use crate::{Making, Problem};

pub(crate) use piece::ShellPiece;

/// One flat plate.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct ShellPlate {
    /// What the shop calls it: "slope AB".
    pub(crate) name: String,
    /// Corners on the side that sizes are to, counter-clockwise seen from the face side, mm.
    pub(crate) corners: Vec<Point3>,
    /// Which side of the metal the corners lie on.
    pub(crate) sized_to: Side,
    /// Edges that are cut by a plane of their own, its normal pointing off the plate; such an edge meets no plate.
    pub(crate) cuts: Vec<(usize, Plane)>,
    /// Edges that stop against a plate which runs through past them, and that plate's own edge there; the two are not welded
    /// to one another.
    pub(crate) stops: Vec<(usize, (usize, usize))>,
    /// The plate of another piece that it lies on, as a flange to weld to.
    pub(crate) lies_on: Option<usize>,
    /// How far the bend to the plate before it stops short of the two ends of that plate's edge, mm.
    pub(crate) short_mm: [f64; 2],
    /// The side of the shape that it belongs to, and that side's length in mm; `None` for a top or a floor.
    pub(crate) side: Option<(String, f64)>,
    /// Round holes: centre, and radius in mm.
    pub(crate) holes: Vec<(Point3, f64)>,
}

/// Plates and how they are joined.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Shell {
    /// Plates.
    pub(crate) plates: Vec<ShellPlate>,
    /// Pairs of plates that are bent out of one piece; all others that meet are welded.
    pub(crate) bends: Vec<(usize, usize)>,
    /// Bend number of the metal.
    pub(crate) number: BendNumber,
    /// How corners are made.
    pub(crate) making: Corners,
}

/// Why plates make no part.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub(crate) enum ShellError {
    /// The corners of a plate do not lie in one plane.
    #[error("{name}: its corners lie up to {off_mm:.3} mm out of one plane")]
    Warped {
        /// The plate.
        name: String,
        /// How far, mm.
        off_mm: f64,
    },
    /// Two plates that should be bent lie in one plane, or upon one another.
    #[error("{name}: its plate makes no bend with its neighbour")]
    NoBend {
        /// The plate.
        name: String,
    },
    /// Nothing is left of a plate between its edges.
    #[error("{name}: nothing is left of it; its edges meet")]
    Nothing {
        /// The plate.
        name: String,
    },
    /// An edge is shorter than what its ends are cut back by.
    #[error("{name}: an edge of {length_mm:.3} mm is cut back by {taken_mm:.3} mm at its ends")]
    ShortEdge {
        /// The plate.
        name: String,
        /// Length of the edge, mm.
        length_mm: f64,
        /// How much less is left of it, mm; more than its length.
        taken_mm: f64,
    },
    /// A corner cannot be made in the style asked for.
    #[error(transparent)]
    Corner(RingError),
}

/// Where a plate meets another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Joint {
    /// The other plate.
    pub(crate) other: usize,
    /// The other plate's edge.
    pub(crate) other_edge: usize,
    /// Angle between the face sides' normals, radians.
    pub(crate) turn_rad: f64,
    /// Which way the other plate turns.
    pub(crate) direction: Direction,
    /// True when it is bent, false when welded.
    pub(crate) bent: bool,
}

impl ShellPlate {
    /// A plate with nothing special about it. One that is named after a side, like "slope AB", belongs to it; its
    /// first edge then runs along that side.
    pub(crate) fn new(name: impl Into<String>, corners: Vec<Point3>, sized_to: Side) -> Self {
        let name = name.into();
        let is_side = |word: &&str| {
            word.len() > 1
                && word.starts_with(|c: char| c.is_ascii_uppercase())
                && word.chars().all(|c| c.is_ascii_uppercase() || c.is_ascii_digit())
        };
        let side =
            name.split(' ').find(is_side).map(|side| (side.to_owned(), corners[0].distance(corners[1])));
        Self {
            name,
            side,
            corners,
            sized_to,
            cuts: Vec::new(),
            stops: Vec::new(),
            lies_on: None,
            short_mm: [0.0, 0.0],
            holes: Vec::new(),
        }
    }

    /// The unit normal toward the face side, by the areas of the plate's shadows (Newell).
    pub(crate) fn normal(&self) -> Vector3 {
        let count = self.corners.len();
        let first = self.corners[0];
        let sum = |total: Vector3, number: usize| {
            let (a, b) = (self.corners[number] - first, self.corners[(number + 1) % count] - first);
            total + a.cross(b)
        };
        (0..count).fold(Vector3::default(), sum).unit()
    }

    /// Start and end of an edge.
    pub(crate) fn edge(&self, number: usize) -> (Point3, Point3) {
        (self.corners[number], self.corners[(number + 1) % self.corners.len()])
    }

    /// The plane through the corners.
    pub(crate) fn sized_plane(&self) -> Plane {
        Plane::through(self.corners[0], self.normal())
    }

    /// How far the corners lie out of one plane, mm.
    pub(crate) fn warp_mm(&self) -> f64 {
        let plane = self.sized_plane();
        self.corners.iter().fold(0.0, |most: f64, &corner| most.max(plane.distance(corner).abs()))
    }
}

impl Shell {
    /// Thickness, mm.
    pub(crate) fn thickness_mm(&self) -> f64 {
        self.number.thickness().millimetres()
    }

    /// The plane of one side of a plate, normal toward the face side.
    pub(crate) fn plane(&self, plate: usize, side: Side) -> Plane {
        let plate = &self.plates[plate];
        let thickness = self.thickness_mm();
        let moved = match (plate.sized_to, side) {
            (Side::Face, Side::Back) => -thickness,
            (Side::Back, Side::Face) => thickness,
            _ => 0.0,
        };
        plate.sized_plane().moved(moved)
    }

    /// What plate `plate` meets at its edge `edge`.
    pub(crate) fn joint(&self, plate: usize, edge: usize) -> Option<Joint> {
        if self.plates[plate].cuts.iter().any(|(cut, _)| *cut == edge) {
            return None;
        }
        let (a, b) = self.plates[plate].edge(edge);
        let (other, other_edge) = self.plate_with_edge(plate, (b, a))?;
        let (own, its) = (self.plates[plate].normal(), self.plates[other].normal());
        let turn_rad = own.angle_to(its);
        let rises = (b - a).dot(own.cross(its)) < 0.0;
        let direction = if rises { Direction::Up } else { Direction::Down };
        let bent = self.bends.iter().any(|&pair| pair == (plate, other) || pair == (other, plate));
        Some(Joint { other, other_edge, turn_rad, direction, bent })
    }

    /// The plate, other than `but`, that has an edge from `a` to `b`.
    fn plate_with_edge(&self, but: usize, (a, b): (Point3, Point3)) -> Option<(usize, usize)> {
        let near = |p: Point3, q: Point3| p.distance(q) <= tolerance::SAME_POINT_MM;
        self.plates.iter().enumerate().filter(|(number, _)| *number != but).find_map(|(number, plate)| {
            let is_it = |&edge: &usize| {
                let (c, d) = plate.edge(edge);
                near(a, c) && near(b, d) && !plate.cuts.iter().any(|(cut, _)| *cut == edge)
            };
            (0..plate.corners.len()).find(is_it).map(|edge| (number, edge))
        })
    }
}

/// A shell that cannot be built, as a problem with the field that governs it.
pub(crate) fn shell_problem(error: &ShellError, field: &str, making: &Making) -> Problem {
    let neighbours = "check its sizes against its neighbours";
    match error {
        ShellError::Warped { name, off_mm } => {
            let wrong = format!("its corners lie up to {} out of one plane", making.print_mm(*off_mm));
            Problem::new(field, name, wrong, "make opposite sides parallel")
        }
        ShellError::NoBend { name } => {
            Problem::new(field, name, "its plate makes no bend with its neighbour", neighbours)
        }
        ShellError::Nothing { name } => {
            Problem::new(field, name, "nothing is left of it; its edges meet", neighbours)
        }
        ShellError::ShortEdge { name, length_mm, taken_mm } => {
            let (length, taken) = (making.print_mm(*length_mm), making.print_mm(*taken_mm));
            let wrong =
                format!("an edge of it, {length} long, is less than its corners are cut back by, {taken}");
            let remedy = format!("make that edge longer than {taken}, or leave that side out of the figure");
            Problem::new(field, name, wrong, remedy)
        }
        ShellError::Corner(error) => ring_problem(error, field, making),
    }
}
