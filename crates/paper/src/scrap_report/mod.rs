//! The scrap report: what became of the metal that was bought, adding up in every column and every sum.

mod bars;
mod sums;

use estimate::{PrintedMass, ScrapReport, SheetReport};
use units::{Area, Mass, Money, rounding};

use crate::lists::ListUnits;
use crate::lists::table::{Side, Table};
use sums::{Printed, decimal};

pub use bars::draw as bars;

/// Decimals of areas and of weights.
const AREA_PLACES: u32 = 3;
const MASS_PLACES: u32 = 2;

/// The six lines, in the order of the report, and where the area of each comes from.
const LINES: [(&str, &str); 6] = [
    ("bought", "length × width of the sheet (sheets in the job, or the rack)"),
    (
        "parts",
        "flats of the parts on it, holes and reliefs taken out, as laid flat: their rows below, added up",
    ),
    (
        "kept drops",
        "drops that the keep-or-scrap rule keeps, measured on the verified nest without kerf and trim",
    ),
    (
        "kerf",
        "kerf of the job (shop) along every cut edge, those of holes and reliefs too, and down the straight cuts of the order of cuts, measured on the verified nest",
    ),
    (
        "edge trim",
        "strips as wide as the edge trim of the job (shop) along the sheet's edges, less what parts and kerf take of them",
    ),
    ("scrap", "what is left: bought less the lines above; compared with the skeleton measured on the nest"),
];

/// The report as text. Every printed column adds up to its last digit, down each table and over the sheets.
#[must_use]
pub fn text(job: &str, report: &ScrapReport, units: ListUnits) -> String {
    let mut text = format!(
        "Scrap report: {job}\nBought = parts + kept drops + kerf + edge trim + scrap.\n\
         Weights of parts are those of the cut list.\n\
         Sums are of the printed numbers, so that they can be redone by hand.\n"
    );
    text.extend(shared_words(report, units).map(|words| crate::lists::table::hung("", &words)));
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

/// The six areas of all sheets as they are printed, in counts of the last digit; the last five add up to the first.
pub(crate) fn printed_areas(report: &ScrapReport, units: ListUnits) -> [i128; 6] {
    let printed: Vec<Printed> = report.sheets.iter().map(|sheet| Printed::of(sheet, units)).collect();
    printed.iter().sum::<Printed>().area
}

/// What a dealer takes of every sheet, as its lines print it: scrap and edge trim. Chips of the kerf are swept up with the
/// dust.
#[must_use]
pub fn saleable(report: &ScrapReport, units: ListUnits) -> Vec<PrintedMass> {
    printed_masses(report, units, |[_, _, _, _, edge_trim, scrap]| edge_trim + scrap)
}

/// The kept drops of every sheet, as its line prints them.
#[must_use]
pub fn kept_drops(report: &ScrapReport, units: ListUnits) -> Vec<PrintedMass> {
    printed_masses(report, units, |[_, _, kept_drops, ..]| kept_drops)
}

/// What was bought of every sheet, as its line prints it.
#[must_use]
pub fn bought(report: &ScrapReport, units: ListUnits) -> Vec<PrintedMass> {
    printed_masses(report, units, |[bought, ..]| bought)
}

fn printed_masses(
    report: &ScrapReport,
    units: ListUnits,
    of_lines: impl Fn([i128; 6]) -> i128,
) -> Vec<PrintedMass> {
    let sheets = report.sheets.iter();
    sheets
        .map(|sheet| PrintedMass { hundredths: of_lines(Printed::of(sheet, units).mass), unit: units.mass })
        .collect()
}

/// The sum of weights as they are printed, with its unit: "3.87 lb".
#[must_use]
pub fn sum_words(weights: &[PrintedMass], units: ListUnits) -> String {
    let hundredths = weights.iter().map(|weight| weight.hundredths).sum();
    format!("{} {}", print_mass(hundredths), units.mass.name())
}

/// Said of sheets so full that their parts, rounded one by one, would come to more than was bought.
pub(crate) fn shared_words(report: &ScrapReport, units: ListUnits) -> Option<String> {
    let full: Vec<&str> = report
        .sheets
        .iter()
        .filter(|sheet| Printed::of(sheet, units).is_shared)
        .map(|sheet| sheet.sheet.as_str())
        .collect();
    (!full.is_empty()).then(|| {
        format!(
            "The parts on {} fill it so that, rounded one by one, they would come to more than was bought: there they are \
             shared out of it, and may be off the cut list in the last digit.",
            full.join(", ")
        )
    })
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
    let printed: Vec<(&str, Printed)> =
        report.sheets.iter().map(|sheet| (sheet.metal.as_str(), Printed::of(sheet, units))).collect();
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
    let shares = sums::percents(&amounts.area);
    let from = |line: usize| {
        let (name, area) = LINES[line];
        let shared = |what: &str| format!("{what}, shared out by area to the last digit");
        let mass = match line {
            0 => "area × weight per area of the metal".to_owned(),
            1 => "weights of the parts on it, as in the cut list".to_owned(),
            _ => shared("the weight bought less that of the parts"),
        };
        vec![
            String::new(),
            area.to_owned(),
            mass,
            if line == 0 { "price of the sheet in the job".to_owned() } else { shared("the money bought") },
            match line {
                0 | 1 => format!("area of {name} ÷ area bought"),
                _ => format!(
                    "area of {name} ÷ area bought; what rounding leaves of 100 % is shared out by area"
                ),
            },
        ]
    };
    let cells = |line: usize| {
        vec![
            LINES[line].0.to_owned(),
            decimal(amounts.area[line], AREA_PLACES),
            decimal(amounts.mass[line], MASS_PLACES),
            amounts.cents.map_or_else(|| "no price".to_owned(), |cents| decimal(cents[line], 2)),
            shares[line].clone(),
        ]
    };
    (1..LINES.len()).for_each(|line| table.row_from(cells(line), from(line)));
    table.sum_from(cells(0), from(0));
    table
}

/// Share of the parts, and of the parts and kept drops, in a sheet as this report prints them: a map must not say otherwise
/// in the last digit.
#[must_use]
pub fn printed_yields(sheet: &SheetReport, units: ListUnits) -> [String; 2] {
    let [_, parts, kept, ..] = sums::permilles(&Printed::of(sheet, units).area);
    [parts, parts + kept].map(sums::percent)
}

/// The parts of one sheet with what the sheet charges to them; they add up to the sheet's line of parts.
pub(crate) fn parts_table(sheet: &SheetReport, units: ListUnits) -> Table {
    let printed = Printed::of(sheet, units);
    let mut table = parts_headings(units);
    let money = |money: Option<Money>| money.map_or_else(|| "no price".to_owned(), Money::print);
    for (part, [area, mass]) in sheet.parts.iter().zip(&printed.parts) {
        table.row(vec![
            part.mark.clone(),
            part.quantity.to_string(),
            decimal(*area, AREA_PLACES),
            decimal(*mass, MASS_PLACES),
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
    let mut table = Table::new(&[
        ("mark", Side::Words),
        ("pieces", Side::Number),
        (&area, Side::Number),
        (&mass, Side::Number),
        ("metal alone", Side::Number),
        ("with waste", Side::Number),
    ]);
    let sum = "the line of parts of this sheet";
    table.says_from([
        ["", ""],
        ["pieces of the part on this sheet, as nested", "sum of the column"],
        ["pieces × area of the flat, rounded once", sum],
        ["printed weight of one, as in the cut list, × pieces", sum],
        ["the sheet's money of parts, shared out by area", sum],
        ["price of the sheet less its kept drops, shared out over its parts by area", "sum of the column"],
    ]);
    table
}
