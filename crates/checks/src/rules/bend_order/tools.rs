//! Other tooling with which a part could be bent, in words.

use fold::order::{Impossible, LEAF, OtherTools, SECTIONS, Tool, Tried, halved_sections};
use stock::brake::Machine;
use units::{Angle, Length};

use crate::Subject;

/// Other tooling that what hinders asks for.
pub(super) fn remedy(subject: &Subject<'_>, why: &Impossible) -> Option<String> {
    let sharpest = why.hindered.iter().filter_map(|hindered| hindered.blunt_for_rad).reduce(f64::min);
    if let Some(opening) = sharpest {
        let print = |radians: f64| Angle::from_radians(radians).print(1);
        let bends = why.hindered.iter().filter(|hindered| hindered.blunt_for_rad.is_some());
        let kept = bends.map(|hindered| std::f64::consts::PI - subject.bent.bends[hindered.bend].turn_rad);
        let kept = kept.reduce(f64::min).unwrap_or(opening);
        return Some(format!(
            "use a punch and a die of {}° or sharper, or bottom it in a pair of {}°",
            print(opening),
            print(kept)
        ));
    }
    if let Some(words) = other_tools(subject, why) {
        return Some(words);
    }
    let over_leaf = why.hindered.iter().any(|hindered| hindered.flat && hindered.body == LEAF);
    let folder = matches!(subject.limits.machine, Some(Machine::Folder(_)));
    (folder && over_leaf).then(|| "use a leaf no longer than the bend, or a press brake".to_owned())
}

/// "with a gooseneck punch cut back by 1 1/2 it can be bent as one piece", tried on the whole part.
fn other_tools(subject: &Subject<'_>, why: &Impossible) -> Option<String> {
    match why.tools {
        OtherTools::NotTried => None,
        OtherTools::NoneFound(tried) => {
            if let Some(words) = missing_sections(subject, why) {
                return Some(words);
            }
            Some(format!("no {} was found that is enough", listed(&kinds(tried), "or")))
        }
        OtherTools::Enough(tool) => {
            let past = if tool.past_assumed { ", past sizes that are only assumed" } else { "" };
            let parts =
                [punch(subject, tool), die(subject, tool), clamp(subject, tool), machine(subject, tool)];
            let parts: Vec<String> = parts.into_iter().flatten().collect();
            Some(format!("with {} it can be bent as one piece{past}", listed(&parts, "and")))
        }
    }
}

/// What the punch's sections lack of the longest bend that no sum of them makes up.
fn missing_sections(subject: &Subject<'_>, why: &Impossible) -> Option<String> {
    let Some(Machine::Press(press)) = &subject.limits.machine else { return None };
    let short = why.hindered.iter().filter(|hindered| hindered.body == SECTIONS);
    let bend = |bend: usize| subject.bent.bends[bend].from.distance(subject.bent.bends[bend].to);
    let longest_mm = short.map(|hindered| bend(hindered.bend)).reduce(f64::max)?;
    let sum: Length = press.punch.sections.iter().copied().sum();
    let lacking_mm = longest_mm - sum.millimetres();
    (0.0 < lacking_mm)
        .then(|| format!("add sections of {} together, to punch and die", subject.print_mm(lacking_mm)))
}

/// What was tried, each in the singular.
fn kinds(tried: Tried) -> Vec<String> {
    let kinds = [
        (tried.more_sections, "set of further sections of the punch"),
        (tried.gooseneck, "common gooseneck"),
        (tried.taller_punch, "taller punch"),
        (tried.open_height, "more open height"),
        (tried.narrower_die, "narrower die block"),
        (tried.taller_die, "taller die"),
        (tried.more_fingers, "further fingers"),
        (tried.higher_clamp, "higher clamp"),
        (tried.fingers_for_bar, "fingers in place of the clamp bar"),
        (tried.flatter_nose, "flatter nose of the clamp"),
        (tried.throat, "deeper throat"),
    ];
    kinds.into_iter().filter(|(was, _)| *was).map(|(_, words)| words.to_owned()).collect()
}

fn punch(subject: &Subject<'_>, tool: Tool) -> Option<String> {
    let print = |length: Length| length.print(subject.style);
    let own = match &subject.limits.machine {
        Some(Machine::Press(press)) => press.punch.sections.as_slice(),
        _ => &[],
    };
    let more: Vec<String> = halved_sections(own, tool.more_sections).into_iter().map(print).collect();
    if !more.is_empty() {
        let plural = if more.len() == 1 { "one more section" } else { "more sections" };
        return Some(format!("{plural} of the punch, {}, and the die alike,", listed(&more, "and")));
    }
    match (tool.relief, tool.height) {
        (Some(relief), None) => Some(format!("a gooseneck punch cut back by {}", print(relief))),
        (Some(relief), Some(height)) => {
            Some(format!("a gooseneck punch {} high and cut back by {}", print(height), print(relief)))
        }
        (None, height) => height.map(|height| format!("a punch {} high", print(height))),
    }
}

fn die(subject: &Subject<'_>, tool: Tool) -> Option<String> {
    let print = |length: Length| length.print(subject.style);
    match (tool.die_width, tool.die_height) {
        (None, None) => None,
        (Some(width), None) => Some(format!("a die block {} wide", print(width))),
        (None, Some(height)) => Some(format!("a die {} high", print(height))),
        (Some(width), Some(height)) => {
            Some(format!("a die block {} wide and {} high", print(width), print(height)))
        }
    }
}

fn clamp(subject: &Subject<'_>, tool: Tool) -> Option<String> {
    let print = |length: Length| length.print(subject.style);
    let more: Vec<String> = tool.more_fingers.into_iter().flatten().map(print).collect();
    let is_bar = matches!(
        &subject.limits.machine,
        Some(Machine::Folder(folder)) if matches!(folder.clamp, stock::brake::Clamp::Bar { .. })
    );
    let deep = tool.clamp_height.map(|height| format!(" for boxes {} deep", print(height)));
    let clamp = match (&deep, tool.clamp_height) {
        _ if tool.fingers_for_bar => {
            Some(format!("fingers in place of the clamp bar{}", deep.unwrap_or_default()))
        }
        (Some(_), Some(height)) if is_bar => Some(format!("a clamp bar {} high", print(height))),
        (Some(deep), _) if more.is_empty() => Some(format!("fingers{deep}")),
        _ => None,
    };
    let fingers = (!more.is_empty()).then(|| {
        let plural = if more.len() == 1 { "one more finger" } else { "more fingers" };
        let deep = tool.clamp_height.map(|height| format!(", all for boxes {} deep,", print(height)));
        format!("{plural} of {}{}", listed(&more, "and"), deep.unwrap_or_default())
    });
    let nose = tool
        .nose_degrees
        .map(|degrees| format!("a clamp nose of {}°", Angle::from_degrees(degrees).print(0)));
    let all: Vec<String> = clamp.into_iter().chain(fingers).chain(nose).collect();
    (!all.is_empty()).then(|| listed(&all, "and"))
}

/// What the machine itself must have.
fn machine(subject: &Subject<'_>, tool: Tool) -> Option<String> {
    let print = |length: Length| length.print(subject.style);
    let open = tool.daylight.map(|daylight| format!("{} between bed and ram, open,", print(daylight)));
    let throat = tool.throat.map(|throat| format!("a throat of {}", print(throat)));
    let all: Vec<String> = open.into_iter().chain(throat).collect();
    (!all.is_empty()).then(|| listed(&all, "and"))
}

/// "a, b or c".
pub(super) fn listed(words: &[String], last: &str) -> String {
    match words {
        [] => String::new(),
        [only] => only.clone(),
        [first @ .., end] => format!("{} {last} {end}", first.join(", ")),
    }
}
