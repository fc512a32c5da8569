//! Sizes of a day box.

use shapes::day_box::{BackCut, CutCorner, CutStyle, DayBox, SetBox};
use units::{Angle, Length};

use super::rim::rim;
use crate::convert::desk::{Desk, Range};
use crate::file::{BackCutFile, CutCornerFile, CutStyleFile, DayBoxFile};
use crate::model::ShapeInput;
use crate::place::Place;

pub(super) fn day_box(file: &DayBoxFile, place: &Place, desk: &mut Desk<'_>) -> Option<ShapeInput> {
    let width = desk.length(&place.field("width"), &file.width, Range::AboveZero);
    let height = desk.length(&place.field("height"), &file.height, Range::AboveZero);
    let depths = depths(file, place, desk);
    let back = desk.optional(&place.field("back_height"), file.back_height.as_ref(), Range::AboveZero);
    let rim = rim(&file.rim, &place.field("rim"), desk);
    let lip = desk.optional(&place.field("door_lip"), file.door_lip.as_ref(), Range::AboveZero);
    let lean =
        file.face_lean.as_ref().map_or(Some(Angle::ZERO), |lean| desk.angle(&place.field("face_lean"), lean));
    let cut = file.cut.as_ref().map_or(Some(None), |cut| self::cut(cut, &place.field("cut"), desk).map(Some));
    let ([depth_top, depth_bottom], height) = (depths?, height?);
    if file.face_lean.is_none() && file.cut.is_none() && file.door_lip.is_none() {
        let back_height = back?.unwrap_or(height);
        return Some(ShapeInput::DayBox(DayBox {
            width: width?,
            height,
            depth_top,
            depth_bottom,
            back_height,
            rim: rim?,
        }));
    }
    if file.back_height.is_some() {
        let wrong = "does not go with \"face_lean\", \"cut\" or \"door_lip\": the bottom is level then";
        desk.add(&place.field("back_height"), "", wrong, "leave it out, or leave the others out");
        return None;
    }
    Some(ShapeInput::SetBox(SetBox {
        width: width?,
        height,
        depth_top,
        depth_bottom,
        face_lean: lean?,
        cut: cut?,
        rim: rim?,
        door_lip: lip?,
    }))
}

fn cut(file: &BackCutFile, place: &Place, desk: &mut Desk<'_>) -> Option<BackCut> {
    let back = desk.length(&place.field("back"), &file.back, Range::AboveZero);
    let level = desk.length(&place.field("level"), &file.level, Range::AboveZero);
    let corner = match file.corner {
        CutCornerFile::Lower => CutCorner::Lower,
        CutCornerFile::Upper => CutCorner::Upper,
    };
    let style = match file.style {
        CutStyleFile::Sloped => CutStyle::Sloped,
        CutStyleFile::Stepped => CutStyle::Stepped,
    };
    Some(BackCut { corner, back: back?, level: level?, style })
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
