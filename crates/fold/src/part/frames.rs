//! Where every face lies once folded, worked out from the design alone.

use geometry::{Frame, Point, trig};

use super::{Bend, Direction, FoldedPart, LegsTo};

impl FoldedPart {
    /// The folded place of every face; the root lies in the world's xy plane. Over mold lines where legs run to them,
    /// else round the bend's arc.
    #[must_use]
    pub fn frames(&self) -> Vec<Frame> {
        let mut frames = vec![Frame::WORLD; self.faces.len()];
        for bend in &self.bends {
            frames[bend.child] = self.frame_beyond(&frames[bend.parent], bend);
        }
        frames
    }

    fn frame_beyond(&self, parent: &Frame, bend: &Bend) -> Frame {
        let edge = self.faces[bend.parent].edge(bend.parent_edge);
        let turn = (bend.turn_rad, bend.direction);
        match bend.legs_to {
            LegsTo::MoldLine => child_frame(parent, edge, turn, self.thickness_mm()),
            LegsTo::OutermostMetal => {
                arc_frame(parent, edge, turn, (bend.inside_radius_mm, self.thickness_mm()))
            }
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

/// The frame of a child beyond an arc of `radius_mm`, where the legs of both run R + T past their tangent lines.
fn arc_frame(
    parent: &Frame,
    edge: (Point, Point),
    (turn_rad, direction): (f64, Direction),
    (radius_mm, thickness_mm): (f64, f64),
) -> Frame {
    let along = (edge.1 - edge.0).unit();
    let setback_mm = radius_mm + thickness_mm;
    let (cosine, sine) = (trig::cos(turn_rad), trig::sin(turn_rad));
    let outward = parent.direct(along.right());
    // The back lies on the outer side of an up bend and on the inner side of a down bend.
    let (centre_z, toward, back_radius_mm) = match direction {
        Direction::Up => (thickness_mm + radius_mm, parent.z, thickness_mm + radius_mm),
        Direction::Down => (-radius_mm, -parent.z, radius_mm),
    };
    let x = parent.direct(-along);
    let y = outward * cosine + toward * sine;
    let centre = parent.place(edge.1, centre_z) + outward * -setback_mm;
    let tangent = centre + (outward * sine - toward * cosine) * back_radius_mm;
    Frame { origin: tangent + y * -setback_mm, x, y, z: x.cross(y) }
}
