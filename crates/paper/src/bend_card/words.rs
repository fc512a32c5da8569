//! The sentences of one stroke.

use fold::Side;
use fold::order::{Clearance, Hindered, Step, Tools};
use fold::part::Forming;
use units::{Angle, LengthStyle};

use super::BendCard;
use crate::drawing::{making_words, unit_mark};

/// First what is bent and how far, then how the part lies, the stop, the tooling.
pub(super) fn step(card: &BendCard<'_>, number: usize) -> Vec<String> {
    let step = &card.order.steps[number];
    let mut words = vec![bent(card, step), lies(card, step)];
    words.extend(stop(card, step));
    words.extend(step.tooling.as_ref().and_then(|tools| tooling(card, tools)));
    words.extend(step.past_leaf.map(|face| {
        format!("at the end of the leaf, {} past it, where the frame leaves room", card.flat.faces[face].name)
    }));
    if step.bottomed {
        words.push("the punch is too blunt to overbend it: bottom it in the die".to_owned());
    }
    if step.closed_after {
        words.push("swing it as far as it goes, then press it closed".to_owned());
    }
    for remark in step.bends.iter().filter_map(|bend| card.remarks.get(*bend)) {
        // Bends of one stroke mostly share their remark.
        if !remark.is_empty() && !words.contains(remark) {
            words.push(remark.clone());
        }
    }
    words.extend(step.with_assumed.iter().map(|hindered| in_the_way(card, hindered)));
    words.extend(step.clearance.as_ref().map(|clearance| passes(card, clearance)));
    words
}

/// "the ram, of which a size is only assumed, is in the way of side AB".
fn in_the_way(card: &BendCard<'_>, hindered: &Hindered) -> String {
    let flat = if hindered.flat { ", still flat" } else { "" };
    let face = &card.flat.faces[hindered.face].name;
    format!("look first: {}, of which a size is only assumed, is in the way of {face}{flat}", hindered.body)
}

/// "care: flange AB passes the punch by .006 in only, overbent".
fn passes(card: &BendCard<'_>, clearance: &Clearance) -> String {
    let Clearance { face, body, least, overbent } = clearance;
    let face = &card.flat.faces[*face].name;
    let overbent = if *overbent { ", overbent" } else { "" };
    let thousandths = LengthStyle::Inches { places: 3 };
    let style = if matches!(card.style, LengthStyle::Millimetres { .. }) { card.style } else { thousandths };
    let unit = unit_mark(style);
    if *least > units::Length::ZERO {
        format!("care: {face} passes {body} by only {} {unit}{overbent}", least.print(style))
    } else {
        format!("care: {face} touches {body}{overbent}: spring it past by hand")
    }
}

/// "floor to side AB: 90.0°", or all bends of the stroke.
fn bent(card: &BendCard<'_>, step: &Step) -> String {
    let faces = &card.flat.faces;
    let names: Vec<String> = step
        .bends
        .iter()
        .map(|&bend| {
            let bend = &card.flat.bends[bend];
            format!("{} to {}", faces[bend.parent].name, faces[bend.child].name)
        })
        .collect();
    let turn = Angle::from_radians(step.turn_rad).print(1);
    let way = match (step.forming, step.bends.first()) {
        (Forming::Joggle(_), _) => ", joggle, both bends at once".to_owned(),
        (_, Some(&first)) => making_words(&card.flat.bends[first], card.flat.thickness_mm, card.style),
        (_, None) => String::new(),
    };
    format!("{}: {turn}°{way}", names.join(", and "))
}

fn lies(card: &BendCard<'_>, step: &Step) -> String {
    let up = match step.up {
        Side::Face => "marked face up",
        Side::Back => "marked face down",
    };
    let turned = if step.turned_over {
        "turn it over: "
    } else if step.turned_round {
        "turn it round: "
    } else {
        ""
    };
    let name = |face: usize| card.flat.faces[face].name.as_str();
    if step.tooling.is_none() {
        return format!("{turned}{up}");
    }
    let (back, front) = (name(step.back), name(step.front));
    if card.press {
        format!("{turned}{up}, {back} to the back, {front} toward you")
    } else {
        format!("{turned}{up}, {back} under the clamp, {front} on the leaf")
    }
}

fn stop(card: &BendCard<'_>, step: &Step) -> Option<String> {
    step.tooling.as_ref()?;
    Some(step.stop.as_ref().map_or_else(
        || "no edge lies square to a stop: bend to the scribed line".to_owned(),
        |stop| {
            let distance = stop.distance.print(card.style);
            let unit = unit_mark(card.style);
            format!(
                "stop {distance} {unit} behind the bend line, against {}",
                card.flat.faces[stop.face].name
            )
        },
    ))
}

fn tooling(card: &BendCard<'_>, tools: &Tools) -> Option<String> {
    let unit = unit_mark(card.style);
    let what = if card.press { "punch" } else { "fingers" };
    let short = if tools.short_by > units::Length::ZERO {
        format!(", {} {unit} short of the bend", tools.short_by.print(card.style))
    } else {
        String::new()
    };
    if !tools.sections.is_empty() {
        let widths: Vec<String> = tools.sections.iter().map(|width| width.print(card.style)).collect();
        let sum =
            if widths.len() > 1 { format!(" = {}", tools.length.print(card.style)) } else { String::new() };
        return Some(format!("{what} {}{sum} {unit}{short}", widths.join(" + ")));
    }
    (tools.confined || !short.is_empty()).then(|| {
        format!("{what} no longer than {} {unit}, between the sides{short}", tools.length.print(card.style))
    })
}
