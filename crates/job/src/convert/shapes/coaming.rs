//! Sizes of a coaming.

use shapes::coaming::{Coaming, CoamingMade};
use units::Length;

use super::openings;
use super::rim::rim;
use crate::convert::desk::{Desk, Range};
use crate::convert::openings::Openings;
use crate::file::{CoamingFile, CoamingMadeFile};
use crate::place::Place;

pub(super) fn coaming(
    file: &CoamingFile,
    openings: &Openings,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Coaming> {
    let opening = openings::figure(&file.opening, openings, &place.field("opening"), desk);
    let outset = desk.optional(&place.field("outset"), file.outset.as_ref(), Range::ZeroOrMore);
    let height = desk.length(&place.field("height"), &file.height, Range::AboveZero);
    let top = rim(&file.top, &place.field("top"), desk);
    let made = match file.made {
        CoamingMadeFile::Strip => CoamingMade::Strip,
        CoamingMadeFile::Sides => CoamingMade::Sides,
    };
    Some(Coaming {
        opening: opening?,
        outset: outset?.unwrap_or(Length::ZERO),
        height: height?,
        top: top?,
        made,
    })
}
