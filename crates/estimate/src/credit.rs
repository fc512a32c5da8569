//! What weights by the sheet are worth: what the dealer pays for scrap, and what kept drops bring.

use units::Money;

use crate::price_of_mass::{PriceOfMass, PrintedMass};

/// What weights are worth, sheet by sheet. Each is taken as it is printed and rounded once, so that every line can be redone
/// by hand and the lines add up.
#[must_use]
pub fn worths(weights: &[PrintedMass], price: PriceOfMass) -> Vec<Money> {
    weights.iter().map(|weight| price.of_printed(*weight)).collect()
}
