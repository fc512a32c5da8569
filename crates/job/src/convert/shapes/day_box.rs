//! Sizes of a day box.

use shapes::day_box::DayBox;
use units::Length;

use super::rim::rim;
use crate::convert::desk::{Desk, Range};
use crate::file::DayBoxFile;
use crate::place::Place;

pub(super) fn day_box(file: &DayBoxFile, place: &Place, desk: &mut Desk<'_>) -> Option<DayBox> {
    let width = desk.length(&place.field("width"), &file.width, Range::AboveZero);
    let height = desk.length(&place.field("height"), &file.height, Range::AboveZero);
    let depths = depths(file, place, desk);
    let back = desk.optional(&place.field("back_height"), file.back_height.as_ref(), Range::AboveZero);
    let rim = rim(&file.rim, &place.field("rim"), desk);
    let ([depth_top, depth_bottom], height) = (depths?, height?);
    Some(DayBox {
        width: width?,
        height,
        depth_top,
        depth_bottom,
        back_height: back?.unwrap_or(height),
        rim: rim?,
    })
}

/// At top and bottom.
fn depths(file: &DayBoxFile, place: &Place, desk: &mut Desk<'_>) -> Option<[Length; 2]> {
    match (&file.depth, &file.depth_top, &file.depth_bottom) {
        (Some(depth), None, None) => {
            desk.length(&place.field("depth"), depth, Range::AboveZero).map(|depth| [depth, depth])
        }
        (None, Some(top), Some(bottom)) => {
            let top = desk.length(&place.field("depth_top"), top, Range::AboveZero);
            let bottom = desk.length(&place.field("depth_bottom"), bottom, Range::AboveZero);
            Some([top?, bottom?])
        }
        _ => {
            let remedy = "give \"depth\", or both \"depth_top\" and \"depth_bottom\"";
            desk.add(
                &place.field("depth"),
                "",
                "a box has one depth, or one at top and one at bottom",
                remedy,
            );
            None
        }
    }
}
