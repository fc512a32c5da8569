//! Faces brought together at their seams: the edge of each runs to the line in which the two planes meet.

use geometry::{Frame, Point, Point3, Vector, Vector3, polygon, tolerance};

use super::inset_mm;
use crate::part::{Edge, FoldedPart};

/// Sine below which two faces count as lying in one plane (1°), and below which two neighbouring edges are taken for
/// parallel.
const FLAT_SINE: f64 = 0.017_452_406_437_283_51;

/// A straight line in the plane of a face.
type Line = (Point, Vector);

/// Corners of every face, in its own coordinates.
pub(super) fn faces(part: &FoldedPart, frames: &[Frame]) -> Vec<Vec<Point>> {
    let mut lines: Vec<Vec<Option<Line>>> =
        (0..part.faces.len()).map(|face| inset_lines(part, face)).collect();
    for seam in &part.seams {
        let [first, second] = [seam.first, seam.second].map(|side| edge_in_space(part, frames, side));
        let planes = [seam.first, seam.second].map(|(face, _)| frames[face].plane(0.0));
        let Some((point, along)) =
            meeting(first, second, planes.map(|plane| plane.normal), frames[seam.first.0])
        else {
            continue;
        };
        for (face, edge) in [seam.first, seam.second] {
            let frame = &frames[face];
            let tip = frame.local(point + along).0;
            let on = frame.local(point).0;
            lines[face][edge] = Some((on, tip - on));
        }
    }
    (0..part.faces.len()).map(|face| corners(&part.faces[face].corners, &lines[face])).collect()
}

/// Bent edges that fold on another line than their own.
fn inset_lines(part: &FoldedPart, face: usize) -> Vec<Option<Line>> {
    let own = &part.faces[face];
    let line = |(number, edge): (usize, &Edge)| {
        let bend = match edge {
            Edge::Free => return None,
            Edge::Bend(bend) => *bend,
            Edge::Parent => part.bends.iter().position(|bend| bend.child == face)?,
        };
        let inset_mm = inset_mm(part, bend);
        let (a, b) = own.edge(number);
        (tolerance::SAME_POINT_MM < inset_mm.abs()).then(|| (a + (b - a).unit().left() * inset_mm, b - a))
    };
    own.edges.iter().enumerate().map(line).collect()
}

fn edge_in_space(part: &FoldedPart, frames: &[Frame], (face, edge): (usize, usize)) -> [Point3; 2] {
    let (a, b) = part.faces[face].edge(edge);
    [frames[face].place(a, 0.0), frames[face].place(b, 0.0)]
}

/// A point and the direction of the line in which two faces meet; in one plane the middle between their edges.
fn meeting(
    first: [Point3; 2],
    second: [Point3; 2],
    [normal, other]: [Vector3; 2],
    frame: Frame,
) -> Option<(Point3, Vector3)> {
    let middle = |[a, b]: [Point3; 2]| a.toward(b, 0.5);
    let along = normal.cross(other);
    if along.length() <= FLAT_SINE {
        let direction = (first[1] - first[0]).unit() + (second[0] - second[1]).unit();
        return Some((middle(first).toward(middle(second), 0.5), direction.unit()));
    }
    // From the middle of the first edge along its own plane, square to the line, down to the other plane.
    let start = middle(first);
    let square = along.unit().cross(frame.z);
    let fall = other.dot(square);
    let off = other.dot(middle(second) - start);
    Some((start + square * (off / fall), along.unit()))
}

/// The corners of a face some of whose edges have moved to other lines.
fn corners(old: &[Point], lines: &[Option<Line>]) -> Vec<Point> {
    let edges: Vec<(Point, Point)> = polygon::edges(old).collect();
    let line = |number: usize| lines[number].unwrap_or((edges[number].0, edges[number].1 - edges[number].0));
    let count = old.len();
    let corner = |number: usize| {
        let before = (number + count - 1) % count;
        if lines[before].is_none() && lines[number].is_none() {
            return old[number];
        }
        let ((p, first), (q, second)) = (line(before), line(number));
        let steep = FLAT_SINE * first.length() * second.length() < first.cross(second).abs();
        let crossing = if steep { p.crossing(first, q, second) } else { None };
        crossing.unwrap_or_else(|| {
            foot(old[number], if lines[number].is_some() { (q, second) } else { (p, first) })
        })
    };
    (0..count).map(corner).collect()
}

/// The point of a line nearest to `point`.
fn foot(point: Point, (on, along): Line) -> Point {
    on + along * ((point - on).dot(along) / along.dot(along))
}
