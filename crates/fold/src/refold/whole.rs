//! The pieces of a whole, each refolded from its flat and put in its place: how their plates stand to one another along
//! the seams between pieces, and whether any two of them run into one another.

use geometry::{Frame, Point, Point3, Vector3, tolerance};

use super::rounds::Bodies;
use super::seam::{self, Plate, SeamGap};
use super::solid::{self, Solid};
use super::{RefoldError, fold};
use crate::flat::FlatPattern;
use crate::part::{FoldedPart, Seam, SeamSide, SeamStyle};

/// A piece and where it stands.
#[derive(Debug, Clone, Copy)]
pub struct PlacedPiece<'a> {
    /// What it is called: "wrap".
    pub name: &'a str,
    /// As designed.
    pub part: &'a FoldedPart,
    /// Laid flat; what is measured is refolded from it.
    pub flat: &'a FlatPattern,
    /// Where the coordinates of its root face lie.
    pub root: Frame,
}

/// One side of a seam between pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct JointEnd {
    /// The piece.
    pub piece: usize,
    /// Its face.
    pub face: usize,
    /// The face's edge; of no account where the whole face is one side of a lap.
    pub edge: usize,
}

/// A seam between two pieces.
#[derive(Debug, Clone, PartialEq)]
pub struct Joint {
    /// What it is called.
    pub name: String,
    /// One side.
    pub first: JointEnd,
    /// The other.
    pub second: JointEnd,
    /// Angle between the two plates inside, radians.
    pub inside_angle_rad: f64,
    /// Its length, mm.
    pub length_mm: f64,
    /// How the plates meet.
    pub style: SeamStyle,
    /// Gap asked for, mm.
    pub gap_mm: f64,
}

/// Two faces of different pieces that run into one another.
#[derive(Debug, Clone, PartialEq)]
pub struct Overlap {
    /// One face and its piece.
    pub first: String,
    /// The other.
    pub second: String,
    /// How deep, mm.
    pub depth_mm: f64,
}

/// Metal of two pieces that stands near one another.
#[derive(Debug, Clone, PartialEq)]
pub struct Nearness {
    /// One body and its piece.
    pub first: String,
    /// The other.
    pub second: String,
    /// The least distance between the two, mm.
    pub apart_mm: f64,
}

/// What putting the pieces together showed.
#[derive(Debug, Clone, PartialEq)]
pub struct WholeProof {
    /// Every seam between pieces.
    pub seams: Vec<SeamGap>,
    /// The deepest overlap of two pieces: of their faces, where any lie in one another by more than
    /// [`geometry::tolerance::REFOLD_MM`], or of a bend, by more than [`geometry::tolerance::ROUND_MM`].
    pub deepest: Option<Overlap>,
}

/// Measures every seam between pieces.
///
/// # Errors
/// [`RefoldError`] when a gap is off by more than [`geometry::tolerance::REFOLD_MM`], or the plates of a seam run into one
/// another.
pub fn measure(pieces: &[PlacedPiece<'_>], joints: &[Joint]) -> Result<WholeProof, RefoldError> {
    let frames: Vec<Vec<Frame>> = pieces.iter().map(frames).collect();
    let solids = solids(pieces, &frames);
    let plate = |end: &JointEnd| {
        let piece = &pieces[end.piece];
        let placement = piece.flat.faces[end.face].placement;
        let ends = piece.part.straight_edge(end.face, end.edge).map(|place| placement.place(place));
        let ends = left_of(ends, &piece.flat.faces[end.face].corners);
        Plate {
            edges: seam::cut_edges(&(end.face, ends), piece.flat, &frames[end.piece]),
            solid: &solids[end.piece][end.face],
        }
    };
    let bodies = bodies(pieces, &frames);
    let gaps = joints.iter().map(|joint| {
        let design = Seam {
            name: joint.name.clone(),
            first: (joint.first.face, joint.first.edge),
            second: (joint.second.face, joint.second.edge),
            inside_angle_rad: joint.inside_angle_rad,
            length_mm: joint.length_mm,
            style: joint.style,
            gap_mm: joint.gap_mm,
        };
        let [first, second] = [&joint.first, &joint.second].map(plate);
        let gap = seam::between(&design, &first, &second)?;
        let stops = if joint.style == (SeamStyle::Butt { through: SeamSide::First }) {
            joint.second.piece
        } else {
            joint.first.piece
        };
        let off = |place: Point3| off_others_mm(stops, &solids, &bodies, place);
        Ok(SeamGap { past: seam::past(&design, &first, &second, off), ..gap })
    });
    let seams: Vec<SeamGap> = gaps.collect::<Result<_, _>>()?;
    let of_faces = deepest(pieces, &solids);
    let of_bends = deepest_bend(pieces, &bodies);
    let deeper = of_faces.into_iter().chain(of_bends).max_by(|a, b| a.depth_mm.total_cmp(&b.depth_mm));
    Ok(WholeProof { seams, deepest: deeper })
}

/// The least distance between the metal of any two pieces, bends and all; `None` where none is less than `within_mm`.
#[must_use]
pub fn nearest(pieces: &[PlacedPiece<'_>], within_mm: f64) -> Option<Nearness> {
    let frames: Vec<Vec<Frame>> = pieces.iter().map(frames).collect();
    let solids = solids(pieces, &frames);
    let bodies = bodies(pieces, &frames);
    let mut nearest: Option<Nearness> = None;
    for own in 0..pieces.len() {
        for other in own + 1..pieces.len() {
            let name = |body: &str, piece: usize| format!("{body} of {}", pieces[piece].name);
            let mut within_mm = nearest.as_ref().map_or(within_mm, |nearest| nearest.apart_mm);
            for (first, face) in solids[own].iter().zip(&pieces[own].flat.faces) {
                for (second, its) in solids[other].iter().zip(&pieces[other].flat.faces) {
                    let apart_mm = solid::separation_within_mm(first, second, within_mm).max(0.0);
                    if apart_mm < within_mm {
                        within_mm = apart_mm;
                        let (first, second) = (name(&face.name, own), name(&its.name, other));
                        nearest = Some(Nearness { first, second, apart_mm });
                    }
                }
            }
            if let Some((apart_mm, [first, second])) = bodies[own].nearest_bend(&bodies[other], within_mm) {
                nearest = Some(Nearness { first: name(&first, own), second: name(&second, other), apart_mm });
            }
        }
    }
    nearest
}

fn solids(pieces: &[PlacedPiece<'_>], frames: &[Vec<Frame>]) -> Vec<Vec<Solid>> {
    pieces.iter().zip(frames).map(|(piece, frames)| solid::of(piece.flat, frames)).collect()
}

pub(super) fn bodies<'a>(pieces: &[PlacedPiece<'a>], frames: &[Vec<Frame>]) -> Vec<Bodies<'a>> {
    pieces.iter().zip(frames).map(|(piece, frames)| Bodies::of(piece.flat, frames)).collect()
}

/// How far a place is off the metal of every piece but one, mm: faces exactly, bends at least.
fn off_others_mm(but: usize, solids: &[Vec<Solid>], bodies: &[Bodies<'_>], place: Point3) -> f64 {
    let others = (0..solids.len()).filter(|&piece| piece != but);
    let off = |piece: usize| {
        let faces = solids[piece].iter().map(|face| solid::distance_to_point_mm(face, place));
        faces.fold(bodies[piece].bends_off_mm(place), f64::min)
    };
    others.map(off).fold(f64::INFINITY, f64::min)
}

/// What the flat has left of an edge whose corners may be cut off: from the first to the last of its corners on it.
pub(super) fn left_of([a, b]: [Point; 2], corners: &[Point]) -> [Point; 2] {
    let along = (b - a).unit();
    let on = |point: &&Point| (**point - a).cross(along).abs() <= tolerance::SAME_POINT_MM;
    let place = |point: &Point| (*point - a).dot(along);
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for at in corners.iter().filter(on).map(place) {
        (low, high) = (low.min(at), high.max(at));
    }
    if low < high { [a + along * low.max(0.0), a + along * high.min(a.distance(b))] } else { [a, b] }
}

/// The deepest that a bend of one piece lies in another piece.
fn deepest_bend(pieces: &[PlacedPiece<'_>], bodies: &[Bodies<'_>]) -> Option<Overlap> {
    let pairs = (0..pieces.len()).flat_map(|own| (own + 1..pieces.len()).map(move |other| (own, other)));
    let overlap = |(own, other): (usize, usize)| {
        let (depth_mm, names) = bodies[own].deepest_in(&bodies[other])?;
        let [first, second] = names;
        let name = |body: String, piece: usize| format!("{body} of {}", pieces[piece].name);
        Some(Overlap { first: name(first, own), second: name(second, other), depth_mm })
    };
    pairs.filter_map(overlap).max_by(|a, b| a.depth_mm.total_cmp(&b.depth_mm))
}

fn deepest(pieces: &[PlacedPiece<'_>], solids: &[Vec<Solid>]) -> Option<Overlap> {
    let mut deepest: Option<Overlap> = None;
    for (number, first) in solids.iter().enumerate() {
        for (other, second) in solids.iter().enumerate().skip(number + 1) {
            for (face, own) in first.iter().enumerate() {
                for (its, theirs) in second.iter().enumerate() {
                    let depth_mm = -solid::overlap_mm(own, theirs);
                    let least = deepest.as_ref().map_or(tolerance::REFOLD_MM, |deepest| deepest.depth_mm);
                    if depth_mm > least {
                        let name = |piece: usize, face: usize| {
                            format!("{} of {}", pieces[piece].flat.faces[face].name, pieces[piece].name)
                        };
                        deepest =
                            Some(Overlap { first: name(number, face), second: name(other, its), depth_mm });
                    }
                }
            }
        }
    }
    deepest
}

/// Where the flat of every face of a piece lies, once refolded and put in its place.
pub(super) fn frames(piece: &PlacedPiece<'_>) -> Vec<Frame> {
    let drawn = piece.flat.faces[0].placement.frame();
    let point = |place: Point3| {
        let (local, z) = drawn.local(place);
        piece.root.place(local, z)
    };
    let direction = |vector: Vector3| {
        piece.root.x * vector.dot(drawn.x)
            + piece.root.y * vector.dot(drawn.y)
            + piece.root.z * vector.dot(drawn.z)
    };
    let moved = |frame: &Frame| Frame {
        origin: point(frame.origin),
        x: direction(frame.x),
        y: direction(frame.y),
        z: direction(frame.z),
    };
    fold(piece.flat).iter().map(moved).collect()
}
