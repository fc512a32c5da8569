//! What a quote takes for granted, a sentence each.

use job::Cutting;
use units::{Area, Length};

use crate::kit::PackedKit;
use crate::output::bars_left_out;
use crate::plan::{CutBar, Others, Plan, length_of};
use crate::speech::listed;

/// Said wherever sticks are ordered.
pub(crate) const STICKS_WITH_SHEETS: &str = "Sticks of bar, pipe and section are ordered with the sheets: minimum charge, delivery and tax \
                                             count them, freight for long sheets does not.";

/// Everything that is taken for granted in the quote of a plan, or of the kit that is given; the job's own sentences last.
pub(super) fn assumptions(
    plan: &Plan,
    bars: &[CutBar],
    others: &Others,
    kit: Option<&PackedKit>,
) -> Vec<String> {
    let job = &plan.flats.job;
    let mut assumptions = vec![
        shared_words(plan),
        "Corners are those within a part; welds between pieces are those that the job lists.".to_owned(),
        "Set-up is counted once a job for each kind of work.".to_owned(),
        "A credit for scrap takes scrap and edge trim; chips of the kerf bring nothing.".to_owned(),
    ];
    if let Some(kit) = kit {
        assumptions.push(
            "As a kit: the buyer bends, closes corners and welds; none of that is in this quote, and hardware is.".to_owned(),
        );
        let stays = stay_here(plan, kit);
        if !stays.is_empty() {
            assumptions.push(format!(
                "What stays here is bent and its corners are closed by the shop: {}; it is in no crate and no carriage.",
                listed(&stays)
            ));
        }
    }
    if plan.report.sheets.iter().any(|sheet| sheet.breakdown.kept_drops.area != Area::ZERO) {
        assumptions.push(
            "A kept drop is credited whole, as it comes off and goes to the rack, its rim with it."
                .to_owned(),
        );
    }
    if !job.bars.is_empty() {
        assumptions.push(STICKS_WITH_SHEETS.to_owned());
        assumptions.extend(bar_words(plan, bars));
    }
    if !job.hardware.is_empty() {
        assumptions.push(
            "Hardware is charged at the prices given: delivery and tax on it must be in them.".to_owned(),
        );
    }
    if !others.coverings.is_empty() || !others.liners.is_empty() {
        assumptions.push(
            "Coverings and liner are an order of their own, by the terms of \"coverings\" under \"buying\"; tax on metal does not \
             count them."
                .to_owned(),
        );
    }
    if job.quote.consumables.as_ref().is_some_and(Vec::is_empty) {
        assumptions.push(
            "No consumables are charged: \"consumables\" under \"quote\" lists none, no wire, gas, disc or blade.".to_owned(),
        );
    }
    if job.quote.outside_work.as_ref().is_some_and(Vec::is_empty) {
        assumptions.push(
            "No work done elsewhere is charged: \"outside_work\" under \"quote\" lists none.".to_owned(),
        );
    }
    assumptions.extend(job.assumptions.iter().cloned());
    assumptions
}

/// Marks of the parts that do not go with a kit, pieces of a whole by the mark of the whole.
fn stay_here(plan: &Plan, kit: &PackedKit) -> Vec<String> {
    let mut marks: Vec<String> = Vec::new();
    let parts = plan.flats.parts.iter().enumerate();
    for (_, part) in parts.filter(|(number, _)| !kit.kit.parts.contains(number)) {
        let mark = part.part.written_mark();
        if marks.iter().all(|known| known != mark) {
            marks.push(mark.to_owned());
        }
    }
    marks
}

/// What is not charged, not credited and not weighed of bars, a sentence each.
fn bar_words(plan: &Plan, bars: &[CutBar]) -> Vec<String> {
    let job = &plan.flats.job;
    let mut rack: Vec<String> = Vec::new();
    let mut rests: Vec<String> = Vec::new();
    for cut in bars {
        let bar = &job.bars[cut.bar];
        for (number, stick) in bar.sticks.iter().enumerate().filter(|(_, stick)| stick.on_rack) {
            let count = cut.bought(number);
            if 0 < count {
                rack.push(format!("{count} of {} of {}", stick.length.print_with_unit(job.style), bar.name));
            }
        }
        let Some(least) = bar.keep_rest else { continue };
        let kept = cut.solution.sticks.iter().map(|stick| length_of(stick.rest));
        let kept: Vec<Length> = kept.filter(|rest| least <= *rest).collect();
        if !kept.is_empty() {
            let all = kept.iter().copied().sum::<Length>().print_with_unit(job.style);
            rests.push(format!("{} of {}, {all} together", kept.len(), bar.name));
        }
    }
    let mut words = Vec::new();
    if !rack.is_empty() {
        words.push(format!("Sticks from the rack are charged at nothing: {}.", rack.join("; ")));
    }
    if !rests.is_empty() {
        words.push(format!("Rests of sticks that are kept bring no credit: {}.", rests.join("; ")));
    }
    words.extend(bars_left_out(job));
    words
}

/// How cuts are counted.
fn shared_words(plan: &Plan) -> String {
    let job = &plan.flats.job;
    if matches!(job.shop.cutting, Cutting::Shear { .. }) {
        return "Strokes of the shear are the cuts of the sheets, edge trim included; what of the outlines is no side of a blank \
                is cut by saw, torch or router."
            .to_owned();
    }
    if !job.shop.shared_cuts {
        return "Cuts are the outlines of the flats; no cut is shared by two parts.".to_owned();
    }
    let length = Length::from_millimetres(plan.shared_mm()).print_with_unit(job.style);
    format!(
        "Cuts are the outlines of the flats; cuts that serve two parts are counted once, {length} of them."
    )
}
