//! Where the guide of a saw or torch stands beside a cut, and what falls when a cut-out is cut.

use geometry::{Contour, Segment};
use job::Job;
use units::Length;

use crate::plan::{PlannedPart, nearest_mark};

/// Where the guide of a straight cut stands: on the near side, else beyond the cut, where the saw comes from the other end.
pub(super) fn guide_beside(job: &Job, at: Length, side: Length) -> String {
    let Some(offset) = job.shop.guide_offset else { return String::new() };
    let print = |length: Length| length.print(job.style);
    if offset <= at {
        format!("; clamp the guide at {}", print(at - offset))
    } else if at + offset <= side {
        format!(
            "; the guide does not go on between edge and cut: clamp it beyond the cut, at {}, and cut from the other end",
            print(at + offset)
        )
    } else {
        let off = print(offset);
        format!(
            "; a guide {off} off the cut leaves the sheet on either side: clamp it on a board beside, or cut freehand"
        )
    }
}

/// Where the guide of a cut between two scribed sides stands.
pub(super) fn guide_off_the_middle(job: &Job) -> String {
    let words =
        |offset: Length| format!("; clamp the guide {} off the middle of the cut", offset.print(job.style));
    job.shop.guide_offset.map_or_else(String::new, words)
}

/// Where the guide stands along the straight sides of what is cut out: the saw runs beside the line, on the waste side.
pub(super) fn guide_along(job: &Job) -> String {
    let Some(offset) = job.shop.guide_offset else { return String::new() };
    let print = |length: Length| nearest_mark(job, length).print(job.style);
    let half = Length::from_nanometres(job.shop.kerf.nanometres() / 2);
    let outside = format!("{} outside", print(offset + half));
    let either =
        if half < offset { format!("{} inside, or {outside}", print(offset - half)) } else { outside };
    format!("; clamp the guide {either} the line of a straight side")
}

/// Whether a piece has a straight side as long as a guide is worth clamping for.
pub(super) fn has_straight_sides(part: &PlannedPart) -> bool {
    let mut sides = part.flat.outline.outer.pieces();
    sides.any(|(from, side)| matches!(side, Segment::Line { to } if GUIDED_MM <= (to - from).length()))
}

/// The shortest straight side that a guide is clamped for: common practice, no source.
const GUIDED_MM: f64 = 150.0;

/// "; a disc of 30 falls out: …", of a part with a cut-out that is large enough to hurt whose foot is under it.
pub(super) fn what_falls(job: &Job, part: &PlannedPart) -> String {
    let size = |hole: &Contour| {
        let (low, high) = hole.bounds();
        [high.x - low.x, high.y - low.y]
    };
    let heavy =
        part.flat.outline.holes.iter().filter(|hole| size(hole).iter().all(|&side| FALLING_MM <= side));
    let area = |hole: &Contour| size(hole)[0] * size(hole)[1];
    let Some(largest) = heavy.max_by(|a, b| area(a).total_cmp(&area(b))) else { return String::new() };
    let [length, height] =
        size(largest).map(|mm| nearest_mark(job, Length::from_millimetres(mm)).print(job.style));
    let is_round = largest.segments.len() == 2
        && largest.segments.iter().all(|segment| matches!(segment, Segment::Arc { .. }))
        && length == height;
    let what = if is_round { format!("disc of {length}") } else { format!("piece of {length} × {height}") };
    format!("; a {what} falls out: hold it up, and keep feet from under it")
}

/// The least length and height of what falls that is warned of: common practice, no source.
const FALLING_MM: f64 = 100.0;
