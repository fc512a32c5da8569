//! Rounding a sheet once, so that what is printed adds up.

use std::iter::Sum;

use estimate::Breakdown;
use units::{Area, AreaUnit, Mass, MassUnit, Money, apportion, rounding};

use super::{AREA_PLACES, MASS_PLACES};
use crate::lists::ListUnits;

/// The six lines of a breakdown as printed: whole counts of the last printed digit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Printed {
    pub(super) area: [i128; 6],
    pub(super) mass: [i128; 6],
    pub(super) cents: Option<[i128; 6]>,
}

impl Printed {
    /// Rounds what was bought, and shares that out among the five lines by largest remainders.
    pub(super) fn of(breakdown: &Breakdown, units: ListUnits) -> Self {
        let lines = breakdown.lines();
        let area = |area: Area| area.square_nanometres();
        let mass = |mass: Mass| i128::from(mass.micrograms());
        let cents = |money: Money| i128::from(money.cents());
        let money: Option<Vec<i128>> = lines.iter().map(|line| line.money.map(cents)).collect();
        let money = breakdown.bought.money.map(cents).zip(money);
        let areas: Vec<i128> = lines.iter().map(|line| area(line.area)).collect();
        let masses: Vec<i128> = lines.iter().map(|line| mass(line.mass)).collect();
        Self {
            area: rounded(area(breakdown.bought.area), &areas, area_digit(units.area)),
            mass: rounded(mass(breakdown.bought.mass), &masses, mass_digit(units.mass)),
            cents: money.map(|(bought, lines)| rounded(bought, &lines, (1, 1))),
        }
    }
}

impl<'a> Sum<&'a Self> for Printed {
    fn sum<I: Iterator<Item = &'a Self>>(sheets: I) -> Self {
        let nothing = Self { area: [0; 6], mass: [0; 6], cents: Some([0; 6]) };
        let add = |a: [i128; 6], b: [i128; 6]| std::array::from_fn(|line| a[line] + b[line]);
        sheets.fold(nothing, |sum, sheet| Self {
            area: add(sum.area, sheet.area),
            mass: add(sum.mass, sheet.mass),
            cents: sum.cents.zip(sheet.cents).map(|(a, b)| add(a, b)),
        })
    }
}

/// `bought` in printed digits, then `lines` sharing it exactly. `digit` is how many counts make how many digits.
fn rounded(bought: i128, lines: &[i128], (counts, digits): (i128, i128)) -> [i128; 6] {
    let whole = rounding::divide(bought.saturating_mul(digits), counts).unwrap_or(0);
    let shares = shared(whole, lines);
    std::array::from_fn(|line| match line {
        0 => whole,
        _ => shares.get(line - 1).copied().unwrap_or(0),
    })
}

/// Shares printed digits by exact weights; all nothing where there is no weight, which is an empty sheet.
pub(super) fn shared(whole: i128, weights: &[i128]) -> Vec<i128> {
    apportion(whole, weights).unwrap_or_else(|_| vec![0; weights.len()])
}

/// Square nanometres to so many last digits of an area.
pub(super) const fn area_digit(unit: AreaUnit) -> (i128, i128) {
    let digits = 10_i128.pow(AREA_PLACES);
    let millimetre = 1_000_000_i128.pow(2);
    match unit {
        AreaUnit::SquareInch => (25_400_000_i128.pow(2), digits),
        AreaUnit::SquareFoot => (304_800_000_i128.pow(2), digits),
        AreaUnit::SquareMillimetre => (millimetre, digits),
        AreaUnit::SquareMetre => (millimetre * 1_000_000, digits),
    }
}

/// Micrograms to so many last digits of a weight.
pub(super) const fn mass_digit(unit: MassUnit) -> (i128, i128) {
    let digits = 10_i128.pow(MASS_PLACES);
    match unit {
        MassUnit::Pound => (453_592_370, digits),
        MassUnit::Kilogram => (1_000_000_000, digits),
    }
}

/// A count of last digits as a decimal number.
pub(super) fn decimal(count: i128, places: u32) -> String {
    let unit = 10_u128.pow(places);
    let (whole, rest) = (count.unsigned_abs() / unit, count.unsigned_abs() % unit);
    let sign = if count < 0 { "-" } else { "" };
    let width = usize::try_from(places).unwrap_or(0);
    if places == 0 { format!("{sign}{whole}") } else { format!("{sign}{whole}.{rest:0width$}") }
}

/// `part` as a share of `whole`, to a tenth of a percent.
pub(super) fn percent(part: i128, whole: i128) -> String {
    match rounding::divide(part.saturating_mul(1000), whole) {
        Some(permille) => format!("{} %", decimal(permille, 1)),
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_add_up_to_what_is_printed() {
        // Three thirds of 100: each would round to 33, together 99; the last digit goes to the first.
        let printed = rounded(100, &[1, 1, 1, 0, 0], (1, 1));
        assert_eq!(printed, [100, 34, 33, 33, 0, 0]);
        assert_eq!(printed[0], printed[1..].iter().sum::<i128>());
    }

    #[test]
    fn digits_are_those_of_the_unit() {
        // One square foot is 0.09290304 m² exactly (16 CFR 500.19: 1 ft = .3048 m).
        let foot = Area::from_square_nanometres(92_903_040_000_000_000).square_nanometres();
        assert_eq!(rounded(foot, &[foot, 0, 0, 0, 0], area_digit(AreaUnit::SquareFoot))[0], 1000);
        assert_eq!(decimal(32_000, 3), "32.000");
        assert_eq!(decimal(-5, 2), "-0.05");
        assert_eq!(percent(1, 3), "33.3 %");
    }
}
