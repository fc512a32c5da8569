//! There is an order in which the shop's machine can make all bends.
//!
//! Every order is tried, the part standing in the machine as far as it is folded. Where the shop gives its machine and
//! none works, the part is not made of one piece; where a size of the machine was only assumed, or no machine is given,
//! it is pointed out.

mod pieces;
mod tools;

use fold::order::{
    BendOrder, FINGER_BEAM, FINGERS, Hindered, Impossible, LEAF, Needs, Outcome, SECTIONS, Step,
    TALL_PUNCH_MM, tool_size,
};
use stock::brake::{Clamp, Folder, Machine};
use units::{Angle, Length};

use crate::{Finding, Severity, Subject};

pub(crate) const NAME: &str = "bend_order";

/// Most seams that one sentence names.
const MOST_NAMED: usize = 4;

pub(crate) fn look(subject: &Subject<'_>, findings: &mut Vec<Finding>) {
    match subject.bend_order {
        Some(Outcome::Impossible(why)) => findings.push(impossible(subject, why)),
        Some(Outcome::Order(order)) if !order.with_assumed().is_empty() => {
            findings.push(by_assumed_sizes(subject, order));
        }
        Some(Outcome::Unsettled) => findings.push(Finding {
            rule: NAME,
            severity: Severity::Caution,
            place: "bend order".to_owned(),
            measured: count_words(subject),
            wrong: "NO BEND CARD: too many bends to try every order, and none was found by then".to_owned(),
            remedy: "work the order out at the brake, with a paper model, before cutting".to_owned(),
        }),
        _ => {}
    }
}

/// There is an order, but not past the sizes that were only assumed: what the shop must have for it.
fn by_assumed_sizes(subject: &Subject<'_>, order: &BendOrder) -> Finding {
    let mut kinds: Vec<Met<'_>> = Vec::new();
    for (number, step) in order.steps.iter().enumerate() {
        for hindered in &step.with_assumed {
            match kinds.iter_mut().find(|met| met.is_like(hindered)) {
                Some(met) => met.add(number + 1, step, hindered),
                None => {
                    let mut met = Met { strokes: Vec::new(), hindered: Vec::new(), over_ends: Vec::new() };
                    met.add(number + 1, step, hindered);
                    kinds.push(met);
                }
            }
        }
    }
    let told: Vec<String> = kinds.iter().map(|met| met.words(subject)).collect();
    Finding {
        rule: NAME,
        severity: Severity::Caution,
        place: "bend order".to_owned(),
        measured: bends_words(subject),
        wrong: told.join("; "),
        remedy: "sizes of the brake are assumed: give its own".to_owned(),
    }
}

/// Said of a punch taller than those of common brakes.
const FEW: &str =
    " (few presses open for one: decide before cutting whether a seam is welded in place of a bend)";

/// One body in the way of several strokes, cleared by one kind of tool.
struct Met<'a> {
    strokes: Vec<usize>,
    hindered: Vec<&'a Hindered>,
    /// What a horned punch reaches under, at either end of a bend: of two alike both are in the way.
    over_ends: Vec<usize>,
}

impl<'a> Met<'a> {
    fn is_like(&self, other: &Hindered) -> bool {
        let kind = |needs: Option<Needs>| needs.map(|needs| std::mem::discriminant(&needs));
        let same = |known: &&Hindered| (known.body, kind(known.needs)) == (other.body, kind(other.needs));
        self.hindered.iter().any(same)
    }

    fn add(&mut self, stroke: usize, step: &Step, hindered: &'a Hindered) {
        if !self.strokes.contains(&stroke) {
            self.strokes.push(stroke);
        }
        if hindered.needs == Some(Needs::HornedPunch) {
            self.over_ends.extend(step.over_ends());
        }
        self.hindered.push(hindered);
    }

    /// "wall AB meets the ram at strokes 5, 6: needs a punch 17 1/4 or taller".
    fn words(&self, subject: &Subject<'_>) -> String {
        let mut faces: Vec<&str> = Vec::new();
        for face in self.hindered.iter().map(|hindered| hindered.face).chain(self.over_ends.iter().copied()) {
            let face = subject.bent.faces[face].name.as_str();
            if !faces.contains(&face) {
                faces.push(face);
            }
        }
        if !self.over_ends.is_empty() {
            faces.sort_unstable();
        }
        let (first, body) = (self.hindered.first(), self.hindered.first().map_or("", |first| first.body));
        let verb = if faces.len() == 1 { "meets" } else { "meet" };
        let plural = if self.strokes.len() == 1 { "" } else { "s" };
        let strokes: Vec<String> = self.strokes.iter().map(ToString::to_string).collect();
        let most = self.hindered.iter().filter_map(|hindered| match hindered.needs {
            Some(Needs::PunchHeight(height) | Needs::DieHeight(height)) => Some(height),
            _ => None,
        });
        let height = most.max().unwrap_or(Length::ZERO);
        let is_tall = Length::from_millimetres(TALL_PUNCH_MM) < height;
        let height = tool_size(height, subject.style).print(subject.style);
        let needs = match first.and_then(|first| first.needs) {
            Some(Needs::PunchHeight(_)) => {
                format!("needs a punch {height} or taller{}", if is_tall { FEW } else { "" })
            }
            Some(Needs::DieHeight(_)) => format!("needs a die {height} or taller"),
            Some(Needs::Gooseneck { .. }) => "needs a gooseneck punch".to_owned(),
            Some(Needs::HornedPunch) => {
                let it = if faces.len() == 1 { "it" } else { "them" };
                format!("needs horned end pieces on the punch, to reach under {it} at the ends of the bend")
            }
            Some(Needs::OtherPunch) => "needs other than a straight punch or a common gooseneck".to_owned(),
            None => "look first, a size of it is only assumed".to_owned(),
        };
        format!("{} {verb} {body} at stroke{plural} {}: {needs}", faces.join(", "), strokes.join(", "))
    }
}

fn impossible(subject: &Subject<'_>, why: &Impossible) -> Finding {
    Finding {
        rule: NAME,
        severity: if subject.limits.machine.is_some() { Severity::No } else { Severity::Caution },
        place: "bend order".to_owned(),
        measured: bends_words(subject),
        wrong: format!(
            "cannot be bent as one piece, because {}{}",
            reasons(subject, &why.hindered),
            past_throat(subject, why)
        ),
        remedy: remedy(subject, why),
    }
}

/// What is in the way besides the throat: with a deeper one, and the other way round.
fn past_throat(subject: &Subject<'_>, why: &Impossible) -> String {
    if why.past_throat.is_empty() {
        return String::new();
    }
    format!("; and clear of the throat, {}", reasons(subject, &why.past_throat))
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
    reasons.join("; and ")
}

/// "the last bend, floor to side DA, cannot be made: side AB meets the clamp bar".
fn reason(subject: &Subject<'_>, hindered: &Hindered) -> String {
    let face = &subject.bent.faces[hindered.face].name;
    let bend = subject.stroke_place(hindered.bend);
    if let Some(other) = hindered.other {
        return format!("at {bend} {face} runs into {}", subject.bent.faces[other].name);
    }
    let machine = subject.limits.machine.as_ref();
    if let (Some(opening), Some(Machine::Press(press))) = (hindered.blunt_for_rad, machine) {
        let punch = press.punch.angle.map(|angle| angle.print(1)).unwrap_or_default();
        let opening = Angle::from_radians(opening).print(1);
        return format!(
            "at {bend} the punch of {punch}° is too blunt for an opening of {opening}° in the die"
        );
    }
    let met = met(subject, machine, hindered, face);
    let assumed = if hindered.assumed { ", of which a size is only assumed" } else { "" };
    format!("at {bend} {met}{assumed}")
}

/// "side AB meets the clamp bar".
fn met(subject: &Subject<'_>, machine: Option<&Machine>, hindered: &Hindered, face: &str) -> String {
    let print = |length: Length| length.print(subject.style);
    let clamp = match machine {
        Some(Machine::Folder(Folder { clamp, .. })) => Some(clamp),
        _ => None,
    };
    if let (Some(Machine::Press(press)), SECTIONS) = (machine, hindered.body) {
        let line = &subject.bent.bends[hindered.bend];
        return too_few_sections(subject, &press.punch.sections, line.from.distance(line.to));
    }
    match (clamp, hindered.body) {
        (Some(Clamp::Fingers { deepest_box: Some(deepest), .. }), body @ FINGER_BEAM) => {
            format!("{face} meets {body}: the deepest box is {}", print(*deepest))
        }
        (Some(Clamp::Fingers { widths, .. }), FINGERS) if !widths.is_empty() => {
            format!("no fingers that fit past {face} reach along the bend")
        }
        (_, body @ LEAF) if hindered.flat => {
            format!("{face}, still flat, lies over {body}, which would lift it")
        }
        (_, body) if hindered.flat => format!("{face}, still flat, meets {body}"),
        (_, body) => format!("{face} meets {body}"),
    }
}

/// "the punch's sections, 24, 12, 6, 4 and 2, add up to 48 for a bend 50 long".
fn too_few_sections(subject: &Subject<'_>, sections: &[Length], bend_mm: f64) -> String {
    let print = |length: Length| length.print(subject.style);
    let own: Vec<String> = sections.iter().copied().map(print).collect();
    let own = tools::listed(&own, "and");
    let sum: Length = sections.iter().copied().sum();
    let bend = subject.print_mm(bend_mm);
    if sum.millimetres() < bend_mm {
        format!("the punch's sections, {own}, add up to {} for a bend {bend} long", print(sum))
    } else {
        format!("no sum of the punch's sections, {own}, comes near enough to a bend {bend} long")
    }
}

fn remedy(subject: &Subject<'_>, why: &Impossible) -> String {
    let mut remedies: Vec<String> = tools::remedy(subject, why).into_iter().collect();
    let name = |bend: usize| subject.stroke_place(bend);
    let past = if why.seams.past_assumed { ", past sizes that are only assumed" } else { "" };
    let several = 1 < why.seams.single.len();
    let named = |bend: usize| {
        let left = if several { format!(" ({})", pieces::words(subject, &[bend])) } else { String::new() };
        format!("{}{left}", name(bend))
    };
    let seams: Vec<String> = why.seams.single.iter().take(MOST_NAMED).map(|&bend| named(bend)).collect();
    match (seams.len(), why.seams.pair) {
        // A single bend, welded instead, is no longer bent.
        _ if subject.bent.bends.len() == 1 && !remedies.is_empty() => {}
        (0, Some([first, second])) => remedies.push(format!(
            "no single seam makes it possible, but two do: welded seams in place of {} and {}{past}, {}",
            name(first),
            name(second),
            pieces::words(subject, &[first, second])
        )),
        (0, None) => remedies.push(
            "no one or two seams in place of bends were found that make it possible: make it on another machine, or \
             in more pieces"
                .to_owned(),
        ),
        (1, _) => {
            let left = why.seams.single.first().map_or_else(String::new, |&seam| pieces::words(subject, &[seam]));
            remedies.push(format!("a welded seam in place of {} would make it possible{past}: {left}", seams[0]));
        }
        _ => remedies.push(format!(
            "a welded seam in place of one of these would make it possible{past}: {}",
            seams.join(", ")
        )),
    }
    remedies.join("; or ")
}
