//! Sizes of a plate.

use shapes::plate::{Plate, PlateOutline};

use super::{drawn, features};
use crate::convert::desk::{Desk, Range};
use crate::file::PlateFile;
use crate::place::Place;

pub(super) fn plate(file: &PlateFile, place: &Place, desk: &mut Desk<'_>) -> Option<Plate> {
    let outline = outline(file, place, desk);
    let holes = features::holes(&file.holes, &place.field("holes"), desk);
    let notches = features::notches(&file.notches, &place.field("notches"), desk);
    Some(Plate { outline: outline?, holes: holes?, notches: notches? })
}

fn outline(file: &PlateFile, place: &Place, desk: &mut Desk<'_>) -> Option<PlateOutline> {
    match (&file.diameter, &file.size, &file.outline) {
        (Some(diameter), None, None) => {
            let diameter = desk.length(&place.field("diameter"), diameter, Range::AboveZero)?;
            Some(PlateOutline::Disc { diameter })
        }
        (Some(_), _, _) => {
            let remedy = "keep one of \"size\", \"outline\" and \"diameter\"";
            desk.add(&place.field("diameter"), "", "another field gives the outline too", remedy);
            None
        }
        (None, size, outline) => {
            let others = ", \"diameter\"";
            drawn::figure(size.as_ref(), outline.as_ref(), others, place, desk).map(PlateOutline::Figure)
        }
    }
}
