//! What is ordered, and what each choice of sheets would be.

use estimate::{OrderLine, SheetUse, purchase, scrap_report};
use nest::Choice;
use paper::lists::buying::{BuyingChoice, BuyingOutcome};

use crate::output::{mix_words, reason_words};
use crate::plan::{MetalNest, Plan, choice_words, no_nest_words, sheet_words};
use crate::speech::Refusal;

/// The sheets to buy for the plan, a line for each size of each metal. Pieces of the rack are the shop's already.
pub(crate) fn order_lines(plan: &Plan) -> Vec<OrderLine> {
    let best = |nest: &MetalNest| match &nest.comparison.rows[nest.comparison.best].outcome {
        Ok(nested) => lines_of(plan, nest, &nested.take.sheets),
        Err(_) => Vec::new(),
    };
    plan.nests.iter().flat_map(best).collect()
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
                breakdown: report.total,
                purchase: purchase(&job.buying.terms, &lines_of(plan, nest, &nested.take.sheets)),
            };
            (name, Ok(outcome))
        }
        Err(no_nest) => (choice_words(nest, row.choice, job.style), Err(no_nest_words(no_nest))),
    };
    Ok(BuyingChoice { name, chosen, outcome })
}
