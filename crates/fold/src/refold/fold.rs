//! Folding the flat: each bend rolls its zone around an arc and carries everything beyond with it.

use geometry::{Frame, Vector3, trig};

use crate::flat::{BendLine, FlatPattern};
use crate::part::Direction;

/// For every face the rigid place of the *flat's* coordinates once folded: a flat point of the face lies at
/// `frame.place(point, z)`, z from 0 on the back to T on the face side.
#[must_use]
pub fn fold(flat: &FlatPattern) -> Vec<Frame> {
    let mut frames = vec![Frame::WORLD; flat.faces.len()];
    for bend in &flat.bends {
        frames[bend.child] = beyond(&frames[bend.parent], bend, flat);
    }
    frames
}

/// The place of everything beyond a bend.
///
/// The zone of width w wraps around an arc of inside radius R on the inner side; its neutral line keeps its
/// length, so the far tangent line arrives where the near one was, turned about the arc's centre.
pub(crate) fn beyond(parent: &Frame, bend: &BendLine, flat: &FlatPattern) -> Frame {
    let (along, across) = (bend.along(), bend.across());
    let near = bend.from - across * (0.5 * bend.zone_mm);
    let (centre_z, sign) = match bend.direction {
        Direction::Up => (flat.thickness_mm + bend.inside_radius_mm, 1.0),
        Direction::Down => (-bend.inside_radius_mm, -1.0),
    };
    let centre = parent.place(near, centre_z);
    let axis = parent.direct(along) * -sign;
    let turn = |vector: Vector3| turned(vector, axis, bend.turn_rad);
    let slid = parent.origin + parent.direct(across) * -bend.zone_mm;
    Frame { origin: centre + turn(slid - centre), x: turn(parent.x), y: turn(parent.y), z: turn(parent.z) }
}

/// `vector` turned right-handed about the unit `axis`.
fn turned(vector: Vector3, axis: Vector3, radians: f64) -> Vector3 {
    let (sine, cosine) = (trig::sin(radians), trig::cos(radians));
    vector * cosine + axis.cross(vector) * sine + axis * (axis.dot(vector) * (1.0 - cosine))
}
