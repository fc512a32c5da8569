//! Sizes of a pan.

use shapes::Figure;
use shapes::pan::{MadeUpPan, Pan, PanDrain, PanMade, PanPlan, Rim, RimStep, SlideThrough};
use units::Angle;

use super::edge::edge;
use super::openings;
use super::rim::rim;
use super::sides::by_side;
use crate::convert::clearance::clearance;
use crate::convert::desk::{Desk, Range};
use crate::convert::openings::Openings;
use crate::file::{
    ClearanceFile, Degrees, EdgeFile, Named, OpeningOrSize, PanFile, PanMadeFile, RimFile, RimStepFile, Size,
};
use crate::model::ShapeInput;
use crate::place::Place;

/// The fields that size a pan, whatever else is asked of it.
pub(super) struct PanFields<'a> {
    pub(super) outside: Option<&'a [Size; 2]>,
    pub(super) inside_floor: Option<&'a [Size; 2]>,
    pub(super) lifts_through: Option<&'a OpeningOrSize>,
    pub(super) clearance: Option<&'a ClearanceFile>,
    pub(super) height: &'a Size,
    pub(super) rim: &'a RimFile,
    pub(super) lean: &'a Named<Degrees>,
    pub(super) edge: Option<&'a EdgeFile>,
}

pub(super) fn pan_as_made(
    file: &PanFile,
    openings: &Openings,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<ShapeInput> {
    let fields = PanFields {
        outside: file.outside.as_ref(),
        inside_floor: file.inside_floor.as_ref(),
        lifts_through: file.lifts_through.as_ref(),
        clearance: file.clearance.as_ref(),
        height: &file.height,
        rim: &file.rim,
        lean: &file.lean,
        edge: file.edge.as_ref(),
    };
    let pan = pan(&fields, openings, place, desk);
    let step = file.rim_step.as_ref().map_or(Some(None), |step| rim_step(step, place, desk).map(Some));
    let drain = drain(file, place, desk);
    let slides = slides(file, place, desk);
    let made = match file.made {
        Some(PanMadeFile::Panels) => PanMade::Panels,
        Some(PanMadeFile::OnePiece) | None => PanMade::OnePiece,
    };
    let (pan, step, drain, slides) = (pan?, step?, drain?, slides?);
    let plain = step.is_none() && drain.is_none() && slides.is_none() && made == PanMade::OnePiece;
    Some(if plain {
        ShapeInput::Pan(pan)
    } else {
        ShapeInput::MadeUpPan(MadeUpPan { pan, step, made, drain, slides })
    })
}

/// "1/2 up" or "1/2 down", and the outer rim.
fn rim_step(file: &RimStepFile, place: &Place, desk: &mut Desk<'_>) -> Option<RimStep> {
    let field = place.field("rim_step");
    let place = field.field("step");
    let (size, way) = file.step.trim().rsplit_once(' ').unwrap_or(("", file.step.as_str()));
    let out = desk.length(&field.field("out"), &file.out, Range::AboveZero);
    let height = match way.to_ascii_lowercase().as_str() {
        "up" | "down" => desk.length(&place, &Size::Text(size.to_owned()), Range::AboveZero),
        _ => {
            let remedy = "write \"1/2 up\" or \"1/2 down\"";
            desk.add(&place, &file.step, "a step is a height and which way it goes", remedy);
            None
        }
    }?;
    let height = if way.eq_ignore_ascii_case("up") { height } else { -height };
    Some(RimStep { height, out: out? })
}

/// The drain; the outer `None` is a finding.
fn drain(file: &PanFile, place: &Place, desk: &mut Desk<'_>) -> Option<Option<PanDrain>> {
    let Some(drain) = &file.drain else { return Some(None) };
    let place = place.field("drain");
    let at = desk.pair(&place.field("at"), &drain.at, Range::AboveZero);
    let diameter = desk.length(&place.field("diameter"), &drain.diameter, Range::Drain);
    Some(Some(PanDrain { at: at?, diameter: diameter? }))
}

/// The slot; the outer `None` is a finding.
fn slides(file: &PanFile, place: &Place, desk: &mut Desk<'_>) -> Option<Option<SlideThrough>> {
    let Some(slides) = &file.slides_through else { return Some(None) };
    let place = place.field("slides_through");
    let slot = desk.pair(&place.field("slot"), &slides.slot, Range::AboveZero);
    let handle = desk.optional(&place.field("handle"), slides.handle.as_ref(), Range::AboveZero);
    Some(Some(SlideThrough { slot: slot?, handle: handle?, lugs: None }))
}

/// The pan itself.
pub(super) fn pan(
    file: &PanFields<'_>,
    openings: &Openings,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Pan> {
    let plan = plan(file, openings, place, desk);
    let height = desk.length(&place.field("height"), file.height, Range::AboveZero);
    let walls = walls(plan.as_ref())?;
    let rims = rims(file.rim, &walls, &place.field("rim"), desk);
    let lean = lean(file.lean, &walls, &place.field("lean"), desk);
    let edge = edge(file.edge, place, desk);
    Some(Pan { plan: plan?, height: height?, rims: rims?, lean: lean?, edge: edge? })
}

fn plan(file: &PanFields<'_>, openings: &Openings, place: &Place, desk: &mut Desk<'_>) -> Option<PanPlan> {
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
    if let Some(outside) = file.outside {
        let [length, width] = desk.pair(&place.field("outside"), outside, Range::AboveZero)?;
        return Some(PanPlan::Outside { length, width });
    }
    if let Some(floor) = file.inside_floor {
        let [length, width] = desk.pair(&place.field("inside_floor"), floor, Range::AboveZero)?;
        return Some(PanPlan::InsideFloor { length, width });
    }
    let (through, free) = (file.lifts_through?, file.clearance?);
    let opening = openings::figure(through, openings, &place.field("lifts_through"), desk);
    let clearance = clearance(free, &place_of_clearance, desk);
    Some(PanPlan::LiftsThrough { opening: opening?, clearance: clearance? })
}

/// A figure with the names of the pan's walls in their order: the opening's own, which runs the other way where its corners
/// do. A plan that was not found counts as square-cornered, so that rims and leans are looked at all the same.
fn walls(plan: Option<&PanPlan>) -> Option<Figure> {
    match plan {
        Some(PanPlan::LiftsThrough { opening, .. }) => Some(opening.clone()),
        _ => Figure::rectangle(1.0, 1.0),
    }
}

/// The rim all round, or that of each wall; walls that are not named have none.
fn rims(file: &RimFile, walls: &Figure, place: &Place, desk: &mut Desk<'_>) -> Option<Vec<Rim>> {
    let named = match file {
        RimFile::One(text) => return Some(vec![rim(text, place, desk)?]),
        RimFile::Named(named) => named,
    };
    let rims = by_side(named, walls, place, desk, |desk, place, text: &String| rim(text, place, desk))?;
    Some(rims.into_iter().map(|rim| rim.unwrap_or(Rim::None)).collect())
}

/// Lean of each wall; walls that are not named are plumb.
fn lean(named: &Named<Degrees>, walls: &Figure, place: &Place, desk: &mut Desk<'_>) -> Option<Vec<Angle>> {
    if named.0.is_empty() {
        return Some(Vec::new());
    }
    let leans =
        by_side(named, walls, place, desk, |desk, place, written: &Degrees| desk.angle(place, written))?;
    Some(leans.into_iter().map(|lean| lean.unwrap_or(Angle::ZERO)).collect())
}
