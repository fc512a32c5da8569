//! What the dealer pays for scrap, and what kept drops are worth, sheet by sheet.

use units::{Mass, Money};

use crate::breakdown::Breakdown;
use crate::price_of_mass::PriceOfMass;
use crate::report::ScrapReport;

/// The metal of a sheet that a dealer takes: scrap and edge trim. Chips of the kerf are swept up with the dust.
#[must_use]
pub fn saleable(breakdown: &Breakdown) -> Mass {
    breakdown.scrap.mass + breakdown.edge_trim.mass
}

/// The credit for the scrap of every sheet, in the report's order; each is rounded once, so that they add up.
#[must_use]
pub fn scrap_credits(report: &ScrapReport, price: PriceOfMass) -> Vec<Money> {
    report.sheets.iter().map(|sheet| price.of(saleable(&sheet.breakdown))).collect()
}

/// What the kept drops of every sheet are worth, in the report's order.
#[must_use]
pub fn drop_values(report: &ScrapReport, price: PriceOfMass) -> Vec<Money> {
    report.sheets.iter().map(|sheet| price.of(sheet.breakdown.kept_drops.mass)).collect()
}
