//! Legs in a row, each a face, folded out both ways from the one that lies flat.

use std::cmp::Ordering;

use fold::part::{Bend, Edge, Face, FoldedPart};
use geometry::{Contour, Point, tolerance};

use super::legs::Section;
use super::{BrakeProfile, ends::LegTrim};
use crate::{Making, Problem};

/// What an edge of a leg is, from the corner where it starts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Which {
    Free,
    /// The bend to the leg before.
    Before,
    /// The bend to the leg after.
    After,
}

/// Folds the section, each leg cut as `trims` says.
pub(super) fn fold(section: &Section, trims: &[LegTrim], making: &Making) -> FoldedPart {
    let corners = making.corners();
    let mut part = FoldedPart::unbent(
        making.number.clone(),
        vec![face(section, trims, section.root, None)],
        corners.relief,
        corners.notch_width_mm,
    );
    for leg in section.root + 1..section.legs.len() {
        let face = face(section, trims, leg, Some((Which::Before, trims[leg - 1].high_bend()[0])));
        add(&mut part, section, (leg - 1, Which::After), face);
    }
    for leg in (0..section.root).rev() {
        let face = face(section, trims, leg, Some((Which::After, trims[leg + 1].low_bend()[1])));
        add(&mut part, section, (leg, Which::Before), face);
    }
    part
}

/// Hangs a face on the leg nearer the flat one.
fn add(part: &mut FoldedPart, section: &Section, (number, toward): (usize, Which), face: Face) {
    let nearer = if toward == Which::After { number } else { number + 1 };
    let parent = section.part_face(nearer);
    let mark = if toward == Which::After { AFTER } else { BEFORE };
    let parent_edge = part.faces[parent].edges.iter().position(|edge| *edge == mark).unwrap_or(0);
    part.faces[parent].edges[parent_edge] = Edge::Bend(part.bends.len());
    let bend = section.bends[number];
    part.bends.push(Bend {
        parent,
        parent_edge,
        child: part.faces.len(),
        turn_rad: bend.turn_rad,
        direction: bend.direction,
        inside_radius_mm: bend.radius_mm,
        legs_to: bend.legs_to,
        forming: bend.forming,
    });
    part.faces.push(face);
}

/// Stands for a bend that is not made yet.
const BEFORE: Edge = Edge::Bend(usize::MAX);
/// Stands for a bend that is not made yet.
const AFTER: Edge = Edge::Bend(usize::MAX - 1);

/// The face of leg `leg`; `off` is the edge by which it hangs, and where along the profile that edge of the leg nearer
/// the flat one ends.
fn face(section: &Section, trims: &[LegTrim], leg: usize, off: Option<(Which, f64)>) -> Face {
    let width = section.legs[leg].outside_mm;
    let mut outline = outline(&trims[leg], width, section.beside(leg).map(|bend| bend.is_some()));
    if let Some((hung, from)) = off {
        let first = outline.iter().position(|(_, which)| *which == hung).unwrap_or(0);
        outline.rotate_left(first);
        for (point, _) in &mut outline {
            *point = local(*point, hung, from, width);
        }
    }
    let edge = |(number, (_, which)): (usize, &(Point, Which))| match which {
        Which::Free => Edge::Free,
        _ if off.is_some() && number == 0 => Edge::Parent,
        Which::Before => BEFORE,
        Which::After => AFTER,
    };
    Face {
        name: section.legs[leg].name.clone(),
        corners: outline.iter().map(|(point, _)| *point).collect(),
        edges: outline.iter().enumerate().map(edge).collect(),
        holes: Vec::new(),
        rim: None,
    }
}

/// A point of a leg, along the profile and across the leg, in the coordinates of its face.
fn local(point: Point, hung: Which, from: f64, width: f64) -> Point {
    match hung {
        Which::After => Point::new(from - point.x, width - point.y),
        Which::Free | Which::Before => Point::new(point.x - from, point.y),
    }
}

/// Corners counter-clockwise, along the profile and across the leg, each with the edge that starts there.
fn outline(trim: &LegTrim, width: f64, bent: [bool; 2]) -> Vec<(Point, Which)> {
    let mut corners = Vec::new();
    let ([start, end], [from, to]) = (trim.low, trim.low_bend());
    let apart = |a: f64, b: f64| (a - b).abs() > tolerance::SAME_POINT_MM;
    if bent[0] {
        if apart(start, from) {
            corners.push((Point::new(start, 0.0), Which::Free));
        }
        corners.push((Point::new(from, 0.0), Which::Before));
        if apart(end, to) {
            corners.push((Point::new(to, 0.0), Which::Free));
        }
    } else {
        corners.push((Point::new(start, 0.0), Which::Free));
    }
    corners.push((Point::new(end, 0.0), Which::Free));
    let ([start, end], [from, to]) = (trim.high, trim.high_bend());
    if bent[1] {
        if apart(end, to) {
            corners.push((Point::new(end, width), Which::Free));
        }
        corners.push((Point::new(to, width), Which::After));
        if apart(start, from) {
            corners.push((Point::new(from, width), Which::Free));
        }
    } else {
        corners.push((Point::new(end, width), Which::Free));
    }
    corners.push((Point::new(start, width), Which::Free));
    corners
}

/// Contours of the holes of every leg that lie in this piece, each with its leg's place in the section.
///
/// # Errors
/// Holes whose sizes cannot be, and holes on a joint.
pub(super) fn holes(
    profile: &BrakeProfile,
    section: &Section,
    span: [f64; 2],
    making: &Making,
) -> Result<Vec<(usize, Contour)>, Vec<Problem>> {
    let (mut holes, mut problems) = (Vec::new(), Vec::new());
    for (number, leg) in section.legs.iter().enumerate() {
        let Some(written) = leg.written else { continue };
        for (count, hole) in profile.legs[written].holes.iter().enumerate() {
            let field = format!("legs[{written}].holes[{count}]");
            match hole.contour(making, &field) {
                Err(more) => problems.extend(more),
                Ok(contour) => {
                    let (low, high) = contour.bounds();
                    if low.x >= span[0] && high.x <= span[1] {
                        holes.push((number, contour));
                    } else if !profile.joints.is_empty() && high.x > span[0] && low.x < span[1] {
                        let wrong = "runs over a joint or past an end";
                        problems.push(Problem::new(
                            field,
                            making.print(hole.at[0]),
                            wrong,
                            "move it or the joint",
                        ));
                    } else if profile.joints.is_empty() {
                        let wrong = "lies past the end of the profile";
                        problems.push(Problem::new(
                            field,
                            making.print(hole.at[0]),
                            wrong,
                            "check its place",
                        ));
                    }
                }
            }
        }
    }
    if problems.is_empty() { Ok(holes) } else { Err(problems) }
}

/// Cuts the holes into their faces.
pub(super) fn place_holes(
    part: &mut FoldedPart,
    section: &Section,
    trims: &[LegTrim],
    holes: &[(usize, Contour)],
) {
    for (leg, contour) in holes {
        let width = section.legs[*leg].outside_mm;
        let (hung, from) = match leg.cmp(&section.root) {
            Ordering::Less => (Which::After, trims[leg + 1].low_bend()[1]),
            Ordering::Equal => (Which::Free, 0.0),
            Ordering::Greater => (Which::Before, trims[leg - 1].high_bend()[0]),
        };
        let hole = contour.mapped(false, |point| local(point, hung, from, width));
        part.faces[section.part_face(*leg)].holes.push(hole);
    }
}
