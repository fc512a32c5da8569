//! Bend cards, and the same steps as text and JSON.

use fold::flat::BendLine;
use fold::order::{BendOrder, Needs, Outcome, Step, ToolEnd, ToolEnds};
use job::{Job, JobMetal};
use paper::bend_card::{self, BendCard};
use paper::{Page, bend_card::step_words};
use serde_json::{Value, json};
use stock::brake::Machine;
use units::Length;

use super::bend_words::overbend_remark;
use super::drawings;
use super::numbers::{Numbers, rounded};
use super::roll_cards;
use super::words::named_metal_words;
use crate::plan::{Flats, PlannedPart, chart_v_words, finer, v_of};

/// The order of a part, when one was found.
fn order(part: &PlannedPart) -> Option<&BendOrder> {
    match part.bend_order.as_ref()? {
        Outcome::Order(order) => Some(order),
        Outcome::Impossible(_) | Outcome::Unsettled => None,
    }
}

/// Hands the card of a part to `show`.
fn with_card<T>(flats: &Flats, part: &PlannedPart, show: impl FnOnce(&BendCard<'_>) -> T) -> Option<T> {
    let (job, order) = (&flats.job, order(part)?);
    let machine = job.shop.brake.as_ref().map(|brake| &brake.machine);
    let words = machine.map_or("a press brake of common sizes: no brake is given", Machine::name);
    let metal = &job.metals[part.part.metal];
    let press = machine.is_none_or(|machine| matches!(machine, Machine::Press(_)));
    let die = press.then(|| die_words(job, metal));
    let remarks: Vec<String> =
        part.bent_flat().bends.iter().map(|bend| overbend_remark(metal, bend)).collect();
    let cautions: Vec<String> = part.bent_flat().bends.iter().map(|bend| short_leg(part, bend)).collect();
    Some(show(&BendCard {
        job: &job.name,
        mark: &part.part.mark,
        title: &drawings::title(flats, part),
        metal: &named_metal_words(job, &job.metals[part.part.metal]),
        quantity: part.part.quantity,
        machine: words,
        die: die.as_deref(),
        press,
        v_opening: v_of(job, metal).0,
        flat: part.bent_flat(),
        cut: &part.flat,
        order,
        remarks: &remarks,
        cautions: &cautions,
        style: job.style,
    }))
}

/// That a face beside a bend is too short for the die, said where the man stands; empty where it is not.
fn short_leg(part: &PlannedPart, bend: &BendLine) -> String {
    let faces = &part.bent_flat().faces;
    let names = [&faces[bend.child].name, &faces[bend.parent].name];
    let short = part.findings.iter().filter(|finding| finding.rule == checks::SHORT_FLANGE);
    let own = short.filter(|finding| names.contains(&&finding.place));
    own.map(|finding| format!("{} is {}, {}", finding.place, finding.measured, finding.wrong))
        .collect::<Vec<_>>()
        .join("; ")
}

/// "V 1, of the shop's own", or whose it is where the shop names none.
fn die_words(job: &Job, metal: &JobMetal) -> String {
    match (v_of(job, metal), chart_v_words(metal, job.style)) {
        ((Some(v), true), _) => {
            let strips = metal.number.strips().filter(|strips| 1 < strips.wanted.v_openings.len());
            let of_strip = strips
                .and_then(fold::bend::choice::StripChoice::bent_in)
                .map_or("", |_| ", in which its strip was bent");
            format!("V {}, of the shop's own{of_strip}", v.print(finer(job.style)))
        }
        (_, Some(words)) => format!("{words}, by a chart: the shop names none"),
        (_, None) => "V not known: the shop names none, and the chart ends before this thickness".to_owned(),
    }
}

/// The pages of a part's card, a rolled ring's before those of other bends; none where no order was found.
pub(crate) fn cards(flats: &Flats, part: &PlannedPart) -> Vec<Page> {
    let rolled = roll_cards::cards(flats, part).into_iter();
    rolled.chain(with_card(flats, part, bend_card::draw).unwrap_or_default()).collect()
}

/// The steps as lines of text.
pub(crate) fn order_text(flats: &Flats, part: &PlannedPart) -> Vec<String> {
    let lines = with_card(flats, part, |card| {
        let steps = 0..card.order.steps.len();
        steps.map(|step| format!("  stroke {}: {}", step + 1, step_words(card, step).join("; "))).collect()
    });
    lines.unwrap_or_default()
}

/// The steps as JSON; null where no order was found.
pub(crate) fn order_json(part: &PlannedPart, numbers: Numbers) -> Value {
    let Some(order) = order(part) else { return Value::Null };
    json!({
        "turned_over": order.turn_overs,
        "turned_round": order.turn_rounds,
        "settings": order.settings,
        "meets_assumed_sizes": !order.with_assumed().is_empty(),
        "proved": order.is_best,
        "steps": order.steps.iter().map(|step| step_json(step, part, numbers)).collect::<Vec<_>>(),
    })
}

fn step_json(step: &Step, part: &PlannedPart, numbers: Numbers) -> Value {
    let name = |face: usize| part.bent_flat().faces[face].name.as_str();
    let strike = |bend: usize| part.struck.as_ref().and_then(|_| part.flat.strike_of(bend));
    let bends = step.bends.iter().map(|&number| {
        let bend =
            strike(number).map_or(&part.bent_flat().bends[number], |strike| &part.flat.bends[strike.bend]);
        [name(bend.parent), name(bend.child)]
    });
    let strike = step.bends.first().and_then(|&bend| strike(bend));
    let lengths = |list: &[Length]| list.iter().map(|length| numbers.length(*length)).collect::<Vec<_>>();
    json!({
        "bends": bends.collect::<Vec<_>>(),
        "strike": strike.map(|strike| json!({ "number": strike.number, "of": strike.of })),
        "turn": rounded(step.turn_rad.to_degrees(), 3),
        "turn_in_die": rounded(step.in_die_rad.to_degrees(), 3),
        "length": numbers.length(step.length),
        "behind": numbers.length(step.reach[0]),
        "before": numbers.length(step.reach[1]),
        "tried": step.tooling.is_some(),
        "closed_by_hand": step.by_hand,
        "marked_face": match step.up { fold::Side::Face => "up", fold::Side::Back => "down" },
        "turned_over": step.turned_over,
        "turned_round": step.turned_round,
        "turned_by": rounded(step.turned_by_rad.to_degrees(), 1),
        "back": name(step.back),
        "front": name(step.front),
        "stop": step.stop.as_ref().map(|stop| json!({
            "against": name(stop.face),
            "distance": numbers.length(stop.distance),
            "bears": numbers.length(stop.bears),
            "raised": stop.raised.map(|height| numbers.length(height)),
            "skews": stop.skews,
        })),
        "tooling": step.tooling.as_ref().map(|tools| json!({
            "sections": lengths(&tools.sections),
            "length": numbers.length(tools.length),
            "short_by": numbers.length(tools.short_by),
            "punch_ends_before": ends_json(&tools.punch, part, numbers),
            "die_ends_before": ends_json(&tools.die, part, numbers),
        })),
        "past_the_leaf": step.past_leaf.map(name),
        "bottomed": step.bottomed,
        "closed_after": step.closed_after,
        "meets_assumed": step.with_assumed.iter().map(|hindered| json!({
            "face": name(hindered.face),
            "body": hindered.body,
            "still_flat": hindered.flat,
            "needs": needs_json(hindered.needs, numbers),
        })).collect::<Vec<_>>(),
        "least_clearance": step.clearance.as_ref().map(|clearance| json!({
            "face": name(clearance.face),
            "body": clearance.body,
            "by": numbers.length(clearance.least),
            "overbent": clearance.overbent,
        })),
        "touching": step.touching.iter().map(|touching| json!({
            "front": name(touching.front),
            "back": name(touching.back),
            "while_overbent": touching.overbent,
        })).collect::<Vec<_>>(),
    })
}

/// Metal at both ends of a bend that a tool must end before.
fn ends_json(ends: &ToolEnds, part: &PlannedPart, numbers: Numbers) -> Value {
    let end = |end: &ToolEnd| {
        json!({
            "face": part.bent_flat().faces[end.face].name,
            "past_the_bend": numbers.length(end.past),
            "still_flat": end.flat,
        })
    };
    ends.ends.iter().flatten().map(end).collect()
}

/// What tool would clear an assumed size; null where none was found.
fn needs_json(needs: Option<Needs>, numbers: Numbers) -> Value {
    match needs {
        Some(Needs::PunchHeight(height)) => json!({ "punch_height": numbers.length(height) }),
        Some(Needs::DieHeight(height)) => json!({ "die_height": numbers.length(height) }),
        Some(Needs::Gooseneck { toward_front }) => {
            json!({ "punch": "gooseneck", "throat": if toward_front { "front" } else { "rear" } })
        }
        Some(Needs::HornedPunch) => json!({ "punch": "horned" }),
        Some(Needs::OtherPunch) => json!({ "punch": "other" }),
        None => Value::Null,
    }
}
