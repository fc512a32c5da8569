//! What takes the place of a face's corner on the flat: where its tangent lines cross, or the corners of a saw notch beside the
//! end of a bend.

use geometry::{Point, Vector, tolerance};

use super::outline::runs_on;
use super::unfold::{UnfoldError, bent};
use crate::part::FoldedPart;

/// Cotangent of the flattest turn (a sixteenth of a circle, 22.5°) at which a bend still ends on the next cut edge.
///
/// Mitres of rims and returns turn by about an eighth; a cut edge that all but continues the bent one would run along
/// the bend zone and leave a sliver of it bent only in part.
const FLATTEST_COTANGENT: f64 = 1.0 + std::f64::consts::SQRT_2;

/// What takes the place of the corner between edges `before` and `after`.
pub(super) fn corner_points(
    part: &FoldedPart,
    face: usize,
    before: usize,
    after: usize,
) -> Result<Vec<Point>, UnfoldError> {
    let corners = &part.faces[face].corners;
    let corner = corners[after];
    let line = |edge| {
        let (a, b) = part.faces[face].edge(edge);
        (b - a).unit()
    };
    let crossing = |(first, first_in): (Vector, f64), (second, second_in): (Vector, f64)| {
        let (p, q) = (corner + first.left() * first_in, corner + second.left() * second_in);
        p.crossing(first, q, second).unwrap_or(p)
    };
    match (bent(part, face, before), bent(part, face, after)) {
        (None, None) => Ok(step_notch(part, face, before, after)?.unwrap_or_else(|| vec![corner])),
        // A straight corner is none: both tangent lines run on, each at its own setback.
        (Some(first), Some(second)) if runs_on(first.0, second.0) => {
            let inward = [first, second].map(|(along, setback)| corner + along.left() * setback);
            let same = inward[0].distance(inward[1]) <= tolerance::SAME_POINT_MM;
            Ok(inward[..if same { 1 } else { 2 }].to_vec())
        }
        (Some(first), Some(second)) => Ok(vec![crossing(first, second)]),
        (None, Some((along, setback))) => {
            let free = line(before);
            if turns_squarely(part, free, along, setback) {
                return Ok(vec![crossing((free, 0.0), (along, setback))]);
            }
            let mut notch = notch(part, face, after, corner, -along, -free, along.left() * setback)?;
            notch.reverse();
            Ok(notch)
        }
        (Some((along, setback)), None) => {
            let free = line(after);
            if turns_squarely(part, along, free, setback) {
                return Ok(vec![crossing((along, setback), (free, 0.0))]);
            }
            notch(part, face, before, corner, along, free, along.left() * setback)
        }
    }
}

/// True when the outline turns left steeply enough from `first` to `second`: the cut edge then crosses the tangent line
/// close by, and the bend can end on it, as at the mitre of a rim; flatter corners need a saw notch. Where the bend is
/// so slight that the crossing lies within the notch's own width, there is nothing to notch.
fn turns_squarely(part: &FoldedPart, first: Vector, second: Vector, setback_mm: f64) -> bool {
    let (across, along) = (first.cross(second), first.dot(second));
    across > 0.0
        && (along <= FLATTEST_COTANGENT * across || setback_mm * along <= part.notch_width_mm * across)
}

/// A saw notch beside the end of a bend: from the tangent line out to the cut edge `free` beyond `corner`.
/// `toward` points along the bent edge past its end.
fn notch(
    part: &FoldedPart,
    face: usize,
    edge: usize,
    corner: Point,
    toward: Vector,
    free: Vector,
    inward: Vector,
) -> Result<Vec<Point>, UnfoldError> {
    let width = part.notch_width_mm;
    let tangent = corner + inward;
    let mouth = corner + toward * width;
    match mouth.crossing(inward, corner, free) {
        Some(end) if (end - corner).dot(free) > 0.0 => Ok(vec![tangent, tangent + toward * width, end]),
        _ => Err(UnfoldError::InsideCorner { face: part.faces[face].name.clone(), edge }),
    }
}

/// A saw notch where a cut edge steps out square to the end of a bend from beside its zone, between the tangent line and
/// the mold line; none where it does not.
///
/// Edge `before` or edge `after` of the corner is the step; the notch takes the corner's place.
fn step_notch(
    part: &FoldedPart,
    face: usize,
    before: usize,
    after: usize,
) -> Result<Option<Vec<Point>>, UnfoldError> {
    let count = part.faces[face].corners.len();
    let bends = [(after + 1) % count, (before + count - 1) % count];
    let corner = part.faces[face].corners[after];
    for (at_start, bend) in [true, false].into_iter().zip(bends) {
        let Some((along, setback_mm)) = bent(part, face, bend) else { continue };
        let (from, to) = part.faces[face].edge(bend);
        let (end, toward) = if at_start { (from, -along) } else { (to, along) };
        let (beside, aside) = (corner - end, if at_start { before } else { after });
        let inside_mm = beside.dot(along.left());
        let square = beside.dot(along).abs() <= tolerance::SAME_POINT_MM;
        if !square || inside_mm <= tolerance::SAME_POINT_MM || setback_mm <= inside_mm {
            continue;
        }
        let (a, b) = part.faces[face].edge(aside);
        let away = if at_start { a - b } else { b - a };
        let cosine = away.unit().dot(toward);
        let width_mm = part.notch_width_mm;
        if cosine <= 0.0 {
            continue;
        }
        let mouth = corner + away.unit() * (width_mm / cosine);
        if away.length() <= corner.distance(mouth) {
            return Err(UnfoldError::InsideCorner { face: part.faces[face].name.clone(), edge: bend });
        }
        let bottom = end + along.left() * setback_mm + toward * width_mm;
        return Ok(Some(if at_start { vec![mouth, bottom] } else { vec![bottom, mouth] }));
    }
    Ok(None)
}
