//! Where the guide of a saw or torch stands beside a cut, and what falls when a cut-out is cut.
//!
//! A guide lies on metal: on what is in hand when the cut is made, and that is no more than the cuts before have left.

use geometry::{Contour, Point, Segment, polygon, tolerance};
use job::Job;
use units::Length;

use crate::plan::{PlannedPart, nearest_mark};

/// Where the guide of a straight cut stands: on the near side, else beyond the cut, where the saw comes from the other end.
/// `hand` tells where the metal in hand begins and ends across the cut, `is_metal` whether what
/// lies between a place and the cut is metal.
pub(super) fn guide_beside(
    job: &Job,
    at: Length,
    hand: [Length; 2],
    is_metal: impl Fn(Length) -> bool,
) -> String {
    let Some(offset) = job.shop.guide_offset else { return String::new() };
    let print = |length: Length| length.print(job.style);
    let [near, far] = hand;
    let [is_near, is_far] = [near <= at - offset, at + offset <= far];
    if is_near && is_metal(at - offset) {
        format!("; clamp the guide at {}", print(at - offset))
    } else if (is_near || is_far) && !(is_far && is_metal(at + offset)) {
        format!(
            "; a guide {} off the cut lies on no side of it wholly on the offcut: clamp it on a board of the same height where the \
             metal ends, or cut freehand",
            print(offset)
        )
    } else if is_far {
        format!(
            "; the guide does not go on between edge and cut: clamp it beyond the cut, at {}, and cut from the other end",
            print(at + offset)
        )
    } else {
        let [off, near, far] = [offset, at - near, far - at].map(print);
        format!(
            "; a guide {off} off the cut leaves the metal in hand, which reaches {near} off it on one side and {far} on the \
             other: clamp the guide on a board of the same height beside it, or cut freehand"
        )
    }
}

/// Where the guide of a cut between two scribed sides stands, with the ends of the cut and the metal in hand.
pub(super) fn guide_off_the_middle(job: &Job, ends: [Point; 2], hand: [Point; 2]) -> String {
    let Some(offset) = job.shop.guide_offset else { return String::new() };
    let off = offset.print(job.style);
    let [left, right] = reach(ends, &corners(hand));
    if left.max(right) + tolerance::SCRIBED_LINE_MM < offset.millimetres() {
        format!(
            "; a guide {off} off the middle of the cut leaves the metal in hand on both sides: clamp it on a board of the same \
             height beside it, or cut freehand"
        )
    } else {
        format!("; clamp the guide {off} off the middle of the cut")
    }
}

/// Where the guide stands along the straight sides of what is cut out of the metal in hand: the saw runs beside the line, on the
/// waste side. Nothing is said of what has no straight side as long as a guide is worth clamping for.
pub(super) fn guide_along(job: &Job, outline: &Contour, hand: [Point; 2]) -> String {
    let Some(offset) = job.shop.guide_offset else { return String::new() };
    let half = Length::from_nanometres(job.shop.kerf.nanometres() / 2);
    let (inside, outside) = (offset - half, offset + half);
    let corners_of: Vec<Point> = outline.pieces().map(|(from, _)| from).collect();
    let is_ccw = 0.0 < polygon::signed_area(&corners_of);
    let room = |(from, side): (Point, Segment)| {
        let Segment::Line { to } = side else { return None };
        let ends = if is_ccw { [from, to] } else { [to, from] };
        let [depth, _] = reach(ends, &corners_of);
        let [_, left] = reach(ends, &corners(hand));
        let holds = |room: f64, needed: Length| needed.millimetres() <= room + tolerance::SCRIBED_LINE_MM;
        (GUIDED_MM <= from.distance(to)).then_some([holds(depth, inside), holds(left, outside)])
    };
    let sides: Vec<[bool; 2]> = outline.pieces().filter_map(room).collect();
    if sides.is_empty() {
        return String::new();
    }
    // Rounded to the tape it would lie up to half a mark off, and the saw in the part.
    let print = |length: Length| length.print(job.style);
    let held = |which: usize| sides.iter().filter(|side| side[which]).count();
    let lacking = |which: usize, words: &'static str| if held(which) < sides.len() { words } else { "" };
    // A guide right over the cut has no inside.
    let within = (half < offset && 0 < held(0))
        .then(|| format!("{} inside the line of a straight side{}", print(inside), lacking(0, WHERE_WIDE)));
    match (within, 0 < held(1)) {
        (Some(within), true) => {
            let left = lacking(1, WHERE_LEFT);
            format!("; clamp the guide {within}, or {} outside it{left}", print(outside))
        }
        (Some(within), false) => {
            format!(
                "; clamp the guide {within}: outside it, the metal in hand ends sooner than the guide needs"
            )
        }
        (None, true) => {
            let left = lacking(1, WHERE_LEFT);
            let narrow = if half < offset { ": inside it, the part is too narrow" } else { "" };
            format!("; clamp the guide {} outside the line of a straight side{left}{narrow}", print(outside))
        }
        (None, false) => {
            let within = if half < offset { format!("{} inside or ", print(inside)) } else { String::new() };
            format!(
                "; the guide does not lie {within}{} outside the line of a straight side: what metal there is ends sooner. Clamp \
                 it on a board of the same height beside it, or cut freehand",
                print(outside)
            )
        }
    }
}

/// Said where not every straight side of a part has the room for a guide, on it or beside it.
const WHERE_WIDE: &str = " where the part is that wide";
const WHERE_LEFT: &str = " where that much metal is left in hand";

/// How far places reach to the left and to the right of the line through two ends, mm.
fn reach([from, to]: [Point; 2], places: &[Point]) -> [f64; 2] {
    let direction = (to - from).unit();
    let off = places.iter().map(|&place| direction.cross(place - from));
    off.fold([0.0, 0.0], |[left, right], off| [f64::max(left, off), f64::max(right, -off)])
}

pub(super) fn corners([low, high]: [Point; 2]) -> [Point; 4] {
    [low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)]
}

/// The shortest straight side that a guide is clamped for: common practice, no source.
const GUIDED_MM: f64 = 150.0;

/// "; a disc of 29 3/4 falls out: …", of a part with a cut-out that is large enough to hurt whose foot is under it: smaller than
/// the cut-out by the kerf all round, which the saw takes on the waste side of the line.
pub(super) fn what_falls(job: &Job, part: &PlannedPart) -> String {
    let size = |hole: &Contour| {
        let (low, high) = hole.bounds();
        [high.x - low.x, high.y - low.y]
    };
    let heavy =
        part.flat.outline.holes.iter().filter(|hole| size(hole).iter().all(|&side| FALLING_MM <= side));
    let area = |hole: &Contour| size(hole)[0] * size(hole)[1];
    let Some(largest) = heavy.max_by(|a, b| area(a).total_cmp(&area(b))) else { return String::new() };
    let both = job.shop.kerf + job.shop.kerf;
    let [length, height] =
        size(largest).map(|mm| nearest_mark(job, Length::from_millimetres(mm) - both).print(job.style));
    let is_round = largest.segments.len() == 2
        && largest.segments.iter().all(|segment| matches!(segment, Segment::Arc { .. }))
        && length == height;
    let what = if is_round { format!("disc of {length}") } else { format!("piece of {length} × {height}") };
    format!("; a {what} falls out: hold it up, and keep feet from under it")
}

/// The least length and height of what falls that is warned of: common practice, no source.
const FALLING_MM: f64 = 100.0;
