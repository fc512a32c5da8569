//! The sentences of one stroke.

use fold::Side;
use fold::order::{Clearance, Hindered, Needs, Step, Tools, tool_height};
use fold::part::Forming;
use units::{Angle, Length, LengthStyle, LengthUnit};

use super::BendCard;
use crate::drawing::{making_words, unit_mark};

/// First what is bent and how far, then how the part lies, the stop, the tooling.
pub(super) fn step(card: &BendCard<'_>, number: usize) -> Vec<String> {
    let step = &card.order.steps[number];
    let mut words = vec![bent(card, step), lies(card, step)];
    words.extend(stop(card, number));
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
    words.extend([true, false].into_iter().filter_map(|overbent| touches(card, step, overbent)));
    words
}

/// "needs a punch 17 1/4 in or taller: wall AB meets the ram".
fn in_the_way(card: &BendCard<'_>, hindered: &Hindered) -> String {
    let flat = if hindered.flat { ", still flat" } else { "" };
    let face = &card.flat.faces[hindered.face].name;
    let body = hindered.body;
    match hindered.needs {
        Some(Needs::PunchHeight(least)) => {
            format!("needs a punch {} or taller: {face} meets {body}", height(least, card.style))
        }
        Some(Needs::DieHeight(least)) => {
            format!("needs a die {} or taller: {face}{flat} meets {body}", height(least, card.style))
        }
        Some(Needs::Gooseneck { toward_front }) => {
            let side = if toward_front { "toward you" } else { "to the rear" };
            format!("needs a gooseneck punch, its throat {side}: {face} swings into a straight one")
        }
        Some(Needs::OtherPunch) => {
            format!(
                "look first: {face} swings into a straight punch, and a common gooseneck does not clear it all"
            )
        }
        None => {
            format!("look first: {body}, of which a size is only assumed, is in the way of {face}{flat}")
        }
    }
}

/// "17 1/4 in".
fn height(least: Length, style: LengthStyle) -> String {
    format!("{} {}", tool_height(least, style).print(style), unit_mark(style))
}

/// "care: flange AB passes the punch by .006 in only, overbent".
fn passes(card: &BendCard<'_>, clearance: &Clearance) -> String {
    let Clearance { face, body, least, overbent } = clearance;
    let face = &card.flat.faces[*face].name;
    let overbent = if *overbent { ", overbent" } else { "" };
    let thousandths = LengthStyle::Inches { places: 3 };
    let style = if matches!(card.style, LengthStyle::Millimetres { .. }) { card.style } else { thousandths };
    let unit = unit_mark(style);
    if *least > Length::ZERO {
        format!("care: {face} passes {body} by only {} {unit}{overbent}", least.print(style))
    } else {
        format!("care: {face} touches {body}{overbent}: spring it past by hand")
    }
}

/// "while overbent, rim AB meets wall BC: hold the free one aside"; `None` where nothing touches.
fn touches(card: &BendCard<'_>, step: &Step, overbent: bool) -> Option<String> {
    let name = |face: usize| card.flat.faces[face].name.as_str();
    let pairs = step.touching.iter().filter(|touching| touching.overbent == overbent);
    let pairs: Vec<String> =
        pairs.map(|touching| format!("{} meets {}", name(touching.front), name(touching.back))).collect();
    if pairs.is_empty() {
        return None;
    }
    let pairs = pairs.join(", and ");
    Some(if overbent {
        format!("care: while overbent, {pairs}: hold the free flange aside by hand until it has sprung back")
    } else {
        format!("care: on the way, {pairs}: spring it past by hand")
    })
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
    let turned = turned(step);
    let name = |face: usize| card.flat.faces[face].name.as_str();
    if step.tooling.is_none() {
        return format!("{turned}{up}");
    }
    let (back, front) = (name(step.back), name(step.front));
    if card.press {
        format!("{turned}{up}, {back} to the rear of the machine, {front} toward you")
    } else {
        format!("{turned}{up}, {back} under the clamp, {front} on the leaf")
    }
}

/// How it is turned before the stroke, with a colon; empty where it is not.
fn turned(step: &Step) -> String {
    let degrees = step.turned_by_rad.to_degrees();
    let near = |whole: f64| (degrees - whole).abs() < 15.0;
    match step {
        Step { turned_over: true, .. } => "turn it over: ".to_owned(),
        Step { turned_round: true, .. } if near(180.0) => "turn it end for end: ".to_owned(),
        Step { turned_round: true, .. } if near(90.0) => "turn it a quarter turn: ".to_owned(),
        Step { turned_round: true, .. } => format!("turn it round by {degrees:.0}°: "),
        _ if degrees > 0.0 => "swing it to the line: ".to_owned(),
        _ => String::new(),
    }
}

fn stop(card: &BendCard<'_>, number: usize) -> Option<String> {
    let step = &card.order.steps[number];
    step.tooling.as_ref()?;
    Some(step.stop.as_ref().map_or_else(
        || "by the scribed line, no stop: nothing in reach lies square against one".to_owned(),
        |stop| {
            let distance = stop.distance.print(card.style);
            let unit = unit_mark(card.style);
            let what = if is_bent_between(card, number, (step.back, stop.face)) { "outside" } else { "edge" };
            let face = &card.flat.faces[stop.face].name;
            let square = if stop.skews { "; hold it square by the line" } else { "" };
            format!("stop {distance} {unit} behind the bend line, against the {what} of {face}{square}")
        },
    ))
}

/// Whether a bend between two faces is made before a stroke.
fn is_bent_between(card: &BendCard<'_>, number: usize, (from, to): (usize, usize)) -> bool {
    let bends = &card.flat.bends;
    let above = |face: usize| bends.iter().position(|bend| bend.child == face);
    let line = |face: usize| -> Vec<usize> {
        std::iter::successors(above(face), |&bend| above(bends[bend].parent)).collect()
    };
    let (own, other) = (line(from), line(to));
    // Bends on the way from the one to the other: those above one of them only.
    let between = own.iter().chain(&other).filter(|bend| own.contains(bend) != other.contains(bend));
    let made = |bend: &&usize| card.order.steps[..number].iter().any(|step| step.bends.contains(bend));
    between.into_iter().any(|bend| made(&bend))
}

fn tooling(card: &BendCard<'_>, tools: &Tools) -> Option<String> {
    let unit = unit_mark(card.style);
    let what = match (card.press, tools.punch_confined, tools.die_confined) {
        (false, ..) => "fingers",
        (true, true, true) => "punch and die",
        (true, false, true) => "die",
        (true, ..) => "punch",
    };
    let short = if tools.short_by > Length::ZERO {
        format!(", {} short of the bend", about(tools.short_by, card.style))
    } else {
        String::new()
    };
    if !tools.sections.is_empty() {
        let widths: Vec<String> = tools.sections.iter().map(|width| width.print(card.style)).collect();
        let sum =
            if widths.len() > 1 { format!(" = {}", tools.length.print(card.style)) } else { String::new() };
        let what = if card.press { "punch" } else { what };
        return Some(format!("{what} {}{sum} {unit}{short}", widths.join(" + ")));
    }
    (tools.confined || !short.is_empty()).then(|| {
        format!("{what} no longer than {}, between the flanges{short}", room(tools.length, card.style))
    })
}

/// "about 1/4 in": a length that nobody marks, to a sixteenth or a millimetre.
fn about(length: Length, style: LengthStyle) -> String {
    format!("about {}", in_steps(length, style, f64::round))
}

/// "43 5/8 in": room for a tool, rounded down.
fn room(length: Length, style: LengthStyle) -> String {
    in_steps(length, style, f64::floor)
}

fn in_steps(length: Length, style: LengthStyle, rounded: impl Fn(f64) -> f64) -> String {
    let metric = style.unit() == LengthUnit::Millimetre;
    let step = if metric { 1.0 } else { 25.4 / 16.0 };
    let steps = rounded(length.millimetres() / step).max(1.0);
    format!("{} {}", Length::from_millimetres(steps * step).print(style), unit_mark(style))
}
