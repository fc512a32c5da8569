//! Lists in plain text of at most 100 characters to the line, and as CSV.

pub mod buying;
pub mod cut_list;
pub mod cut_or_whole;
pub mod kit;
pub mod order;
pub mod passages;
pub mod quote;
pub mod received;
pub mod refold;
pub mod sheet_choices;
pub mod take_off;

pub(crate) mod csv;
pub(crate) mod table;

use units::{AreaUnit, LengthStyle, LengthUnit, MassUnit};

/// Which currency sums of money are in, one sentence.
#[must_use]
pub fn money_words(currency: Option<&str>) -> String {
    currency.map_or_else(
        || "Money is in the shop's own currency; \"currency\" in the job names it.".to_owned(),
        |currency| format!("Money is in {currency}."),
    )
}

/// What a total is called: "total, USD", or "total" where the currency is not named.
pub(crate) fn in_currency(what: &str, currency: Option<&str>) -> String {
    currency.map_or_else(|| what.to_owned(), |currency| format!("{what}, {currency}"))
}

/// The units a list is printed in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ListUnits {
    /// How lengths are printed.
    pub length: LengthStyle,
    /// The unit of areas.
    pub area: AreaUnit,
    /// The unit of weights.
    pub mass: MassUnit,
}

impl ListUnits {
    /// What goes with lengths of this style: square feet and pounds, or square metres and kilograms.
    #[must_use]
    pub const fn of(length: LengthStyle) -> Self {
        match length.unit() {
            LengthUnit::Inch => Self { length, area: AreaUnit::SquareFoot, mass: MassUnit::Pound },
            LengthUnit::Millimetre => Self { length, area: AreaUnit::SquareMetre, mass: MassUnit::Kilogram },
        }
    }

    /// The word for the unit of lengths.
    pub(crate) const fn length_mark(self) -> &'static str {
        crate::drawing::unit_mark(self.length)
    }
}
