//! Sizes of cylinders, cones and transitions.

use shapes::cone::Cone;
use shapes::cylinder::{Cylinder, Slope};
use shapes::transition::{MadeOf, Transition};
use shapes::wrap::{DiameterTo, WrapMaking, WrapSeam};
use units::{Angle, Length};

use crate::convert::desk::{Desk, Range};
use crate::file::{
    ConeFile, CylinderFile, DiameterToFile, FaceFile, MadeOfFile, Size, SlopeFile, TransitionFile,
    WrapSeamFile, WrapWayFile,
};
use crate::place::Place;

/// Triangles in a quarter of a round that says none (textbooks take three or four; from memory).
const USUAL_DIVISIONS: u32 = 4;

pub(super) fn cylinder(file: &CylinderFile, place: &Place, desk: &mut Desk<'_>) -> Option<Cylinder> {
    let diameter = desk.length(&place.field("diameter"), &file.diameter, Range::AboveZero);
    let length = desk.length(&place.field("length"), &file.length, Range::AboveZero);
    let lower = slope(file.lower_end.as_ref(), &place.field("lower_end"), desk);
    let upper = slope(file.upper_end.as_ref(), &place.field("upper_end"), desk);
    let made = made(file.made, file.strikes, file.seam.as_ref(), place, desk);
    Some(Cylinder {
        diameter: diameter?,
        to: diameter_to(file.diameter_to),
        length: length?,
        ends: [lower?, upper?],
        made: made?,
    })
}

pub(super) fn cone(file: &ConeFile, place: &Place, desk: &mut Desk<'_>) -> Option<Cone> {
    let large = desk.length(&place.field("large"), &file.large, Range::AboveZero);
    let small = desk.length(&place.field("small"), &file.small, Range::AboveZero);
    let height = desk.length(&place.field("height"), &file.height, Range::AboveZero);
    let made = made(file.made, file.strikes, file.seam.as_ref(), place, desk);
    Some(Cone {
        large: large?,
        small: small?,
        to: diameter_to(file.diameter_to),
        height: height?,
        made: made?,
    })
}

pub(super) fn transition(file: &TransitionFile, place: &Place, desk: &mut Desk<'_>) -> Option<Transition> {
    let rectangle = desk.pair(&place.field("rectangle"), &file.rectangle, Range::AboveZero);
    let round = desk.length(&place.field("round"), &file.round, Range::AboveZero);
    let height = desk.length(&place.field("height"), &file.height, Range::AboveZero);
    let offset = match &file.offset {
        Some(offset) => desk.pair(&place.field("offset"), offset, Range::Any),
        None => Some([Length::ZERO; 2]),
    };
    let seam = seam(file.seam.as_ref(), &place.field("seam"), desk);
    Some(Transition {
        rectangle: rectangle?,
        round: round?,
        height: height?,
        offset: offset?,
        divisions: file.divisions.unwrap_or(USUAL_DIVISIONS),
        made_of: match file.made_of {
            MadeOfFile::One => MadeOf::One,
            MadeOfFile::Halves => MadeOf::Halves,
            MadeOfFile::Quarters => MadeOf::Quarters,
        },
        seam: seam?,
    })
}

const fn diameter_to(file: DiameterToFile) -> DiameterTo {
    match file {
        DiameterToFile::Inside => DiameterTo::Inside,
        DiameterToFile::Outside => DiameterTo::Outside,
        DiameterToFile::Middle => DiameterTo::Middle,
    }
}

fn made(
    way: WrapWayFile,
    strikes: Option<u32>,
    file: Option<&WrapSeamFile>,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<WrapMaking> {
    let seam = seam(file, &place.field("seam"), desk)?;
    Some(WrapMaking { rolled: way == WrapWayFile::Rolled, strikes, seam })
}

fn seam(file: Option<&WrapSeamFile>, place: &Place, desk: &mut Desk<'_>) -> Option<WrapSeam> {
    match file {
        None => Some(WrapSeam::Butt),
        Some(WrapSeamFile::Words(text)) if text.trim().eq_ignore_ascii_case("butt") => Some(WrapSeam::Butt),
        Some(WrapSeamFile::Words(text)) => {
            let remedy = "write \"butt\" or {\"lap\": \"1/2\", \"side\": \"outside\"}";
            desk.add(place, text, "no seam of a wrap is made so", remedy);
            None
        }
        Some(WrapSeamFile::Lap(file)) => {
            let width = desk.length(&place.field("lap"), &file.lap, Range::AboveZero)?;
            Some(WrapSeam::Lap { width, outside: file.side != Some(FaceFile::Inside) })
        }
        Some(WrapSeamFile::Tabs(file)) => {
            let tab = match &file.tab {
                Size::Text(text) => text.clone(),
                Size::Number(number) => number.to_string(),
            };
            let wrong = "tabs go through slots of a plate that stands across, and the two edges of this seam meet in one plane";
            let remedy = format!(
                "write \"butt\", and tack a strip behind it to hold both edges even, or {{\"lap\": \"{tab}\", \"side\": \
                 \"outside\"}}, joggled so that the inside stays even; tabs are possible at the corners of boxes, lids and hoppers"
            );
            desk.add(&place.field("tab"), &tab, wrong, remedy);
            None
        }
    }
}

/// The slope of an end; the inner `None` is a square end.
fn slope(file: Option<&SlopeFile>, place: &Place, desk: &mut Desk<'_>) -> Option<Option<Slope>> {
    let Some(file) = file else { return Some(None) };
    let angle = desk.angle(&place.field("slope"), &file.slope);
    let opposite = Some(Angle::from_degrees(180.0));
    let long_side = file.long_side.as_ref().map_or(opposite, |at| desk.angle(&place.field("long_side"), at));
    Some(Some(Slope { angle: angle?, long_side: long_side? }))
}
