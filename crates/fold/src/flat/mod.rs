//! The flat pattern: the outline to cut, the lines to bend on, and which piece of it becomes which face.

mod bite;
mod corner_cut;
mod face_corner;
mod jog;
mod outline;
mod relief;
mod short;
mod spread;
mod stop;
mod unfold;
mod zone_end;

use geometry::{Frame, Outline, Point, Vector, Vector3, trig};

pub use relief::{ReliefFault, ReliefNeed};
pub use unfold::{UnfoldError, lies_on_itself, unfold};

use crate::part::{Direction, Forming};

/// A part laid flat, seen from its face side; the smallest upright rectangle around it has its lower left corner,
/// the datum, at (0, 0). Millimetres.
#[derive(Debug, Clone, PartialEq)]
pub struct FlatPattern {
    /// What to cut.
    pub outline: Outline,
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Inside radius of plain brake bends of the metal, mm.
    pub inside_radius_mm: f64,
    /// The faces, numbered as in the folded part.
    pub faces: Vec<FlatFace>,
    /// The bends, numbered as in the folded part.
    pub bends: Vec<BendLine>,
    /// Corners of every bend zone, counter-clockwise, numbered as the bends; reliefs that are drilled are not taken out.
    pub zones: Vec<Vec<Point>>,
    /// The seams, numbered as in the folded part.
    pub seams: Vec<FlatSeam>,
    /// Every place where two bends meet, and how it is relieved.
    pub reliefs: Vec<FlatRelief>,
}

/// Where two bends meet on the flat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlatRelief {
    /// Where the inside tangent lines cross; where the bend lines do, without a relief.
    pub at: Point,
    /// The two bends.
    pub bends: [usize; 2],
    /// What is cut.
    pub cut: ReliefCut,
}

/// What is cut where two bends meet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ReliefCut {
    /// Nothing: the flanges' edges meet there.
    None,
    /// A square notch, as deep as both bend zones are wide, mm.
    Square {
        /// Widths of the zones of both bends, mm.
        zones_mm: [f64; 2],
    },
    /// A drilled hole.
    Round {
        /// Its radius, mm.
        radius_mm: f64,
    },
    /// A hole with straight sides that run out from it.
    TearDrop {
        /// Radius of its round bottom, mm.
        radius_mm: f64,
    },
}

/// Where one face lies in the flat.
#[derive(Debug, Clone, PartialEq)]
pub struct FlatFace {
    /// Its name.
    pub name: String,
    /// Where its own coordinates lie in the flat.
    pub placement: Placement,
    /// Its corners in the flat, counter-clockwise, up to the tangent lines of its bends.
    pub corners: Vec<Point>,
}

/// A bend on the flat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BendLine {
    /// The face on its left.
    pub parent: usize,
    /// The face on its right.
    pub child: usize,
    /// Where the line enters the metal.
    pub from: Point,
    /// Where it leaves it.
    pub to: Point,
    /// Turn from flat, radians.
    pub turn_rad: f64,
    /// Up or down, as seen from the face side.
    pub direction: Direction,
    /// Width of the bend zone, half to each side of the line: the bend allowance, mm.
    pub zone_mm: f64,
    /// Inside radius, mm.
    pub inside_radius_mm: f64,
    /// That radius is its own, not the metal's.
    pub own_radius: bool,
    /// How it is made.
    pub forming: Forming,
}

/// A rolled bend whose zone is narrower than so many thicknesses is marked as one line, to sight along.
const NARROW_ZONE: f64 = 2.0;

/// Two cut edges of the flat that meet when folded.
#[derive(Debug, Clone, PartialEq)]
pub struct FlatSeam {
    /// Its name.
    pub name: String,
    /// First face and the ends of its straight cut edge in the flat.
    pub first: (usize, [Point; 2]),
    /// Second face and the ends of its straight cut edge in the flat.
    pub second: (usize, [Point; 2]),
    /// Corners cut off clear of the other side's bends: the face, and both ends of the cut.
    pub cut_off: Vec<(usize, [Point; 2])>,
}

/// A rigid place in the plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Placement {
    /// Where local (0, 0) lies.
    pub origin: Point,
    /// Direction of local x, a unit vector.
    pub x: Vector,
}

impl Placement {
    /// Local coordinates are the flat's.
    pub const IDENTITY: Self = Self { origin: Point::new(0.0, 0.0), x: Vector::new(1.0, 0.0) };

    /// The flat place of a local point.
    #[must_use]
    pub fn place(&self, local: Point) -> Point {
        self.origin + self.direct(Vector::new(local.x, local.y))
    }

    /// The flat direction of a local vector.
    #[must_use]
    pub fn direct(&self, local: Vector) -> Vector {
        self.x * local.x + self.x.left() * local.y
    }

    /// The same place as a frame in space, z along the face side.
    #[must_use]
    pub fn frame(&self) -> Frame {
        let flat = Frame::WORLD;
        Frame {
            origin: flat.place(self.origin, 0.0),
            x: flat.direct(self.x),
            y: flat.direct(self.x.left()),
            z: Vector3::new(0.0, 0.0, 1.0),
        }
    }
}

impl BendLine {
    /// Unit direction of the line, the parent face on its left.
    #[must_use]
    pub fn along(&self) -> Vector {
        (self.to - self.from).unit()
    }

    /// The lines to mark for it on a sheet of this thickness, mm, from the parent to the child: its own line; or every
    /// strike, half a pitch inside the edges of the bend zone and a pitch apart; or both edges of the zone, between which
    /// it is rolled.
    #[must_use]
    pub fn marks(&self, thickness_mm: f64) -> Vec<(Point, Point)> {
        let beside = |share: f64| {
            let by = self.across() * (self.zone_mm * share);
            (self.from + by, self.to + by)
        };
        match self.forming {
            Forming::Bumped(strikes) => {
                let count = strikes.max(1);
                let share = |strike: u32| (f64::from(strike) + 0.5) / f64::from(count) - 0.5;
                (0..count).map(|strike| beside(share(strike))).collect()
            }
            Forming::Rolled if NARROW_ZONE * thickness_mm <= self.zone_mm => vec![beside(-0.5), beside(0.5)],
            Forming::Brake | Forming::Hem | Forming::Joggle(_) | Forming::Rolled | Forming::Sprung => {
                vec![(self.from, self.to)]
            }
        }
    }

    /// Unit direction across the line, from the parent to the child.
    #[must_use]
    pub fn across(&self) -> Vector {
        self.along().right()
    }
}

impl FlatPattern {
    /// How far the farthest corner of one face at a bend stands off the plane of the other when the part is finished: of the face
    /// that reaches less far from the bend, mm.
    #[must_use]
    pub fn off_plane_mm(&self, bend: &BendLine) -> f64 {
        let reach = |face: usize| {
            let off = |corner: &Point| (*corner - bend.from).dot(bend.across()).abs();
            self.faces[face].corners.iter().map(off).fold(0.0, f64::max)
        };
        reach(bend.parent).min(reach(bend.child)) * trig::sin(bend.turn_rad)
    }

    /// Every line to mark, bend by bend ([`BendLine::marks`]).
    pub fn marks(&self) -> impl Iterator<Item = (&BendLine, (Point, Point))> {
        self.bends
            .iter()
            .flat_map(|bend| bend.marks(self.thickness_mm).into_iter().map(move |mark| (bend, mark)))
    }

    /// Width and height of the smallest upright rectangle around the flat, mm.
    #[must_use]
    pub fn extents_mm(&self) -> (f64, f64) {
        let (low, high) = self.outline.bounds();
        (high.x - low.x, high.y - low.y)
    }

    /// The flat moved by `by`.
    #[must_use]
    pub fn moved(&self, by: Vector) -> Self {
        let mut flat = self.clone();
        flat.outline = self.outline.mapped(false, |p| p + by);
        for face in &mut flat.faces {
            face.placement.origin = face.placement.origin + by;
            face.corners.iter_mut().for_each(|corner| *corner = *corner + by);
        }
        for bend in &mut flat.bends {
            (bend.from, bend.to) = (bend.from + by, bend.to + by);
        }
        flat.zones.iter_mut().flatten().for_each(|corner| *corner = *corner + by);
        flat.reliefs.iter_mut().for_each(|relief| relief.at = relief.at + by);
        for seam in &mut flat.seams {
            seam.first.1 = seam.first.1.map(|p| p + by);
            seam.second.1 = seam.second.1.map(|p| p + by);
            seam.cut_off.iter_mut().for_each(|(_, ends)| *ends = ends.map(|p| p + by));
        }
        flat
    }
}
