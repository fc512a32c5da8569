//! Legs of a finished part as a tape takes them, and the diagonals of a part that is to be square.
//!
//! A leg is measured on the flat that is cut: its straight between tangent lines, with a setback at every bend that ends it,
//! (R + T)·tan(turn/2), which takes it to where the outsides of both plates cross; past a quarter turn R + T, to the outermost
//! metal (DIN 6935, from memory). No tape hooks on the outside of a corner that is rolled or bumped: a leg runs there to where
//! straightedges laid on both plates cross, and says so.

use std::f64::consts::FRAC_PI_2;

use fold::FlatPattern;
use fold::flat::BendLine;
use fold::part::Forming;
use fold::refold::ProvenSize;
use geometry::{Point, Vector, tolerance, trig};
use job::ShapeInput;
use paper::layout_sheet::Fact;
use units::Length;

use super::angles_to_check::kind;
use super::corners;
use crate::plan::{Flats, PlannedPart};

/// Where a leg's number comes from.
const FROM_FLAT: &str = "straight of the flat between tangent lines, and a setback at every bend that ends it: (R + T)·tan(turn/2), past square R + T";

/// One leg.
struct Leg {
    face: usize,
    long_mm: f64,
    words: String,
}

/// A height that differs by no more than this share from a leg tells it.
const AS_TOLD: f64 = 0.02;

/// Every leg of a part that no size among `proven` tells, those of one kind and length in one row; none for a part that is wrapped
/// round an axis.
pub(super) fn legs(flats: &Flats, part: &PlannedPart, proven: &[Fact]) -> Vec<Fact> {
    let is_round =
        matches!(part.part.shape, ShapeInput::Cylinder(_) | ShapeInput::Cone(_) | ShapeInput::Transition(_));
    if is_round {
        return Vec::new();
    }
    let flat = &part.flat;
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(flats.job.style);
    let name = |face: usize| flat.faces[face].name.as_str();
    let told = |leg: &Leg| {
        let value = print(leg.long_mm);
        let like = |of_mm: f64| (of_mm - leg.long_mm).abs() <= AS_TOLD * leg.long_mm;
        // A height square to a root that it hardly leans off is the leg itself; a root's own width goes by its edges.
        let square = |size: &ProvenSize| size.name.contains(name(leg.face)) && like(size.expected_mm);
        proven.iter().any(|fact| fact.value == value && (leg.face == 0 || fact.name.contains(name(leg.face))))
            || part.proof.sizes.iter().any(|size| size.name.starts_with("height of ") && square(size))
    };
    let mut rows: Vec<(&str, Vec<&str>, String, String)> = Vec::new();
    for leg in (0..flat.faces.len()).filter_map(|face| leg(flat, face)).filter(|leg| !told(leg)) {
        let (what, side) = kind(name(leg.face));
        let value = print(leg.long_mm);
        let same = rows
            .iter_mut()
            .find(|row| !side.is_empty() && row.0 == what && row.2 == leg.words && row.3 == value);
        match same {
            Some(row) => row.1.push(side),
            None => rows.push((what, vec![side], leg.words, value)),
        }
    }
    let fact = |(what, sides, words, value): (&str, Vec<&str>, String, String)| Fact {
        name: format!("{}, {words}", format!("{what} {}", sides.join(", ")).trim_end()),
        value,
        origin: FROM_FLAT.to_owned(),
        ..Fact::default()
    };
    rows.into_iter().map(fact).collect()
}

/// The leg that a face is: between two bends along one another, or from its one bend to its edge. A root of several bends that do
/// not lie opposite one another is no leg.
fn leg(flat: &FlatPattern, face: usize) -> Option<Leg> {
    let away = |bend: &BendLine| if bend.child == face { bend.across() } else { -bend.across() };
    let own: Vec<&BendLine> =
        flat.bends.iter().filter(|bend| [bend.parent, bend.child].contains(&face)).collect();
    // A joggle is told by its depth, and what is set off by it runs on.
    if own.iter().any(|bend| matches!(bend.forming, Forming::Joggle(_))) {
        return None;
    }
    let first = own.iter().find(|bend| bend.child == face).or_else(|| own.first())?;
    let opposite = |bend: &&&BendLine| {
        away(bend).dot(away(first)) < 0.0 && away(bend).cross(away(first)).abs() <= tolerance::PARALLEL_SINE
    };
    let inward = away(first);
    let start = tangent(first, inward);
    if let Some(last) = own.iter().find(opposite) {
        let straight_mm = (tangent(last, -inward) - start).dot(inward);
        let long_mm = setback_mm(flat, first) + straight_mm + setback_mm(flat, last);
        return Some(Leg { face, long_mm, words: between_words(flat, face, [first, last]) });
    }
    let is_root_of_several = own.iter().all(|bend| bend.parent == face) && 1 < own.len();
    let (straight_mm, is_parallel) = reach(&flat.faces[face].corners, (start, inward));
    if is_root_of_several || straight_mm <= tolerance::SAME_POINT_MM {
        return None;
    }
    let deepest = if is_parallel { "" } else { ", at its deepest" };
    let words = if past_square(first) {
        "from the outermost metal of its bend to its edge".to_owned()
    } else if is_round(flat, first) {
        format!("from {} to its edge{deepest}", crossing(flat, face, first))
    } else {
        format!("outside of its bend to its edge{deepest}")
    };
    Some(Leg { face, long_mm: setback_mm(flat, first) + straight_mm, words })
}

/// Whether its legs run to the outermost metal, where the outsides of both plates meet out in the air.
pub(super) fn past_square(bend: &BendLine) -> bool {
    FRAC_PI_2 + tolerance::PARALLEL_SINE < bend.turn_rad
}

/// Whether nothing of a bend's outside is near to where both plates would meet: rolled or bumped, wider than a tape bridges.
fn is_round(flat: &FlatPattern, bend: &BendLine) -> bool {
    let is_made_round = matches!(bend.forming, Forming::Rolled | Forming::Bumped(_));
    is_made_round && LARGE_RADIUS * flat.thickness_mm < bend.inside_radius_mm
}

/// From so many thicknesses a round corner is large: five, as bend numbers have it (DIN 6935).
const LARGE_RADIUS: f64 = 5.0;

/// "where straightedges laid on it and on leg CD cross".
fn crossing(flat: &FlatPattern, face: usize, bend: &BendLine) -> String {
    let other = if bend.child == face { bend.parent } else { bend.child };
    format!("where straightedges on its outside and that of {} cross", flat.faces[other].name)
}

/// How a leg between two bends is taken.
fn between_words(flat: &FlatPattern, face: usize, ends: [&BendLine; 2]) -> String {
    if ends.iter().any(|bend| past_square(bend)) {
        return "over its bends, to the outermost metal".to_owned();
    }
    let beyond =
        |bend: &BendLine| flat.faces[if bend.child == face { bend.parent } else { bend.child }].name.as_str();
    match ends.map(|bend| is_round(flat, bend)) {
        [false, false] => {
            let between = format!("outside of {} to outside of {}", beyond(ends[0]), beyond(ends[1]));
            // Bends that turn opposite ways have their outsides on opposite sides of the sheet.
            let is_joggled = ends[0].direction != ends[1].direction;
            if is_joggled { format!("{between}, on the other side of the sheet") } else { between }
        }
        [true, true] => {
            format!("from {} to {}", crossing(flat, face, ends[0]), crossing(flat, face, ends[1]))
        }
        [first, _] => {
            let [round, plain] = if first { ends } else { [ends[1], ends[0]] };
            let (plain, round) = (beyond(plain), crossing(flat, face, round));
            format!("outside of its bend to {plain} to {round}")
        }
    }
}

/// A place on the tangent line of a bend toward `inward`.
fn tangent(bend: &BendLine, inward: Vector) -> Point {
    bend.from + inward * (0.5 * bend.zone_mm)
}

fn setback_mm(flat: &FlatPattern, bend: &BendLine) -> f64 {
    let most = bend.inside_radius_mm + flat.thickness_mm;
    if bend.turn_rad < FRAC_PI_2 { most * trig::tan(0.5 * bend.turn_rad) } else { most }
}

/// How far the corners of a face reach from a line, mm, and whether an edge lies there along it.
fn reach(corners: &[Point], (start, inward): (Point, Vector)) -> (f64, bool) {
    let off = |corner: &Point| (*corner - start).dot(inward);
    let most = corners.iter().map(off).fold(0.0, f64::max);
    let there = corners.iter().filter(|corner| most - off(corner) <= tolerance::REFOLD_MM).count();
    (most, 1 < there)
}

/// Both diagonals of a root face of four corners, over the outsides; none where sizes tell diagonals already, or a bend off it
/// turns past square or is a large round, and its corners lie in the air.
pub(super) fn diagonals(flats: &Flats, part: &PlannedPart, proven: &[Fact]) -> Vec<Fact> {
    let Some(root) = part.shaped.part.faces.first() else { return Vec::new() };
    let [a, b, c, d] = root.corners[..] else { return Vec::new() };
    let is_in_the_air = |bend: &BendLine| past_square(bend) || is_round(&part.flat, bend);
    if part.flat.bends.iter().any(|bend| bend.parent == 0 && is_in_the_air(bend))
        || proven.iter().any(|fact| fact.name.contains("diagonal"))
    {
        return Vec::new();
    }
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(flats.job.style);
    let (first_mm, second_mm) = (a.distance(c), b.distance(d));
    let fact = |name: String, value: String| Fact {
        name,
        value,
        origin: "corners of the face over the outsides; refolding compares them all".to_owned(),
        ..Fact::default()
    };
    if (first_mm - second_mm).abs() <= tolerance::REFOLD_MM {
        let name = format!("diagonals of {}, over the outsides", root.name);
        return vec![fact(name, format!("both {}", print(first_mm)))];
    }
    let placed = part.flat.faces[0].placement;
    let letters = corners::named(part).letters(&part.flat);
    let letter = |corner: Point| {
        let at = placed.place(corner);
        let near = letters.iter().min_by(|one, other| one.1.distance(at).total_cmp(&other.1.distance(at)));
        near.filter(|near| near.1.distance(at) <= NEAR_MM).map(|near| near.0.clone())
    };
    [(a, c, first_mm), (b, d, second_mm)]
        .into_iter()
        .filter_map(|(from, to, long_mm)| {
            let name =
                format!("diagonal of {}, {} to {}, over the outsides", root.name, letter(from)?, letter(to)?);
            Some(fact(name, print(long_mm)))
        })
        .collect()
}

/// How far the letter of a corner lies at most from it, mm: letters that come of names of faces stand at the ends of bends.
const NEAR_MM: f64 = 15.0;
