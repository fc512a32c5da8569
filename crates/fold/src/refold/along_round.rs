//! Seams between pieces along a bend: a round of one piece beside an edge of another that follows it, or beside which an edge
//! runs straight.

use geometry::{Frame, Point, Point3, tolerance};

use super::seam::SeamGap;
use super::whole::{JointEnd, PlacedPiece, bodies, frames, left_of};
use crate::part::SeamStyle;

/// A bend of one piece and what of another piece's edge follows it.
#[derive(Debug, Clone, PartialEq)]
pub struct RoundJoint {
    /// What it is called.
    pub name: String,
    /// The piece and its bend.
    pub bend: (usize, usize),
    /// The other piece and its face.
    pub face: (usize, usize),
    /// Corners of that face along the round, in its own coordinates.
    pub places: Vec<Point>,
    /// Angle between the two plates inside, radians.
    pub inside_angle_rad: f64,
    /// Its length, mm.
    pub length_mm: f64,
    /// How the two meet.
    pub style: SeamStyle,
}

/// A seam along a bend as refolded.
#[derive(Debug, Clone, PartialEq)]
pub struct RoundGap {
    /// What was measured.
    pub gap: SeamGap,
    /// Whether a relief has cut away all of the edge that would follow the bend.
    pub cut_away: bool,
}

/// Measures every seam along a bend on the refolded pieces, from the corners of the edge that follows it: least and largest of
/// their distances to the metal of the bend, each from the nearer side of the sheet. Where a relief has cut all of those
/// corners away, from the nearer end of the bend to what is left of the other piece.
#[must_use]
pub fn along_rounds(pieces: &[PlacedPiece<'_>], joints: &[RoundJoint]) -> Vec<RoundGap> {
    let frames: Vec<Vec<Frame>> = pieces.iter().map(frames).collect();
    let bodies = bodies(pieces, &frames);
    let gap = |joint: &RoundJoint| {
        let (other, face) = joint.face;
        let flat = pieces[other].flat;
        let cut = &flat.faces[face];
        let left = joint.places.iter().map(|&place| cut.placement.place(place)).filter(|place| {
            cut.corners.iter().any(|corner| corner.distance(*place) <= tolerance::SAME_POINT_MM)
        });
        let sides = |place: Point| [0.0, flat.thickness_mm].map(|z| frames[other][face].place(place, z));
        let bend = |at: Point3| bodies[joint.bend.0].bend_mm(joint.bend.1, at);
        let measured = left.map(|place| {
            let [back, front] = sides(place).map(bend);
            (back.0.min(front.0), back.1.max(front.1))
        });
        let mut found: Vec<(f64, f64)> = measured.collect();
        let cut_away = found.is_empty();
        if cut_away {
            let open = bodies[joint.bend.0].bend_end_off_mm(joint.bend.1, &bodies[other]);
            found = open.into_iter().flatten().map(|off| (off, 0.0)).collect();
        }
        let gap = SeamGap {
            name: joint.name.clone(),
            style: joint.style,
            least_mm: found.iter().fold(f64::INFINITY, |least, (off, _)| least.min(*off)),
            largest_mm: found.iter().fold(0.0, |most, (off, _)| most.max(*off)),
            interference_mm: found.iter().fold(0.0, |most, (_, deep)| most.max(*deep)),
            at_cut_off_mm: None,
            near_bend: None,
            inside_angle_rad: joint.inside_angle_rad,
            length_mm: joint.length_mm,
            past: None,
        };
        RoundGap { gap, cut_away }
    };
    joints.iter().map(gap).collect()
}

/// Places along an edge that are looked at, ends included.
const STATIONS: u32 = 32;

/// How far an edge of one piece, on the nearer side of its sheet, stands off the metal of the others, bends and all, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EdgeOff {
    /// Least over the middle of it.
    pub least_mm: f64,
    /// Largest over the middle of it.
    pub largest_mm: f64,
    /// Largest on the rest, at both its ends.
    pub at_ends_mm: f64,
}

/// Measures an edge against the other pieces; its middle begins and ends so far inside what is left of it on the flat, mm.
#[must_use]
pub fn edge_off(pieces: &[PlacedPiece<'_>], end: &JointEnd, inside_mm: [f64; 2]) -> EdgeOff {
    let frames: Vec<Vec<Frame>> = pieces.iter().map(frames).collect();
    let bodies = bodies(pieces, &frames);
    let piece = &pieces[end.piece];
    let cut = &piece.flat.faces[end.face];
    let ends = piece.part.straight_edge(end.face, end.edge).map(|place| cut.placement.place(place));
    let [a, b] = left_of(ends, &cut.corners);
    let off = |share: f64| {
        let sides =
            [0.0, piece.flat.thickness_mm].map(|z| frames[end.piece][end.face].place(a.toward(b, share), z));
        let others = bodies.iter().enumerate().filter(|(number, _)| *number != end.piece);
        others.flat_map(|(_, body)| sides.map(|place| body.nearest_mm(place))).fold(f64::INFINITY, f64::min)
    };
    let length_mm = a.distance(b);
    let [from, to] = [inside_mm[0] / length_mm, 1.0 - inside_mm[1] / length_mm];
    let along = |[from, to]: [f64; 2]| {
        let found = (0..=STATIONS)
            .map(move |station| off(from + (to - from) * f64::from(station) / f64::from(STATIONS)));
        found.fold((f64::INFINITY, 0.0_f64), |(least, most), off| (least.min(off), most.max(off)))
    };
    let (least_mm, largest_mm) = along([from, to]);
    let at_ends_mm = along([0.0, from]).1.max(along([to, 1.0]).1);
    EdgeOff { least_mm, largest_mm, at_ends_mm }
}
