//! The answer of `weights` as JSON.

use estimate::{HandLift, HungLoad, LiftFactor};
use job::{HingedLid, Lift, Stations};
use serde_json::{Value, json};
use units::{Angle, Mass, Torque};

use super::lifting::{LIFT_SOURCE, lift_fault, lifted, put_together};
use super::{NO_CERTIFICATE, assemblies, carried, job_total, lid_moment, station_moment, wholes};
use crate::output::{Numbers, rounded};
use crate::plan::balance::{self, PlannedLid, WeighedPart, closed_moment, loading, units, weight_of};
use crate::plan::{Flats, standing};
use crate::speech::Refusal;

/// Everything that the command says.
///
/// # Errors
/// Questions of the job that have no answer.
pub(crate) fn everything(
    flats: &Flats,
    parts: &[WeighedPart],
    lids: &[(&HingedLid, PlannedLid)],
) -> Result<Value, Refusal> {
    let numbers = Numbers::of(&flats.job);
    let limit = HandLift::ideal_limit();
    let part = |(planned, part): (&crate::plan::PlannedPart, &WeighedPart)| {
        json!({
            "mark": planned.part.mark,
            "quantity": planned.part.quantity,
            "each": numbers.mass_of_one(part.each),
            "all": numbers.mass(part.all),
            "box": part.size.map(|length| numbers.length(length)),
            "centre": part.centre.map(|length| numbers.length(length)),
        })
    };
    let mut stations = Vec::new();
    for asked in &flats.job.weights.stations {
        stations.push(stations_json(flats, asked, numbers)?);
    }
    let mut lifts = Vec::new();
    for (number, Lift { mark, parts: lifted, lift }) in flats.job.weights.lifts.iter().enumerate() {
        let weight = weight_of(flats, mark, lifted);
        let limit = lift.limit().map_err(|fault| lift_fault(flats, number, fault))?;
        let factor = |factor: &LiftFactor| json!({ "what": factor.what, "factor": rounded(factor.factor, 2), "from_memory": factor.from_memory });
        lifts.push(json!({
            "part": mark,
            "limit": numbers.mass(limit.limit),
            "weight": numbers.mass(weight),
            "factors": limit.factors.iter().map(factor).collect::<Vec<_>>(),
            "above": limit.limit < weight,
        }));
    }
    let together = balance::assemblies(flats, parts)?;
    let all = lifted(flats, (parts, lids)).into_iter().chain(put_together(flats, &together));
    let heavy = all.filter(|(_, mass)| limit < *mass);
    Ok(json!({
        "plateloft": 1,
        "job": flats.job.name,
        "units": { "length": numbers.length_unit(), "weight": numbers.other_units().1, "moment": units(flats).1.name() },
        "parts": flats.parts.iter().zip(parts).map(part).collect::<Vec<_>>(),
        "wholes": wholes(flats, parts).iter().map(|whole| whole_json(flats, whole, numbers)).collect::<Vec<_>>(),
        "assemblies": together.iter().map(|(asked, whole)| assemblies::json(flats, &asked.name, whole)).collect::<Vec<_>>(),
        "job_weight": numbers.mass(job_total(parts)),
        "lids": lids.iter().map(|(asked, lid)| lid_json(flats, asked, lid, numbers)).collect::<Vec<_>>(),
        "stations": stations,
        "hand_lift": {
            "ideal_limit": numbers.mass(limit),
            "source": LIFT_SOURCE,
            "above": heavy.map(|(what, mass)| json!({ "what": what, "weight": numbers.mass(mass) })).collect::<Vec<_>>(),
            "lifts": lifts,
        },
        "note": NO_CERTIFICATE,
    }))
}

/// A whole; its box and centre are null where the place of a piece is not known.
fn whole_json(flats: &Flats, (mark, mass): &(String, Mass), numbers: Numbers) -> Value {
    let boxed = standing::whole(flats, mark).map(|whole| whole.boxed());
    let [size, centre] =
        [0, 1].map(|which: usize| boxed.map(|of| of[which].map(|length| numbers.length(length))));
    json!({ "mark": mark, "all": numbers.mass(*mass), "box": size, "centre": centre })
}

/// A moment in the job's unit, as it prints.
pub(crate) fn torque_json(flats: &Flats, torque: Torque) -> Value {
    let unit = units(flats).1;
    rounded(torque.number(unit), usize::from(unit.places()))
}

fn lid_json(flats: &Flats, asked: &HingedLid, planned: &PlannedLid, numbers: Numbers) -> Value {
    let load = |load: &HungLoad| {
        json!({
            "what": load.what,
            "weight": numbers.mass(load.mass),
            "out": numbers.length(load.out),
            "up": numbers.length(load.up),
            "moment": torque_json(flats, closed_moment(flats, load)),
        })
    };
    let open = planned.lid.moment(asked.opens);
    json!({
        "part": planned.mark,
        "hinge": asked.hinge,
        "loads": planned.lid.loads.iter().map(load).collect::<Vec<_>>(),
        "weight": numbers.mass(planned.lid.mass()),
        "centre": planned.lid.centre().map(|at| [at.x, at.y].map(|mm| numbers.millimetres(mm))),
        "closed_moment": torque_json(flats, lid_moment(flats, planned)),
        "open_degrees": rounded(Angle::degrees(asked.opens), 2),
        "open_moment": torque_json(flats, open),
    })
}

fn stations_json(flats: &Flats, stations: &Stations, numbers: Numbers) -> Result<Value, Refusal> {
    let loading = loading(flats, stations);
    let load = |load: &estimate::StationLoad| {
        json!({
            "what": load.what,
            "weight": numbers.mass(load.mass),
            "station": numbers.length(load.at),
            "moment": torque_json(flats, station_moment(flats, load)),
        })
    };
    let carried = carried(flats, stations, &loading)?.map(|(supports, carried)| {
        let support = |(support, mass): (&estimate::Support, Mass)| {
            json!({ "name": support.name, "station": numbers.length(support.at), "carries": numbers.mass(mass) })
        };
        supports.iter().zip(carried).map(support).collect::<Vec<_>>()
    });
    Ok(json!({
        "name": stations.name,
        "datum": stations.datum,
        "loads": loading.loads.iter().map(load).collect::<Vec<_>>(),
        "weight": numbers.mass(loading.mass()),
        "centre": loading.centre_mm().map(|mm| numbers.millimetres(mm)),
        "supports": carried,
    }))
}
