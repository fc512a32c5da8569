//! Sizes of a plate in pieces.

use shapes::split_plate::SplitPlate;
use units::Length;

use super::weight_limit::heaviest;
use super::{Known, openings};
use crate::convert::desk::{Desk, Range};
use crate::file::SplitPlateFile;
use crate::place::Place;

pub(super) fn split_plate(
    file: &SplitPlateFile,
    known: &Known<'_>,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<SplitPlate> {
    let outline = openings::figure(&file.fills, known.openings, &place.field("fills"), desk);
    let joint = desk.length(&place.field("joint"), &file.joint, Range::ZeroOrMore);
    let at = place.field("seams");
    let read = |(number, seam)| desk.pair(&at.entry(number), seam, Range::ZeroOrMore);
    let seams: Vec<Option<[Length; 2]>> = file.seams.iter().enumerate().map(read).collect();
    let heaviest = heaviest(file.heaviest.as_ref(), known.metal, place, desk);
    Some(SplitPlate {
        outline: outline?,
        between: file.between.clone(),
        seams: seams.into_iter().collect::<Option<_>>()?,
        joint: joint?,
        heaviest: heaviest?,
    })
}
