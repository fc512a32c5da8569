//! Sizes of a side locker.

use shapes::locker::{Locker, LockerLid};
use units::Length;

use super::deck::lengths;
use crate::convert::desk::{Desk, Range};
use crate::file::{LockerFile, LockerLidFile, Size};
use crate::place::Place;

pub(super) fn locker(file: &LockerFile, place: &Place, desk: &mut Desk<'_>) -> Option<Locker> {
    let mut size = |name: &str, size: &Size| desk.length(&place.field(name), size, Range::AboveZero);
    let length = size("length", &file.length);
    let front_flange = size("front_flange", &file.front_flange);
    let rear_flange = size("rear_flange", &file.rear_flange);
    let bottom_flange = size("bottom_flange", &file.bottom_flange);
    let widths = desk.pair(&place.field("widths"), &file.widths, Range::AboveZero);
    let heights = desk.pair(&place.field("heights"), &file.heights, Range::AboveZero);
    let splits_at = lengths(&file.splits_at, &place.field("splits_at"), Range::AboveZero, desk);
    let mut optional =
        |name: &str, size: &Option<Size>| desk.optional(&place.field(name), size.as_ref(), Range::AboveZero);
    let frames_every = optional("frames_every", &file.frames_every);
    let backing_strip = optional("backing_strip", &file.backing_strip);
    let longest_bend = optional("longest_bend", &file.longest_bend);
    let lid = |(number, file)| lid(file, &place.field("lids").entry(number), desk);
    let lids: Vec<Option<LockerLid>> = file.lids.iter().enumerate().map(lid).collect();
    let crate_inside = inside(file.crate_inside.as_ref(), &place.field("crate_inside"), desk);
    Some(Locker {
        length: length?,
        widths: widths?,
        heights: heights?,
        front_flange: front_flange?,
        rear_flange: rear_flange?,
        bottom_flange: bottom_flange?,
        splits_at: splits_at?,
        frames_every: frames_every?,
        backing_strip: backing_strip?,
        lids: lids.into_iter().collect::<Option<_>>()?,
        longest_bend: longest_bend?,
        crate_inside: crate_inside?,
    })
}

fn lid(file: &LockerLidFile, place: &Place, desk: &mut Desk<'_>) -> Option<LockerLid> {
    let at = desk.length(&place.field("at"), &file.at, Range::ZeroOrMore);
    let from_rear = desk.length(&place.field("from_rear"), &file.from_rear, Range::ZeroOrMore);
    let size = desk.pair(&place.field("size"), &file.size, Range::AboveZero);
    let opening = match &file.opening {
        Some(opening) => desk.pair(&place.field("opening"), opening, Range::AboveZero).map(Some),
        None => Some(None),
    };
    Some(LockerLid { at: at?, from_rear: from_rear?, size: size?, opening: opening? })
}

/// The three sizes of the crate; the outer `None` is a finding.
fn inside(file: Option<&[Size; 3]>, place: &Place, desk: &mut Desk<'_>) -> Option<Option<[Length; 3]>> {
    let Some(sizes) = file else { return Some(None) };
    let read = lengths(sizes, place, Range::AboveZero, desk)?;
    Some(read.try_into().ok())
}
