//! Sizes of channel covers.

use shapes::covers::{CoverNotch, Covers, HandSlots, StraightWall};

use super::brake_profile::lengths;
use super::weight_limit::heaviest;
use crate::convert::desk::{Desk, Range};
use crate::file::{ChannelEndFile, CoverNotchFile, CoversFile, HandSlotsFile, StraightWallFile, WallFile};
use crate::model::JobMetal;
use crate::place::Place;

pub(super) fn covers(
    file: &CoversFile,
    metal: Option<&JobMetal>,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Covers> {
    let widths = lengths(&file.widths, &place.field("widths"), desk);
    let spacing = desk.length(&place.field("spacing"), &file.spacing, Range::AboveZero);
    let bearing = desk.length(&place.field("bearing"), &file.bearing, Range::AboveZero);
    let joint = desk.length(&place.field("joint"), &file.joint, Range::ZeroOrMore);
    let heaviest = heaviest(file.heaviest.as_ref(), metal, place, desk);
    let slots = match &file.hand_slots {
        Some(slots) => hand_slots(slots, &place.field("hand_slots"), desk).map(Some),
        None => Some(None),
    };
    let at = place.field("notches");
    let read = |(number, file)| notch(file, &at.entry(number), desk);
    let notches: Vec<Option<CoverNotch>> = file.notches.iter().enumerate().map(read).collect();
    Some(Covers {
        widths: widths?,
        spacing: spacing?,
        bearing: bearing?,
        joint: joint?,
        straight: straight(file, desk),
        heaviest: heaviest?,
        hand_slots: slots?,
        notches: notches.into_iter().collect::<Option<_>>()?,
    })
}

/// Widths alone do not say how the channel lies.
fn straight(file: &CoversFile, desk: &mut Desk<'_>) -> StraightWall {
    match file.straight_wall {
        Some(StraightWallFile::Left) => StraightWall::Left,
        Some(StraightWallFile::Right) => StraightWall::Right,
        Some(StraightWallFile::Neither) => StraightWall::Neither,
        None => {
            let taken = "widths alone do not say how the channel lies; its centre line is taken as straight, both walls \
                         giving alike. Stretch a line along the left wall: if that wall is the straight one, the job must \
                         say so, and every cover changes";
            desk.assumptions.push(format!("{}: {taken}.", file.mark));
            StraightWall::Neither
        }
    }
}

fn hand_slots(file: &HandSlotsFile, place: &Place, desk: &mut Desk<'_>) -> Option<HandSlots> {
    let slot = desk.pair(&place.field("slot"), &file.slot, Range::AboveZero);
    let from_end = desk.length(&place.field("from_end"), &file.from_end, Range::AboveZero);
    let [length, width] = slot?;
    Some(HandSlots { length, width, from_end: from_end? })
}

fn notch(file: &CoverNotchFile, place: &Place, desk: &mut Desk<'_>) -> Option<CoverNotch> {
    let along = desk.length(&place.field("along"), &file.along, Range::AboveZero);
    let across = desk.length(&place.field("across"), &file.across, Range::AboveZero);
    Some(CoverNotch {
        cover: usize::try_from(file.cover).ok()?,
        downstream: file.end == ChannelEndFile::Downstream,
        left: file.wall == WallFile::Left,
        along: along?,
        across: across?,
    })
}
