//! Sizes of a tray.

use shapes::tray::Tray;
use units::Length;

use super::pan::{PanFields, pan};
use crate::convert::desk::{Desk, Range};
use crate::convert::openings::Openings;
use crate::file::{DividersFile, Size, TrayFile};
use crate::place::Place;

pub(super) fn tray(file: &TrayFile, openings: &Openings, place: &Place, desk: &mut Desk<'_>) -> Option<Tray> {
    let fields = PanFields {
        outside: file.outside.as_ref(),
        inside_floor: file.inside_floor.as_ref(),
        lifts_through: file.lifts_through.as_ref(),
        clearance: file.clearance.as_ref(),
        height: &file.height,
        rim: &file.rim,
        lean: &file.lean,
        edge: file.edge.as_ref(),
    };
    let pan = pan(&fields, openings, place, desk);
    let place = place.field("dividers");
    let DividersFile { across, along, height, play, flange } = &file.dividers;
    let height = desk.length(&place.field("height"), height, Range::AboveZero);
    let play = desk.optional(&place.field("play"), play.as_ref(), Range::ZeroOrMore);
    let flange = desk.optional(&place.field("flange"), flange.as_ref(), Range::AboveZero);
    let across = places(across, &place.field("across"), desk);
    let along = places(along, &place.field("along"), desk);
    if file.dividers.across.is_empty() && file.dividers.along.is_empty() {
        desk.add(&place, "", "a tray has dividers", "give at least one, or make it a \"pan\"");
        return None;
    }
    Some(Tray {
        pan: pan?,
        across: across?,
        along: along?,
        height: height?,
        play: play?.unwrap_or(Length::ZERO),
        flange: flange?,
    })
}

fn places(sizes: &[Size], place: &Place, desk: &mut Desk<'_>) -> Option<Vec<Length>> {
    let read = |(number, size): (usize, &Size)| desk.length(&place.entry(number), size, Range::AboveZero);
    let places: Vec<Option<Length>> = sizes.iter().enumerate().map(read).collect();
    places.into_iter().collect()
}
