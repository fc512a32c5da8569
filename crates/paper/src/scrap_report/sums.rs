//! Rounding a sheet once, so that what is printed adds up.

use std::iter::Sum;

use estimate::{PartShare, ScrapReport, SheetReport};
use units::{Area, AreaUnit, Mass, MassUnit, Money, apportion, rounding};

use super::{AREA_PLACES, MASS_PLACES};
use crate::lists::ListUnits;

/// A sheet as printed, or several added up: the whole, parts, kept drops, kerf, edge trim and scrap, in whole counts of the
/// last printed digit.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct Printed {
    /// Thousandths of a square foot or metre.
    pub area: [i128; 6],
    /// Hundredths of a pound or kilogram.
    pub mass: [i128; 6],
    /// Cents; none where a sheet has no price.
    pub cents: Option<[i128; 6]>,
    /// Area and mass of every part on the sheet; they add up to the line of parts.
    pub parts: Vec<[i128; 2]>,
    /// Whether the parts were shared out of the sheet, since one by one they came to more than it.
    pub is_shared: bool,
}

/// Every sheet of a report as printed.
///
/// A part that lies on several sheets is rounded over all of them: what so many pieces come to, less what the pieces on the
/// sheets before come to. So its rows add up to its line of take-off and cut list, to the last digit.
#[must_use]
pub fn printed(report: &ScrapReport, units: ListUnits) -> Vec<Printed> {
    let mut laid: Vec<(&str, &str, u32)> = Vec::new();
    let mut all = Vec::new();
    for sheet in &report.sheets {
        let mut rows: Vec<[i128; 2]> = Vec::with_capacity(sheet.parts.len());
        for part in &sheet.parts {
            let known = laid.iter().position(|(metal, mark, _)| *metal == sheet.metal && *mark == part.mark);
            let place = known.unwrap_or_else(|| {
                laid.push((&sheet.metal, &part.mark, 0));
                laid.len() - 1
            });
            let before = laid[place].2;
            let after = before.saturating_add(part.quantity);
            laid[place].2 = after;
            let [low, high] = [before, after].map(|pieces| of_pieces(part, pieces, units));
            rows.push([high[0] - low[0], high[1] - low[1]]);
        }
        all.push(Printed::of(sheet, &rows, units));
    }
    all
}

/// Area and weight that so many pieces of a part print.
fn of_pieces(part: &PartShare, pieces: u32, units: ListUnits) -> [i128; 2] {
    let area = part.amount.area.square_nanometres() * i128::from(pieces) / i128::from(part.quantity.max(1));
    let area = super::area_count(Area::from_square_nanometres(area), units);
    [area, super::mass_count(part.each.of_pieces(pieces, units.mass), units)]
}

impl Printed {
    /// Rounds the whole sheet; its parts take what their `rows` print, and the rest is shared out among the other lines.
    fn of(sheet: &SheetReport, rows: &[[i128; 2]], units: ListUnits) -> Self {
        let breakdown = &sheet.breakdown;
        let lines = breakdown.lines();
        let area = |area: Area| area.square_nanometres();
        let mass = |mass: Mass| i128::from(mass.micrograms());
        let cents = |money: Money| i128::from(money.cents());
        let money: Option<Vec<i128>> = lines.iter().map(|line| line.money.map(cents)).collect();
        let money = breakdown.whole.money.map(cents).zip(money);
        let areas: Vec<i128> = lines.iter().map(|line| area(line.area)).collect();
        let masses: Vec<i128> = lines.iter().map(|line| mass(line.mass)).collect();
        let of_parts = |row: &dyn Fn(&PartShare) -> i128| sheet.parts.iter().map(row).collect::<Vec<i128>>();
        let exact = [of_parts(&|part| area(part.amount.area)), of_parts(&|part| mass(part.amount.mass))];
        let [exact_area, exact_mass] = exact;
        let [area_rows, mass_rows] = [0, 1].map(|what: usize| rows.iter().map(|row| row[what]).collect());
        let own_areas: Vec<i128> = lines.iter().map(|line| super::area_count(line.area, units)).collect();
        let own_masses: Vec<i128> = lines.iter().map(|line| super::mass_count(line.mass, units)).collect();
        let whole = super::area_count(breakdown.whole.area, units);
        let by_area = column(whole, (&areas, &own_areas), (area_rows, &exact_area));
        let whole = super::mass_count(breakdown.whole.mass, units);
        let by_mass = column(whole, (&masses, &own_masses), (mass_rows, &exact_mass));
        Self {
            area: by_area.lines,
            mass: by_mass.lines,
            cents: money.map(|(whole, lines)| with_whole(whole, &shared(whole, &lines))),
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

/// A sheet of `whole` printed digits, its lines as they are exactly and each rounded by itself. The parts take what their rows
/// print, and the rest is closed by the scrap. Rows that would come to more than the sheet are shared out of it instead.
fn column(whole: i128, (lines, own): (&[i128], &[i128]), (rows, exact): (Vec<i128>, &[i128])) -> Column {
    let rest = whole - rows.iter().sum::<i128>();
    if rest < 0 {
        let lines = with_whole(whole, &shared(whole, lines));
        return Column { lines, rows: shared(lines[1], exact), is_shared: true };
    }
    let others = |of: &[i128]| std::array::from_fn(|line| of.get(line + 1).copied().unwrap_or(0));
    let mut printed = vec![whole - rest];
    printed.extend(closed(rest, others(own), others(lines)));
    Column { lines: with_whole(whole, &printed), rows, is_shared: false }
}

/// Kept drops, kerf, edge trim and scrap, as they print where parts leave `rest`: each is `own`, rounded by itself, and the scrap
/// takes the balance. Where there is no scrap, or less than that, kerf and trim share what the drops leave; drops alone are
/// cut short only where they would come to more than the sheet.
fn closed(rest: i128, own: [i128; 4], exact: [i128; 4]) -> [i128; 4] {
    let [drops, kerf, trim, _] = own;
    let scrap = rest - drops - kerf - trim;
    if 0 <= scrap && (exact[3] != 0 || scrap == 0) {
        return [drops, kerf, trim, scrap];
    }
    let left = rest - drops;
    match (apportion(left, &exact[1..]), apportion(rest, &exact)) {
        (Ok(shares), _) if 0 <= left => std::array::from_fn(|line| match line {
            0 => drops,
            _ => shares.get(line - 1).copied().unwrap_or(0),
        }),
        (Err(_), _) if 0 <= left => [drops, 0, 0, left],
        (_, Ok(shares)) => std::array::from_fn(|line| shares.get(line).copied().unwrap_or(0)),
        (_, Err(_)) => [0, 0, 0, rest],
    }
}

/// The whole sheet, then the five lines.
fn with_whole(whole: i128, lines: &[i128]) -> [i128; 6] {
    std::array::from_fn(|line| match line {
        0 => whole,
        _ => lines.get(line - 1).copied().unwrap_or(0),
    })
}

impl Sum for Printed {
    fn sum<I: Iterator<Item = Self>>(sheets: I) -> Self {
        let sheets: Vec<Self> = sheets.collect();
        sheets.iter().sum()
    }
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

/// The shares of a sheet's lines in the whole of it, in tenths of a percent, each rounded by itself and that of the scrap what they
/// leave, so that all add up. Nothing where there is no sheet.
pub(super) fn permilles(lines: &[i128; 6]) -> [i128; 6] {
    const WHOLE: i128 = 1000;
    let [whole, parts, others @ ..] = *lines;
    let share = |line: i128| rounding::divide(line.saturating_mul(WHOLE), whole);
    let Some(own) = share(parts) else { return [0; 6] };
    let others = closed(WHOLE - own, others.map(|line| share(line).unwrap_or(0)), others);
    let all: Vec<i128> = std::iter::once(own).chain(others).collect();
    with_whole(WHOLE, &all)
}

/// The same as printed; empty where there is no sheet.
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
        let column = column(101, (&[608, 102, 0, 90, 210], &[61, 10, 0, 9, 21]), (vec![30, 30], &[304, 304]));
        assert_eq!(column.lines, [101, 60, 10, 0, 9, 22]);
        assert_eq!((column.rows, column.is_shared), (vec![30, 30], false));
    }

    #[test]
    fn a_drop_prints_as_it_is_and_scrap_takes_the_balance() {
        // A drop of 24.84 and parts of 70.4 that print 71 by their pieces, of 100: scrap of 3.4 is what is left of the prints.
        let column = column(100, (&[704, 248, 10, 4, 34], &[70, 25, 1, 0, 3]), (vec![71], &[704]));
        assert_eq!(column.lines, [100, 71, 25, 1, 0, 3]);
        // Without scrap the kerf takes it.
        assert_eq!(closed(30, [25, 4, 0, 0], [250, 44, 0, 0]), [25, 5, 0, 0]);
        assert_eq!(closed(29, [25, 5, 0, 0], [245, 45, 0, 0]), [25, 4, 0, 0]);
        // Drops never print more than the parts leave.
        assert_eq!(closed(24, [25, 0, 0, 0], [248, 0, 0, 0]), [24, 0, 0, 0]);
    }

    #[test]
    fn parts_never_print_more_than_the_sheet() {
        // Two halves of 4.5 print 5 each, the sheet of 9 prints 9.
        let full = column(9, (&[90, 0, 0, 0, 0], &[9, 0, 0, 0, 0]), (vec![5, 5], &[45, 45]));
        assert_eq!((full.lines, full.is_shared), ([9, 9, 0, 0, 0, 0], true));
        assert_eq!(full.rows.iter().sum::<i128>(), 9);
        // Two of 4.4 print 4 each: the last one is scrap though nothing exact is left.
        let full = column(9, (&[88, 0, 0, 0, 0], &[9, 0, 0, 0, 0]), (vec![4, 4], &[44, 44]));
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
        // Each alone they would come to 100.2: 60.1, 10.0, 10.0, 10.1, 10.0; the scrap takes it.
        let lines = [10_000, 6_005, 995, 995, 1_005, 1_000];
        assert_eq!(percents(&lines), ["100.0 %", "60.1 %", "10.0 %", "10.0 %", "10.1 %", "9.8 %"]);
        assert_eq!(permilles(&lines)[1..].iter().sum::<i128>(), 1_000);
        assert_eq!(percents(&[3, 1, 1, 1, 0, 0])[1..4], ["33.3 %", "33.3 %", "33.4 %"]);
        assert_eq!(percents(&[0; 6]), [""; 6]);
    }
}
