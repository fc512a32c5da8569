//! One plate of a ring: its frame, its four edge lines, its corners.

use fold::part::{Side, child_frame};
use geometry::{Frame, Point, Point3, Vector, tolerance};

use super::line::Line;
use super::{Ring, RingError, corner};

/// A plate in the making.
pub(super) struct Plate<'a> {
    ring: &'a Ring,
    side: usize,
    band: usize,
    /// Where it lies in space.
    pub(super) frame: Frame,
    /// Length of the parent's bent edge, mm.
    edge_mm: f64,
    /// Turn of its bend, radians.
    pub(super) turn_rad: f64,
}

impl<'a> Plate<'a> {
    /// Finds the bend between the plate and its parent, whose frame and bent edge are given.
    pub(super) fn new(
        ring: &'a Ring,
        (side, band): (usize, usize),
        parent: &Frame,
        edge: (Point, Point),
    ) -> Result<Self, RingError> {
        let wanted = &ring.sides[side].bands[band];
        let before = corner::plane_before(ring, side, band);
        let turn_rad = before.normal.angle_to(wanted.plane.normal);
        let frame =
            child_frame(parent, edge, (turn_rad, wanted.direction), ring.number.thickness().millimetres());
        let off = frame.z.angle_to(wanted.plane.normal);
        if turn_rad <= tolerance::PARALLEL_SINE || off > tolerance::SAME_POINT_MM {
            return Err(RingError::NoBend { name: wanted.name.clone() });
        }
        Ok(Self { ring, side, band, frame, edge_mm: edge.0.distance(edge.1), turn_rad })
    }

    /// Its corners: along the bend from the side's end to its start, then the far edge back.
    pub(super) fn corners(&self) -> Option<Vec<Point>> {
        let bend = Line { point: Point::default(), direction: Vector::new(1.0, 0.0) };
        let far = corner::far_line(self.ring, self.side, self.band, &self.frame)?;
        let (start, end) = (self.start_line()?, self.end_line()?);
        Some(vec![bend.crossing(end)?, bend.crossing(start)?, far.crossing(start)?, far.crossing(end)?])
    }

    /// The cut at the side's end: against the next side's plate, or square.
    fn end_line(&self) -> Option<Line> {
        let back_mm = corner::past_drawn_mm(self.ring, (self.side, self.band), 1);
        let square = Line { point: Point::new(back_mm, 0.0), direction: Vector::new(0.0, 1.0) };
        match corner::meeting(self.ring, self.side, self.band, self.middle()) {
            Some(meeting) => {
                self.trimmed(((self.side + 1) % self.ring.sides.len(), meeting.outside), meeting.trims_mm[0])
            }
            None => Some(square),
        }
    }

    /// The cut at the side's start: against the plate of the side before, or square.
    fn start_line(&self) -> Option<Line> {
        let back_mm = corner::past_drawn_mm(self.ring, (self.side, self.band), 0);
        let square =
            Line { point: Point::new(self.edge_mm - back_mm, 0.0), direction: Vector::new(0.0, 1.0) };
        let before = (self.side + self.ring.sides.len() - 1) % self.ring.sides.len();
        match corner::meeting(self.ring, before, self.band, self.middle()) {
            Some(meeting) => self.trimmed((before, meeting.outside), meeting.trims_mm[1]),
            None => Some(square),
        }
    }

    /// The middle of its bend, on its back.
    fn middle(&self) -> Point3 {
        self.frame.place(Point::new(0.5 * self.edge_mm, 0.0), 0.0)
    }

    /// The corner line, moved back so that plates of real thickness meet as asked.
    fn trimmed(&self, other: (usize, Side), trim_mm: f64) -> Option<Line> {
        let line = corner::corner_line(self.ring, (self.side, self.band), other, &self.frame)?;
        let middle = Point::new(0.5 * self.edge_mm, 0.0);
        Some(line.moved_toward(middle, trim_mm))
    }
}
