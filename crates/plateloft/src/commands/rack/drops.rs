//! The kept drops of a plan as offcuts. Nobody has measured or looked at them yet, and they say so.

use geometry::Point;
use job::{FaceState, NewOffcut, NewTornZone, Offcut, OffcutLay, Rack, TornZone, exact_length, new_offcut};
use stock::Pattern;
use units::Length;

use super::add::refusal;
use crate::plan::{LaidSheet, Plan, rack_mark};
use crate::speech::Refusal;

/// Every kept drop, marked "JOB SHEET-DROP" so that it cannot come to the rack twice. What is left of an offcut of `rack` is
/// as that offcut was.
pub(super) fn kept(plan: &Plan, rack: &Rack, place: &str, date: &str) -> Result<Vec<Offcut>, Refusal> {
    let job = &plan.flats.job;
    let mut offcuts = Vec::new();
    for nest in &plan.nests {
        let metal = &job.metals[nest.metal].metal;
        for sheet in &nest.sheets {
            let cut_from = sheet.laid.from_rack.as_ref();
            let offcut = cut_from.and_then(|mark| rack.offcuts.iter().find(|offcut| offcut.mark == *mark));
            // What can be used of a drop goes to the rack, not the rim that comes off with it.
            for (number, drop) in sheet.laid.drops.iter().enumerate() {
                let [low, high] = drop.usable;
                let size = high - low;
                let [x, y] = [size.x, size.y].map(|side| exact_length(Length::from_millimetres(side)));
                let zero = || "0".to_owned();
                let (holes, torn) = blemishes_in(&sheet.laid, [low, high]);
                let new = NewOffcut {
                    mark: rack_mark(&job.name, &sheet.mark, number + 1),
                    metal: metal.alloy_and_temper(),
                    tread: metal.pattern == Pattern::Tread,
                    unlisted: metal.alloy.family == stock::Family::Unlisted,
                    thickness: exact_length(offcut.map_or(metal.thickness, |offcut| offcut.thickness)),
                    measured: offcut.is_some_and(|offcut| offcut.measured),
                    outline: vec![[zero(), zero()], [x.clone(), zero()], [x, y.clone()], [zero(), y]],
                    holes,
                    torn,
                    film: offcut.map_or(metal.film, |offcut| offcut.film),
                    face: offcut.map_or(FaceState::Unknown, |offcut| offcut.face),
                    lay: lay(metal.lay.is_some(), offcut),
                    place: place.to_owned(),
                    from_job: Some(job.name.clone()),
                    cut_from: offcut.map(|offcut| offcut.mark.clone()),
                    date: date.to_owned(),
                    note: None,
                };
                offcuts.push(new_offcut("rack return", &new, job.unit).map_err(refusal)?);
            }
        }
    }
    Ok(offcuts)
}

type Ring = Vec<[String; 2]>;

/// The holes and torn zones of a sheet that lie in a drop of it, measured from the drop's own corner. None lies in it in part.
fn blemishes_in(laid: &LaidSheet, [low, high]: [Point; 2]) -> (Vec<Ring>, Vec<NewTornZone>) {
    let Some(outline) = &laid.outline else { return (Vec::new(), Vec::new()) };
    let corner = [low.x, low.y].map(Length::from_millimetres);
    let lies_in = |ring: &[[Length; 2]]| {
        ring.iter().all(|[x, y]| {
            let (x, y) = (x.millimetres(), y.millimetres());
            low.x < x && x < high.x && low.y < y && y < high.y
        })
    };
    let moved = |ring: &[[Length; 2]]| -> Ring {
        ring.iter().map(|at| [0, 1].map(|axis| exact_length(at[axis] - corner[axis]))).collect()
    };
    let holes = outline.holes().iter().filter(|hole| lies_in(hole)).map(|hole| moved(hole)).collect();
    let torn = outline.torn().iter().filter(|zone| lies_in(&zone.outline));
    let zone = |zone: &TornZone| NewTornZone { outline: moved(&zone.outline), why: zone.why.clone() };
    (holes, torn.map(zone).collect())
}

/// Sheets of a metal that has a lay are laid with it along x, and so are offcuts that are no rectangle.
fn lay(metal_has_lay: bool, cut_from: Option<&Offcut>) -> OffcutLay {
    match cut_from.map(|offcut| (offcut.lay, offcut.is_rectangle())) {
        Some((OffcutLay::None, _)) => OffcutLay::None,
        Some((OffcutLay::AlongX | OffcutLay::AlongY, false)) => OffcutLay::AlongX,
        _ if metal_has_lay => OffcutLay::AlongX,
        _ => OffcutLay::Unknown,
    }
}
