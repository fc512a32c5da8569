//! Chapters of a packet beside its drawings and lists: bars, weights and lifting, gas struts.

use estimate::{GoodsOrder, OrderLine};
use job::Hardware;
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
use crate::costing::{Uncounted, WhatOfLid, goods_lines, goods_order, uncounted};
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
    let pages = wholes::pictures(flats, &parts)?;
    if !pages.is_empty() {
        let name = "Pieces put together".to_owned();
        chapters.push(Chapter { name, passages: Vec::new(), pages });
    }
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
    lines.extend(uncounted(job).into_iter().map(uncounted_words));
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

/// "2 × gas strut for LL, invented strut 16-7: no price given": what a lid takes and no hardware of the job counts.
fn uncounted_words(uncounted: Uncounted) -> String {
    let Uncounted { lid, what } = uncounted;
    match what {
        WhatOfLid::Struts(count, None) => format!(
            "{count} × gas strut for {lid}: none is chosen; what it must do stands under \"Gas struts of {lid}\""
        ),
        WhatOfLid::Struts(count, Some(name)) => format!(
            "{count} × gas strut for {lid}, {name}: no price given; \"hardware\" in the job counts and prices it"
        ),
        WhatOfLid::Named(named) => format!(
            "for {lid}: {}: named with a weight only; \"hardware\" in the job counts and prices it",
            named.join(", ")
        ),
    }
}
