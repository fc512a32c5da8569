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

/// A weight as lists print it: whole hundredths of a pound or a kilogram.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PrintedMass {
    /// How many hundredths.
    pub hundredths: i128,
    /// Of which unit.
    pub unit: MassUnit,
}

impl PrintedMass {
    /// The weight as it prints with two decimals in `unit`.
    #[must_use]
    pub fn of(mass: Mass, unit: MassUnit) -> Self {
        let hundredths = rounding::divide(100 * i128::from(mass.micrograms()), micrograms_of(unit));
        Self { hundredths: hundredths.unwrap_or(0), unit }
    }
}

impl PriceOfMass {
    /// What `mass` is worth, to the nearest cent.
    #[must_use]
    pub fn of(self, mass: Mass) -> Money {
        let product = i128::from(self.price.cents()) * i128::from(mass.micrograms());
        cents(rounding::divide(product, micrograms_of(self.unit)))
    }

    /// What a printed weight is worth, to the nearest cent: 3.87 lb at .50 a lb is 1.94, as a pocket calculator has it.
    #[must_use]
    pub fn of_printed(self, mass: PrintedMass) -> Money {
        let product = i128::from(self.price.cents())
            .saturating_mul(mass.hundredths)
            .saturating_mul(micrograms_of(mass.unit));
        cents(rounding::divide(product, 100 * micrograms_of(self.unit)))
    }

    /// "0.45 a lb".
    #[must_use]
    pub fn print(self) -> String {
        format!("{} a {}", self.price.print(), self.unit.name())
    }
}

/// A unit of weight in micrograms.
fn micrograms_of(unit: MassUnit) -> i128 {
    let one = match unit {
        MassUnit::Pound => Mass::from_pounds(1.0),
        MassUnit::Kilogram => Mass::from_kilograms(1.0),
    };
    i128::from(one.micrograms())
}
