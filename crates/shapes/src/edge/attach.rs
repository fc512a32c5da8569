//! Bends treated edges off the plates of a built ring.

use fold::part::{Bend, Edge, Face, FoldedPart, Forming, LegsTo, Measure, Side, Size};
use fold::refold::{self, RefoldError};
use fold::{Direction, flat};
use geometry::{Frame, Point, Vector, polygon, tolerance};

use super::limits::{self, Half};
use super::round;
use super::{EdgeBend, EdgeEnd};
use crate::ring::{Built, Ring};
use crate::{Fact, Making, Problem};

/// A free edge to treat.
pub(super) struct FreeEdge {
    pub(super) face: usize,
    pub(super) edge: usize,
    /// Which way its plate is bent; `None` for the base.
    pub(super) bent: Option<Direction>,
}

/// Where the bend of a treated edge stops at the plate's end, when that lies beyond the mitre with the neighbour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Stops {
    /// With the plate: nothing of the neighbour comes there.
    WithPlate,
    /// Short of the mitre, beside a saw notch.
    AtMitre,
}

/// Treats the outermost edge of every side: `ends` and the field each is asked for in, one for every side.
///
/// Where legs that stop with their plates run into one another, as beside a plate that runs through a corner or leans
/// inward, they stop short of the mitre instead.
///
/// # Errors
/// Every [`Problem`]: a side that is not said, legs too short, plates without room.
pub(crate) fn finish(
    built: &mut Built,
    ring: &Ring,
    ends: &[EdgeEnd],
    (making, fields): (&Making, &[String]),
) -> Result<Vec<Fact>, Vec<Problem>> {
    if ends.iter().all(EdgeEnd::is_plain) {
        return Ok(Vec::new());
    }
    let plain = built.clone();
    let facts = treat(built, ring, (ends, Stops::WithPlate), (making, fields))?;
    if is_clear(&built.part) == Some(false) {
        let mut shorter = plain;
        let made = treat(&mut shorter, ring, (ends, Stops::AtMitre), (making, fields));
        if made.is_ok() && is_clear(&shorter.part) == Some(true) {
            *built = shorter;
        }
    }
    Ok(facts)
}

/// Whether the metal of the part keeps clear of itself when folded; `None` when it does not come out of one flat.
fn is_clear(part: &FoldedPart) -> Option<bool> {
    let flat = flat::unfold(part).ok()?;
    Some(!matches!(refold::prove(part, &flat), Err(RefoldError::RunsInto { .. })))
}

fn treat(
    built: &mut Built,
    ring: &Ring,
    (ends, stops): (&[EdgeEnd], Stops),
    (making, fields): (&Making, &[String]),
) -> Result<Vec<Fact>, Vec<Problem>> {
    let (mut problems, mut facts) = (Vec::new(), Vec::new());
    for (side, end) in ends.iter().enumerate().filter(|(_, end)| !end.is_plain()) {
        match one(built, ring, (side, ends, stops), (making, &fields[side])) {
            Ok(name) => {
                let words = end.words(making);
                let known = facts.iter_mut().find(|(known, _)| *known == words);
                match known {
                    Some((_, names)) => *names = format!("{names}, {name}"),
                    None => facts.push((words, name)),
                }
            }
            // A size that is wrong all round is said once.
            Err(more) => {
                let new: Vec<Problem> = more.into_iter().filter(|new| !problems.contains(new)).collect();
                problems.extend(new);
            }
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    Ok(facts
        .into_iter()
        .map(|(words, names)| Fact::words(format!("edge of {names}"), words, "edge"))
        .collect())
}

/// Treats the edge of one side, and gives the name of its plate.
fn one(
    built: &mut Built,
    ring: &Ring,
    (side, ends, stops): (usize, &[EdgeEnd], Stops),
    (making, field): (&Making, &str),
) -> Result<String, Vec<Problem>> {
    let end = &ends[side];
    let Some(bend) = end.bend(making, field)? else { return Ok(String::new()) };
    let lost = |value: &str, wrong: &str, remedy: &str| {
        vec![Problem::new(format!("{field}.{}", end.word()), value, wrong, remedy)]
    };
    let free = free_edge(&built.part, &built.faces[side], ring, side)
        .ok_or_else(|| lost("as given", "this side has no whole free edge", "take it out"))?;
    let plate = built.part.faces[free.face].name.clone();
    if free.bent.is_none() && matches!(end, EdgeEnd::Return { .. }) {
        let remedy = "write it under \"flanges\"";
        return Err(lost("as given", "a return on a side of the panel itself is a flange", remedy));
    }
    let direction = end.direction(free.bent, field).map_err(|problem| vec![problem])?;
    room(&built.part, &free, (&bend, direction), making)
        .map_err(|(wrong, remedy)| lost(&plate, &wrong, &remedy))?;
    let count = ring.sides.len();
    let neighbours = [(side + count - 1) % count, (side + 1) % count];
    let limits: Vec<Half> = neighbours
        .into_iter()
        .filter_map(|other| limits::beside(ring, (side, other), ends, making))
        .collect();
    let whole = if free.bent.is_some() { plate.clone() } else { side_name(ring, side) };
    let name = format!("{} {whole}", end.word());
    attach(&mut built.part, &free, (&bend, direction), (name, &limits, stops)).ok_or_else(|| {
        lost(&plate, "nothing is left of it between its mitres", "make it shorter, or leave one side plain")
    })?;
    Ok(whole)
}

fn side_name(ring: &Ring, side: usize) -> String {
    let next = (side + 1) % ring.corner_names.len();
    format!("{}{}", ring.corner_names[side], ring.corner_names[next])
}

/// The outermost edge of a side, when it is cut and in one piece.
fn free_edge(part: &FoldedPart, faces: &[usize], ring: &Ring, side: usize) -> Option<FreeEdge> {
    let Some(&face) = faces.last() else {
        let start = ring.base_corner(side);
        let base = &part.faces[0];
        let edge =
            base.corners.iter().position(|corner| corner.distance(start) <= tolerance::SAME_POINT_MM)?;
        return (base.edges[edge] == Edge::Free).then_some(FreeEdge { face: 0, edge, bent: None });
    };
    let band = ring.sides[side].bands.last()?;
    let cut = ring.sides[side].cut?;
    let frame = part.frames()[face];
    let outside_mm = part.side_mm(band.direction.outside());
    let on_cut =
        |corner: Point| cut.distance(frame.place(corner, outside_mm)).abs() <= tolerance::SAME_POINT_MM;
    let edges = 0..part.faces[face].edges.len();
    let edge = edges.into_iter().find(|&edge| {
        let (a, b) = part.faces[face].edge(edge);
        part.faces[face].edges[edge] == Edge::Free && on_cut(a) && on_cut(b)
    })?;
    Some(FreeEdge { face, edge, bent: Some(band.direction) })
}

/// A bent plate must have room between its own bend and that of its edge, and beneath a leg that comes back over it.
pub(super) fn room(
    part: &FoldedPart,
    free: &FreeEdge,
    (bend, direction): (&EdgeBend, Direction),
    making: &Making,
) -> Result<(), (String, String)> {
    let Some(own) = part.bends.iter().position(|bend| bend.child == free.face) else { return Ok(()) };
    let (a, b) = part.faces[free.face].edge(free.edge);
    // A plate that is bent off the one beside it ends across its own bend, not opposite it.
    if (b.x - a.x).abs() < (b.y - a.y).abs() {
        return Ok(());
    }
    let left_mm = a.y.min(b.y) - part.setback_mm(own);
    let inward = free.bent == Some(direction);
    let needed_mm = bend.setback_mm(making.thickness_mm()).max(if inward { bend.reach_mm } else { 0.0 });
    if needed_mm < left_mm - tolerance::SAME_POINT_MM {
        return Ok(());
    }
    let wrong = format!(
        "it takes {} of the plate, which has {} beyond its own bend",
        making.print_mm(needed_mm),
        making.print_mm(left_mm.max(0.0))
    );
    Err((wrong, "make the plate deeper, or the edge smaller".to_owned()))
}

/// Bends the leg off; `None` when the limits leave nothing of it.
///
/// Where the plate's own end lies beyond a limit the bend stops short of it, beside a saw notch.
pub(super) fn attach(
    part: &mut FoldedPart,
    free: &FreeEdge,
    (bend, direction): (&EdgeBend, Direction),
    (name, limits, stops): (String, &[Half], Stops),
) -> Option<()> {
    let is_round = matches!(bend.forming, Forming::Hem | Forming::Rolled);
    let child = part.faces.len();
    let mut edge = free.edge;
    if is_round && stops == Stops::AtMitre {
        let mut whole = part.clone();
        bend_off(&mut whole, (free.face, edge), (bend, direction), &name);
        edge = shortened(part, free, round::ends(&whole, child, limits).short_mm)?;
    }
    bend_off(part, (free.face, edge), (bend, direction), &name);
    let (a, b) = part.faces[free.face].edge(edge);
    let (length, tangent) = (a.distance(b), bend.setback_mm(part.thickness_mm()));
    let frame = part.frames()[child];
    let mut left = part.faces[child].corners.clone();
    for limit in limits {
        for z_mm in [0.0, part.thickness_mm()] {
            left = clipped(&left, &frame, *limit, z_mm);
        }
    }
    if is_round {
        let back_mm = round::ends(part, child, limits).back_mm;
        left = cut_off(&left, |corner| corner.x - back_mm[1]);
        left = cut_off(&left, |corner| length - back_mm[0] - corner.x);
    }
    let left = from_bend(&left, tangent)?;
    part.faces[child].edges = vec![Edge::Free; left.len()];
    part.faces[child].edges[0] = Edge::Parent;
    part.faces[child].corners = left;
    if bend.legs_to == LegsTo::OutermostMetal && bend.turn_rad <= std::f64::consts::PI {
        part.sizes.extend(hem_size(part, free.face, child, (bend, direction), name));
    }
    Some(())
}

/// Adds the bend and the whole leg, from its tangent line on: limits hold from there, nearer the fold the metal is still
/// bending.
fn bend_off(
    part: &mut FoldedPart,
    (face, edge): (usize, usize),
    (bend, direction): (&EdgeBend, Direction),
    name: &str,
) {
    let (a, b) = part.faces[face].edge(edge);
    let (length, tangent) = (a.distance(b), bend.setback_mm(part.thickness_mm()));
    let corners = [(0.0, tangent), (length, tangent), (length, bend.leg_mm), (0.0, bend.leg_mm)];
    let child = part.faces.len();
    part.faces[face].edges[edge] = Edge::Bend(part.bends.len());
    part.bends.push(Bend {
        parent: face,
        parent_edge: edge,
        child,
        turn_rad: bend.turn_rad,
        direction,
        inside_radius_mm: bend.radius_mm,
        legs_to: bend.legs_to,
        forming: bend.forming,
    });
    part.faces.push(Face {
        name: name.to_owned(),
        corners: corners.map(|(x, y)| Point::new(x, y)).to_vec(),
        edges: vec![Edge::Free; 4],
        holes: Vec::new(),
        rim: None,
    });
}

/// The edge with corners put in where a bend on it must stop short of its ends, and the number of what is left between them:
/// at least a saw notch and half as much metal again beside the bend. `None` where nothing is left.
fn shortened(part: &mut FoldedPart, free: &FreeEdge, short_mm: [f64; 2]) -> Option<usize> {
    let (a, b) = part.faces[free.face].edge(free.edge);
    let along = (b - a).unit();
    let least_mm = 1.5 * part.notch_width_mm;
    let short = short_mm.map(|mm| if mm > tolerance::SAME_POINT_MM { mm.max(least_mm) } else { 0.0 });
    if a.distance(b) <= short[0] + short[1] + tolerance::SAME_POINT_MM {
        return None;
    }
    let corners = [(short[0], a + along * short[0]), (short[1], b - along * short[1])];
    let corners: Vec<Point> = corners.into_iter().filter(|(mm, _)| 0.0 < *mm).map(|(_, at)| at).collect();
    part.insert_corners(free.face, free.edge, &corners);
    Some(free.edge + usize::from(0.0 < short[0]))
}

/// Over both layers of a hem that lies parallel to its plate.
fn hem_size(
    part: &FoldedPart,
    plate: usize,
    child: usize,
    (bend, direction): (&EdgeBend, Direction),
    name: String,
) -> Option<Size> {
    let parallel = (std::f64::consts::PI - bend.turn_rad).abs() <= tolerance::PARALLEL_SINE;
    let outside: Side = direction.outside();
    parallel.then(|| Size {
        name: format!("{name}, over both layers"),
        measure: Measure::Planes((plate, outside), (child, outside)),
        expected_mm: 2.0 * (part.thickness_mm() + bend.radius_mm),
    })
}

/// What of a counter-clockwise figure, at height `z_mm` of `frame`, lies within `limit`.
fn clipped(corners: &[Point], frame: &Frame, limit: Half, z_mm: f64) -> Vec<Point> {
    let room = |corner: Point| {
        let place = frame.place(corner, z_mm);
        limit.normal.dot(place - geometry::Point3::default()) - limit.offset_mm
    };
    cut_off(corners, room)
}

/// What of a counter-clockwise figure has room.
fn cut_off(corners: &[Point], room: impl Fn(Point) -> f64) -> Vec<Point> {
    let mut kept: Vec<Point> = Vec::with_capacity(corners.len() + 1);
    for (a, b) in polygon::edges(corners) {
        let (from, to) = (room(a), room(b));
        let (in_a, in_b) = (-tolerance::SAME_POINT_MM <= from, -tolerance::SAME_POINT_MM <= to);
        if in_a {
            kept.push(a);
        }
        if in_a != in_b {
            kept.push(a.toward(b, from / (from - to)));
        }
    }
    kept.dedup_by(|a, b| a.distance(*b) <= tolerance::SAME_POINT_MM);
    while kept.len() > 1 && kept[0].distance(kept[kept.len() - 1]) <= tolerance::SAME_POINT_MM {
        kept.pop();
    }
    kept
}

/// The figure above the tangent line with its sides run on straight to the bend, where it begins; `None` when nothing of
/// the tangent line, or of the far edge, is left.
fn from_bend(corners: &[Point], tangent_mm: f64) -> Option<Vec<Point>> {
    let on_tangent = |corner: Point| (corner.y - tangent_mm).abs() <= tolerance::SAME_POINT_MM;
    let along = |(a, b): (Point, Point)| on_tangent(a) && on_tangent(b) && a.x < b.x;
    let start = polygon::edges(corners).position(along)?;
    let count = corners.len();
    let mut turned: Vec<Point> = (0..count).map(|number| corners[(start + number) % count]).collect();
    if count < 4 || polygon::signed_area(&turned) <= 0.0 {
        return None;
    }
    let bend = (Point::default(), Vector::new(1.0, 0.0));
    let feet = [(0, count - 1), (1, 2)].map(|(foot, above)| {
        let side = turned[foot] - turned[above];
        turned[foot].crossing(side, bend.0, bend.1)
    });
    (turned[0], turned[1]) = (feet[0]?, feet[1]?);
    (turned[0].x < turned[1].x).then_some(turned)
}
