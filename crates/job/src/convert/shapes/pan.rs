//! Sizes of a pan.

use shapes::Figure;
use shapes::pan::{Pan, PanPlan, Rim};
use units::Angle;

use super::openings;
use super::rim::rim;
use super::sides::by_side;
use crate::convert::clearance::clearance;
use crate::convert::desk::{Desk, Range};
use crate::convert::openings::Openings;
use crate::file::{Degrees, Named, PanFile, RimFile};
use crate::place::Place;

pub(super) fn pan(file: &PanFile, openings: &Openings, place: &Place, desk: &mut Desk<'_>) -> Option<Pan> {
    let plan = plan(file, openings, place, desk);
    let height = desk.length(&place.field("height"), &file.height, Range::AboveZero);
    let rims = rims(&file.rim, &place.field("rim"), desk);
    let lean = lean(&file.lean, &place.field("lean"), desk);
    Some(Pan { plan: plan?, height: height?, rims: rims?, lean: lean? })
}

fn plan(file: &PanFile, openings: &Openings, place: &Place, desk: &mut Desk<'_>) -> Option<PanPlan> {
    let given = [file.outside.is_some(), file.inside_floor.is_some(), file.lifts_through.is_some()];
    if given.into_iter().filter(|&given| given).count() != 1 {
        let wrong = "one of \"outside\", \"inside_floor\" and \"lifts_through\" sizes a pan";
        desk.add(&place.field("outside"), "", wrong, "give exactly one of them");
        return None;
    }
    let place_of_clearance = place.field("clearance");
    if file.clearance.is_some() != file.lifts_through.is_some() {
        let wrong = "goes with \"lifts_through\", and only with it";
        desk.add(&place_of_clearance, "", wrong, "give both, or neither");
        return None;
    }
    if let Some(outside) = &file.outside {
        let [length, width] = desk.pair(&place.field("outside"), outside, Range::AboveZero)?;
        return Some(PanPlan::Outside { length, width });
    }
    if let Some(floor) = &file.inside_floor {
        let [length, width] = desk.pair(&place.field("inside_floor"), floor, Range::AboveZero)?;
        return Some(PanPlan::InsideFloor { length, width });
    }
    let (through, free) = (file.lifts_through.as_ref()?, file.clearance.as_ref()?);
    let opening = openings::figure(through, openings, &place.field("lifts_through"), desk);
    let clearance = clearance(free, &place_of_clearance, desk);
    Some(PanPlan::LiftsThrough { opening: opening?, clearance: clearance? })
}

/// The rim all round, or that of each wall of a square-cornered floor; walls that are not named have none.
fn rims(file: &RimFile, place: &Place, desk: &mut Desk<'_>) -> Option<Vec<Rim>> {
    let named = match file {
        RimFile::One(text) => return Some(vec![rim(text, place, desk)?]),
        RimFile::Named(named) => named,
    };
    let figure = Figure::rectangle(1.0, 1.0)?;
    let rims = by_side(named, &figure, place, desk, |desk, place, text: &String| rim(text, place, desk))?;
    Some(rims.into_iter().map(|rim| rim.unwrap_or(Rim::None)).collect())
}

/// Lean of each wall of a square-cornered floor; walls that are not named are plumb.
fn lean(named: &Named<Degrees>, place: &Place, desk: &mut Desk<'_>) -> Option<Vec<Angle>> {
    if named.0.is_empty() {
        return Some(Vec::new());
    }
    // Only the names of the sides matter here, not the sizes.
    let figure = Figure::rectangle(1.0, 1.0)?;
    let leans =
        by_side(named, &figure, place, desk, |desk, place, written: &Degrees| desk.angle(place, written))?;
    Some(leans.into_iter().map(|lean| lean.unwrap_or(Angle::ZERO)).collect())
}
