//! The kept drops of a plan as offcuts: the metal that is there, its rim with it. Nobody has measured or looked at them
//! yet, and they say so.

use job::{FaceState, NewOffcut, NewTornZone, Offcut, OffcutLay, Rack, exact_length, new_offcut};
use stock::Pattern;
use units::Length;

use super::add::refusal;
use crate::plan::{LeftMetal, Plan, rack_mark};
use crate::speech::{Refusal, listed};

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
            let received = sheet.laid.thickness;
            for (number, drop) in sheet.laid.drops.iter().enumerate() {
                let left = LeftMetal::of(&sheet.laid, drop);
                let new = NewOffcut {
                    mark: rack_mark(&job.name, &sheet.mark, number + 1),
                    metal: metal.alloy_and_temper(),
                    tread: metal.pattern == Pattern::Tread,
                    unlisted: metal.alloy.family == stock::Family::Unlisted,
                    thickness: exact_length(
                        offcut.map_or(received.unwrap_or(metal.thickness), |offcut| offcut.thickness),
                    ),
                    measured: offcut.map_or(received.is_some(), |offcut| offcut.measured),
                    outline: written(&left.outline),
                    holes: left.holes.iter().map(|hole| written(hole)).collect(),
                    torn: left.torn.iter().map(|(zone, why)| torn_zone(zone, why)).collect(),
                    film: offcut.map_or(metal.film, |offcut| offcut.film),
                    face: offcut.map_or(FaceState::Unknown, |offcut| offcut.face),
                    lay: lay(metal.lay.is_some(), offcut),
                    place: place.to_owned(),
                    from_job: Some(job.name.clone()),
                    cut_from: offcut.map(|offcut| offcut.mark.clone()),
                    date: date.to_owned(),
                    note: own_edges(&left.own_sides),
                };
                offcuts.push(new_offcut("rack return", &new, job.unit).map_err(refusal)?);
            }
        }
    }
    Ok(offcuts)
}

fn written(ring: &[[Length; 2]]) -> Vec<[String; 2]> {
    ring.iter().map(|corner| corner.map(exact_length)).collect()
}

fn torn_zone(zone: &[[Length; 2]], why: &str) -> NewTornZone {
    NewTornZone { outline: written(zone), why: why.to_owned() }
}

/// "left, lower and upper edges as they came, not trimmed": they may be bruised or out of square.
fn own_edges(sides: &[&str]) -> Option<String> {
    let sides: Vec<String> = sides.iter().map(|side| (*side).to_owned()).collect();
    match sides.as_slice() {
        [] => None,
        [one] => Some(format!("{one} edge as it came, not trimmed")),
        more => Some(format!("{} edges as they came, not trimmed", listed(more))),
    }
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
