//! What stands out of a part toward what it fits into or over: strips of lapped corners, and the lugs of tread plate. They
//! are items of the part's clearance sum, so that they are counted and can be read there.

use geometry::trig;
use shapes::lid::LidPlan;
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::tapered_lid::Seat;
use shapes::{Clearance, ClearanceItem, CornerStyle, FaceSide, Making};
use units::Length;

use super::desk::Desk;
use crate::model::{JobMetal, ShapeInput};

/// Which side of a part its fit goes by.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Toward {
    /// What it goes into.
    Outside,
    /// What it goes over.
    Inside,
}

/// The shape with all that counted, and a caution for what no clearance has.
pub(super) fn told(
    (shape, mark): (ShapeInput, &str),
    making: &Making,
    (metal, face): (&JobMetal, Option<FaceSide>),
    desk: &mut Desk<'_>,
) -> ShapeInput {
    let strips = strip_in_opening(&shape, making);
    desk.cautions.extend(strips.map(|words| format!("{mark}: {words}.")));
    counted(shape, making, metal, face)
}

/// The shape with strips and lugs counted in its clearance; `face` is the marked one, that lugs are on.
fn counted(shape: ShapeInput, making: &Making, metal: &JobMetal, face: Option<FaceSide>) -> ShapeInput {
    let marked = face.or(shape.recipe().natural_face());
    let lugs = |toward: Toward| {
        let side = if toward == Toward::Outside { FaceSide::Outside } else { FaceSide::Inside };
        metal.lug_height.filter(|_| marked == Some(side))
    };
    let more = |toward: Toward, plates: &str, lean_cosine: f64| {
        let strip = laps(&making.corner, toward == Toward::Outside, plates).then(|| {
            let flat_mm = (making.number.thickness() + making.seam_gap).millimetres();
            Length::from_millimetres(flat_mm / lean_cosine)
        });
        let lugs = lugs(toward).map(|lugs| Length::from_millimetres(lugs.millimetres() / lean_cosine));
        items(strip, lugs)
    };
    match shape {
        ShapeInput::Pan(pan) => ShapeInput::Pan(lifted(pan, &more)),
        ShapeInput::MadeUpPan(mut whole) => {
            whole.pan = lifted(whole.pan, &more);
            if let Some(slides) = &mut whole.slides {
                slides.lugs = metal.lug_height.zip(marked);
            }
            ShapeInput::MadeUpPan(whole)
        }
        ShapeInput::Tray(mut tray) => {
            tray.pan = lifted(tray.pan, &more);
            ShapeInput::Tray(tray)
        }
        ShapeInput::Lid(mut lid) => {
            lid.plan = over(lid.plan, more(Toward::Inside, "skirt", 1.0));
            ShapeInput::Lid(lid)
        }
        ShapeInput::CrownedLid(mut whole) => {
            whole.lid.plan = over(whole.lid.plan, more(Toward::Inside, "skirt", 1.0));
            ShapeInput::CrownedLid(whole)
        }
        ShapeInput::MadeUpLid(mut lid) => {
            if let Seat::Flush(free) = &mut lid.seat {
                free.items.extend(more(Toward::Outside, "skirt", 1.0));
            }
            ShapeInput::MadeUpLid(lid)
        }
        other => other,
    }
}

/// A proud lid, in one piece or made up, whose lap strips inside its corners come inside the opening's line, in words.
fn strip_in_opening(shape: &ShapeInput, making: &Making) -> Option<String> {
    let lid = match shape {
        ShapeInput::TaperedLid(lid) => lid,
        ShapeInput::EdgedLid(edged) => &edged.lid,
        ShapeInput::MadeUpLid(whole) if whole.seat == Seat::Proud => &whole.lid,
        _ => return None,
    };
    let thickness = making.number.thickness();
    let taken = thickness + thickness + making.seam_gap;
    // A lid whose metal alone takes the outset is told so by itself.
    let is_strip = thickness <= lid.outset && lid.outset < taken;
    (laps(&making.corner, false, "skirt") && is_strip).then(|| {
        let [outset, taken, over] =
            [lid.outset, taken, taken - lid.outset].map(|length| length.print(making.style));
        format!(
            "outset of {outset} less {taken} metal and lap strips comes to {over} inside the opening's line at its corners; \
             lap them outside, or make outset more than {taken}, with what must stay free"
        )
    })
}

/// A strip lies on a plate, and where that has lugs, on those, and has its own.
fn items(strip: Option<Length>, lugs: Option<Length>) -> Vec<ClearanceItem> {
    let item = |name: &str, count: u32, each: Length| ClearanceItem { name: name.to_owned(), count, each };
    let of_lugs = if strip.is_some() { 2 } else { 1 };
    let strip = strip.map(|each| item("lap strip", 1, each));
    strip.into_iter().chain(lugs.map(|each| item("lugs", of_lugs, each))).collect()
}

/// Whether a corner between such plates may be lapped on that side.
fn laps(corner: &CornerStyle, outside: bool, plates: &str) -> bool {
    let is_lap =
        |style: &CornerStyle| matches!(style, CornerStyle::Lap { outside: own, .. } if *own == outside);
    match corner {
        CornerStyle::ByName { named, others } => {
            let of_plates = |name: &str| !name.contains(" at corner ") || name.starts_with(plates);
            is_lap(others) || named.iter().any(|(name, style)| of_plates(name) && is_lap(style))
        }
        style => is_lap(style),
    }
}

/// A pan that lifts out. Under a rim that stands out farther, strips and lugs of the wall take nothing more.
fn lifted(mut pan: Pan, more: &dyn Fn(Toward, &str, f64) -> Vec<ClearanceItem>) -> Pan {
    let lean = pan.lean.iter().map(|lean| lean.radians().abs()).fold(0.0, f64::max);
    let items = more(Toward::Outside, "wall", trig::cos(lean));
    let taken = Clearance { items: items.clone() }.total();
    let covers = |rim: &Rim| matches!(rim, Rim::Out(width) if taken <= *width);
    if let PanPlan::LiftsThrough { clearance, .. } = &mut pan.plan
        && !pan.rims.iter().all(covers)
    {
        clearance.items.extend(items);
    }
    pan
}

fn over(mut plan: LidPlan, items: Vec<ClearanceItem>) -> LidPlan {
    if let LidPlan::Over { clearance, .. } = &mut plan {
        clearance.items.extend(items);
    }
    plan
}
