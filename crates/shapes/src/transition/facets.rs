//! The triangles of a transition in a row, cut back at the corners of the rectangle and at the seam. Beside a lapped seam
//! the two of a side have a fourth corner, at the end of the flat that the round has there.

use fold::part::{Bend, Edge, Face, FoldedPart, Forming, LegsTo, Relief, Seam, SeamStyle};
use fold::{Direction, bend::formula};
use geometry::{Frame, Point, Point3, Vector3, tolerance, trig};

use super::{CORNERS, Layout, lap, no_bend};
use crate::{Making, Problem};

/// The edge of the last triangle that lies at a butted seam; of the first it is edge 0.
const SEAM_EDGE: usize = 1;

/// A corner of a flat triangle.
#[derive(Debug, Clone, Copy)]
struct At {
    place: Point3,
    /// The corner of the rectangle that it is; else it lies on the round, or at the foot of the seam.
    corner: Option<usize>,
}

/// A triangle as seen from the inside, counter-clockwise from the end of the bend to the one before; the seam instead of
/// that bend on the first.
#[derive(Debug, Clone)]
pub(super) struct Flat {
    name: String,
    corners: Vec<At>,
    /// Which edge is the bend to the next; the seam on the last.
    high: usize,
}

/// The triangles from the middle of one side to the middle of another.
pub(super) fn flats(layout: &Layout<'_>, [from, to]: [usize; 2]) -> Vec<Flat> {
    let shape = layout.shape;
    let quarter = shape.per_quarter();
    let free = |place: Point3| At { place, corner: None };
    let corner = |number: usize| At { place: shape.corner(number), corner: Some(number % 4) };
    let round = |side: usize, step: usize| free(layout.round_at(side % 4, step));
    let [starts, ends] = layout.seam_lines([from, to]).map(|line| line.map(free));
    let side = |side: usize| format!("side {}", super::side_name(side));
    let is_flat = 0.0 < layout.half_flat_rad;
    let mut corners = starts.to_vec();
    if is_flat {
        corners.push(round(from, 0));
    }
    corners.push(corner(from + 1));
    let mut flats = vec![Flat { name: side(from), high: corners.len() - 2, corners }];
    for number in from..to {
        let own = number + 1;
        for step in 0..quarter {
            flats.push(Flat {
                name: format!("{} {}", CORNERS[own % 4], step + 1),
                corners: vec![corner(own), round(number, step), round(number, step + 1)],
                high: 2,
            });
        }
        let apex = round(number, quarter);
        let (corners, high) = match own == to {
            true if is_flat => (vec![corner(own), apex, ends[1], ends[0]], 2),
            true => (vec![corner(own), apex, ends[0]], 1),
            false => (vec![corner(own), apex, corner(own + 1)], 1),
        };
        flats.push(Flat { name: side(own), corners, high });
    }
    flats
}

/// What folding needs to know of one triangle.
struct Laid {
    points: Vec<Point3>,
    /// Toward the inside.
    normal: Vector3,
}

/// Corners of the rectangle, each with the radius cut away about it, mm.
pub(super) type CutAway = Vec<(&'static str, f64)>;

/// Folds the triangles; also gives the radius cut away about each corner of the rectangle.
pub(super) fn fold(
    layout: &Layout<'_>,
    flats: &[Flat],
    making: &Making,
) -> Result<(FoldedPart, CutAway), Problem> {
    let laid: Vec<Laid> = flats.iter().map(lay).collect();
    let turns = turns(&laid, making)?;
    let reliefs = reliefs(flats, &laid, &turns, making)?;
    let made = making.corners();
    // Where two bends of a triangle meet at the round, a sawn nick is enough; nothing is drilled in an open edge.
    let mut part = FoldedPart::unbent(making.number.clone(), Vec::new(), Relief::Square, made.notch_width_mm);
    for (number, flat) in flats.iter().enumerate() {
        add(&mut part, (number, flat, &laid[number]), turns.get(number).copied(), &reliefs, making);
    }
    close(&mut part, layout, making);
    let named = reliefs.iter().enumerate().filter(|(_, radius)| **radius > 0.0);
    Ok((part, named.map(|(corner, radius)| (CORNERS[corner], *radius)).collect()))
}

/// Where the first triangle lies in space.
pub(super) fn root_frame(flats: &[Flat]) -> Option<Frame> {
    let laid = lay(flats.first()?);
    Some(frame(laid.points[0], laid.points[1], laid.normal))
}

/// How far the metal beside the seam at the start and at the end of a piece is flat, along the round and along the
/// rectangle: what its bend, and what is cut away at the corner, leave of either edge, mm.
pub(super) fn flat_beside_seams(flats: &[Flat], making: &Making) -> Result<[[f64; 2]; 2], Problem> {
    let laid: Vec<Laid> = flats.iter().map(lay).collect();
    let turns = turns(&laid, making)?;
    let reliefs = reliefs(flats, &laid, &turns, making)?;
    let radius = making.number.inside_radius().millimetres();
    let left = |number: usize, [foot, top, apex, corner]: [usize; 4], turn: Option<&f64>| {
        let points = &laid[number].points;
        let setback = formula::setback(turn.copied().unwrap_or_default(), radius, making.thickness_mm());
        let bend = points[corner] - points[apex];
        let sine = trig::sin(bend.angle_to(points[top] - points[apex])).max(tolerance::PARALLEL_SINE);
        let cut = flats[number].corners[corner].corner.map_or(0.0, |corner| reliefs[corner]);
        [points[top].distance(points[apex]) - setback / sine, points[foot].distance(points[corner]) - cut]
    };
    Ok([left(0, [0, 1, 2, 3], turns.first()), left(laid.len() - 1, [3, 2, 1, 0], turns.last())])
}

fn lay(flat: &Flat) -> Laid {
    let points: Vec<Point3> = flat.corners.iter().map(|at| at.place).collect();
    let normal = (points[1] - points[0]).cross(points[2] - points[0]).unit();
    Laid { points, normal }
}

/// Turn of each bend, from one triangle to the next.
fn turns(laid: &[Laid], making: &Making) -> Result<Vec<f64>, Problem> {
    let mut turns = Vec::new();
    for pair in laid.windows(2) {
        let turn = pair[0].normal.angle_to(pair[1].normal);
        let far = pair[1].points[2] - pair[1].points[0];
        if no_bend(turn) || far.dot(pair[0].normal) <= 0.0 {
            let remedy = "give a height well above nothing, and sizes that differ";
            return Err(Problem::new("height", "as given", "two of its triangles make no bend", remedy));
        }
        let setback =
            formula::setback(turn, making.number.inside_radius().millimetres(), making.thickness_mm());
        let base = pair[1].points[0].distance(pair[1].points[1]);
        if setback >= 0.5 * base {
            let value = making.print_mm(base);
            let wrong = "a line of its layout is no longer than its bend";
            return Err(Problem::new("height", value, wrong, "take thinner metal, or make it larger"));
        }
        turns.push(turn);
    }
    Ok(turns)
}

/// How far about each corner of the rectangle the plate is cut away: a thickness beyond where bend zones would cross.
///
/// With setback s on both edges of a triangle of angle α the tangent lines cross at s/sin(α/2) from its corner; a cut
/// across at distance c along both edges lies at c·cos(α/2).
fn reliefs(flats: &[Flat], laid: &[Laid], turns: &[f64], making: &Making) -> Result<[f64; 4], Problem> {
    let mut reliefs = [0.0_f64; 4];
    let radius = making.number.inside_radius().millimetres();
    let setback = |turn: f64| formula::setback(turn, radius, making.thickness_mm());
    for (number, (flat, laid)) in flats.iter().zip(laid).enumerate() {
        let beside = [number.checked_sub(1), Some(number)].into_iter().flatten();
        let worst =
            beside.filter_map(|bend| turns.get(bend)).fold(0.0, |most: f64, turn| most.max(setback(*turn)));
        for (place, at) in flat.corners.iter().enumerate() {
            let Some(corner) = at.corner else { continue };
            let count = laid.points.len();
            let [a, b] = [1, count - 1].map(|step| laid.points[(place + step) % count] - laid.points[place]);
            let half = 0.5 * a.angle_to(b);
            let needed = worst / (trig::sin(half) * trig::cos(half)) + making.thickness_mm();
            reliefs[corner] = reliefs[corner].max(needed);
            let room = 0.5 * a.length().min(b.length());
            if needed > room {
                let wrong = format!(
                    "so many bends meet at corner {} that {} about it would be cut away",
                    CORNERS[corner],
                    making.print_mm(needed)
                );
                let remedy = "take thinner metal, a smaller inside radius, or make it larger";
                return Err(Problem::new("divisions", "as given", wrong, remedy));
            }
        }
    }
    Ok(reliefs)
}

/// Adds one triangle, bent off the one before.
fn add(
    part: &mut FoldedPart,
    (number, flat, laid): (usize, &Flat, &Laid),
    turn: Option<f64>,
    reliefs: &[f64; 4],
    making: &Making,
) {
    let cut = |place: usize, toward: usize| {
        let (from, to) = (laid.points[place], laid.points[toward]);
        match flat.corners[place].corner {
            Some(corner) => from + (to - from).unit() * reliefs[corner],
            None => from,
        }
    };
    let (mut corners, mut edges) = (Vec::new(), Vec::new());
    let count = flat.corners.len();
    for place in 0..count {
        let (before, after) = ((place + count - 1) % count, (place + 1) % count);
        if flat.corners[place].corner.is_some() && place != 0 {
            corners.push(cut(place, before));
            edges.push(Edge::Free);
        }
        corners.push(cut(place, after));
        edges.push(match (place, turn) {
            (0, _) if number > 0 => Edge::Parent,
            (edge, Some(_)) if edge == flat.high => Edge::Bend(part.bends.len()),
            _ => Edge::Free,
        });
    }
    if flat.corners[0].corner.is_some() {
        corners.push(cut(0, count - 1));
        edges.push(Edge::Free);
    }
    let frame = frame(corners[0], corners[1], laid.normal);
    let local: Vec<Point> = corners.iter().map(|&corner| frame.local(corner).0).collect();
    let parent_edge = edges.iter().position(|edge| matches!(edge, Edge::Bend(_)));
    part.faces.push(Face { name: flat.name.clone(), corners: local, edges, holes: Vec::new(), rim: None });
    if let (Some(turn_rad), Some(parent_edge)) = (turn, parent_edge) {
        part.bends.push(Bend {
            parent: number,
            parent_edge,
            child: number + 1,
            turn_rad,
            direction: Direction::Up,
            inside_radius_mm: making.number.inside_radius().millimetres(),
            legs_to: LegsTo::MoldLine,
            forming: Forming::Bumped(1),
        });
    }
}

fn frame(origin: Point3, toward: Point3, normal: Vector3) -> Frame {
    let x = (toward - origin).unit();
    Frame { origin, x, y: normal.cross(x), z: normal }
}

/// The face and edge of a piece that meet the first of the next: of its last triangle, or the strip bent off that.
pub(super) fn carrier(part: &FoldedPart, lapped: bool) -> (usize, usize) {
    (part.faces.len() - 1, if lapped { lap::SEAM_EDGE } else { SEAM_EDGE })
}

/// Adds the strip of a lap, or stands both sides of the seam back by half its gap, and of one piece says where they meet.
fn close(part: &mut FoldedPart, layout: &Layout<'_>, making: &Making) {
    let last = part.faces.len() - 1;
    let half = 0.5 * making.seam_gap.millimetres();
    if let Some(lap) = &layout.lap {
        lap::add(part, lap);
    } else if half > tolerance::SAME_POINT_MM {
        stand_back(&mut part.faces[0], 0, half);
        stand_back(&mut part.faces[last], SEAM_EDGE, half);
    }
    if layout.shape.made_of.sides() == 4 {
        let (a, b) = part.faces[0].edge(0);
        part.seams.push(Seam {
            name: "seam on AB".to_owned(),
            first: (0, 0),
            second: carrier(part, layout.lap.is_some()),
            inside_angle_rad: std::f64::consts::PI,
            length_mm: a.distance(b),
            style: layout.lap.map_or(SeamStyle::Open, |lap| lap.style()),
            gap_mm: making.seam_gap.millimetres(),
        });
    }
}

/// Moves an edge into its face by `by_mm`, along its neighbours.
fn stand_back(face: &mut Face, edge: usize, by_mm: f64) {
    let count = face.corners.len();
    let at = |number: usize| face.corners[number % count];
    let (before, a, b, after) = (at(edge + count - 1), at(edge), at(edge + 1), at(edge + 2));
    let along = (b - a).unit();
    let on = a + along.left() * by_mm;
    let moved = [on.crossing(along, a, a - before), on.crossing(along, b, after - b)];
    for (number, corner) in moved.into_iter().enumerate() {
        if let Some(corner) = corner {
            face.corners[(edge + number) % count] = corner;
        }
    }
}
