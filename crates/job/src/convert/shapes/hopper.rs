//! Sizes of a hopper.

use geometry::{Point, Vector};
use shapes::Figure;
use shapes::hopper::{Hopper, HopperMade, HopperStands, RimEdge};
use units::Angle;

use super::drawn;
use crate::convert::desk::{Desk, Range};
use crate::file::{Degrees, HopperFile, HopperMadeFile, HopperStandsFile};
use crate::place::Place;

/// A collar turned farther is the same collar lettered from its next corner.
const MOST_TURNED_DEGREES: f64 = 45.0;

pub(super) fn hopper(file: &HopperFile, place: &Place, desk: &mut Desk<'_>) -> Option<Hopper> {
    let rim = drawn::named_figure(
        ["rim", "rim_outline"],
        (file.rim.as_ref(), file.rim_outline.as_ref()),
        place,
        desk,
    );
    let collar = collar(file, place, desk);
    let rise = desk.length(&place.field("rise"), &file.rise, Range::AboveZero);
    let height = desk.optional(&place.field("collar_height"), file.collar_height.as_ref(), Range::AboveZero);
    let rim_edge = rim_edge(file, place, desk);
    let made = made(file, place, desk);
    let least_slope = match &file.least_slope {
        Some(degrees) => slope(degrees, &place.field("least_slope"), desk).map(Some),
        None => Some(None),
    };
    if file.stands.is_none() {
        let mark = place.mark().unwrap_or_default();
        let taken =
            "taken to stand rim down, its corners counter-clockwise from above; rim up it is the other hand";
        desk.assumptions.push(format!("{mark}: {taken}; say \"stands\"."));
    }
    Some(Hopper {
        stands: match file.stands {
            Some(HopperStandsFile::RimUp) => HopperStands::RimUp,
            Some(HopperStandsFile::RimDown) | None => HopperStands::RimDown,
        },
        rim: rim?,
        collar: collar?,
        rise: rise?,
        rim_edge: rim_edge?,
        collar_height: height?,
        made: made?,
        least_slope: least_slope?,
    })
}

/// A slope that a face can have: a level face carries nothing off, and a plumb one is a wall.
fn slope(written: &Degrees, place: &Place, desk: &mut Desk<'_>) -> Option<Angle> {
    let slope = desk.angle(place, written)?;
    if slope.degrees() <= 0.0 || 90.0 <= slope.degrees() {
        let wrong = "a face slopes by more than 0 and less than 90° from level";
        desk.add(
            place,
            &format!("{}°", slope.degrees()),
            wrong,
            "measure from level: 45 is half way to plumb",
        );
        return None;
    }
    Some(slope)
}

/// The collar, placed and turned in the rim's coordinates.
fn collar(file: &HopperFile, place: &Place, desk: &mut Desk<'_>) -> Option<Figure> {
    let sizes = (file.collar.as_ref(), file.collar_outline.as_ref());
    let figure = drawn::named_figure(["collar", "collar_outline"], sizes, place, desk);
    if file.collar.is_some() != file.collar_at.is_some() {
        let wrong = "goes with \"collar\", and only with it";
        desk.add(&place.field("collar_at"), "", wrong, "give both, or the collar by its corners");
        return None;
    }
    let at = match &file.collar_at {
        Some(at) => desk.pair(&place.field("collar_at"), at, Range::Any)?.map(units::Length::millimetres),
        None => [0.0, 0.0],
    };
    let turned = match &file.collar_turned {
        Some(degrees) => desk.angle(&place.field("collar_turned"), degrees)?,
        None => Angle::ZERO,
    };
    if turned.degrees().abs() > MOST_TURNED_DEGREES {
        let wrong = format!("a collar is turned by {MOST_TURNED_DEGREES}° at most either way");
        let quarter = 90.0 * turned.degrees().signum();
        let remedy = format!("turn it by {}° and exchange its two sizes", turned.degrees() - quarter);
        desk.add(&place.field("collar_turned"), &format!("{}°", turned.degrees()), wrong, remedy);
        return None;
    }
    let mut figure = figure?;
    let count = f64::from(u32::try_from(figure.count()).unwrap_or(1));
    let sum = figure.corners.iter().fold(Vector::new(0.0, 0.0), |sum, &p| sum + (p - Point::default()));
    let centre = Point::default() + sum * (1.0 / count);
    let moved =
        |p: &mut Point| *p = centre + (*p - centre).turned(turned.radians()) + Vector::new(at[0], at[1]);
    figure.corners.iter_mut().for_each(moved);
    Some(figure)
}

fn rim_edge(file: &HopperFile, place: &Place, desk: &mut Desk<'_>) -> Option<RimEdge> {
    match (&file.rim_flange, &file.drip) {
        (None, None) => Some(RimEdge::None),
        (Some(width), None) => {
            desk.length(&place.field("rim_flange"), width, Range::AboveZero).map(RimEdge::Flange)
        }
        (None, Some(sizes)) => {
            let place = place.field("drip");
            let [down, inward, up] =
                [0, 1, 2].map(|number| desk.length(&place.entry(number), &sizes[number], Range::Channel));
            Some(RimEdge::Drip { down: down?, inward: inward?, up: up? })
        }
        (Some(_), Some(_)) => {
            let wrong = "\"rim_flange\" and \"drip\" both end the rim";
            desk.add(&place.field("drip"), "", wrong, "keep one of the two");
            None
        }
    }
}

fn made(file: &HopperFile, place: &Place, desk: &mut Desk<'_>) -> Option<HopperMade> {
    let field = place.field("weld_flange");
    let weld_flange = desk.optional(&field, file.weld_flange.as_ref(), Range::AboveZero)?;
    match (file.made, weld_flange) {
        (HopperMadeFile::FourPlates, weld_flange) => Some(HopperMade::FourPlates { weld_flange }),
        (_, Some(_)) => {
            let remedy = "make it of four plates, or leave the weld flange off";
            desk.add(&field, "", "goes only with \"four_plates\"", remedy);
            None
        }
        (HopperMadeFile::OnePiece, None) => Some(HopperMade::OnePiece),
        (HopperMadeFile::TwoHalves, None) => Some(HopperMade::TwoHalves),
    }
}
