//! The sizes of each shape, from the file's struct to the recipe's, one file a shape.

mod brake_profile;
mod bulkhead;
mod coaming;
mod console;
mod covers;
mod day_box;
mod deck;
mod drawn;
mod edge;
mod features;
mod gutter;
mod hopper;
mod lid;
mod locker;
mod openings;
mod pan;
mod panel;
mod plate;
mod rim;
mod round;
mod sides;
mod split_plate;
mod step;
mod tapered_lid;
mod tray;
mod walk;
mod weight_limit;

pub(in crate::convert) use drawn::{figure as drawn_figure, points};
pub(in crate::convert) use openings::figure as opening_figure;

use super::desk::Desk;
use super::openings::Openings;
use crate::file::PartFile;
use crate::model::{JobMetal, ShapeInput};
use crate::place::Place;

/// What the sizes of a shape may go by.
#[derive(Clone, Copy)]
pub(super) struct Known<'a> {
    /// Openings.
    pub(super) openings: &'a Openings,
    /// The part's metal; `None` where it is a finding.
    pub(super) metal: Option<&'a JobMetal>,
}

/// The shape of a part; `None` where something was found.
pub(super) fn shape(
    part: &PartFile,
    known: &Known<'_>,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<ShapeInput> {
    let openings = known.openings;
    Some(match part {
        PartFile::TaperedLid(file) => tapered_lid::tapered_lid(file, known, place, desk)?,
        PartFile::Lid(file) => lid::lid(file, openings, place, desk)?,
        PartFile::Pan(file) => pan::pan_as_made(file, openings, place, desk)?,
        PartFile::DayBox(file) => day_box::day_box(file, place, desk)?,
        PartFile::Tray(file) => ShapeInput::Tray(tray::tray(file, openings, place, desk)?),
        PartFile::Gutter(file) => ShapeInput::Gutter(gutter::gutter(file, openings, place, desk)?),
        PartFile::Coaming(file) => ShapeInput::Coaming(coaming::coaming(file, openings, place, desk)?),
        PartFile::Hopper(file) => ShapeInput::Hopper(hopper::hopper(file, place, desk)?),
        PartFile::Panel(file) => ShapeInput::Panel(panel::panel(file, place, desk)?),
        PartFile::Deck(file) => ShapeInput::Deck(deck::deck(file, place, desk)?),
        PartFile::Bulkhead(file) => ShapeInput::Bulkhead(bulkhead::bulkhead(file, place, desk)?),
        PartFile::Locker(file) => ShapeInput::Locker(locker::locker(file, place, desk)?),
        PartFile::Console(file) => ShapeInput::Console(console::console(file, place, desk)?),
        PartFile::Plate(file) => ShapeInput::Plate(plate::plate(file, place, desk)?),
        PartFile::BrakeProfile(file) => {
            ShapeInput::BrakeProfile(brake_profile::brake_profile(file, place, desk)?)
        }
        PartFile::Covers(file) => ShapeInput::Covers(covers::covers(file, known.metal, place, desk)?),
        PartFile::Walk(file) => ShapeInput::Walk(walk::walk(file, known.metal, place, desk)?),
        PartFile::SplitPlate(file) => {
            ShapeInput::SplitPlate(split_plate::split_plate(file, known, place, desk)?)
        }
        PartFile::Cylinder(file) => ShapeInput::Cylinder(round::cylinder(file, place, desk)?),
        PartFile::Cone(file) => ShapeInput::Cone(round::cone(file, place, desk)?),
        PartFile::Transition(file) => ShapeInput::Transition(round::transition(file, place, desk)?),
        PartFile::Step(file) => ShapeInput::Step(step::step(file, place, desk)?),
    })
}
