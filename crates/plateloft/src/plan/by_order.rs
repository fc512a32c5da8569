//! Mixes of sizes that are cheap as an order, not only by the price of their sheets.
//!
//! The nest looks for mixes by what a sheet costs. Where the supplier charges for cuts, it looks once more with each sheet at its
//! price and the cuts through it; and where there is a minimum charge, up to which sheets cost nothing more, among the sizes
//! that are not cut. What is found stands in the table as further mixes, and is taken where the whole order is then least.

use job::{Job, JobSheet};
use nest::{Choice, Comparison, Nested, Problem, Row};
use units::Money;

use super::nesting::Looked;
use crate::speech::Refusal;

/// Sizes to look at once more, by their places in the job's list for the metal, at the prices to look by.
pub(super) fn offers(job: &Job, sizes: &[JobSheet]) -> Vec<Vec<(usize, JobSheet)>> {
    let terms = &job.buying.terms;
    let charge = terms.cut_charge.unwrap_or(Money::ZERO);
    let is_cut = |size: &JobSheet| 0 < size.supplier_cuts;
    if charge == Money::ZERO || !sizes.iter().any(is_cut) || sizes.iter().any(|size| size.price.is_none()) {
        return Vec::new();
    }
    let charged = |size: &JobSheet| {
        let price = size.price.map(|price| price + charge * i64::from(size.supplier_cuts));
        JobSheet { price, ..size.clone() }
    };
    let mut offers = vec![sizes.iter().map(charged).enumerate().collect::<Vec<_>>()];
    if terms.minimum_charge.is_some_and(|least| Money::ZERO < least) {
        let whole = sizes.iter().enumerate().filter(|(_, size)| !is_cut(size));
        offers.push(whole.map(|(number, size)| (number, size.clone())).collect());
    }
    offers.retain(|offer| 1 < offer.len());
    offers
}

/// Adds the mixes found among the sizes `offered` that are none of the rows yet.
///
/// # Errors
/// A nest that does not pass the judge: a fault of this program.
pub(super) fn add(
    file: &str,
    problem: &Problem,
    offered: &[usize],
    found: Looked,
    known: &mut Looked,
) -> Result<(), Refusal> {
    let is_mix = |row: &&Row| row.choice == Choice::Mix;
    let of_mix = known.comparison.rows.iter().filter(is_mix).find_map(|row| row.outcome.as_ref().ok());
    let Some(bound) = of_mix.map(|mix| mix.bound.clone()) else { return Ok(()) };
    for (number, row) in found.comparison.rows.into_iter().enumerate() {
        let (Choice::Mix, Ok(mut nested)) = (row.choice, row.outcome) else { continue };
        nested.nest.sheets.iter_mut().for_each(|sheet| sheet.stock = offered[sheet.stock]);
        let take = nested.nest.take(problem);
        if is_known(&known.comparison, &take) {
            continue;
        }
        nest::verify(problem, &nested.nest).map_err(|faults| {
            let error = nest::NestError::Unsound(faults);
            Refusal::ProofFailed(format!("{file}: {error}"))
        })?;
        let mix = Nested { take, bound: bound.clone(), ..nested };
        known.comparison.rows.push(Row { choice: Choice::Mix, outcome: Ok(mix) });
        if let (Some(cuts), Some(found)) = (&mut known.cuts, &found.cuts) {
            cuts.push(found[number].clone());
        }
    }
    Ok(())
}

fn is_known(comparison: &Comparison, take: &nest::Take) -> bool {
    let nested = comparison.rows.iter().filter_map(|row| row.outcome.as_ref().ok());
    nested.into_iter().any(|nested| nested.take.sheets == take.sheets)
}
