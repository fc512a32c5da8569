//! The common frame of lids, pans, boxes and flanged panels: a base face with chains of plates bent off its sides.
//!
//! Every plate is given by the plane it shall lie in; bends, mold lines, corner lines and trims follow from where
//! the planes meet. A plate's plane is the one of its **back** (z = 0), with the normal toward the face side.

mod corner;
pub(crate) mod lap;
pub(crate) mod line;
mod plate;
pub(crate) mod tabs;
pub(crate) mod trim;

use fold::part::{Bend, Edge, Face, FoldedPart, Forming, LegsTo, Relief, Seam};
use fold::{BendNumber, Direction};
use geometry::{Contour, Frame, Plane, Point, polygon, tolerance};

use plate::Plate;

use crate::CornerStyle;
use crate::corner_style::SeamName;

/// A plate bent off a side or off the plate before it.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// What the shop calls it: "skirt AB".
    pub name: String,
    /// The plane of its back, normal toward the face side.
    pub plane: Plane,
    /// Which way it is bent off the plate before it.
    pub direction: Direction,
}

/// One side of the base, from one corner to the next, counter-clockwise.
#[derive(Debug, Clone, PartialEq)]
pub struct RingSide {
    /// Plates outward from the base; none for a side that is only cut.
    pub bands: Vec<Band>,
    /// The plane that cuts the last plate off, met on the outside of that plate.
    pub cut: Option<Plane>,
    /// How far the bend stops short of the side's two ends, on its mold line, mm.
    pub short_mm: [f64; 2],
    /// How far inside the mold line the side lies where its bend stops short, mm.
    pub bare_inside_mm: f64,
    /// What the ends of its last plate must not pass where no like plate meets it.
    pub limits: Vec<EndLimit>,
}

/// A plane that the end of a plate keeps behind. An end that would pass it when cut square is cut to a slant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EndLimit {
    /// The plane, its normal away from the plate.
    pub plane: Plane,
    /// How far metal stands beyond the plate's far edge, as that of a hem does, mm: it keeps behind the plane too.
    pub beyond_mm: f64,
}

impl RingSide {
    /// True when the bend stops short of this end of the side.
    fn is_bare(&self, end: usize) -> bool {
        !self.bands.is_empty() && self.short_mm[end] > tolerance::SAME_POINT_MM
    }
}

/// How corners are made.
#[derive(Debug, Clone, PartialEq)]
pub struct Corners {
    /// Relief where bends meet.
    pub relief: Relief,
    /// How two plates meet at a corner.
    pub style: CornerStyle,
    /// Gap between the two plates at a corner, mm.
    pub gap_mm: f64,
    /// Width of a saw notch beside a bend that stops along an edge, mm.
    pub notch_width_mm: f64,
}

/// The base and everything bent off it.
#[derive(Debug, Clone, PartialEq)]
pub struct Ring {
    /// What the shop calls the base: "top", "floor".
    pub name: String,
    /// Corners of the base on the mold lines, counter-clockwise, mm.
    pub corners: Vec<Point>,
    /// Names of the corners.
    pub corner_names: Vec<String>,
    /// One side per corner, starting there.
    pub sides: Vec<RingSide>,
    /// Cut-outs in the base, clockwise.
    pub holes: Vec<Contour>,
    /// Bend number of the metal.
    pub number: BendNumber,
    /// How corners are made.
    pub making: Corners,
}

/// A built ring: the part, and which face is which.
#[derive(Debug, Clone, PartialEq)]
pub struct Built {
    /// The folded part; seams set, sizes still empty.
    pub part: FoldedPart,
    /// Face number of each band of each side.
    pub faces: Vec<Vec<usize>>,
}

/// Why the planes make no part.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum RingError {
    /// Two plates that follow one another lie in one plane, or fold flat upon one another.
    #[error("{name}: its plate does not make a bend with the one before it")]
    NoBend {
        /// The plate.
        name: String,
    },
    /// The style of the corners does not say which plate is which at this one.
    #[error("corner {corner}: it is not said which of its two plates is chosen")]
    NotChosen {
        /// The corner.
        corner: String,
    },
    /// A style is asked for by a name that no corner or seam of the part goes by.
    #[error("{}: no two plates meet there", names.join(", "))]
    NoSuchSeam {
        /// The names.
        names: Vec<String>,
        /// Corners and seams that there are.
        known: Vec<SeamName>,
    },
    /// Plates that lie in one plane are asked to be butted, lapped or tabbed.
    #[error("{seam}: its plates lie in one plane")]
    InOnePlane {
        /// The seam.
        seam: String,
    },
    /// A corner is too flat for one plate to stop against the other.
    #[error("corner {corner}: its plates are too nearly in one plane")]
    TooFlat {
        /// The corner.
        corner: String,
        /// Angle between the plates inside, radians.
        inside_angle_rad: f64,
        /// The flattest that is made so, radians.
        flattest_rad: f64,
    },
    /// A lap strip is so narrow that it does not come to lie on the other plate.
    #[error("corner {corner}: its strip does not reach the other plate")]
    NarrowLap {
        /// The corner.
        corner: String,
        /// Angle between the plates inside, radians.
        inside_angle_rad: f64,
        /// The narrowest strip that lies on the other plate by a thickness, mm.
        narrowest_mm: f64,
    },
    /// There is no room for so many tabs along a corner.
    #[error("{seam}: no room for its tabs")]
    NoRoomForTabs {
        /// The seam.
        seam: String,
        /// How many there is room for.
        most: u32,
    },
    /// A plate has no width left between its ends, or no length between its bends.
    #[error("{name}: nothing is left of it; its ends or edges meet")]
    Nothing {
        /// The plate.
        name: String,
    },
}

impl RingError {
    /// Every name that a style is asked for by must be that of a corner or seam.
    /// `mitred` are those of plates in one plane.
    pub(crate) fn of_names(style: &CornerStyle, known: &[SeamName], mitred: &[SeamName]) -> Result<(), Self> {
        if let Some(name) = style.not_mitred(mitred) {
            return Err(Self::InOnePlane { seam: name.seam.clone() });
        }
        let names = style.unknown(known);
        if names.is_empty() { Ok(()) } else { Err(Self::NoSuchSeam { names, known: known.to_vec() }) }
    }
}

/// The cut of a plate whose metal shall end at `end`, a plane with its normal off the plate. Cut square, a plate that
/// leans toward its outside stands highest with its face, so its outside is cut so much sooner. `plane` is that of its
/// back, which is its outside.
pub(crate) fn cut_to(end: Plane, plane: Plane, thickness_mm: f64) -> Plane {
    end.moved(-thickness_mm * plane.normal.dot(end.normal).max(0.0))
}

impl Ring {
    /// Builds the folded part.
    ///
    /// # Errors
    /// [`RingError`] when neighbouring planes make no bend, a plate comes out without area, or a corner cannot be made
    /// as asked.
    pub fn build(&self) -> Result<Built, RingError> {
        corner::check(self)?;
        let mut part = FoldedPart::unbent(
            self.number.clone(),
            vec![self.base()],
            self.making.relief,
            self.making.notch_width_mm,
        );
        let mut frames = vec![Frame::WORLD];
        let mut faces = Vec::with_capacity(self.sides.len());
        for side in 0..self.sides.len() {
            faces.push(self.add_side(&mut part, &mut frames, side)?);
        }
        part.seams = self.seams(&part, &faces, &frames);
        lap::add_strips(&mut part, &mut frames)?;
        tabs::cut(&mut part, &frames)?;
        Ok(Built { part, faces })
    }

    /// The base face; a side whose bend stops short has extra corners.
    fn base(&self) -> Face {
        let count = self.corners.len();
        let (mut corners, mut edges) = (Vec::new(), Vec::new());
        for (number, side) in self.sides.iter().enumerate() {
            let (a, b) = (self.corners[number], self.corners[(number + 1) % count]);
            let along = (b - a).unit();
            let step = along.left() * side.bare_inside_mm;
            let mut corner = |point: Point, edge: Edge| {
                corners.push(point);
                edges.push(edge);
            };
            if side.bands.is_empty() {
                corner(self.base_corner(number), Edge::Free);
                continue;
            }
            let (from, to) = (a + along * side.short_mm[0], b - along * side.short_mm[1]);
            let has_step = side.bare_inside_mm > tolerance::SAME_POINT_MM;
            if side.is_bare(0) {
                corner(self.base_corner(number), Edge::Free);
                if has_step {
                    corner(from + step, Edge::Free);
                }
                corner(from, Edge::Bend(usize::MAX));
            } else {
                corner(self.base_corner(number), Edge::Bend(usize::MAX));
            }
            if side.is_bare(1) {
                corner(to, Edge::Free);
                if has_step {
                    corner(to + step, Edge::Free);
                }
            }
        }
        Face { name: self.name.clone(), corners, edges, holes: self.holes.clone(), rim: None }
    }

    /// A corner of the base: where the two sides meet that end there, each on its mold line or, where its bend stops short,
    /// inside it.
    pub(crate) fn base_corner(&self, number: usize) -> Point {
        let count = self.corners.len();
        let corner = self.corners[number];
        let before = (number + count - 1) % count;
        let line = |side: usize, end: usize| {
            let along = (self.corners[(side + 1) % count] - self.corners[side]).unit();
            let ring_side = &self.sides[side];
            let inside_mm = if ring_side.is_bare(end) { ring_side.bare_inside_mm } else { 0.0 };
            (corner + along.left() * inside_mm, along)
        };
        let ((first, first_along), (second, second_along)) = (line(before, 1), line(number, 0));
        first.crossing(first_along, second, second_along).unwrap_or(second)
    }

    /// Bends the plates of one side off the base, one after another.
    fn add_side(
        &self,
        part: &mut FoldedPart,
        frames: &mut Vec<Frame>,
        side: usize,
    ) -> Result<Vec<usize>, RingError> {
        let mut faces: Vec<usize> = Vec::new();
        for band in 0..self.sides[side].bands.len() {
            let parent = faces.last().copied().unwrap_or(0);
            let parent_edge = if band == 0 { next_unbent_side(&part.faces[0]) } else { 2 };
            let edge = part.faces[parent].edge(parent_edge);
            let plate = Plate::new(self, (side, band), &frames[parent], edge)?;
            let child = part.faces.len();
            part.faces[parent].edges[parent_edge] = Edge::Bend(part.bends.len());
            part.bends.push(Bend {
                parent,
                parent_edge,
                child,
                turn_rad: plate.turn_rad,
                direction: self.sides[side].bands[band].direction,
                inside_radius_mm: self.number.inside_radius().millimetres(),
                legs_to: LegsTo::MoldLine,
                forming: Forming::Brake,
            });
            part.faces.push(self.face(side, band, &plate)?);
            frames.push(plate.frame);
            faces.push(child);
        }
        Ok(faces)
    }

    fn face(&self, side: usize, band: usize, plate: &Plate<'_>) -> Result<Face, RingError> {
        let name = &self.sides[side].bands[band].name;
        let nothing = || RingError::Nothing { name: name.clone() };
        let corners = plate.corners().ok_or_else(nothing)?;
        if polygon::signed_area(&corners) <= 0.0 || polygon::self_crossing(&corners).is_some() {
            return Err(nothing());
        }
        Ok(Face {
            name: name.clone(),
            corners,
            edges: vec![Edge::Parent, Edge::Free, Edge::Free, Edge::Free],
            holes: Vec::new(),
            rim: None,
        })
    }

    /// A seam wherever two plates of the same rank meet at a corner.
    fn seams(&self, part: &FoldedPart, faces: &[Vec<usize>], frames: &[Frame]) -> Vec<Seam> {
        let count = self.sides.len();
        let mut seams = Vec::new();
        for side in 0..count {
            let next = (side + 1) % count;
            for (band, (&own, &other)) in faces[side].iter().zip(&faces[next]).enumerate() {
                let middle = frames[own].place(polygon::centroid(&part.faces[own].corners), 0.0);
                let Some(corner) = corner::meeting(self, side, band, middle) else { continue };
                let lengths_mm = [
                    corner::length_mm(self, (side, band), (next, corner.outside), &frames[own]),
                    corner::length_mm(self, (next, band), (side, corner.outside), &frames[other]),
                ];
                seams.push(Seam {
                    name: corner::name(self, side, band).seam,
                    first: (own, 3),
                    second: (other, 1),
                    inside_angle_rad: corner.inside_angle_rad,
                    // Plates of unlike height meet as far as the lower of the two reaches; beyond that nothing is welded.
                    length_mm: lengths_mm.into_iter().flatten().reduce(f64::min).unwrap_or(0.0),
                    style: corner.style,
                    gap_mm: corner.gap_mm,
                });
            }
        }
        seams
    }
}

/// The base's next edge that still waits for its bend.
fn next_unbent_side(base: &Face) -> usize {
    base.edges.iter().position(|edge| *edge == Edge::Bend(usize::MAX)).unwrap_or(0)
}
