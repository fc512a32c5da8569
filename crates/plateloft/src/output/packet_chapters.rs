//! Chapters of a packet beside its drawings and lists: bars, weights and lifting, gas struts.

use estimate::{GoodsOrder, OrderLine};
use job::{Hardware, HingedLid, Job};
use paper::lists::passages::Passage;
use paper::packet::Chapter;
use paper::strut_plot;
use units::Money;

use super::bars::bars_passages;
use super::covering_maps;
use super::coverings::{coverings_passages, coverings_to_buy};
use super::strut::balanced;
use super::weights::{NO_CERTIFICATE, blocks, lids, lift_cautions, sheets_of_the_plan};
use super::wholes;
use crate::costing::{goods_lines, goods_order};
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
    let pages = wholes::pictures(flats);
    if !pages.is_empty() {
        let name = "Pieces put together".to_owned();
        chapters.push(Chapter { name, passages: Vec::new(), pages });
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
    let mut lines: Vec<String> = sticks.map(|line| stick_words(&line)).collect();
    lines.extend(coverings_to_buy(job, others).into_iter().map(|(what, how)| format!("{what}: {how}")));
    lines.extend(goods_words(&goods_order(job, &goods_lines(job, others))));
    lines.extend(job.hardware.iter().map(hardware_words));
    lines.extend(job.weights.lids.iter().filter_map(|lid| strut_words(job, lid)));
    lines.extend(job.weights.lids.iter().filter_map(|lid| named_with_a_lid(job, lid)));
    lines
}

/// "3 × 1 1/2 pipe 96 at 20.00: 60.00".
fn stick_words(line: &OrderLine) -> String {
    let OrderLine { quantity, what, price, .. } = line;
    price.map_or_else(
        || format!("{quantity} × {what}: no price given"),
        |price| {
            format!("{quantity} × {what} at {}: {}", price.print(), (price * i64::from(*quantity)).print())
        },
    )
}

/// What coverings and liner come to as one order; nothing without any, and while a term of it is not set.
fn goods_words(order: &GoodsOrder) -> Option<String> {
    let (total, goods) = (order.total?, order.goods?);
    let named =
        [("up to the minimum", order.up_to_minimum), ("delivery", order.delivery), ("tax", order.tax)];
    let more: String = named
        .into_iter()
        .filter_map(|(name, money)| Some((name, money.filter(|money| *money != Money::ZERO)?)))
        .map(|(name, money)| format!(", {name} {}", money.print()))
        .collect();
    (total != Money::ZERO).then(|| {
        format!(
            "coverings and liner as an order of their own: {} together (goods {}{more})",
            total.print(),
            goods.print()
        )
    })
}

/// "2 × flush ring pull at 19.50: 39.00".
fn hardware_words(Hardware { item, count, price }: &Hardware) -> String {
    match price {
        Some(price) if *count == 1 => format!("1 × {item}: {}", price.print()),
        Some(price) => {
            format!("{count} × {item} at {}: {}", price.print(), (*price * i64::from(*count)).print())
        }
        None => format!("{count} × {item}: no price given"),
    }
}

/// "2 × gas strut, invented strut 16-7, for LL: no price given"; `None` without struts, and where the hardware of the job
/// counts that strut.
fn strut_words(job: &Job, lid: &HingedLid) -> Option<String> {
    let struts = lid.struts.as_ref()?;
    let mark = &job.parts[lid.part].mark;
    let count = struts.mounts.count;
    let Some((name, _)) = &struts.chosen else {
        return Some(format!(
            "{count} × gas strut for {mark}: none is chosen; what it must do stands under \"Gas struts of {mark}\""
        ));
    };
    let is_counted = job.hardware.iter().any(|hardware| hardware.item.contains(name.as_str()));
    (!is_counted).then(|| {
        format!(
            "{count} × gas strut for {mark}, {name}: no price given; \"hardware\" in the job counts and prices it"
        )
    })
}

/// What hangs on a lid by its weight only and is in no count of hardware; `None` where there is nothing.
fn named_with_a_lid(job: &Job, lid: &HingedLid) -> Option<String> {
    let is_counted = |what: &str| job.hardware.iter().any(|hardware| hardware.item.contains(what));
    let named: Vec<&str> =
        lid.hardware.iter().map(|hung| hung.what.as_str()).filter(|what| !is_counted(what)).collect();
    (!named.is_empty()).then(|| {
        format!(
            "for {}: {}: named with a weight only; \"hardware\" in the job counts and prices it",
            job.parts[lid.part].mark,
            named.join(", ")
        )
    })
}
