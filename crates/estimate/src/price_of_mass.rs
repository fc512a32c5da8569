//! A price by weight: what a scrap dealer pays, or what the shop reckons a drop is worth.

use units::{Mass, MassUnit, Money, rounding};

use crate::percent::cents;

/// Money for a pound or a kilogram.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PriceOfMass {
    /// Price of one unit.
    pub price: Money,
    /// The unit.
    pub unit: MassUnit,
}

impl PriceOfMass {
    /// What `mass` is worth, to the nearest cent.
    #[must_use]
    pub fn of(self, mass: Mass) -> Money {
        let one = match self.unit {
            MassUnit::Pound => Mass::from_pounds(1.0),
            MassUnit::Kilogram => Mass::from_kilograms(1.0),
        };
        let product = i128::from(self.price.cents()) * i128::from(mass.micrograms());
        cents(rounding::divide(product, i128::from(one.micrograms())))
    }

    /// "0.45 a lb".
    #[must_use]
    pub fn print(self) -> String {
        format!("{} a {}", self.price.print(), self.unit.name())
    }
}
