//! The round of a bend in space.

use geometry::{Frame, Point, Point3, Vector3, tolerance, trig};

use super::{Direction, FoldedPart};

/// The round of a bend, seen along it from the start of its parent's edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Round {
    centre: Point3,
    /// Along the bend.
    axis: Vector3,
    /// Off the parent's edge, in the parent's plane.
    across: Vector3,
    /// From the centre to the parent's tangent line.
    to_tangent: Vector3,
    /// Inside and outside.
    radii_mm: [f64; 2],
}

impl Round {
    /// Least share of the bend's direction that stands square to a plane for an end of the bend's zone to be moved by that
    /// plane: a plane that runs along the bend does not end it. On a lid that is nearly flat the slope beside a bend stands to it
    /// by as little as this: at .035 a zone had been left a tenth of a millimetre in the next plate.
    pub const LEAST_SQUARE: f64 = 0.01;

    /// Of bend `number` of `part`, whose parent lies at `parent`.
    #[must_use]
    pub fn of(part: &FoldedPart, number: usize, parent: &Frame) -> Self {
        let bend = &part.bends[number];
        let (a, b) = part.faces[bend.parent].edge(bend.parent_edge);
        let along = (b - a).unit();
        let near = a + along.left() * part.setback_mm(number);
        let radii_mm = [bend.inside_radius_mm, bend.inside_radius_mm + part.thickness_mm()];
        let (centre_z, out) = match bend.direction {
            Direction::Up => (radii_mm[1], -1.0),
            Direction::Down => (-radii_mm[0], 1.0),
        };
        let (across, to_tangent) = (parent.direct(along.right()), parent.z * out);
        Self {
            centre: parent.place(near, centre_z),
            axis: parent.direct(along),
            across,
            to_tangent,
            radii_mm,
        }
    }

    /// The same round where its coordinates are those of `frame`.
    #[must_use]
    pub fn placed(&self, frame: &Frame) -> Self {
        let (Point3 { x, y, z }, axis) = (self.centre, frame.turned(self.axis));
        let (across, to_tangent) = (frame.turned(self.across), frame.turned(self.to_tangent));
        Self { centre: frame.place(Point::new(x, y), z), axis, across, to_tangent, radii_mm: self.radii_mm }
    }

    /// Its mirror image, where x is counted back from `x_mm`.
    #[must_use]
    pub(super) fn mirrored(&self, x_mm: f64) -> Self {
        let flip = |v: Vector3| Vector3::new(-v.x, v.y, v.z);
        let Point3 { x, y, z } = self.centre;
        let (axis, across, to_tangent) = (flip(self.axis), flip(self.across), flip(self.to_tangent));
        Self { centre: Point3::new(x_mm - x, y, z), axis, across, to_tangent, radii_mm: self.radii_mm }
    }

    /// The same round where height is counted the other way, from `z_mm` down.
    #[must_use]
    pub(super) fn overturned(&self, z_mm: f64) -> Self {
        let flip = |v: Vector3| Vector3::new(v.x, v.y, -v.z);
        let Point3 { x, y, z } = self.centre;
        let (axis, across, to_tangent) = (flip(self.axis), flip(self.across), flip(self.to_tangent));
        Self { centre: Point3::new(x, y, z_mm - z), axis, across, to_tangent, radii_mm: self.radii_mm }
    }

    /// The inside and the outside of the metal after a share of the turn, at the start of the edge.
    ///
    /// Source: plane geometry; the bend is round about one centre, which stands over the parent's tangent line.
    #[must_use]
    pub fn places(&self, turn_rad: f64) -> [Point3; 2] {
        let radial = self.across * trig::sin(turn_rad) + self.to_tangent * trig::cos(turn_rad);
        self.radii_mm.map(|radius_mm| self.centre + radial * radius_mm)
    }

    /// A place in or about the bend: so far along it from the start of the edge, after a share of the turn, and so far from
    /// the axis.
    #[must_use]
    pub fn place(&self, along_mm: f64, turn_rad: f64, radius_mm: f64) -> Point3 {
        let radial = self.across * trig::sin(turn_rad) + self.to_tangent * trig::cos(turn_rad);
        self.centre + self.axis * along_mm + radial * radius_mm
    }

    /// Where a place stands to the bend: along it from the start of the edge, mm; its angle about the axis from the parent's
    /// tangent line, radians; its distance from the axis, mm.
    #[must_use]
    pub fn about(&self, place: Point3) -> (f64, f64, f64) {
        let off = place - self.centre;
        let (x, y) = (off.dot(self.across), off.dot(self.to_tangent));
        (off.dot(self.axis), trig::atan2(x, y), (x * x + y * y).sqrt())
    }

    /// Where a straight way in the unit direction `toward` enters and leaves the cylinder of a radius about the axis, mm from
    /// `place`; `None` where it passes by or runs along the axis.
    #[must_use]
    pub fn crossings(&self, place: Point3, toward: Vector3, radius_mm: f64) -> Option<[f64; 2]> {
        let off = place - self.centre;
        let (x, y) = (off.dot(self.across), off.dot(self.to_tangent));
        let (along_x, along_y) = (toward.dot(self.across), toward.dot(self.to_tangent));
        let squared = along_x * along_x + along_y * along_y;
        let nearest = -(x * along_x + y * along_y);
        let within = nearest * nearest - squared * (x * x + y * y - radius_mm * radius_mm);
        (squared > tolerance::PARALLEL_SINE && within > 0.0)
            .then(|| [-1.0, 1.0].map(|side| (nearest + side * within.sqrt()) / squared))
    }

    /// Inside and outside radius, mm.
    #[must_use]
    pub const fn radii_mm(&self) -> [f64; 2] {
        self.radii_mm
    }
}
