//! The faces of the refolded flat as plates of real thickness, and whether any two of them run into one another.

use geometry::{Frame, Point3, Slab, polygon, tolerance};

use super::RefoldError;
use crate::flat::FlatPattern;
use crate::part::FoldedPart;

/// One face, in convex pieces.
pub(super) type Solid = Vec<Slab>;

/// Every face up to the tangent lines of its bends, in space.
pub(super) fn of(flat: &FlatPattern, folded: &[Frame]) -> Vec<Solid> {
    let solid = |(face, frame): (&crate::flat::FlatFace, &Frame)| {
        let pieces = polygon::convex_pieces(&face.corners).into_iter();
        pieces.map(|piece| Slab::new(*frame, piece, flat.thickness_mm)).collect()
    };
    flat.faces.iter().zip(folded).map(solid).collect()
}

/// How far apart two faces are, mm; below zero by the deepest overlap of any of their pieces.
pub(super) fn separation_mm(first: &Solid, second: &Solid) -> f64 {
    separation_within_mm(first, second, f64::INFINITY)
}

/// The same where it is less than `within_mm`; else that.
pub(super) fn separation_within_mm(first: &Solid, second: &Solid, within_mm: f64) -> f64 {
    let mut least = within_mm;
    for own in first {
        for other in second {
            if own.boxes_apart_mm(other) < least {
                least = least.min(own.separation_mm(other));
            }
        }
    }
    least
}

/// Distance from a point to a face, mm; zero inside.
pub(super) fn distance_to_point_mm(solid: &Solid, point: Point3) -> f64 {
    solid.iter().map(|slab| slab.distance_to_point_mm(point)).fold(f64::INFINITY, f64::min)
}

/// No two faces may run into one another, wherever they are; seams have been looked at already.
pub(super) fn apart(part: &FoldedPart, flat: &FlatPattern, solids: &[Solid]) -> Result<(), RefoldError> {
    for (number, first) in solids.iter().enumerate() {
        for (other, second) in solids.iter().enumerate().skip(number + 1) {
            let depth_mm = -overlap_mm(first, second);
            if depth_mm > tolerance::REFOLD_MM && !is_seam(part, number, other) {
                let name = |face: usize| flat.faces[face].name.clone();
                return Err(RefoldError::RunsInto { first: name(number), second: name(other), depth_mm });
            }
        }
    }
    Ok(())
}

/// The deepest overlap of two faces as a number below zero; zero or more when they are apart.
pub(super) fn overlap_mm(first: &Solid, second: &Solid) -> f64 {
    let mut least = 0.0_f64;
    for own in first {
        for other in second {
            if own.boxes_apart_mm(other) <= 0.0 {
                least = least.min(own.parted_mm(other));
            }
        }
    }
    least
}

fn is_seam(part: &FoldedPart, first: usize, second: usize) -> bool {
    let pair = [first, second];
    part.seams
        .iter()
        .any(|seam| pair == [seam.first.0, seam.second.0] || pair == [seam.second.0, seam.first.0])
}
