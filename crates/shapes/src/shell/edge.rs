//! The line that bounds a plate at one of its edges, in the plate's own coordinates.

use std::f64::consts::PI;

use fold::part::Side;
use geometry::{Frame, Plane, Vector, tolerance, trig};

use super::{Joint, Shell};
use crate::ring::line::Line;

impl Shell {
    /// The line at edge `edge` of plate `plate`, whose place is `frame`; `None` where planes do not cross.
    pub(super) fn edge_line(&self, plate: usize, edge: usize, frame: &Frame) -> Option<Line> {
        let sketch = &self.plates[plate];
        let (a, b) = sketch.edge(edge);
        let (start, end) = (frame.local(a).0, frame.local(b).0);
        let inward = (end - start).unit().left();
        let Some(joint) = self.joint(plate, edge) else {
            let given = sketch.cuts.iter().find(|(cut, _)| *cut == edge).map(|(_, plane)| *plane);
            let square = Plane::through(a, -frame.direct(inward));
            return self.cut_line(given.unwrap_or(square), frame, inward);
        };
        let half_gap_mm = 0.5 * self.gap_mm([plate, joint.other]);
        if joint.turn_rad <= tolerance::PARALLEL_SINE {
            let shared = Line::through(start, end)?;
            return Some(shifted(shared, inward, half_gap_mm));
        }
        let outer = joint.direction.outside();
        if joint.bent {
            return self.trace(&joint, outer, frame);
        }
        if let Some((trim_mm, _)) = self.trim(plate, &joint) {
            return Some(shifted(self.trace(&joint, outer, frame)?, inward, trim_mm));
        }
        let inner = if outer == Side::Face { Side::Back } else { Side::Face };
        let half_angle = 0.5 * (PI - joint.turn_rad);
        let line = self.trace(&joint, inner, frame)?;
        Some(shifted(line, inward, half_gap_mm / trig::sin(half_angle)))
    }

    /// Where the same sides of two plates cross.
    fn trace(&self, joint: &Joint, side: Side, frame: &Frame) -> Option<Line> {
        Line::trace(frame, self.plane(joint.other, side), self.height_mm(side))
    }

    /// The cut by a plane: square to the plate, so that neither side of it stands out.
    fn cut_line(&self, plane: Plane, frame: &Frame, inward: Vector) -> Option<Line> {
        let back = Line::trace(frame, plane, 0.0)?;
        let face = Line::trace(frame, plane, self.thickness_mm())?;
        Some(if (face.point - back.point).dot(inward) > 0.0 { face } else { back })
    }

    fn height_mm(&self, side: Side) -> f64 {
        match side {
            Side::Face => self.thickness_mm(),
            Side::Back => 0.0,
        }
    }
}

fn shifted(line: Line, inward: Vector, distance_mm: f64) -> Line {
    let left = line.direction.left();
    let sign = if left.dot(inward) >= 0.0 { 1.0 } else { -1.0 };
    Line { point: line.point + left * (sign * distance_mm), direction: line.direction }
}
