//! Sizes of a console.

use shapes::console::{Console, FootRecess};
use units::Length;

use super::drawn;
use crate::convert::desk::{Desk, Range};
use crate::file::{ConsoleFile, FootRecessFile, Named, Size};
use crate::place::Place;

pub(super) fn console(file: &ConsoleFile, place: &Place, desk: &mut Desk<'_>) -> Option<Console> {
    let outline = drawn::by_corners(&file.outline, &place.field("outline"), desk);
    let radii = by_name(&file.radii, &place.field("radii"), desk);
    let corner_radius =
        desk.optional(&place.field("corner_radius"), file.corner_radius.as_ref(), Range::AboveZero);
    let width = desk.length(&place.field("width"), &file.width, Range::AboveZero);
    let side_flange = desk.optional(&place.field("side_flange"), file.side_flange.as_ref(), Range::AboveZero);
    let foot_recess = match &file.foot_recess {
        Some(recess) => foot_recess(recess, &place.field("foot_recess"), desk).map(Some),
        None => Some(None),
    };
    let taped = by_name(&file.taped, &place.field("taped"), desk);
    Some(Console {
        outline: outline?,
        radii: radii?,
        corner_radius: corner_radius?,
        strikes: file.strikes,
        wrapped: file.wrapped.clone(),
        width: width?,
        side_flange: side_flange?,
        dash: file.dash.clone(),
        foot_recess: foot_recess?,
        taped: taped?,
    })
}

/// Lengths by name, in the file's order.
fn by_name(named: &Named<Size>, place: &Place, desk: &mut Desk<'_>) -> Option<Vec<(String, Length)>> {
    let read = |(name, size): &(String, Size)| {
        Some((name.clone(), desk.length(&place.field(name), size, Range::AboveZero)?))
    };
    let lengths: Vec<Option<(String, Length)>> = named.0.iter().map(read).collect();
    lengths.into_iter().collect()
}

fn foot_recess(file: &FootRecessFile, place: &Place, desk: &mut Desk<'_>) -> Option<FootRecess> {
    let mut size = |name: &str, size: &Size, range| desk.length(&place.field(name), size, range);
    let from_corner = size("from_corner", &file.from_corner, Range::ZeroOrMore);
    let width = size("width", &file.width, Range::AboveZero);
    let height = size("height", &file.height, Range::AboveZero);
    let depth = size("depth", &file.depth, Range::AboveZero);
    let rim = size("rim", &file.rim, Range::AboveZero);
    let clearance = size("clearance", &file.clearance, Range::ZeroOrMore);
    Some(FootRecess {
        leg: file.leg.clone(),
        from_corner: from_corner?,
        width: width?,
        height: height?,
        depth: depth?,
        rim: rim?,
        clearance: clearance?,
    })
}
