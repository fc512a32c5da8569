//! Inside angles of a finished part, as a bevel takes them.

use fold::flat::BendLine;
use fold::part::Forming;
use fold::refold;
use paper::layout_sheet::Fact;
use units::Angle;

use crate::plan::{PlannedPart, round_of};

/// The inside angle of every bend, measured between the plates of the refolded flat; those of one kind and angle in one
/// row. A hem, a joggle, what is sprung by hand or a smooth round is no angle that a bevel takes.
pub(super) fn inside_angles(part: &PlannedPart) -> Vec<Fact> {
    let frames = refold::fold(&part.flat);
    let name = |face: usize| part.flat.faces[face].name.as_str();
    let mut rows: Vec<(String, String, String)> = Vec::new();
    let is_smooth = round_of(part).is_some();
    let is_angle = |bend: &&BendLine| {
        bend.turn_rad < MOST_TURN_RAD
            && !(is_smooth && bend.forming == Forming::Rolled)
            && !matches!(bend.forming, Forming::Hem | Forming::Joggle(_) | Forming::Sprung)
    };
    for bend in part.flat.bends.iter().filter(is_angle) {
        let turned = frames[bend.parent].z.angle_to(frames[bend.child].z);
        let inside = Angle::from_radians(std::f64::consts::PI - turned);
        let (parent, child) = (kind(name(bend.parent)), kind(name(bend.child)));
        // A wall and the rim on it go by one side; a top bent across has a side of its own.
        let first = if parent.1 == child.1 { parent.0 } else { name(bend.parent) };
        let what = format!("{first} and {}", child.0);
        let lean = lean_words(&what, inside);
        let value = format!("{}°{lean}", inside.print(1));
        match rows.iter_mut().find(|(known, _, at)| *known == what && *at == value) {
            Some((_, sides, _)) if !child.1.is_empty() => *sides += &format!(", {}", child.1),
            Some(_) => {}
            None => rows.push((what, child.1.to_owned(), value)),
        }
    }
    let square = format!("{}°", Angle::RIGHT.print(1));
    if MOST_SQUARE < rows.iter().filter(|(_, _, value)| *value == square).count() {
        rows.retain(|(_, _, value)| *value != square);
        let what = if rows.is_empty() { "every bend" } else { "every other bend" };
        rows.push((what.to_owned(), String::new(), square));
    }
    let fact = |(what, sides, value): (String, String, String)| Fact {
        name: format!("inside angle of {what} {sides}").trim_end().to_owned(),
        value,
        origin: "180° less the turn, measured between the two plates of the refolded flat".to_owned(),
        ..Fact::default()
    };
    rows.into_iter().map(fact).collect()
}

/// So many kinds of square bends are told one by one; more of them in one row.
const MOST_SQUARE: usize = 3;

/// A turn past which nothing is left between the plates for a bevel, 135°, radians (common practice, no source).
const MOST_TURN_RAD: f64 = 0.75 * std::f64::consts::PI;

/// "wall AB" as its kind and its side; a name without a side has none.
pub(super) fn kind(name: &str) -> (&str, &str) {
    match name.rsplit_once(' ') {
        Some((kind, side)) if side.chars().all(|letter| letter.is_uppercase() || letter.is_numeric()) => {
            (kind, side)
        }
        _ => (name, ""),
    }
}

/// ", leans 10.0° outward from plumb" for the wall of a pan that does.
fn lean_words(what: &str, inside: Angle) -> String {
    let lean = Angle::from_degrees(inside.degrees() - 90.0);
    let leans = what == "floor and wall" && LEAST_LEAN_DEGREES <= lean.degrees().abs();
    let way = if lean.degrees() < 0.0 { "inward" } else { "outward" };
    if leans {
        format!(", leans {}° {way} from plumb", Angle::from_degrees(lean.degrees().abs()).print(1))
    } else {
        String::new()
    }
}

/// A lean that prints as more than nothing, degrees.
const LEAST_LEAN_DEGREES: f64 = 0.05;
