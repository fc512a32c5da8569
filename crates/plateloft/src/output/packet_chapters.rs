//! Chapters of a packet beside its drawings and lists: bars, weights and lifting, gas struts.

use paper::lists::passages::Passage;
use paper::packet::Chapter;
use paper::strut_plot;

use super::bars::bars_passages;
use super::covering_maps;
use super::coverings::{coverings_passages, coverings_to_buy};
use super::strut::balanced;
use super::weights::{NO_CERTIFICATE, blocks, lids, lift_cautions, sheets_of_the_plan};
use crate::plan::balance::weighed;
use crate::plan::{CutBar, Others, Plan, stick_lines};
use crate::speech::Refusal;

/// The chapters of a job, and the cautions that they raise.
///
/// # Errors
/// Questions about weights that have no answer.
pub(super) fn chapters(
    plan: &Plan,
    bars: &[CutBar],
    others: &Others,
) -> Result<(Vec<Chapter>, Vec<String>), Refusal> {
    let flats = &plan.flats;
    let (mut chapters, mut cautions) = (Vec::new(), Vec::new());
    if !flats.job.bars.is_empty() {
        let passages = bars_passages(&flats.job, bars);
        chapters.push(Chapter { name: "Bars".to_owned(), passages, pages: Vec::new() });
    }
    if !flats.job.coverings.is_empty() || !flats.job.liners.is_empty() {
        let passages = coverings_passages(&flats.job, others);
        let pages = covering_maps::maps(&flats.job, others);
        chapters.push(Chapter { name: "Coverings".to_owned(), passages, pages });
    }
    if flats.parts.is_empty() {
        return Ok((chapters, cautions));
    }
    let (parts, lids, sheets) = (weighed(flats)?, lids(flats)?, sheets_of_the_plan(plan));
    cautions.extend(lift_cautions(flats, (&parts, &lids), &sheets)?);
    let mut passages: Vec<Passage> = blocks(flats, &parts, &lids, &sheets)?.into_iter().flatten().collect();
    passages.push(Passage::Words(NO_CERTIFICATE.to_owned()));
    chapters.push(Chapter { name: "Weights and lifting".to_owned(), passages, pages: Vec::new() });
    for lid in lids.iter().filter_map(|(asked, lid)| balanced(flats, asked, lid)) {
        let lid = lid?;
        cautions.extend(lid.falls().into_iter().chain(lid.springs()));
        let mut passages = lid.words();
        passages.push(Passage::Words(NO_CERTIFICATE.to_owned()));
        let name = format!("Gas struts of {}", lid.mark);
        chapters.push(Chapter { name, passages, pages: vec![strut_plot::draw(&lid.plot())] });
    }
    Ok((chapters, cautions))
}

/// What is bought beside sheets, one line each: sticks, roll goods and liner, hardware.
pub(super) fn also_to_buy(plan: &Plan, bars: &[CutBar], others: &Others) -> Vec<String> {
    let job = &plan.flats.job;
    let sticks = stick_lines(job, bars).into_iter();
    let mut lines: Vec<String> = sticks.map(|line| format!("{} × {}", line.quantity, line.what)).collect();
    lines.extend(coverings_to_buy(job, others).into_iter().map(|(what, how)| format!("{what}: {how}")));
    lines.extend(job.hardware.iter().map(|hardware| format!("{} × {}", hardware.count, hardware.item)));
    lines
}
