//! Steps too small to cut by hand, where a face ends a little farther along a tangent line than the bend zone beside it.
//!
//! A zone is cut back to its own side of a seam, or to the shorter of two tangent lines, whatever that takes; the face beside
//! it keeps its own end, and between the two a step is left. Where that is finer than a hand cuts, the corner of the face is cut
//! off from the end of the zone on: a stroke of the file up to a millimetre long, that only takes metal off.

use geometry::{Contour, Point, Segment, polygon, tolerance};

use super::Placement;
use super::outline::{FaceLayout, Walk};
use crate::part::FoldedPart;

/// Steps finer than this are not cut, mm: half a blade's kerf (common practice, no source).
pub(super) const LEAST_MM: f64 = 0.25;

/// How much longer the cut is along the face's edge than the step is high.
const STEEPNESS: f64 = 4.0;

/// How far along the next edge a cut over a step of this depth begins, mm.
pub(super) fn long_mm(step_mm: f64) -> f64 {
    (STEEPNESS * step_mm).max(2.0 * LEAST_MM)
}

/// What was done to a face.
pub(super) enum Cut {
    /// A corner was cut off.
    New {
        /// The face.
        face: usize,
        /// The cut edge that the corner was at the end of.
        edge: usize,
        /// Both ends of the cut, in the face's coordinates.
        ends: [Point; 2],
    },
    /// The end of a cut that was there already was moved on.
    Moved {
        /// The face.
        face: usize,
        /// Where the cut ended, and where it ends now, in the face's coordinates.
        ends: [Point; 2],
    },
}

/// An end of a tangent line of a face.
struct End {
    face: usize,
    corner: usize,
    /// The tangent line starts there, going round the face.
    starts: bool,
    /// Where the zone ends on it.
    zone: Point,
}

/// Cuts off the corners of faces that stand out beside zones by less than [`LEAST_MM`].
pub(super) fn cut(
    part: &FoldedPart,
    placements: &[Placement],
    layouts: &mut [FaceLayout],
    walk: &Walk,
) -> Vec<Cut> {
    let mut cuts = Vec::new();
    for (bend, [start, end]) in part.bends.iter().zip(&walk.zone_ends) {
        let after = (bend.parent_edge + 1) % part.faces[bend.parent].edges.len();
        // The child runs back along its parent's edge.
        let ends = [
            End { face: bend.parent, corner: bend.parent_edge, starts: true, zone: start[0] },
            End { face: bend.parent, corner: after, starts: false, zone: end[0] },
            End { face: bend.child, corner: 1, starts: false, zone: start[1] },
            End { face: bend.child, corner: 0, starts: true, zone: end[1] },
        ];
        let made = ends.iter().filter_map(|end| end.cut(part, &placements[end.face], &mut layouts[end.face]));
        cuts.extend(made);
    }
    cuts
}

/// The outline without corners that are none: next to an edge finer than [`LEAST_MM`], those that lie on the straight between
/// their neighbours, or stand out from it by less than half of what refolding lets pass.
pub(super) fn without_false_corners(outer: Contour) -> Contour {
    let Some(corners) = straight_corners(&outer) else { return outer };
    let mut kept = corners;
    while let Some(number) = false_corner(&kept) {
        kept.remove(number);
    }
    Contour::polygon(&kept)
}

/// The corners of an outline that has no arcs.
fn straight_corners(outer: &Contour) -> Option<Vec<Point>> {
    let corner = |segment: &Segment| match segment {
        Segment::Line { to } => Some(*to),
        Segment::Arc { .. } => None,
    };
    outer.segments.iter().map(corner).collect()
}

fn false_corner(corners: &[Point]) -> Option<usize> {
    let count = corners.len();
    (0..count).filter(|_| 3 < count).find(|&number| {
        let [before, at, after] = [count - 1, 0, 1].map(|step| corners[(number + step) % count]);
        // The metal lies to the left: what stands out lies to the right of the straight.
        let stands_out_mm = (at - before).cross((after - before).unit());
        before.distance(at).min(at.distance(after)) < LEAST_MM
            && -tolerance::SAME_POINT_MM <= stands_out_mm
            && polygon::point_to_segment(at, (before, after)) <= 0.5 * tolerance::REFOLD_MM
    })
}

impl End {
    fn cut(&self, part: &FoldedPart, placement: &Placement, layout: &mut FaceLayout) -> Option<Cut> {
        let count = layout.at.len();
        let corners = &layout.at[self.corner];
        let last = if self.starts { corners.len() - 1 } else { 0 };
        let (corner, single) = (corners[last], corners.len() == 1);
        let zone = placement.frame().local(geometry::Frame::WORLD.place(self.zone, 0.0)).0;
        let step_mm = zone.distance(corner);
        if step_mm <= tolerance::SAME_POINT_MM || LEAST_MM <= step_mm {
            return None;
        }
        if !single {
            layout.at[self.corner][last] = zone;
            return Some(Cut::Moved { face: self.face, ends: [corner, zone] });
        }
        // The cut edge that meets the tangent line there, and the way along it from the corner.
        let edge = if self.starts { (self.corner + count - 1) % count } else { self.corner };
        let [from, to] = layout.edge(edge);
        let far = if self.starts { from } else { to };
        let (along, inward) = ((far - corner).unit(), (zone - corner).unit());
        let turn = if self.starts { inward.cross(along) } else { along.cross(inward) };
        let long_mm = long_mm(step_mm);
        let is_cut = part.bend_of(self.face, edge).is_none();
        if !is_cut || turn <= tolerance::SAME_HEADING_SINE || corner.distance(far) <= 4.0 * long_mm {
            return None;
        }
        let begins = corner + along * long_mm;
        let points = if self.starts { [begins, zone] } else { [zone, begins] };
        layout.at[self.corner] = points.to_vec();
        Some(Cut::New { face: self.face, edge, ends: points })
    }
}
