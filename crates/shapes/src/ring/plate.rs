//! One plate of a ring: its frame, its four edge lines, its corners.

use fold::part::{Side, child_frame};
use geometry::{Frame, Point, Point3, Vector, tolerance};

use super::line::Line;
use super::{EndLimit, Ring, RingError, corner};

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

    /// The cut at the side's end: against the next side's plate, or its own.
    fn end_line(&self) -> Option<Line> {
        match corner::meeting(self.ring, self.side, self.band, self.middle()) {
            Some(meeting) => {
                self.trimmed(((self.side + 1) % self.ring.sides.len(), meeting.outside), meeting.trims_mm[0])
            }
            None => self.alone(1),
        }
    }

    /// The cut at the side's start: against the plate of the side before, or its own.
    fn start_line(&self) -> Option<Line> {
        let before = (self.side + self.ring.sides.len() - 1) % self.ring.sides.len();
        match corner::meeting(self.ring, before, self.band, self.middle()) {
            Some(meeting) => self.trimmed((before, meeting.outside), meeting.trims_mm[1]),
            None => self.alone(0),
        }
    }

    /// The cut at the side's start (0) or end (1) where no plate meets this one: square, or where a square end would pass its
    /// limit, from its bend to where its far edge comes up to that limit.
    fn alone(&self, end: usize) -> Option<Line> {
        let back_mm = corner::past_drawn_mm(self.ring, (self.side, self.band), end);
        // The bend runs from the side's end to its start.
        let square_mm = if end == 0 { self.edge_mm - back_mm } else { back_mm };
        let upright = Vector::new(0.0, 1.0);
        let square = Line { point: Point::new(square_mm, 0.0), direction: upright };
        let ring_side = &self.ring.sides[self.side];
        if ring_side.limits.is_empty() || self.band + 1 < ring_side.bands.len() {
            return Some(square);
        }
        let far = corner::far_line(self.ring, self.side, self.band, &self.frame)?;
        let far_mm = square.crossing(far)?.y;
        let limits = ring_side.limits.iter().filter_map(|limit| self.limit_mm(limit, far_mm, end));
        let most_mm = if end == 0 {
            limits.fold(square_mm, |least: f64, mm| least.min(mm))
        } else {
            limits.fold(square_mm, |most: f64, mm| most.max(mm))
        };
        if (most_mm - square_mm).abs() <= tolerance::SAME_POINT_MM {
            return Some(square);
        }
        Line::through(square.point, Point::new(most_mm, far_mm))
    }

    /// Where a limit crosses the level that metal beyond the far edge reaches, along the bend; `None` where it does not limit
    /// this end.
    fn limit_mm(&self, limit: &EndLimit, far_mm: f64, end: usize) -> Option<f64> {
        let along = limit.plane.normal.dot(self.frame.x);
        let limits = if end == 0 { along > 0.0 } else { along < 0.0 };
        let level =
            Line { point: Point::new(0.0, far_mm + limit.beyond_mm), direction: Vector::new(1.0, 0.0) };
        let trace = Line::trace(&self.frame, limit.plane, 0.0).filter(|_| limits)?;
        Some(trace.crossing(level)?.x)
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
