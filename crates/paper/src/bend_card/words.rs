//! The sentences of one stroke.

use fold::Side;
use fold::order::{
    ASSUMED_STOP_REACH, Clearance, Hindered, Needs, Step, Stop, ToolEnd, ToolEnds, Tools, tool_size,
};
use fold::part::Forming;
use units::{Angle, Length, LengthStyle, LengthUnit};

use super::{BendCard, strikes};
use crate::drawing::{making_words, unit_mark};

/// A stop that bears on less of a bend than this share is told with how much (common practice, no source).
const MOST_OF_BEND: f64 = 0.9;

/// A turn of more than 90° and what the card prints as that, radians.
const SQUARE_TURN_RAD: f64 = 90.05 * std::f64::consts::PI / 180.0;

/// How much sheet behind the bend line is told where it is most of it, mm: one foot (common practice, no source).
const LEAST_HANGING_MM: f64 = 304.8;

/// One sentence of a stroke, and where its numbers come from.
pub(super) struct Sentence {
    /// The words.
    pub(super) words: String,
    /// The origin of the numbers in it, one of [`STROKE_ORIGINS`].
    pub(super) from: &'static str,
}

const TURN: &str = "turn: as the part's shape asks for it";
const LIES: &str = "the order of bends, found by trying orders on the machine; turned by the angle between the bend lines on the flat";
/// Of the numbers of a stop, in words and pictures.
pub(super) const STOP: &str = "measured on the part as it is folded before the stroke, from the bend line to what lies against the stop";
const NOSE: &str = "half the bend allowance, which the bend line lies in the middle of";
const ACUTE: &str = "180° less the turn with its overbend";
const TOOLING: &str = "measured on the part as it is folded before the stroke: room between what stands beside the bend, rounded down to \
                       what tools are set by; sections as the shop gives them";
const OVERBEND: &str = "springback of the metal, an estimate by its yield and modulus; the packet tells the figures among drawings and maps";
const SHORT: &str = "the leg as its own sizes add up, against what the brake or the V of its die holds";
const CLEARS: &str = "the most that metal reaches under the ram, or over the bed, while it is swung, rounded up to sizes of tools";
const HANGS: &str = "measured on the part as it is folded before the stroke";
const PASSES: &str = "the least distance between metal and machine while the part is swung";

/// Of strikes: how far apart, and what a die asks for.
pub(super) const STRIKES: &str = "lines to strike on, measured on the flat; the V of the die";

/// Where the numbers of strokes come from, by what they are.
pub(super) const STROKE_ORIGINS: [(&str, &str); 12] = [
    ("strikes", STRIKES),
    ("turn", TURN),
    ("how it lies", LIES),
    ("stop", STOP),
    ("bend line before a folder's nose", NOSE),
    ("opening in the die", ACUTE),
    ("length and sections of tools", TOOLING),
    ("overbend", OVERBEND),
    ("leg too short for the die", SHORT),
    ("height of a punch or die", CLEARS),
    ("sheet behind the machine", HANGS),
    ("what passes the machine", PASSES),
];

/// First what is bent and how far, then how the part lies, the stop, the tooling.
pub(super) fn step(card: &BendCard<'_>, number: usize) -> Vec<Sentence> {
    let step = &card.order.steps[number];
    let mut all: Vec<Sentence> = Vec::new();
    let mut say = |from: &'static str, words: &mut dyn Iterator<Item = String>| {
        all.extend(words.map(|words| Sentence { words, from }));
    };
    if step.by_hand {
        all.extend(
            strikes::closed_by_hand(card, step).into_iter().map(|words| Sentence { words, from: TURN }),
        );
        return all;
    }
    say(TURN, &mut std::iter::once(bent(card, step)));
    say(LIES, &mut std::iter::once(lies(card, step)));
    say(STOP, &mut stop(card, number).into_iter());
    say(NOSE, &mut before_nose(card, step).into_iter());
    say(ACUTE, &mut acute(card, step).into_iter());
    say(TOOLING, &mut step.tooling.as_ref().into_iter().flat_map(|tools| tooling(card, tools)));
    say(
        TOOLING,
        &mut step.past_leaf.into_iter().map(|face| {
            format!(
                "at the end of the leaf, {} past it, where the frame leaves room",
                card.flat.faces[face].name
            )
        }),
    );
    let bottomed = "the punch is too blunt to overbend it: bottom it in the die";
    say(ACUTE, &mut step.bottomed.then(|| bottomed.to_owned()).into_iter());
    say(LIES, &mut untried(step).into_iter());
    let closed = match step.forming {
        Forming::Rolled => {
            "turn it round a little at a time to the radius on its layout sheet; it is not pressed closed"
        }
        Forming::Bumped(_) => "strike it on round, line by line; it is not pressed closed",
        Forming::Brake | Forming::Hem | Forming::Joggle(_) | Forming::Sprung => {
            "swing it as far as it goes, then press it closed"
        }
    };
    say(TURN, &mut step.closed_after.then(|| closed.to_owned()).into_iter());
    say(OVERBEND, &mut told_of(step, card.remarks).into_iter());
    say(SHORT, &mut told_of(step, card.cautions).into_iter().map(|words| format!("care: {words}")));
    say(CLEARS, &mut step.with_assumed.iter().map(|hindered| in_the_way(card, step, hindered)));
    say(HANGS, &mut hangs_behind(card, step).into_iter());
    say(PASSES, &mut step.clearance.iter().map(|clearance| passes(card, clearance)));
    say(PASSES, &mut [true, false].into_iter().filter_map(|overbent| touches(card, step, overbent)));
    all
}

/// What is said of the bends of a stroke; those of one stroke mostly share it.
fn told_of(step: &Step, by_bend: &[String]) -> Vec<String> {
    let mut told: Vec<String> = Vec::new();
    for words in step.bends.iter().filter_map(|bend| by_bend.get(*bend)) {
        if !words.is_empty() && !told.contains(words) {
            told.push(words.clone());
        }
    }
    told
}

/// "needs a punch 17 1/4 in or taller: wall AB meets the ram".
fn in_the_way(card: &BendCard<'_>, step: &Step, hindered: &Hindered) -> String {
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
        Some(Needs::HornedPunch) => horned(card, step, face),
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

/// What reaches under metal that stands in high over the ends of a bend, and how it comes out again.
fn horned(card: &BendCard<'_>, step: &Step, face: &str) -> String {
    let names: Vec<&str> = step.over_ends().map(|face| card.flat.faces[face].name.as_str()).collect();
    let under = if names.is_empty() { face.to_owned() } else { names.join(" and ") };
    format!(
        "needs horned end pieces on the punch, to reach on to the ends of the bend under {under}: a straight punch as long as the \
         bend meets them, and is shut in; after the stroke, take out the middle of the punch first, then slide the end \
         pieces in and take them out"
    )
}

/// "17 1/4 in".
fn height(least: Length, style: LengthStyle) -> String {
    format!("{} {}", tool_size(least, style).print(style), unit_mark(style))
}

/// "care: flange AB passes the punch by .006 in only, overbent".
fn passes(card: &BendCard<'_>, clearance: &Clearance) -> String {
    let Clearance { face, body, assumed, least, overbent } = clearance;
    let face = &card.flat.faces[*face].name;
    let overbent = if *overbent { ", overbent" } else { "" };
    let body =
        if *assumed { format!("{body}, of which a size is only assumed,") } else { (*body).to_owned() };
    let thousandths = LengthStyle::Inches { places: 3 };
    let style = if matches!(card.style, LengthStyle::Millimetres { .. }) { card.style } else { thousandths };
    let unit = unit_mark(style);
    if *least > Length::ZERO {
        format!("care: {face} passes {body} by only {} {unit}{overbent}", least.print(style))
    } else {
        let body = body.trim_end_matches(',');
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
        format!(
            "care: while overbent, {pairs}: wedge the free one aside before the stroke, or file the corner back; no hand near it"
        )
    } else {
        format!("care: on the way, {pairs}: spring it past by hand")
    })
}

/// "floor to side AB: 90.0°", or all bends of the stroke.
fn bent(card: &BendCard<'_>, step: &Step) -> String {
    let faces = &card.flat.faces;
    if let Some(words) = step.bends.first().and_then(|&bend| strikes::one_of_many(card, bend)) {
        return words;
    }
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
        (forming, Some(&first)) => {
            let making = making_words(&card.flat.bends[first], card.flat.thickness_mm, card.style);
            let one_of_two = match card.flat.bends[first].forming {
                Forming::Joggle(_) => ", one of the two bends of a joggle that is deep enough for the V",
                _ => "",
            };
            making + &each_strike(forming, step.turn_rad) + one_of_two
        }
        (_, None) => String::new(),
    };
    let long = in_steps(step.length, card.style, f64::round);
    format!("{}: {turn}°{way}, {long} long", names.join(", and "))
}

/// What the order takes as made without looking, as plainly as that; `None` for a stroke that was tried.
fn untried(step: &Step) -> Option<String> {
    if step.tooling.is_some() {
        return None;
    }
    let words = match step.forming {
        Forming::Joggle(_) => Some(
            "needs joggle dies, or packing set out by trial: NOT TRIED, neither this place in the order nor whether the part \
             clears the machine. Watch that flanges beside it pass the dies; where they do not, set the joggle before them",
        ),
        Forming::Rolled => Some(
            "made on the roll, a curl over a rod or in its die: NOT TRIED, neither this place in the order nor whether the \
             part clears it. Watch that what is bent beside it passes the rolls or the rod; where it does not, make the round \
             before it",
        ),
        Forming::Bumped(2..) => Some(
            "bumped strike by strike, in more strikes than orders are tried with: NOT TRIED, neither this place in the order nor \
             whether the part clears the machine. Watch where the part swings to, strike by strike, and stop before it meets \
             anything",
        ),
        Forming::Brake | Forming::Hem | Forming::Bumped(_) => Some(
            "of more than twelve thicknesses inside, it is rolled, or bumped in strikes, and not swung in one stroke: NOT TRIED, \
             neither this place in the order nor whether the part clears the machine. Given as bumped in strikes in the job, every \
             strike is tried",
        ),
        Forming::Sprung => None,
    };
    words.map(str::to_owned)
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

/// ", 9.25° at each": how far every strike of a bumped bend goes; empty for any other.
fn each_strike(forming: Forming, turn_rad: f64) -> String {
    match forming {
        Forming::Bumped(strikes) if 1 < strikes => {
            let each = Angle::from_radians(turn_rad / f64::from(strikes));
            format!(", {}° at each strike", each.print(2))
        }
        _ => String::new(),
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
        Step { turned_round: true, .. } => "turn it round on the bench: ".to_owned(),
        _ if degrees > 0.0 => "swing it to the line: ".to_owned(),
        _ => String::new(),
    }
}

/// The scribed line lies underneath, and the bend goes by it: it must be carried over to the side that lies up.
pub(super) fn is_blind(step: &Step) -> bool {
    step.tooling.is_some() && step.up == Side::Back && step.stop.is_none_or(|stop| stop.skews)
}

fn stop(card: &BendCard<'_>, number: usize) -> Option<String> {
    let step = &card.order.steps[number];
    step.tooling.as_ref()?;
    let carried = if is_blind(step) { ", carried over to the side that lies up" } else { "" };
    let Some(stop) = &step.stop else {
        let (reach, origin) = match card.order.stop_reach {
            Some(reach) => (reach, "the reach of the shop's stop"),
            None => (ASSUMED_STOP_REACH, "the reach that is assumed"),
        };
        let reach = about(reach, card.style);
        return Some(format!(
            "by the scribed line{carried}, without the stop: no edge lies square to it within {reach} behind the line, {origin}"
        ));
    };
    let distance = stop.distance.print(card.style);
    let what = match is_bent_between(card, number, (step.back, stop.face)) {
        true if stop.at_free_edge => "free edge",
        true => "outside",
        false => "edge",
    };
    let face = &card.flat.faces[stop.face].name;
    let height = raised(card, stop);
    let square = if stop.skews { format!("; hold it square by the line{carried}") } else { String::new() };
    let bears = bears(card, step, stop);
    Some(format!(
        "stop: {distance} behind the bend line, against the {what} of {face}{bears}{height}{square}"
    ))
}

/// ", which bears on 15 in of the bend's 75 in only"; empty where it bears on most of the bend.
fn bears(card: &BendCard<'_>, step: &Step, stop: &Stop) -> String {
    if MOST_OF_BEND * step.length.millimetres() <= stop.bears.millimetres() {
        return String::new();
    }
    let round = |length: Length| in_steps(length, card.style, f64::round);
    format!(", which bears on {} of the bend's {} only", round(stop.bears), round(step.length))
}

/// What a bend sharper than a square one asks of punch and die; `None` for any other, and on a folder.
fn acute(card: &BendCard<'_>, step: &Step) -> Option<String> {
    let is_acute = SQUARE_TURN_RAD < step.turn_rad;
    (card.press && step.tooling.is_some() && is_acute).then(|| {
        let open = Angle::from_radians(std::f64::consts::PI - step.in_die_rad).print(1);
        format!(
            "needs an acute punch and an acute V die: it closes to {open}° in the die, and tools for square bends stop short of that"
        )
    })
}

/// What to do where most of a deep sheet lies behind the machine; `None` elsewhere, and on a folder, whose bed carries it.
fn hangs_behind(card: &BendCard<'_>, step: &Step) -> Option<String> {
    let [behind, before] = step.reach;
    let is_deep = LEAST_HANGING_MM <= behind.millimetres() && before < behind;
    (card.press && step.tooling.is_some() && is_deep).then(|| {
        let round = |length: Length| in_steps(length, card.style, f64::round);
        format!(
            "care: {} of sheet lies behind the bend line, {} before it, over {} of bend: it hangs behind the machine and \
             swings up there. Hold it up, with a stand or a second pair of hands",
            round(behind),
            round(before),
            round(step.length)
        )
    })
}

/// "bend line 1/8 - .010 in before the clamp's nose", where the metal begins to bend; `None` on a press brake.
fn before_nose(card: &BendCard<'_>, step: &Step) -> Option<String> {
    let bend = step.bends.first().filter(|_| !card.press && step.tooling.is_some())?;
    let half = Length::from_millimetres(0.5 * card.flat.bends[*bend].zone_mm);
    Some(format!("bend line {} {} before the clamp's nose", half.print(card.style), unit_mark(card.style)))
}

/// ", 7/8 in above the top of the die: raise the stop to it, or go by the line"; empty where a stop level with it touches.
fn raised(card: &BendCard<'_>, stop: &Stop) -> String {
    let Some(height) = stop.raised else { return String::new() };
    let (above, raise) = if height < Length::ZERO { ("below", "lower") } else { ("above", "raise") };
    let height = in_steps(Length::from_millimetres(height.millimetres().abs()), card.style, f64::round);
    let level = if card.press { "the top of the die" } else { "the bed" };
    format!(", {height} {above} {level}: {raise} the stop to it, or go by the line")
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

/// What stands over the bend, and what it must end before.
fn tooling(card: &BendCard<'_>, tools: &Tools) -> Vec<String> {
    let unit = unit_mark(card.style);
    let short = (tools.short_by > Length::ZERO)
        .then(|| format!("{} short of the bend", about(tools.short_by, card.style)));
    let mut words = Vec::new();
    if !tools.sections.is_empty() {
        let widths: Vec<String> = tools.sections.iter().map(|width| width.print(card.style)).collect();
        let sum =
            if widths.len() > 1 { format!(" = {}", tools.length.print(card.style)) } else { String::new() };
        let what = if card.press { "punch" } else { "fingers" };
        words.push(format!("{what} {}{sum} {unit}", widths.join(" + ")));
    }
    let limits = |what: &str, ends: &ToolEnds| limit(card, ends).map(|limit| format!("{what} {limit}"));
    if !card.press {
        words.extend(limits("fingers", &tools.punch));
    } else if limit(card, &tools.punch) == limit(card, &tools.die) {
        words.extend(limits("punch and die", &tools.punch));
    } else {
        words.extend(limits("punch", &tools.punch));
        words.extend(limits("die", &tools.die));
    }
    match (short, words.first_mut()) {
        (Some(short), Some(first)) => *first = format!("{first}, {short}"),
        (Some(short), None) => words.push(format!("tools {short}")),
        (None, _) => {}
    }
    words
}

/// "no longer than 15 in, between flange CD (still flat) and flange EF"; `None` where nothing is in the way.
fn limit(card: &BendCard<'_>, ends: &ToolEnds) -> Option<String> {
    let name = |end: &ToolEnd| {
        let flat = if end.flat { " (still flat)" } else { "" };
        format!("{}{flat}", card.flat.faces[end.face].name)
    };
    match (&ends.ends, ends.room) {
        ([Some(first), Some(second)], Some(most)) => {
            let (first, second) = (name(first), name(second));
            let between =
                if first == second { format!("in {first}") } else { format!("{first} and {second}") };
            Some(format!("no longer than {}, between {between}", room(most, card.style)))
        }
        ([Some(end), None] | [None, Some(end)], _) => {
            let past = in_whole_steps(end.past, card.style);
            let ends = match past {
                Some(past) => format!("no farther than {past} past the end of the bend"),
                None if end.past < Length::ZERO => {
                    let short = Length::from_millimetres(-end.past.millimetres());
                    format!("ending {} before the end of the bend", in_steps(short, card.style, f64::ceil))
                }
                None => "no farther than the end of the bend".to_owned(),
            };
            Some(format!("{ends} at {}", name(end)))
        }
        _ => None,
    }
}

/// A length rounded down to a sixteenth or a millimetre; `None` where nothing is left of it.
fn in_whole_steps(length: Length, style: LengthStyle) -> Option<String> {
    (step_mm(style) <= length.millimetres()).then(|| room(length, style))
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
    let step = step_mm(style);
    let steps = rounded(length.millimetres() / step).max(1.0);
    format!("{} {}", Length::from_millimetres(steps * step).print(style), unit_mark(style))
}

/// A sixteenth or a millimetre: as fine as tools are set, mm.
fn step_mm(style: LengthStyle) -> f64 {
    if style.unit() == LengthUnit::Millimetre { 1.0 } else { 25.4 / 16.0 }
}
