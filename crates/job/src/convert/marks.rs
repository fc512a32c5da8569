//! Parts found by their marks.

use super::desk::Desk;
use crate::model::Part;
use crate::nearest::{list, remedy};
use crate::place::Place;

/// The part of a mark, or all pieces of the part that was given it: one at least.
pub(super) fn part_or_pieces(
    mark: &str,
    parts: &[Part],
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Vec<usize>> {
    let named = |part: &Part| part.mark == mark || part.written_mark() == mark;
    let found: Vec<usize> = (0..parts.len()).filter(|&number| named(&parts[number])).collect();
    if found.is_empty() {
        unknown(mark, parts, place, desk);
        return None;
    }
    Some(found)
}

/// Says that no part has the mark, and which were meant.
pub(super) fn unknown(mark: &str, parts: &[Part], place: &Place, desk: &mut Desk<'_>) {
    let marks: Vec<&str> = parts.iter().map(|part| part.mark.as_str()).collect();
    let remedy = remedy(mark, &marks, || format!("the parts are {}", list(marks.iter().copied())));
    desk.add(place, mark, "the job has no part of this mark", remedy);
}
