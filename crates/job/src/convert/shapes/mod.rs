//! The sizes of each shape, from the file's struct to the recipe's, one file a shape.

mod brake_profile;
mod day_box;
mod deck;
mod drawn;
mod features;
mod lid;
mod openings;
mod pan;
mod panel;
mod plate;
mod rim;
mod sides;
mod tapered_lid;

use super::desk::Desk;
use super::openings::Openings;
use crate::file::PartFile;
use crate::model::ShapeInput;
use crate::place::Place;

/// The shape of a part; `None` where something was found.
pub(super) fn shape(
    part: &PartFile,
    openings: &Openings,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<ShapeInput> {
    Some(match part {
        PartFile::TaperedLid(file) => {
            ShapeInput::TaperedLid(tapered_lid::tapered_lid(file, openings, place, desk)?)
        }
        PartFile::Lid(file) => ShapeInput::Lid(lid::lid(file, openings, place, desk)?),
        PartFile::Pan(file) => ShapeInput::Pan(pan::pan(file, openings, place, desk)?),
        PartFile::DayBox(file) => ShapeInput::DayBox(day_box::day_box(file, place, desk)?),
        PartFile::Panel(file) => ShapeInput::Panel(panel::panel(file, place, desk)?),
        PartFile::Deck(file) => ShapeInput::Deck(deck::deck(file, place, desk)?),
        PartFile::Plate(file) => ShapeInput::Plate(plate::plate(file, place, desk)?),
        PartFile::BrakeProfile(file) => {
            ShapeInput::BrakeProfile(brake_profile::brake_profile(file, place, desk)?)
        }
    })
}
