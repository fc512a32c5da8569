//! How far a finished part reaches, as a tape finds it.

use geometry::{Point3, tolerance, trig};

use super::pieces;
use crate::flat::{BendLine, FlatPattern};

/// Corners of the folded part that `flat` becomes, where [`super::of`] places it, mm: their least and greatest along any axis are
/// how far its metal reaches, reliefs and cut ends of bends as they are.
///
/// Bends are looked at in steps between which their outside bulges by no more than [`tolerance::OUTLINE_STEP_MM`]: R·(1 − cos(step/2))
/// (plane geometry).
#[must_use]
pub fn reach(flat: &FlatPattern) -> Vec<Point3> {
    let step_rad = |bend: &BendLine| {
        let outside_mm = bend.inside_radius_mm + flat.thickness_mm;
        2.0 * trig::acos((1.0 - tolerance::OUTLINE_STEP_MM / outside_mm).max(0.0))
    };
    let cut = pieces::apart(flat, step_rad);
    let corners = cut.pieces.iter().flat_map(|piece| {
        let ring = piece.rings.iter().flatten().map(|&corner| cut.points[corner]);
        ring.flat_map(|corner| [0.0, flat.thickness_mm].map(|z_mm| piece.fold(corner, z_mm)))
    });
    corners.collect()
}
