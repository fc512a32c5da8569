//! Sizes of a walk.

use shapes::walk::Walk;

use super::weight_limit::heaviest;
use crate::convert::desk::{Desk, Range};
use crate::file::WalkFile;
use crate::model::JobMetal;
use crate::place::Place;

pub(super) fn walk(
    file: &WalkFile,
    metal: Option<&JobMetal>,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Walk> {
    let length = desk.length(&place.field("length"), &file.length, Range::AboveZero);
    let width = desk.length(&place.field("width"), &file.width, Range::AboveZero);
    let beams = desk.length(&place.field("beams"), &file.beams, Range::AboveZero);
    let joint = desk.length(&place.field("joint"), &file.joint, Range::ZeroOrMore);
    let longest = desk.optional(&place.field("longest"), file.longest.as_ref(), Range::AboveZero);
    let heaviest = heaviest(file.heaviest.as_ref(), metal, place, desk);
    Some(Walk {
        length: length?,
        width: width?,
        beams: beams?,
        joint: joint?,
        heaviest: heaviest?,
        longest: longest?,
    })
}
