//! The triangles of a transition in a row, cut back at the corners of the rectangle and at the seam.

use fold::part::{Bend, Edge, Face, FoldedPart, Forming, LegsTo, Relief, Seam, SeamStyle};
use fold::{Direction, bend::formula};
use geometry::{Frame, Point, Point3, Vector3, tolerance, trig};

use super::{CORNERS, Transition, no_bend};
use crate::{Making, Problem};

/// The edge of the last triangle that lies at the seam; of the first it is edge 0.
pub(super) const SEAM_EDGE: usize = 1;

/// A corner of a flat triangle.
#[derive(Debug, Clone, Copy)]
enum At {
    /// A corner of the rectangle.
    Corner(usize),
    /// A place on the round, or the foot of the seam.
    Free(Point3),
}

/// A triangle as seen from the inside, counter-clockwise from the end of the bend to the one before; the seam instead of
/// that bend on the first.
#[derive(Debug, Clone)]
pub(super) struct Flat {
    name: String,
    corners: [At; 3],
    /// Which edge is the bend to the next; the seam on the last.
    high: usize,
}

/// The triangles from the middle of one side to the middle of another.
pub(super) fn flats(shape: &Transition, [from, to]: [usize; 2]) -> Vec<Flat> {
    let quarter = shape.per_quarter();
    let division = |number: usize| At::Free(shape.division(number));
    let mut flats = vec![Flat {
        name: format!("side {}", super::side_name(from)),
        corners: [At::Free(shape.middle(from)), division(from * quarter), At::Corner(from + 1)],
        high: 1,
    }];
    for side in from..to {
        let corner = side + 1;
        for number in side * quarter..(side + 1) * quarter {
            flats.push(Flat {
                name: format!("{} {}", CORNERS[corner % 4], number % quarter + 1),
                corners: [At::Corner(corner), division(number), division(number + 1)],
                high: 2,
            });
        }
        let apex = division(corner * quarter);
        let beyond = if corner == to { At::Free(shape.middle(to)) } else { At::Corner(corner + 1) };
        flats.push(Flat {
            name: format!("side {}", super::side_name(corner)),
            corners: [At::Corner(corner), apex, beyond],
            high: 1,
        });
    }
    flats
}

impl At {
    fn point(self, shape: &Transition) -> Point3 {
        match self {
            Self::Corner(number) => shape.corner(number),
            Self::Free(point) => point,
        }
    }
}

/// What folding needs to know of one triangle.
struct Laid {
    points: [Point3; 3],
    /// Toward the inside.
    normal: Vector3,
}

/// Corners of the rectangle, each with the radius cut away about it, mm.
pub(super) type CutAway = Vec<(&'static str, f64)>;

/// Folds the triangles; also gives the radius cut away about each corner of the rectangle.
pub(super) fn fold(
    shape: &Transition,
    flats: &[Flat],
    making: &Making,
) -> Result<(FoldedPart, CutAway), Problem> {
    let laid: Vec<Laid> = flats.iter().map(|flat| lay(shape, flat)).collect();
    let turns = turns(&laid, making)?;
    let reliefs = reliefs(flats, &laid, &turns, making)?;
    let made = making.corners();
    // Where two bends of a triangle meet at the round, a sawn nick is enough; nothing is drilled in an open edge.
    let mut part = FoldedPart::unbent(making.number.clone(), Vec::new(), Relief::Square, made.notch_width_mm);
    for (number, flat) in flats.iter().enumerate() {
        add(&mut part, (number, flat, &laid[number]), turns.get(number).copied(), &reliefs, making);
    }
    close(&mut part, shape, making);
    let named = reliefs.iter().enumerate().filter(|(_, radius)| **radius > 0.0);
    Ok((part, named.map(|(corner, radius)| (CORNERS[corner], *radius)).collect()))
}

/// Where the first triangle lies in space.
pub(super) fn root_frame(shape: &Transition, flats: &[Flat]) -> Option<Frame> {
    let laid = lay(shape, flats.first()?);
    Some(frame(laid.points[0], laid.points[1], laid.normal))
}

fn lay(shape: &Transition, flat: &Flat) -> Laid {
    let points = flat.corners.map(|at| at.point(shape));
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
            let At::Corner(corner) = at else { continue };
            let [a, b] = [1, 2].map(|step| laid.points[(place + step) % 3] - laid.points[place]);
            let half = 0.5 * a.angle_to(b);
            let needed = worst / (trig::sin(half) * trig::cos(half)) + making.thickness_mm();
            reliefs[corner % 4] = reliefs[corner % 4].max(needed);
            let room = 0.5 * a.length().min(b.length());
            if needed > room {
                let wrong = format!(
                    "so many bends meet at corner {} that {} about it would be cut away",
                    CORNERS[corner % 4],
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
        match flat.corners[place] {
            At::Corner(corner) => from + (to - from).unit() * reliefs[corner % 4],
            At::Free(_) => from,
        }
    };
    let (mut corners, mut edges) = (Vec::new(), Vec::new());
    for place in 0..3 {
        let (before, after) = ((place + 2) % 3, (place + 1) % 3);
        if matches!(flat.corners[place], At::Corner(_)) && place != 0 {
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
    if matches!(flat.corners[0], At::Corner(_)) {
        corners.push(cut(0, 2));
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

/// Stands both sides of the seam back by half its gap, and of one piece says where they meet.
fn close(part: &mut FoldedPart, shape: &Transition, making: &Making) {
    let last = part.faces.len() - 1;
    let seam_edge = SEAM_EDGE;
    let half = 0.5 * making.seam_gap.millimetres();
    if half > tolerance::SAME_POINT_MM {
        stand_back(&mut part.faces[0], 0, half);
        stand_back(&mut part.faces[last], seam_edge, half);
    }
    if shape.made_of.sides() == 4 {
        let (a, b) = part.faces[0].edge(0);
        part.seams.push(Seam {
            name: "seam on AB".to_owned(),
            first: (0, 0),
            second: (last, seam_edge),
            inside_angle_rad: std::f64::consts::PI,
            length_mm: a.distance(b),
            style: SeamStyle::Open,
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
