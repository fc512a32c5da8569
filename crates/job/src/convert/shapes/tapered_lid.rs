//! Sizes of a tapered lid.

use shapes::tapered_lid::TaperedLid;

use super::openings;
use super::sides::each_side;
use crate::convert::desk::{Desk, Range};
use crate::convert::openings::Openings;
use crate::file::TaperedLidFile;
use crate::place::Place;

pub(super) fn tapered_lid(
    file: &TaperedLidFile,
    openings: &Openings,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<TaperedLid> {
    let over = openings::figure(&file.over, openings, &place.field("over"), desk);
    let outset = desk.length(&place.field("outset"), &file.outset, Range::Any);
    let rise = desk.length(&place.field("rise"), &file.rise, Range::AboveZero);
    let skirt = desk.length(&place.field("skirt"), &file.skirt, Range::AboveZero);
    let lip = desk.optional(&place.field("return"), file.return_width.as_ref(), Range::AboveZero);
    let over = over?;
    let inset = each_side(&file.inset, &over, Range::AboveZero, &place.field("inset"), desk);
    Some(TaperedLid { inset: inset?, over, outset: outset?, rise: rise?, skirt: skirt?, return_width: lip? })
}
