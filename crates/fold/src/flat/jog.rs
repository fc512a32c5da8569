//! Steps too small to cut by hand, where a face ends a little farther along a tangent line than the bend zone beside it.
//!
//! A zone is cut back to its own side of a seam, or to the shorter of two tangent lines, whatever that takes; the face beside
//! it keeps its own end, and between the two a step is left. Where that is finer than a hand cuts, the corner of the face is cut
//! off from the end of the zone on: a stroke of the file up to a millimetre long, that only takes metal off. Where no corner can
//! be cut off, beside another bend or on a short edge, the zone is ended so much sooner that the step can be cut ([`SetBack`]).

use geometry::{Contour, Point, Segment, polygon, tolerance};

use super::Placement;
use super::outline::{FaceLayout, Walk};
use crate::part::FoldedPart;

/// Steps finer than this are not cut, mm: half a blade's kerf (common practice, no source).
pub(super) const LEAST_MM: f64 = 0.25;

/// How much longer the cut is along the face's edge than the step is high.
const STEEPNESS: f64 = 4.0;

/// Bends shorter than so many of such steps are left as they are.
const LEAST_LONG: f64 = 8.0;

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

/// Ends of bend zones that are set back farther than they must be: where the zone ends so little before the face beside it that
/// nobody cuts the step between the two, and no corner of the face can be cut off, the step is made as deep as can be cut.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct SetBack(Vec<[[bool; 2]; 2]>);

impl SetBack {
    /// None of a part with so many bends.
    pub(super) fn none(bends: usize) -> Self {
        Self(vec![[[false; 2]; 2]; bends])
    }

    /// Of the steps that are left.
    pub(super) fn of_steps(
        part: &FoldedPart,
        placements: &[Placement],
        layouts: &[FaceLayout],
        walk: &Walk,
    ) -> Self {
        let sets = |end: End| {
            let layout = &layouts[end.face];
            let count = layout.at.len();
            let [from, to] =
                layout.edge(if end.starts { end.corner } else { (end.corner + count - 1) % count });
            LEAST_LONG * LEAST_MM < from.distance(to) && end.is_fine(&placements[end.face], layout)
        };
        let of = |number: usize| ends(part, number, walk).map(|both| both.map(sets));
        Self((0..part.bends.len()).map(of).collect())
    }

    /// True where any is set back.
    pub(super) fn any(&self) -> bool {
        self.0.iter().flatten().flatten().any(|set| *set)
    }

    /// Whether the start or the end of a zone is, on the parent's and on the child's tangent line.
    pub(super) fn of(&self, bend: usize, at_end: bool) -> [bool; 2] {
        self.0[bend][usize::from(at_end)]
    }
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
    for number in 0..part.bends.len() {
        for end in ends(part, number, walk).iter().flatten() {
            cuts.extend(end.cut(part, &placements[end.face], &mut layouts[end.face]));
        }
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

/// The ends of the tangent lines at the start and at the end of a bend: the parent's and the child's.
fn ends(part: &FoldedPart, number: usize, walk: &Walk) -> [[End; 2]; 2] {
    let (bend, [start, end]) = (&part.bends[number], walk.zone_ends[number]);
    let after = (bend.parent_edge + 1) % part.faces[bend.parent].edges.len();
    // The child runs back along its parent's edge.
    [
        [
            End { face: bend.parent, corner: bend.parent_edge, starts: true, zone: start[0] },
            End { face: bend.child, corner: 1, starts: false, zone: start[1] },
        ],
        [
            End { face: bend.parent, corner: after, starts: false, zone: end[0] },
            End { face: bend.child, corner: 0, starts: true, zone: end[1] },
        ],
    ]
}

impl End {
    /// The corner of the face, in its own coordinates, and where the zone ends, there too.
    fn places(&self, placement: &Placement, layout: &FaceLayout) -> [Point; 2] {
        let corners = &layout.at[self.corner];
        let last = if self.starts { corners.len() - 1 } else { 0 };
        let zone = placement.frame().local(geometry::Frame::WORLD.place(self.zone, 0.0)).0;
        [corners[last], zone]
    }

    /// True where the step between zone and face is too fine to cut.
    fn is_fine(&self, placement: &Placement, layout: &FaceLayout) -> bool {
        let [corner, zone] = self.places(placement, layout);
        (tolerance::SAME_POINT_MM..LEAST_MM).contains(&zone.distance(corner))
    }

    fn cut(&self, part: &FoldedPart, placement: &Placement, layout: &mut FaceLayout) -> Option<Cut> {
        let count = layout.at.len();
        if !self.is_fine(placement, layout) {
            return None;
        }
        let [corner, zone] = self.places(placement, layout);
        let step_mm = zone.distance(corner);
        let corners = layout.at[self.corner].len();
        if corners != 1 {
            layout.at[self.corner][if self.starts { corners - 1 } else { 0 }] = zone;
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
