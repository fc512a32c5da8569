//! The part without thickness, unfolded: what a model of paper is cut from.
//!
//! Faces run to their mold lines and lose nothing to bends; cut edges that meet at a seam run to where the two faces
//! meet. Paper then closes where metal closes. This is never a pattern for metal: its bends have no allowance.

mod meet;

use geometry::{Contour, Frame, Point, Point3, Vector, tolerance};

use crate::flat::Placement;
use crate::part::{Direction, Edge, FoldedPart, LegsTo, child_frame};

/// The part without thickness, laid flat, seen from its face side, mm.
#[derive(Debug, Clone, PartialEq)]
pub struct ThinPattern {
    /// The faces, numbered as in the folded part.
    pub faces: Vec<ThinFace>,
    /// The folds, numbered as the bends of the folded part.
    pub folds: Vec<ThinFold>,
    /// The seams, numbered as in the folded part.
    pub seams: Vec<ThinSeam>,
}

/// One face of it.
#[derive(Debug, Clone, PartialEq)]
pub struct ThinFace {
    /// Its name.
    pub name: String,
    /// Its corners in the flat, counter-clockwise.
    pub corners: Vec<Point>,
    /// Edge i runs from corner i to the next.
    pub edges: Vec<Edge>,
    /// Its holes in the flat, clockwise.
    pub holes: Vec<Contour>,
}

/// A line to fold on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThinFold {
    /// Its ends: where both faces are.
    pub ends: [Point; 2],
    /// The face nearer the root.
    pub parent: usize,
    /// The face beyond.
    pub child: usize,
    /// Turn from flat, radians.
    pub turn_rad: f64,
    /// Up or down, as seen from the face side.
    pub direction: Direction,
}

/// Two edges that meet when folded.
#[derive(Debug, Clone, PartialEq)]
pub struct ThinSeam {
    /// Its name.
    pub name: String,
    /// Face and edge number on one side.
    pub first: (usize, usize),
    /// Face and edge number on the other.
    pub second: (usize, usize),
    /// Widest gap along the seam when the paper is folded, mm in the size of the part; zero where it closes.
    pub open_mm: f64,
}

/// Lays the part flat without its thickness.
#[must_use]
pub fn unfold(part: &FoldedPart) -> ThinPattern {
    let frames = frames(part);
    let shapes = meet::faces(part, &frames);
    let placements = placements(part);
    let face = |number: usize| {
        let (face, place) = (&part.faces[number], placements[number]);
        ThinFace {
            name: face.name.clone(),
            corners: shapes[number].iter().map(|&corner| place.place(corner)).collect(),
            edges: face.edges.clone(),
            holes: face.holes.iter().map(|hole| hole.mapped(false, |p| place.place(p))).collect(),
        }
    };
    let faces: Vec<ThinFace> = (0..part.faces.len()).map(face).collect();
    let folds = (0..part.bends.len()).map(|number| fold_line(part, number, &faces)).collect();
    let seams = part.seams.iter().map(|seam| ThinSeam {
        name: seam.name.clone(),
        first: seam.first,
        second: seam.second,
        open_mm: open_mm(
            edge_in_space(&shapes, &frames, seam.first),
            edge_in_space(&shapes, &frames, seam.second),
        ),
    });
    ThinPattern { seams: seams.collect(), faces, folds }
}

/// How far each of the two bent edges lies from the fold line, out of its face, mm: nothing where legs run to the mold
/// line. Hems and curls have none; paper is folded where their bend line lies.
fn inset_mm(part: &FoldedPart, bend: usize) -> f64 {
    match part.bends[bend].legs_to {
        LegsTo::MoldLine => 0.0,
        LegsTo::OutermostMetal => 0.5 * part.deduction_mm(bend),
    }
}

/// The folded place of every face.
fn frames(part: &FoldedPart) -> Vec<Frame> {
    let mut frames = vec![Frame::WORLD; part.faces.len()];
    for (number, bend) in part.bends.iter().enumerate() {
        let (a, b) = part.faces[bend.parent].edge(bend.parent_edge);
        let inset_mm = inset_mm(part, number);
        let inward = (b - a).unit().left() * inset_mm;
        let turn = (bend.turn_rad, bend.direction);
        let mut frame = child_frame(&frames[bend.parent], (a + inward, b + inward), turn, 0.0);
        frame.origin = frame.origin + frame.y * -inset_mm;
        frames[bend.child] = frame;
    }
    frames
}

/// Where each face lies in the flat.
fn placements(part: &FoldedPart) -> Vec<Placement> {
    let mut placements = vec![Placement::IDENTITY; part.faces.len()];
    for (number, bend) in part.bends.iter().enumerate() {
        let (a, b) = part.faces[bend.parent].edge(bend.parent_edge);
        let along = (b - a).unit();
        let origin = b + along.left() * (2.0 * inset_mm(part, number));
        let parent = placements[bend.parent];
        placements[bend.child] = Placement { origin: parent.place(origin), x: parent.direct(-along) };
    }
    placements
}

/// The stretch of a fold on which both faces lie.
fn fold_line(part: &FoldedPart, number: usize, faces: &[ThinFace]) -> ThinFold {
    let bend = part.bends[number];
    let edge = |face: usize, edge: usize| {
        let corners = &faces[face].corners;
        [corners[edge], corners[(edge + 1) % corners.len()]]
    };
    let ([from, to], [child_to, child_from]) = (edge(bend.parent, bend.parent_edge), edge(bend.child, 0));
    let along: Vector = (to - from).unit();
    let at = |point: Point| (point - from).dot(along);
    let (start, end) = (at(child_from).max(0.0), at(child_to).min(at(to)));
    ThinFold {
        ends: [from + along * start, from + along * end],
        parent: bend.parent,
        child: bend.child,
        turn_rad: bend.turn_rad,
        direction: bend.direction,
    }
}

fn edge_in_space(shapes: &[Vec<Point>], frames: &[Frame], (face, edge): (usize, usize)) -> [Point3; 2] {
    let corners = &shapes[face];
    [corners[edge], corners[(edge + 1) % corners.len()]].map(|corner| frames[face].place(corner, 0.0))
}

/// Widest distance between two edges where they run beside one another, measured from the ends of either; endless where
/// they do not.
fn open_mm(first: [Point3; 2], second: [Point3; 2]) -> f64 {
    let off = |point: Point3, [a, b]: [Point3; 2]| {
        let along = b - a;
        let slack = tolerance::DRAWN_POINT_MM / along.length();
        let share = (point - a).dot(along) / along.dot(along);
        (-slack..=1.0 + slack).contains(&share).then(|| point.distance(a.toward(b, share)))
    };
    let ends = first.iter().filter_map(|&end| off(end, second));
    let offs: Vec<f64> = ends.chain(second.iter().filter_map(|&end| off(end, first))).collect();
    offs.iter().copied().max_by(f64::total_cmp).unwrap_or(f64::INFINITY)
}
