//! The scrap report: what became of the metal that was cut up, bought or of the rack, adding up in every column and every
//! sum.

mod bars;
mod sums;

use estimate::{PrintedMass, ScrapReport, SheetReport};
use units::{Area, Mass, Money, rounding};

use crate::lists::ListUnits;
use crate::lists::table::{Side, Table};
use sums::decimal;

pub use bars::draw as bars;
pub use sums::{Printed, printed};

/// Decimals of areas and of weights.
const AREA_PLACES: u32 = 3;
const MASS_PLACES: u32 = 2;

/// The six lines, in the order of the report, and where the area of each comes from.
const LINES: [(&str, &str); 6] = [
    ("whole", "length × width of the sheet (sheets in the job), or the outline of the piece of the rack"),
    (
        "parts",
        "flats of the parts on it, holes and reliefs taken out, as laid flat: their rows below, added up",
    ),
    (
        "kept drops",
        "drops that the keep-or-scrap rule keeps, each whole as it comes off by the order of cuts and goes to the rack, its rim with it",
    ),
    (
        "kerf",
        "kerf of the job (shop) along every cut edge, those of holes and reliefs too, and down the straight cuts of the order of cuts, measured on the verified nest",
    ),
    (
        "edge trim",
        "strips as wide as the edge trim of the job (shop) along the sheet's edges, less what parts, kerf and kept drops take of them",
    ),
    (
        "scrap",
        "what is left: the whole less the lines above; compared with the skeleton measured on the nest",
    ),
];

/// What the whole metal of a report is called in its sums.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Whole {
    Bought,
    OfRack,
    Both,
}

impl Whole {
    /// Of some sheets; nothing at all was bought.
    fn of<'a>(sheets: impl Iterator<Item = &'a SheetReport>) -> Self {
        let (mut bought, mut rack) = (false, false);
        for sheet in sheets {
            bought |= !sheet.from_rack;
            rack |= sheet.from_rack;
        }
        match (bought, rack) {
            (_, false) => Self::Bought,
            (false, true) => Self::OfRack,
            (true, true) => Self::Both,
        }
    }

    const fn words(self) -> &'static str {
        match self {
            Self::Bought => "bought",
            Self::OfRack => "of the rack",
            Self::Both => "bought + of the rack",
        }
    }
}

/// What stands over the report: the sum that it is, and how it is rounded.
pub(crate) fn sum_sentences(report: &ScrapReport) -> [String; 3] {
    let whole = match Whole::of(report.sheets.iter()) {
        Whole::Bought => "Bought",
        Whole::OfRack => "Of the rack",
        Whole::Both => "Bought + of the rack",
    };
    [
        format!("{whole} = parts + kept drops + kerf + edge trim + scrap."),
        "Parts are those of take-off and cut list, on all sheets together.".to_owned(),
        "Every line is rounded once; scrap is what the printed lines leave; sums are of printed lines."
            .to_owned(),
    ]
}

/// The report as text. Every printed column adds up to its last digit, down each table and over the sheets.
#[must_use]
pub fn text(job: &str, report: &ScrapReport, units: ListUnits) -> String {
    let mut text = format!("Scrap report: {job}\n{}\n", sum_sentences(report).join("\n"));
    text.extend(shared_words(report, units).map(|words| crate::lists::table::hung("", &words)));
    for (heading, table) in tables(report, units) {
        text.push_str(&format!("\n{heading}\n{}", table.text()));
    }
    for (heading, table) in parts_tables(report, units) {
        text.push_str(&format!("\n{heading}\n{}", table.text()));
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
    printed(report, units).iter().sum::<Printed>().area
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

/// Every whole sheet, bought or of the rack, as its line prints it.
#[must_use]
pub fn wholes(report: &ScrapReport, units: ListUnits) -> Vec<PrintedMass> {
    printed_masses(report, units, |[whole, ..]| whole)
}

fn printed_masses(
    report: &ScrapReport,
    units: ListUnits,
    of_lines: impl Fn([i128; 6]) -> i128,
) -> Vec<PrintedMass> {
    let sheets = printed(report, units).into_iter();
    sheets.map(|sheet| PrintedMass { hundredths: of_lines(sheet.mass), unit: units.mass }).collect()
}

/// The sum of weights as they are printed, with its unit: "3.87 lb".
#[must_use]
pub fn sum_words(weights: &[PrintedMass], units: ListUnits) -> String {
    let hundredths = weights.iter().map(|weight| weight.hundredths).sum();
    format!("{} {}", print_mass(hundredths), units.mass.name())
}

/// Said of sheets so full that their parts, rounded one by one, would come to more than the sheet.
pub(crate) fn shared_words(report: &ScrapReport, units: ListUnits) -> Option<String> {
    let full: Vec<&str> = report
        .sheets
        .iter()
        .zip(printed(report, units))
        .filter(|(_, printed)| printed.is_shared)
        .map(|(sheet, _)| sheet.sheet.as_str())
        .collect();
    (!full.is_empty()).then(|| {
        format!(
            "The parts on {} fill it so that, rounded one by one, they would come to more than the whole sheet: there they are \
             shared out of it, and may be off the cut list in the last digit.",
            full.join(", ")
        )
    })
}

/// An area in counts of the last printed digit, rounded once: thousandths of a square foot or metre.
pub(crate) fn area_count(area: Area, units: ListUnits) -> i128 {
    count(area.square_nanometres(), sums::area_digit(units.area))
}

/// A weight likewise: hundredths of a pound or kilogram.
pub(crate) fn mass_count(mass: Mass, units: ListUnits) -> i128 {
    count(i128::from(mass.micrograms()), sums::mass_digit(units.mass))
}

fn count(exact: i128, (counts, digits): (i128, i128)) -> i128 {
    rounding::divide(exact.saturating_mul(digits), counts).unwrap_or(0)
}

/// A weight from such a count.
#[must_use]
pub fn print_mass(count: i128) -> String {
    decimal(count, MASS_PLACES)
}

/// An area from such a count.
#[must_use]
pub fn print_area(count: i128) -> String {
    decimal(count, AREA_PLACES)
}

/// A table for every sheet, every metal with more than one sheet, and in all; where some are bought and some are of the rack,
/// for all of each, too.
pub(crate) fn tables(report: &ScrapReport, units: ListUnits) -> Vec<(String, Table)> {
    let sheets: Vec<(&SheetReport, Printed)> = report.sheets.iter().zip(printed(report, units)).collect();
    let single = |(sheet, amounts): &(&SheetReport, Printed)| {
        (sheet.sheet.clone(), lines_table(amounts, Whole::of(std::iter::once(*sheet)), units))
    };
    let mut tables: Vec<(String, Table)> = sheets.iter().map(single).collect();
    let sum = |of: &dyn Fn(&SheetReport) -> bool| {
        let own = || sheets.iter().filter(|(sheet, _)| of(sheet));
        let amounts: Printed = own().map(|(_, amounts)| amounts).sum();
        lines_table(&amounts, Whole::of(own().map(|(sheet, _)| *sheet)), units)
    };
    for metal in report.metals.iter().filter(|metal| 1 < metal.sheets && metal.sheets < report.sheets.len()) {
        let heading = format!("All {} sheets of {}", metal.sheets, metal.metal);
        tables.push((heading, sum(&|sheet| sheet.metal == metal.metal)));
    }
    if 1 < sheets.len() {
        if Whole::of(report.sheets.iter()) == Whole::Both {
            tables.push(("All that is bought".to_owned(), sum(&|sheet| !sheet.from_rack)));
            tables.push(("All of the rack".to_owned(), sum(&|sheet| sheet.from_rack)));
        }
        tables.push((format!("All {} sheets", sheets.len()), sum(&|_| true)));
    }
    tables
}

fn lines_table(amounts: &Printed, whole: Whole, units: ListUnits) -> Table {
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
            _ => shared("the whole weight less that of the parts"),
        };
        vec![
            String::new(),
            area.to_owned(),
            mass,
            if line == 0 {
                "price of the sheet in the job; a piece of the rack costs nothing".to_owned()
            } else {
                shared("the money of the whole")
            },
            match line {
                0 | 1 => format!("area of {name} ÷ whole area"),
                _ => {
                    format!(
                        "area of {name} ÷ whole area; what rounding leaves of 100 % is shared out by area"
                    )
                }
            },
        ]
    };
    let cells = |line: usize| {
        vec![
            if line == 0 { whole.words() } else { LINES[line].0 }.to_owned(),
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

/// For every sheet the share of the parts, and of the parts and kept drops, as this report prints them: a map must not say otherwise
/// in the last digit.
#[must_use]
pub fn printed_yields(report: &ScrapReport, units: ListUnits) -> Vec<[String; 2]> {
    let of_sheet = |sheet: Printed| {
        let [_, parts, kept, ..] = sums::permilles(&sheet.area);
        [parts, parts + kept].map(sums::percent)
    };
    printed(report, units).into_iter().map(of_sheet).collect()
}

/// For every sheet its parts with what the sheet charges to them; they add up to the sheet's line of parts.
pub(crate) fn parts_tables(report: &ScrapReport, units: ListUnits) -> Vec<(String, Table)> {
    let sheets = report.sheets.iter().zip(printed(report, units));
    sheets
        .map(|(sheet, printed)| (format!("Parts on {}", sheet.sheet), parts_table(sheet, &printed, units)))
        .collect()
}

fn parts_table(sheet: &SheetReport, printed: &Printed, units: ListUnits) -> Table {
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
        [
            "pieces × area of the flat; a part on several sheets is rounded over all of them, so that they come to its line \
             of the take-off",
            sum,
        ],
        ["pieces × printed weight of one, as in the cut list; rounded likewise", sum],
        ["the sheet's money of parts, shared out by area", sum],
        ["price of the sheet less its kept drops, shared out over its parts by area", "sum of the column"],
    ]);
    table
}
