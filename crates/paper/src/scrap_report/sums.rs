//! Rounding a sheet once, so that what is printed adds up.

use std::iter::Sum;

use estimate::{PartShare, SheetReport};
use units::{Area, AreaUnit, Mass, MassUnit, Money, apportion, rounding};

use super::{AREA_PLACES, MASS_PLACES};
use crate::lists::ListUnits;

/// The six lines of a sheet as printed: whole counts of the last printed digit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Printed {
    pub(super) area: [i128; 6],
    pub(super) mass: [i128; 6],
    pub(super) cents: Option<[i128; 6]>,
    /// Area and mass of every part on the sheet; they add up to the line of parts.
    pub(super) parts: Vec<[i128; 2]>,
    /// Whether the parts were shared out of what was bought, since one by one they came to more than the sheet.
    pub(super) is_shared: bool,
}

impl Printed {
    /// Rounds what was bought, and every part as the cut list does; the rest is shared out among the other lines.
    pub(super) fn of(sheet: &SheetReport, units: ListUnits) -> Self {
        let breakdown = &sheet.breakdown;
        let lines = breakdown.lines();
        let area = |area: Area| area.square_nanometres();
        let mass = |mass: Mass| i128::from(mass.micrograms());
        let cents = |money: Money| i128::from(money.cents());
        let money: Option<Vec<i128>> = lines.iter().map(|line| line.money.map(cents)).collect();
        let money = breakdown.bought.money.map(cents).zip(money);
        let areas: Vec<i128> = lines.iter().map(|line| area(line.area)).collect();
        let masses: Vec<i128> = lines.iter().map(|line| mass(line.mass)).collect();
        let of_parts = |row: &dyn Fn(&PartShare) -> i128| sheet.parts.iter().map(row).collect::<Vec<i128>>();
        let exact = [of_parts(&|part| area(part.amount.area)), of_parts(&|part| mass(part.amount.mass))];
        let rows = [
            of_parts(&|part| super::area_count(part.amount.area, units)),
            of_parts(&|part| super::mass_count(part.each, units) * i128::from(part.quantity)),
        ];
        let [exact_area, exact_mass] = exact;
        let [area_rows, mass_rows] = rows;
        let by_area =
            column(super::area_count(breakdown.bought.area, units), &areas, (area_rows, &exact_area));
        let by_mass =
            column(super::mass_count(breakdown.bought.mass, units), &masses, (mass_rows, &exact_mass));
        Self {
            area: by_area.lines,
            mass: by_mass.lines,
            cents: money.map(|(bought, lines)| with_whole(bought, &shared(bought, &lines))),
            parts: by_area.rows.into_iter().zip(by_mass.rows).map(|(area, mass)| [area, mass]).collect(),
            is_shared: by_area.is_shared || by_mass.is_shared,
        }
    }
}

/// One column of a sheet.
struct Column {
    lines: [i128; 6],
    rows: Vec<i128>,
    is_shared: bool,
}

/// `whole` printed digits were bought. The parts take what their rows print, and what is left goes to the other `lines` by
/// their exact amounts. Rows that would come to more than the sheet are shared out of it instead.
fn column(whole: i128, lines: &[i128], (rows, exact): (Vec<i128>, &[i128])) -> Column {
    let rest = whole - rows.iter().sum::<i128>();
    if rest < 0 {
        let lines = with_whole(whole, &shared(whole, lines));
        return Column { lines, rows: shared(lines[1], exact), is_shared: true };
    }
    let others = lines.get(1..).unwrap_or_default();
    let mut printed = vec![whole - rest];
    printed.extend(shared(rest, others));
    if let Some(scrap) = printed.last_mut()
        && others.iter().all(|line| *line == 0)
    {
        *scrap = rest;
    }
    Column { lines: with_whole(whole, &printed), rows, is_shared: false }
}

/// What was bought, then the five lines.
fn with_whole(whole: i128, lines: &[i128]) -> [i128; 6] {
    std::array::from_fn(|line| match line {
        0 => whole,
        _ => lines.get(line - 1).copied().unwrap_or(0),
    })
}

impl<'a> Sum<&'a Self> for Printed {
    fn sum<I: Iterator<Item = &'a Self>>(sheets: I) -> Self {
        let nothing =
            Self { area: [0; 6], mass: [0; 6], cents: Some([0; 6]), parts: Vec::new(), is_shared: false };
        let add = |a: [i128; 6], b: [i128; 6]| std::array::from_fn(|line| a[line] + b[line]);
        sheets.fold(nothing, |sum, sheet| Self {
            area: add(sum.area, sheet.area),
            mass: add(sum.mass, sheet.mass),
            cents: sum.cents.zip(sheet.cents).map(|(a, b)| add(a, b)),
            parts: Vec::new(),
            is_shared: sum.is_shared || sheet.is_shared,
        })
    }
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

/// The shares of a sheet's lines in what was bought, in tenths of a percent: that of the parts rounded, the rest shared out
/// among the others, so that all add up to the whole. Nothing where nothing was bought.
pub(super) fn permilles(lines: &[i128; 6]) -> [i128; 6] {
    const WHOLE: i128 = 1000;
    let [whole, parts, others @ ..] = *lines;
    let Some(own) = rounding::divide(parts.saturating_mul(WHOLE), whole) else { return [0; 6] };
    let others = shared(WHOLE - own, &others);
    let all: Vec<i128> = std::iter::once(own).chain(others).collect();
    with_whole(WHOLE, &all)
}

/// The same as printed; empty where nothing was bought.
pub(super) fn percents(lines: &[i128; 6]) -> [String; 6] {
    if lines[0] == 0 { Default::default() } else { permilles(lines).map(percent) }
}

/// Tenths of a percent as printed.
pub(super) fn percent(permille: i128) -> String {
    format!("{} %", decimal(permille, 1))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_print_as_they_do_elsewhere_and_the_rest_closes_the_sum() {
        // Two parts of 30.4 print 30 each; beside exact lines of 10.2, 0, 9 and 21 they leave 41 of 101 to share out.
        let column = column(101, &[608, 102, 0, 90, 210], (vec![30, 30], &[304, 304]));
        assert_eq!(column.lines, [101, 60, 10, 0, 9, 22]);
        assert_eq!((column.rows, column.is_shared), (vec![30, 30], false));
    }

    #[test]
    fn parts_never_print_more_than_the_sheet() {
        // Two halves of 4.5 print 5 each, the sheet of 9 prints 9.
        let full = column(9, &[90, 0, 0, 0, 0], (vec![5, 5], &[45, 45]));
        assert_eq!((full.lines, full.is_shared), ([9, 9, 0, 0, 0, 0], true));
        assert_eq!(full.rows.iter().sum::<i128>(), 9);
        // Two of 4.4 print 4 each: the last one is scrap though nothing exact is left.
        let full = column(9, &[88, 0, 0, 0, 0], (vec![4, 4], &[44, 44]));
        assert_eq!((full.lines, full.is_shared), ([9, 8, 0, 0, 0, 1], false));
    }

    #[test]
    fn digits_are_those_of_the_unit() {
        // One square foot is 0.09290304 m² exactly (16 CFR 500.19: 1 ft = .3048 m).
        let foot = Area::from_square_nanometres(92_903_040_000_000_000).square_nanometres();
        let (counts, digits) = area_digit(AreaUnit::SquareFoot);
        assert_eq!(rounding::divide(foot * digits, counts), Some(1000));
        assert_eq!(decimal(32_000, 3), "32.000");
        assert_eq!(decimal(-5, 2), "-0.05");
    }

    #[test]
    fn shares_add_up_to_a_hundred() {
        // Each alone they would come to 100.2: 60.1, 10.0, 10.0, 10.1, 10.0.
        let lines = [10_000, 6_005, 995, 995, 1_005, 1_000];
        assert_eq!(percents(&lines), ["100.0 %", "60.1 %", "10.0 %", "9.9 %", "10.0 %", "10.0 %"]);
        assert_eq!(permilles(&lines)[1..].iter().sum::<i128>(), 1_000);
        assert_eq!(percents(&[3, 1, 1, 1, 0, 0])[1..4], ["33.3 %", "33.4 %", "33.3 %"]);
        assert_eq!(percents(&[0; 6]), [""; 6]);
    }
}
