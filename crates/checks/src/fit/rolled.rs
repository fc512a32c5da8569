//! Rolled plate where it truly lies.
//!
//! A rolled cylinder or cone is folded, and drawn, as flats between the element lines that hands sight along. Between
//! them it bulges past the flats: what it must go through, and what a tape finds over all, is the round.

use fold::flat::FlatPattern;
use fold::part::Forming;
use geometry::{Point, Point3, Vector, tolerance, trig};
use shapes::wrap::{Round, RoundPlace};

use super::body::{Body, BodyPiece};

/// What of the flat is rolled: the outline of a flat or of a zone between two, as the round has it.
struct Patch {
    name: String,
    /// Corners; x round from the seam in radians, y along an element line in mm.
    corners: Vec<Point>,
    /// Heights of its metal over the inside of the plate, mm.
    sides_mm: [f64; 2],
}

/// Convex pieces that cover the metal, from outside: no metal stands out of them.
pub(super) fn pieces(flat: &FlatPattern, turned_over: bool, round: &Round, lugs_mm: f64) -> Vec<BodyPiece> {
    let step_rad = step_rad(round, tolerance::FIT_MM);
    let mut pieces = Vec::new();
    for patch in patches(flat, turned_over, round) {
        for [from, to] in steps(&patch, step_rad) {
            let Some(along) = along_between(&patch.corners, [from, to]) else { continue };
            let beyond = 1.0 / trig::cos(0.5 * (to - from));
            // The marked face is the outside by nature; turned over, lugs stand inside.
            let [inner, outer] = match patch.sides_mm {
                [inner, outer] if turned_over => [inner - lugs_mm, outer],
                [inner, outer] => [inner, outer + lugs_mm],
            };
            let ring = |along_mm: f64| {
                let at = |round_rad: f64, z_mm: f64, beyond: f64| {
                    round.place(RoundPlace { along_mm, round_rad }, z_mm, beyond)
                };
                let tip = at(0.5 * (from + to), outer, beyond);
                vec![at(from, inner, 1.0), at(from, outer, 1.0), tip, at(to, outer, 1.0), at(to, inner, 1.0)]
            };
            let [low, high] = along.map(ring);
            pieces.push(BodyPiece { name: patch.name.clone(), low, high });
        }
    }
    pieces
}

/// How far the rolled plate reaches, as a tape finds it: places of its metal so near to one another that it bulges no more than
/// [`tolerance::OUTLINE_STEP_MM`] between them.
#[must_use]
pub fn reach(flat: &FlatPattern, turned_over: bool, round: &Round) -> Vec<Point3> {
    let step_rad = step_rad(round, tolerance::OUTLINE_STEP_MM);
    let mut places = Vec::new();
    for patch in patches(flat, turned_over, round) {
        for [from, to] in steps(&patch, step_rad) {
            for round_rad in [from, to] {
                let along = along_between(&patch.corners, [round_rad, round_rad]).into_iter().flatten();
                places.extend(along.flat_map(|along_mm| {
                    patch.sides_mm.map(|z_mm| round.place(RoundPlace { along_mm, round_rad }, z_mm, 1.0))
                }));
            }
        }
    }
    places
}

/// The turn within which the outside bulges so little over its chord: R·(1 − cos(step/2)) (plane geometry).
fn step_rad(round: &Round, bulge_mm: f64) -> f64 {
    let radius_mm = round.outside_radius_mm().max(bulge_mm);
    2.0 * trig::acos(1.0 - bulge_mm / radius_mm)
}

fn patches(flat: &FlatPattern, turned_over: bool, round: &Round) -> Vec<Patch> {
    let is_joggle = |bend: usize| matches!(flat.bends[bend].forming, Forming::Joggle(_));
    let on_round = |corners: &[Point]| {
        let unrolled = |corner: &Point| {
            let home = Body::home(flat, turned_over, Point3::new(corner.x, corner.y, 0.0));
            let at = round.on_flat(Point::new(home.x, home.y));
            Point::new(at.round_rad, at.along_mm)
        };
        corners.iter().map(unrolled).collect::<Vec<Point>>()
    };
    let faces = flat.faces.iter().enumerate().map(|(number, face)| {
        let lapped = (0..flat.bends.len()).any(|bend| is_joggle(bend) && flat.bends[bend].child == number);
        (face.name.clone(), on_round(&face.corners), lapped)
    });
    // Up to the far edge of every bend's zone, as it is cut.
    let zones = flat.zones.iter().enumerate().map(|(bend, zone)| {
        let name = flat.bends.get(bend).map_or(String::new(), |bend| flat.faces[bend.child].name.clone());
        (name, on_round(zone), bend < flat.bends.len() && is_joggle(bend))
    });
    let patch = |(name, corners, lapped): (String, Vec<Point>, bool)| Patch {
        name,
        corners,
        sides_mm: round.sides_mm(lapped),
    };
    faces.chain(zones).map(patch).collect()
}

/// Equal steps round, each no more than `step_rad`.
fn steps(patch: &Patch, step_rad: f64) -> Vec<[f64; 2]> {
    let from = patch.corners.iter().map(|corner| corner.x).fold(f64::INFINITY, f64::min);
    let to = patch.corners.iter().map(|corner| corner.x).fold(f64::NEG_INFINITY, f64::max);
    let mut steps = Vec::new();
    let mut at = from;
    while at < to {
        let next = (at + step_rad).min(to);
        steps.push([at, next]);
        at = next;
    }
    steps
}

/// From where to where, along the element lines, a ring of corners has metal between two places round; on an edge it runs
/// straight from corner to corner.
fn along_between(corners: &[Point], [from, to]: [f64; 2]) -> Option<[f64; 2]> {
    let ends = corners.iter().zip(corners.iter().cycle().skip(1)).filter_map(|(&a, &b)| {
        let (first, last) = if a.x <= b.x { (a, b) } else { (b, a) };
        let (low, high) = (from.max(first.x), to.min(last.x));
        if high < low {
            return None;
        }
        let across = last.x - first.x;
        let at = |x: f64| {
            if across <= 0.0 {
                first
            } else {
                first + Vector::new(across, last.y - first.y) * ((x - first.x) / across)
            }
        };
        // An edge along an element line has all of itself there.
        Some(if across <= 0.0 { [a.y, b.y] } else { [at(low).y, at(high).y] })
    });
    ends.flatten().fold(None, |known: Option<[f64; 2]>, y| {
        Some(known.map_or([y, y], |[low, high]| [low.min(y), high.max(y)]))
    })
}
