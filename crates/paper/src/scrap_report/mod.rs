//! The scrap report: what became of the metal that was bought, adding up in every column and every sum.

mod bars;
mod sums;

use estimate::{Breakdown, ScrapReport, SheetReport};
use units::{Area, Mass, Money, rounding};

use crate::lists::ListUnits;
use crate::lists::table::{Side, Table};
use sums::{Printed, decimal};

pub use bars::draw as bars;

/// Decimals of areas and of weights.
const AREA_PLACES: u32 = 3;
const MASS_PLACES: u32 = 2;

/// The six lines, in the order of the report.
const LINES: [&str; 6] = ["bought", "parts", "kept drops", "kerf", "edge trim", "scrap"];

/// The report as text. Every printed column adds up to its last digit, down each table and over the sheets.
#[must_use]
pub fn text(job: &str, report: &ScrapReport, units: ListUnits) -> String {
    let mut text = format!(
        "Scrap report: {job}\nBought = parts + kept drops + kerf + edge trim + scrap.\n\
         Every sheet is rounded once; sums are of the printed numbers, so that they can be redone by hand.\n"
    );
    for (heading, table) in tables(report, units) {
        text.push_str(&format!("\n{heading}\n{}", table.text()));
    }
    for sheet in &report.sheets {
        text.push_str(&format!("\nParts on {}\n{}", sheet.sheet, parts_table(sheet, units).text()));
    }
    if 0 < report.sheets_without_price {
        text.push_str(&format!(
            "\n{} of {} sheets have no price; sums of money leave the whole column out.\n",
            report.sheets_without_price,
            report.sheets.len()
        ));
    }
    text
}

/// The six areas of a breakdown as they are printed, in counts of the last digit; the last five add up to the first.
pub(crate) fn printed_areas(breakdown: &Breakdown, units: ListUnits) -> [i128; 6] {
    Printed::of(breakdown, units).area
}

/// An area in counts of the last printed digit, rounded once.
pub(crate) fn area_count(area: Area, units: ListUnits) -> i128 {
    count(area.square_nanometres(), sums::area_digit(units.area))
}

/// A weight likewise.
pub(crate) fn mass_count(mass: Mass, units: ListUnits) -> i128 {
    count(i128::from(mass.micrograms()), sums::mass_digit(units.mass))
}

fn count(exact: i128, (counts, digits): (i128, i128)) -> i128 {
    rounding::divide(exact.saturating_mul(digits), counts).unwrap_or(0)
}

/// A weight from such a count.
pub(crate) fn print_mass(count: i128) -> String {
    decimal(count, MASS_PLACES)
}

/// An area from such a count.
pub(crate) fn print_area(count: i128) -> String {
    decimal(count, AREA_PLACES)
}

/// A table for every sheet, every metal with more than one sheet, and in all.
pub(crate) fn tables(report: &ScrapReport, units: ListUnits) -> Vec<(String, Table)> {
    let printed: Vec<(&str, Printed)> = report
        .sheets
        .iter()
        .map(|sheet| (sheet.metal.as_str(), Printed::of(&sheet.breakdown, units)))
        .collect();
    let mut tables: Vec<(String, Table)> = report
        .sheets
        .iter()
        .zip(&printed)
        .map(|(sheet, (_, amounts))| (sheet.sheet.clone(), lines_table(amounts, units)))
        .collect();
    for metal in report.metals.iter().filter(|metal| 1 < metal.sheets && metal.sheets < report.sheets.len()) {
        let of_metal = printed.iter().filter(|(name, _)| *name == metal.metal).map(|(_, amounts)| amounts);
        let heading = format!("All {} sheets of {}", metal.sheets, metal.metal);
        tables.push((heading, lines_table(&of_metal.sum(), units)));
    }
    if 1 < printed.len() {
        let all: Printed = printed.iter().map(|(_, amounts)| amounts).sum();
        tables.push((format!("All {} sheets", printed.len()), lines_table(&all, units)));
    }
    tables
}

fn lines_table(amounts: &Printed, units: ListUnits) -> Table {
    let (area, mass) = (units.area.name(), units.mass.name());
    let mut table = Table::new(&[
        ("", Side::Words),
        (area, Side::Number),
        (mass, Side::Number),
        ("money", Side::Number),
        ("share of area", Side::Number),
    ]);
    let whole = amounts.area[0];
    let cells = |line: usize| {
        vec![
            LINES[line].to_owned(),
            decimal(amounts.area[line], AREA_PLACES),
            decimal(amounts.mass[line], MASS_PLACES),
            amounts.cents.map_or_else(|| "no price".to_owned(), |cents| decimal(cents[line], 2)),
            sums::percent(amounts.area[line], whole),
        ]
    };
    (1..LINES.len()).for_each(|line| table.row(cells(line)));
    table.sum(cells(0));
    table
}

/// The parts of one sheet with what the sheet charges to them; they add up to the sheet's line of parts.
pub(crate) fn parts_table(sheet: &SheetReport, units: ListUnits) -> Table {
    let printed = Printed::of(&sheet.breakdown, units);
    let areas: Vec<i128> = sheet.parts.iter().map(|part| part.amount.area.square_nanometres()).collect();
    let masses: Vec<i128> =
        sheet.parts.iter().map(|part| i128::from(part.amount.mass.micrograms())).collect();
    let (areas, masses) = (sums::shared(printed.area[1], &areas), sums::shared(printed.mass[1], &masses));
    let mut table = parts_headings(units);
    let money = |money: Option<Money>| money.map_or_else(|| "no price".to_owned(), Money::print);
    for (part, (area, mass)) in sheet.parts.iter().zip(areas.iter().zip(masses)) {
        table.row(vec![
            part.mark.clone(),
            part.quantity.to_string(),
            decimal(*area, AREA_PLACES),
            decimal(mass, MASS_PLACES),
            money(part.amount.money),
            money(part.charged),
        ]);
    }
    let pieces: u64 = sheet.parts.iter().map(|part| u64::from(part.quantity)).sum();
    let charged: Option<Money> = sheet.parts.iter().map(|part| part.charged).sum();
    table.sum(vec![
        "all".to_owned(),
        pieces.to_string(),
        decimal(printed.area[1], AREA_PLACES),
        decimal(printed.mass[1], MASS_PLACES),
        money(sheet.breakdown.parts.money),
        money(charged),
    ]);
    table
}

fn parts_headings(units: ListUnits) -> Table {
    let (area, mass) = (format!("area, {}", units.area.name()), format!("weight, {}", units.mass.name()));
    Table::new(&[
        ("mark", Side::Words),
        ("pieces", Side::Number),
        (&area, Side::Number),
        (&mass, Side::Number),
        ("metal alone", Side::Number),
        ("with waste", Side::Number),
    ])
}
