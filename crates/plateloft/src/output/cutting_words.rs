//! The order of cuts on a sheet, in words.

use geometry::grid::Turn;
use job::Job;
use nest::Step;
use nest::rect::{Axis, Cut};
use paper::cautions::SCRIBE_FIRST;
use paper::packet::copy_words;
use units::{Angle, Length};

use crate::plan::{CuttingOrder, Plan, PlannedSheet, length_of};
use crate::speech::listed;

/// The steps under a heading.
pub(crate) fn text(plan: &Plan, sheet: &PlannedSheet) -> String {
    let lines = steps(plan, sheet)
        .into_iter()
        .enumerate()
        .map(|(number, step)| format!("  {}. {step}\n", number + 1));
    let datum = match sheet.laid.outline {
        None => "its datum corner, lower left",
        Some(_) => "the lower left corner of the upright rectangle around the offcut",
    };
    format!(
        "Cut {} in this order, measured from {datum}:\n{SCRIBE_FIRST}\n{}",
        sheet.mark,
        lines.collect::<String>()
    )
}

/// One sentence a step.
pub(crate) fn steps(plan: &Plan, sheet: &PlannedSheet) -> Vec<String> {
    let job = &plan.flats.job;
    match &sheet.order {
        CuttingOrder::NotAsked => Vec::new(),
        CuttingOrder::ByHand(steps) => {
            (0..steps.len()).map(|step| by_hand(plan, sheet, &steps[..step], &steps[step])).collect()
        }
        CuttingOrder::Sheared(cuts) => {
            let trim = job.shop.edge_trim;
            let first = (trim != Length::ZERO).then(|| {
                format!(
                    "trim {} off all four edges; from here on numbers are from the trimmed edges",
                    trim.print(job.style)
                )
            });
            let mut steps: Vec<String> = first.into_iter().collect();
            steps.extend(cuts.iter().map(|cut| sheared(job, cut)));
            steps.push("cut each part from its blank".to_owned());
            steps
        }
    }
}

/// "straight cut at 31 1/4 from the left edge, 48 long, beginning 46 up from the lower edge". The edges of an offcut may run
/// anywhere, so its cuts are measured on the rectangle around it.
fn across(job: &Job, (axis, is_offcut): (Axis, bool), [at, from, to]: [Length; 3]) -> String {
    let measured = |axis: Axis| match (axis, is_offcut) {
        (Axis::X, false) => "from the left edge",
        (Axis::Y, false) => "up from the lower edge",
        (Axis::X, true) => "from the left side of the rectangle around it",
        (Axis::Y, true) => "up from the lower side of the rectangle around it",
    };
    let other = if axis == Axis::X { Axis::Y } else { Axis::X };
    let print = |length: Length| length.print(job.style);
    let begin = if from == Length::ZERO {
        String::new()
    } else {
        format!(", beginning {} {}", print(from), measured(other))
    };
    format!("straight cut at {} {}, {} long{begin}", print(at), measured(axis), print(to - from))
}

/// The middle of a strip, or the tape's mark next to it where the cut still has its room there.
fn on_the_tape(job: &Job, [near, far]: [Length; 2]) -> Length {
    let half = |length: Length| Length::from_nanometres(length.nanometres() / 2);
    let middle = near + half(far - near);
    let mark = nearest_mark(job, middle);
    let half = half(job.shop.kerf);
    if near + half <= mark && mark + half <= far { mark } else { middle }
}

/// The tape's mark next to a length.
fn nearest_mark(job: &Job, length: Length) -> Length {
    let tape = job.tape.nanometres().max(1);
    Length::from_nanometres((length.nanometres() + tape / 2).div_euclid(tape) * tape)
}

fn sheared(job: &Job, cut: &Cut) -> String {
    let places = [cut.at, cut.from, cut.to].map(length_of);
    format!("round {}: {}", cut.stage, across(job, (cut.axis, false), places))
}

/// The neighbours toward which a piece is cut already by a cut that serves both.
fn cut_already(sheet: &PlannedSheet, before: &[Step], piece: usize) -> Vec<usize> {
    let own = sheet.shared.iter().filter(|cut| cut.first == piece || cut.second == piece);
    let done = own.filter_map(|cut| {
        let neighbour = if cut.first == piece { cut.second } else { cut.first };
        let is_cut = before.iter().any(|step| match *step {
            Step::Across { axis, within, from, to, .. } => {
                axis == cut.axis && within == cut.within && from <= cut.from && cut.to <= to
            }
            Step::Outline(cut) => cut == neighbour,
            Step::CutOuts(_) => false,
        });
        is_cut.then_some(neighbour)
    });
    done.collect()
}

fn by_hand(plan: &Plan, sheet: &PlannedSheet, before: &[Step], step: &Step) -> String {
    let job = &plan.flats.job;
    let name = |piece: usize| {
        let piece = &sheet.pieces[piece];
        let part = &plan.flats.parts[piece.part].part;
        format!("{}{}", part.mark, copy_words(piece.copy, part.quantity))
    };
    match *step {
        Step::Across { axis, within, from, to, finishes_both, frees_drop } => {
            let at = on_the_tape(job, within.map(length_of));
            let blank = [from, to].map(|end| nearest_mark(job, length_of(end)));
            let is_offcut = sheet.laid.outline.is_some();
            let cut = across(job, (axis, is_offcut), [at, blank[0], blank[1]]);
            let guide = job.shop.guide_offset.filter(|&offset| offset <= at);
            let guide = guide.map_or_else(String::new, |offset| {
                format!("; clamp the guide at {}", (at - offset).print(job.style))
            });
            let both = if finishes_both { "; it finishes the edges on both sides" } else { "" };
            let drop = if frees_drop { "; the drop beyond it is kept whole" } else { "" };
            format!("{cut}{guide}{both}{drop}")
        }
        Step::CutOuts(piece) => {
            format!("the cut-outs of {}, while the metal round it still holds", name(piece))
        }
        Step::Outline(piece) => {
            let turned = turned_words(sheet.pieces[piece].place.turn);
            let done: Vec<String> = cut_already(sheet, before, piece).into_iter().map(name).collect();
            if done.is_empty() {
                return format!("the outline of {}{turned}", name(piece));
            }
            format!(
                "the outline of {}, but for what lies toward {}: that is cut already{turned}",
                name(piece),
                listed(&done)
            )
        }
    }
}

/// How the layout sheet of a piece lies on the map: its datum corner is not the lower left one of a turned piece.
fn turned_words(turn: Turn) -> String {
    match turn.millidegrees().rem_euclid(360_000) {
        0 => String::new(),
        90_000 => "; its layout sheet lies a quarter turn to the left".to_owned(),
        180_000 => "; its layout sheet lies half a turn round".to_owned(),
        270_000 => "; its layout sheet lies a quarter turn to the right".to_owned(),
        other => {
            let turn = Angle::from_degrees(f64::from(other) / 1000.0).print(1);
            format!("; its layout sheet lies turned {turn}° to the left")
        }
    }
}
