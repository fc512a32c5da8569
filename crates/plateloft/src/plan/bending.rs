//! The machine a part is bent on, and the order of its bends.

use checks::{Limits, MetalName, NoLeastRadius};
use fold::FlatPattern;
use fold::bend::choice::StripChoice;
use fold::bend::springback::{Overbend, SpringbackError, overbend};
use fold::flat::BendLine;
use fold::order::{self, Outcome};
use fold::part::Forming;
use job::{Job, JobMetal};
use stock::brake::{
    ASSUMED_STOP_REACH, Clamp, Folder, Machine, PressBrake, chosen_v_opening, force_factor, us_tons_per_foot,
    v_opening,
};
use units::{Length, LengthStyle};

use super::part::finer;

/// The shop's and the metal's limits.
pub(super) fn limits(job: &Job, metal: &JobMetal) -> Limits {
    let brake = job.shop.brake.as_ref();
    // A number holds in the die that its strips were bent in.
    let of_strips = metal.number.strips().and_then(StripChoice::bent_in);
    let given_v = of_strips.or_else(|| {
        let own = brake.map(job::Brake::v_openings).filter(|own| !own.is_empty())?;
        chosen_v_opening(&own, metal.metal.thickness)
    });
    let metal = &metal.metal;
    Limits {
        shortest_flange: brake.and_then(|brake| brake.shortest_flange),
        v_opening: given_v,
        kerf: Some(job.shop.kerf).filter(|kerf| Length::ZERO < *kerf),
        brake_length: brake.and_then(|brake| brake.machine.length()),
        machine: brake.map(|brake| brake.machine.clone()),
        roll: job.shop.roll,
        metal: Some(MetalName {
            alloy: metal.alloy.name.clone(),
            temper: metal.temper.clone(),
            family: metal.alloy.family,
        }),
        least_inside_radius: metal
            .least_inside_radius
            .as_ref()
            .map(|least| (least.radius, least.source.clone())),
        no_least_radius: metal.least_inside_radius.is_none().then(|| NoLeastRadius {
            nearest: stock::nearest_inside_radius(
                &metal.alloy.name,
                metal.temper.as_deref(),
                metal.thickness,
            ),
        }),
        stop_below_least_radius: job.shop.stop_below_least_radius,
    }
}

/// The V die that a metal is bent in, and whether the shop names it: else the chart does; none for metal beyond the chart.
pub(crate) fn v_of(job: &Job, metal: &JobMetal) -> (Option<Length>, bool) {
    let own = limits(job, metal).v_opening;
    (own.or_else(|| chosen_v_opening(&[], metal.metal.thickness)), own.is_some())
}

/// "V .378, 6 T": the V of the chart for a metal, in the same words wherever it stands in for a die that the shop does not name;
/// `None` where the chart ends before this thickness.
pub(crate) fn chart_v_words(metal: &JobMetal, style: LengthStyle) -> Option<String> {
    let thickness = metal.metal.thickness;
    let v = chosen_v_opening(&[], thickness)?.print(finer(style));
    let times = v_opening(thickness).map(|row| format!(", {} T", row.times_thickness));
    Some(format!("V {v}{}", times.unwrap_or_default()))
}

/// One foot, exactly.
const MM_PER_FOOT: f64 = 304.8;

/// What an air bend takes in the shop's V, or in that of the published chart: US tons of 2,000 lb, and the V. None for metal
/// beyond the chart. Formula and factors are those of `stock`; charts differ from it by up to a fifth.
pub(crate) fn us_tons(job: &Job, metal: &JobMetal, bend: &BendLine) -> Option<(f64, Length)> {
    let thickness = metal.metal.thickness;
    let v = v_of(job, metal).0?;
    let alloy = &metal.metal.alloy;
    let factor = force_factor(&alloy.name, metal.metal.temper.as_deref(), alloy.family);
    let times = factor.map_or(1.0, |row| row.factor);
    Some((us_tons_per_foot(thickness, v) * times * bend.from.distance(bend.to) / MM_PER_FOOT, v))
}

/// The order of a part's bends on the shop's machine, or on a press brake of common sizes; `None` without bends, and for a
/// part that goes through the roll and but for the joggle of its seam, set while it lies flat, has no bend for the brake.
pub(super) fn order(flat: &FlatPattern, limits: &Limits, metal: &JobMetal) -> Option<Outcome> {
    // What is sprung by hand is no work for any machine.
    let rolled = |bend: &BendLine| matches!(bend.forming, Forming::Rolled | Forming::Sprung);
    let set_flat = |bend: &BendLine| rolled(bend) || matches!(bend.forming, Forming::Joggle(_));
    if flat.bends.iter().all(set_flat) && flat.bends.iter().any(rolled) || flat.bends.iter().all(rolled) {
        return None;
    }
    let assumed = Machine::Press(PressBrake::default());
    let machine = limits.machine.as_ref().unwrap_or(&assumed);
    let chart = chosen_v_opening(&[], Length::from_millimetres(flat.thickness_mm));
    let in_die = |bend: &BendLine| match overbend_of(metal, bend) {
        Some(Ok(overbend)) => overbend.turn_in_die_rad,
        _ => bend.turn_rad,
    };
    let in_die_rad: Vec<f64> = flat.bends.iter().map(in_die).collect();
    Some(order::find(flat, machine, limits.v_opening.or(chart), &in_die_rad))
}

/// How far to press a bend, when it is one of the brake; none for hems and rolled faces, which are pressed or rolled to
/// their shape.
pub(crate) fn overbend_of<'a>(
    metal: &'a JobMetal,
    bend: &BendLine,
) -> Option<Result<Overbend<'a>, SpringbackError>> {
    let brake = matches!(bend.forming, Forming::Brake | Forming::Joggle(_));
    let row = stock::yield_strength(&metal.metal.alloy.name, metal.metal.temper.as_deref());
    brake.then(|| overbend(&metal.number, row, bend.turn_rad, bend.inside_radius_mm))
}

/// What was taken where the shop says nothing of its machine, one sentence; `bent` are the metals that go to it.
pub(crate) fn machine_assumptions(job: &Job, bent: &[&JobMetal]) -> String {
    let style = finer(job.style);
    match job.shop.brake.as_ref().map(|brake| &brake.machine) {
        None => format!(
            "No brake is given: bend orders are looked for on a press brake of common sizes ({}).",
            press_assumptions(&PressBrake::default(), bent, style).join(", ")
        ),
        Some(Machine::Press(press)) => sentence("press brake", press_assumptions(press, bent, style)),
        Some(Machine::Folder(folder)) => sentence("folder", folder_assumptions(folder, style)),
    }
}

fn sentence(name: &str, mut taken: Vec<String>) -> String {
    taken.push("cut-outs counted as metal".to_owned());
    format!("Bend orders: of the {name}, what is not given was taken as {}.", taken.join(", "))
}

fn press_assumptions(press: &PressBrake, bent: &[&JobMetal], style: LengthStyle) -> Vec<String> {
    let (taken, punch) = (PressBrake::assumed(), &press.punch);
    let print = |length: Length| length.print(style);
    let mut words = Vec::new();
    if press.v_openings.is_empty() {
        words.push(chart_dies(bent, style));
    }
    let sizes = [
        (punch.height, "punch", taken.punch_height, "high"),
        (punch.width, "punch", taken.punch_width, "wide"),
        (press.die_height, "die", taken.die_height, "high"),
        (None, "ram", taken.ram_width, "wide"),
        (None, "bed", taken.bed_width, "wide"),
    ];
    let missing = sizes.iter().filter(|(given, ..)| given.is_none());
    words.extend(missing.map(|(_, what, length, way)| format!("{what} {} {way}", print(*length))));
    words.extend(stop_assumption(press.stop_reach, style));
    if punch.angle.is_none() {
        words.push(format!("punch tip {}°", taken.punch_angle.print(0)));
    }
    if punch.sections.is_empty() {
        words.push("punch and die in sections of any length".to_owned());
    } else {
        words.push("the die in the same sections as the punch".to_owned());
    }
    words
}

/// "V dies by a chart: V .378, 6 T, for skin": as on the cards.
fn chart_dies(bent: &[&JobMetal], style: LengthStyle) -> String {
    let mut dies: Vec<(String, Vec<&str>)> = Vec::new();
    for metal in bent {
        let Some(words) = chart_v_words(metal, style) else { continue };
        match dies.iter_mut().find(|(known, _)| *known == words) {
            Some((_, names)) => names.push(&metal.metal.name),
            None => dies.push((words, vec![&metal.metal.name])),
        }
    }
    let dies: Vec<String> =
        dies.iter().map(|(words, names)| format!("{words}, for {}", names.join(" and "))).collect();
    match dies.as_slice() {
        [] => "V dies of any opening".to_owned(),
        [die] => format!("a V die by a chart: {die}"),
        several => format!("V dies by a chart: {}", several.join("; ")),
    }
}

fn folder_assumptions(folder: &Folder, style: LengthStyle) -> Vec<String> {
    let taken = Folder::assumed();
    let print = |length: Length| length.print(style);
    let mut words = Vec::new();
    match &folder.clamp {
        Clamp::Bar { height: None } => words.push(format!("clamp bar {} high", print(taken.bar_height))),
        Clamp::Fingers { widths, deepest_box } => {
            if widths.is_empty() {
                words.push("fingers of any width".to_owned());
            }
            if deepest_box.is_none() {
                words.push(format!("fingers {} high", print(taken.finger_height)));
            }
        }
        Clamp::Bar { .. } => {}
    }
    if folder.nose_angle.is_none() {
        words.push(format!("nose at {}° to the sheet", taken.nose_angle.print(0)));
    }
    if folder.leaf_width.is_none() {
        words.push(format!("leaf {} wide", print(taken.leaf_width)));
    }
    if folder.leaf_thickness.is_none() {
        words.push(format!("leaf {} thick", print(taken.leaf_thickness)));
    }
    words.push(format!("clamp and bed {} deep", print(taken.clamp_depth)));
    words.extend(stop_assumption(folder.stop_reach, style));
    words
}

fn stop_assumption(given: Option<Length>, style: LengthStyle) -> Option<String> {
    given.is_none().then(|| format!("back stop {} reach", ASSUMED_STOP_REACH.print(style)))
}
