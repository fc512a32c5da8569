//! There is an order in which the shop's machine can make all bends.
//!
//! Every order is tried, the part standing in the machine as far as it is folded. Where the shop gives its machine and
//! none works, the part is not made of one piece; where a size of the machine was only assumed, or no machine is given,
//! it is pointed out.

use fold::order::{BendOrder, Hindered, Impossible, Outcome};
use stock::brake::{Clamp, Folder, Machine};

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "bend_order";

/// Most hindrances and seams that one sentence names.
const MOST_NAMED: usize = 4;

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    match subject.bend_order {
        Some(Outcome::Impossible(why)) => findings.push(impossible(subject, why)),
        Some(Outcome::Order(order)) if !order.with_assumed.is_empty() => {
            findings.push(by_assumed_sizes(subject, order));
        }
        Some(Outcome::Unsettled) => findings.push(Finding {
            rule: NAME,
            severity: Severity::Caution,
            place: "bend order".to_owned(),
            measured: count_words(subject),
            wrong: "too many to try every order, and none was found by then".to_owned(),
            remedy: "work the order out at the brake, with a paper model, before cutting".to_owned(),
        }),
        _ => {}
    }
}

/// There is an order, but not past the sizes that were only assumed.
fn by_assumed_sizes(subject: &Subject<'_>, order: &BendOrder) -> Finding {
    Finding {
        rule: NAME,
        severity: Severity::Caution,
        place: "bend order".to_owned(),
        measured: bends_words(subject),
        wrong: format!(
            "{}, of which a size is only assumed; the order on the card leaves such bodies out",
            reasons(subject, &order.with_assumed)
        ),
        remedy: "give the brake's own sizes under shop.brake, or try it with a paper model".to_owned(),
    }
}

fn impossible(subject: &Subject<'_>, why: &Impossible) -> Finding {
    Finding {
        rule: NAME,
        severity: if subject.limits.machine.is_some() { Severity::No } else { Severity::Caution },
        place: "bend order".to_owned(),
        measured: bends_words(subject),
        wrong: format!("cannot be bent as one piece, because {}", reasons(subject, &why.hindered)),
        remedy: remedy(subject, why),
    }
}

fn bends_words(subject: &Subject<'_>) -> String {
    let name = subject.limits.machine.as_ref().map_or("press brake of common sizes", Machine::name);
    format!("{} on a {name}", count_words(subject))
}

fn count_words(subject: &Subject<'_>) -> String {
    match subject.flat.bends.len() {
        1 => "1 bend".to_owned(),
        count => format!("{count} bends"),
    }
}

fn reasons(subject: &Subject<'_>, hindered: &[Hindered]) -> String {
    let mut reasons: Vec<String> = Vec::new();
    for hindered in hindered {
        let reason = reason(subject, hindered);
        if !reasons.contains(&reason) {
            reasons.push(reason);
        }
    }
    reasons.truncate(MOST_NAMED);
    reasons.join("; and ")
}

/// "the last bend, floor to side DA, cannot be made: side AB meets the clamp bar".
fn reason(subject: &Subject<'_>, hindered: &Hindered) -> String {
    let face = &subject.flat.faces[hindered.face].name;
    let bend = subject.bend_place(hindered.bend);
    let print = |length: units::Length| length.print(subject.style);
    if let Some(other) = hindered.other {
        return format!("at {bend} {face} runs into {}", subject.flat.faces[other].name);
    }
    match (&subject.limits.machine, hindered.body) {
        (
            Some(Machine::Folder(Folder {
                clamp: Clamp::Fingers { deepest_box: Some(deepest), .. }, ..
            })),
            body @ "the beam over the fingers",
        ) => format!("at {bend} {face} meets {body}: the deepest box is {}", print(*deepest)),
        (Some(Machine::Folder(Folder { clamp: Clamp::Fingers { widths, .. }, .. })), "the fingers")
            if !widths.is_empty() =>
        {
            format!("at {bend} no fingers that fit past {face} reach along the bend")
        }
        (_, body) => format!("at {bend} {face} meets {body}"),
    }
}

fn remedy(subject: &Subject<'_>, why: &Impossible) -> String {
    let seams: Vec<String> =
        why.seams.iter().take(MOST_NAMED).map(|&bend| subject.bend_place(bend)).collect();
    match seams.len() {
        0 => {
            "no single seam in place of a bend makes it possible: make it in three pieces or more".to_owned()
        }
        1 => format!("a welded seam in place of {} would make it possible", seams[0]),
        _ => format!("a welded seam in place of one of these would make it possible: {}", seams.join(", ")),
    }
}
