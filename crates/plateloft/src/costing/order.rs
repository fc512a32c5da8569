//! What is ordered, and what each choice of sheets would be.

use estimate::{OrderLine, SheetUse, purchase, scrap_report};
use nest::Choice;
use paper::lists::buying::{BuyingChoice, BuyingOutcome};
use units::Length;

use crate::output::{mix_words, reason_words};
use crate::plan::{CutBar, MetalNest, Plan, choice_words, no_nest_words, sheet_words};
use crate::speech::Refusal;

/// The sheets to buy for the plan, a line for each size of each metal, then the sticks. Pieces of the rack are the shop's
/// already.
pub(crate) fn order_lines(plan: &Plan, bars: &[CutBar]) -> Vec<OrderLine> {
    let best = |nest: &MetalNest| match &nest.comparison.rows[nest.comparison.best].outcome {
        Ok(nested) => lines_of(plan, nest, &nested.take.sheets),
        Err(_) => Vec::new(),
    };
    plan.nests.iter().flat_map(best).chain(stick_lines(plan, bars)).collect()
}

/// The sticks to buy of all bars.
pub(crate) fn stick_lines(plan: &Plan, bars: &[CutBar]) -> Vec<OrderLine> {
    bars.iter().flat_map(|cut| sticks_of(plan, cut)).collect()
}

/// The sticks to buy of one bar. Freight for long sheets does not count them: bar goes by its own terms.
fn sticks_of(plan: &Plan, cut: &CutBar) -> Vec<OrderLine> {
    let job = &plan.flats.job;
    let bar = &job.bars[cut.bar];
    let bought = bar.sticks.iter().enumerate().filter(|(_, stick)| !stick.on_rack);
    let line = |(number, stick): (usize, &job::JobStick)| OrderLine {
        what: format!("{} {}", bar.name, stick.length.print(job.style)),
        quantity: cut.bought(number),
        length: Length::ZERO,
        price: stick.price,
    };
    bought.map(line).filter(|line| 0 < line.quantity).collect()
}

/// Pieces of the rack that are used, then what else there is to say of it; nothing when no rack is named.
pub(crate) fn rack_pieces(plan: &Plan, told: &[String]) -> Vec<String> {
    let used = plan.nests.iter().flat_map(|nest| &nest.sheets).filter(|sheet| sheet.laid.from_rack.is_some());
    let used = used.map(|sheet| format!("take {} from the rack", sheet.laid.name));
    used.chain(told.iter().cloned()).collect()
}

fn lines_of(plan: &Plan, nest: &MetalNest, counts: &[u32]) -> Vec<OrderLine> {
    let job = &plan.flats.job;
    let name = &job.metals[nest.metal].metal.name;
    let used = nest.sizes.iter().zip(counts).filter(|(size, count)| 0 < **count && size.from_rack.is_none());
    used.map(|(size, &quantity)| OrderLine {
        what: format!("{name} {}", sheet_words(size, job.style)),
        quantity,
        length: size.length.max(size.width),
        price: size.price,
    })
    .collect()
}

/// Every choice of sheets for one metal, as an order of its own.
pub(crate) fn choices(plan: &Plan, nest: &MetalNest) -> Result<Vec<BuyingChoice>, Refusal> {
    let rows = nest.comparison.rows.iter().enumerate();
    rows.map(|(number, row)| choice(plan, nest, number, row)).collect()
}

fn choice(plan: &Plan, nest: &MetalNest, number: usize, row: &nest::Row) -> Result<BuyingChoice, Refusal> {
    let job = &plan.flats.job;
    let chosen = number == nest.comparison.best;
    let (name, outcome) = match &row.outcome {
        Ok(nested) => {
            let name = match row.choice {
                Choice::Mix => mix_words(nest, &nested.take, job.style),
                Choice::Alone(_) => choice_words(nest, row.choice, job.style),
            };
            let sheets = nest.sheets_of_row(job, &plan.flats.parts, row);
            let measured: Vec<SheetUse> = sheets.iter().map(|sheet| sheet.laid.measure()).collect();
            let report = scrap_report(&measured)
                .map_err(|error| Refusal::ProofFailed(format!("{}: {name}: {error}", plan.flats.file)))?;
            let outcome = BuyingOutcome {
                sheets: nested.take.count(),
                least_sheets: nested.bound.sheets,
                reason: reason_words(nested.bound.reason).to_owned(),
                report,
                purchase: purchase(&job.buying.terms, &lines_of(plan, nest, &nested.take.sheets)),
            };
            (name, Ok(outcome))
        }
        Err(no_nest) => (choice_words(nest, row.choice, job.style), Err(no_nest_words(no_nest))),
    };
    Ok(BuyingChoice { name, chosen, outcome })
}
