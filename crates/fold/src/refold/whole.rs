//! The pieces of a whole, each refolded from its flat and put in its place: how their plates stand to one another along
//! the seams between pieces, and whether any two of them run into one another.

use geometry::{Frame, Point3, Vector3, tolerance};

use super::seam::{self, Plate, SeamGap};
use super::solid::{self, Solid};
use super::{RefoldError, fold};
use crate::flat::FlatPattern;
use crate::part::{FoldedPart, Seam, SeamStyle};

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

/// What putting the pieces together showed.
#[derive(Debug, Clone, PartialEq)]
pub struct WholeProof {
    /// Every seam between pieces.
    pub seams: Vec<SeamGap>,
    /// The deepest overlap of two faces of different pieces, where any lie in one another by more than
    /// [`geometry::tolerance::REFOLD_MM`].
    pub deepest: Option<Overlap>,
}

/// Measures every seam between pieces.
///
/// # Errors
/// [`RefoldError`] when a gap is off by more than [`geometry::tolerance::REFOLD_MM`], or the plates of a seam run into one
/// another.
pub fn measure(pieces: &[PlacedPiece<'_>], joints: &[Joint]) -> Result<WholeProof, RefoldError> {
    let frames: Vec<Vec<Frame>> = pieces.iter().map(frames).collect();
    let solids: Vec<Vec<Solid>> =
        pieces.iter().zip(&frames).map(|(piece, frames)| solid::of(piece.flat, frames)).collect();
    let plate = |end: &JointEnd| {
        let piece = &pieces[end.piece];
        let placement = piece.flat.faces[end.face].placement;
        let ends = piece.part.straight_edge(end.face, end.edge).map(|place| placement.place(place));
        Plate {
            edges: seam::cut_edges(&(end.face, ends), piece.flat, &frames[end.piece]),
            solid: &solids[end.piece][end.face],
        }
    };
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
        seam::between(&design, &plate(&joint.first), &plate(&joint.second))
    });
    let seams: Vec<SeamGap> = gaps.collect::<Result<_, _>>()?;
    Ok(WholeProof { seams, deepest: deepest(pieces, &solids) })
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
fn frames(piece: &PlacedPiece<'_>) -> Vec<Frame> {
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
