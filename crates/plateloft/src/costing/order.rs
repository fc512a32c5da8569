//! What is ordered, and what each choice of sheets would be.

use estimate::{OrderLine, SheetUse, purchase, scrap_report};
use nest::Choice;
use paper::lists::buying::{BuyingChoice, BuyingOutcome};

use crate::output::{face_sentences, free_first, mix_words, proof, reason_words};
use crate::plan::{CutBar, MetalNest, Plan, choice_words, no_nest_words, sheet_lines, stick_lines};
use crate::speech::Refusal;

/// The sheets to buy for the plan, a line for each size of each metal, then the sticks.
pub(crate) fn order_lines(plan: &Plan, bars: &[CutBar]) -> Vec<OrderLine> {
    let of_metal = |nest: &MetalNest| lines_of(plan, nest, nest.comparison.best);
    let sheets = plan.nests.iter().flat_map(of_metal);
    sheets.chain(stick_lines(&plan.flats.job, bars)).collect()
}

/// Pieces of the rack that are used, then what else there is to say of it; nothing when no rack is named.
pub(crate) fn rack_pieces(plan: &Plan, told: &[String]) -> Vec<String> {
    let used = plan.nests.iter().flat_map(|nest| &nest.sheets).filter(|sheet| sheet.laid.from_rack.is_some());
    let used = used.map(|sheet| format!("take {} from the rack", sheet.laid.name));
    used.chain(face_sentences(plan)).chain(told.iter().cloned()).collect()
}

/// The sheets to buy for one row of a metal's comparison.
pub(crate) fn lines_of(plan: &Plan, nest: &MetalNest, row: usize) -> Vec<OrderLine> {
    match &nest.comparison.rows[row].outcome {
        Ok(nested) => sheet_lines(&plan.flats.job, nest.metal, &nest.sizes, &nested.take.sheets),
        Err(_) => Vec::new(),
    }
}

/// What else is to be said of the choice of a metal: why a sheet that costs nothing goes first.
pub(crate) fn choice_notes(plan: &Plan, nest: &MetalNest) -> Vec<String> {
    free_first(plan, nest).into_iter().collect()
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
            let sheets = nest.sheets_of_row(job, &plan.flats.parts, number);
            let measured: Vec<SheetUse> = sheets.iter().map(|sheet| sheet.laid.measure()).collect();
            let of_rack = sheets.iter().zip(&measured).filter(|(sheet, _)| sheet.laid.from_rack.is_some());
            let from_rack = of_rack.map(|(_, measured)| measured.area).collect();
            let report = scrap_report(&measured)
                .map_err(|error| Refusal::ProofFailed(format!("{}: {name}: {error}", plan.flats.file)))?;
            let outcome = BuyingOutcome {
                sheets: nested.take.count(),
                least_sheets: nested.bound.sheets,
                reason: reason_words(nested.bound.reason).to_owned(),
                proof: proof(nest, row.choice, nested),
                report,
                from_rack,
                purchase: purchase(&job.buying.terms, &lines_of(plan, nest, number)),
            };
            (name, Ok(outcome))
        }
        Err(no_nest) => {
            (choice_words(nest, row.choice, job.style), Err(no_nest_words(&plan.flats, nest.metal, no_nest)))
        }
    };
    Ok(BuyingChoice { name, chosen, outcome })
}
