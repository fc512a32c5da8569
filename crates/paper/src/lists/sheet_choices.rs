//! The table of sheet sizes: what each would take, and what fits none of them.

use units::{Area, Money};

use super::ListUnits;
use super::table::{Side, Table, broken};

/// One size of sheet, or a mix of sizes, and what came of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetChoice {
    /// The size or the mix: "48 × 96", "1 of 48 × 96 and 1 of 60 × 120".
    pub name: String,
    /// What it takes, or why it cannot be.
    pub outcome: Result<Taken, String>,
    /// True for the choice this packet uses.
    pub chosen: bool,
}

/// What a choice takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Taken {
    /// Sheets.
    pub sheets: u32,
    /// Area of the sheets.
    pub area: Area,
    /// Price of the sheets, if all have one.
    pub money: Option<Money>,
    /// Share of that area that becomes parts, in thousandths.
    pub yield_permille: u32,
    /// How far fewer sheets, or a cheaper mix, are excluded.
    pub proof: Proof,
}

/// What is proved of a choice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Proof {
    /// No nest on these sheets can do with fewer than this.
    LeastSheets(u32),
    /// Whether no mix of the sizes is cheaper, or where prices are missing smaller.
    Cheapest(bool),
}

impl Taken {
    /// "2 sheets, proved least", "3 sheets; a cheaper mix is not excluded".
    fn words(&self) -> String {
        let sheets = sheets_words(self.sheets);
        match (self.proof, self.money) {
            (Proof::LeastSheets(least), _) => bound_words(self.sheets, least),
            (Proof::Cheapest(true), Some(_)) => format!("{sheets}, proved cheapest"),
            (Proof::Cheapest(true), None) => format!("{sheets}, proved least area"),
            (Proof::Cheapest(false), Some(_)) => format!("{sheets}; a cheaper mix is not excluded"),
            (Proof::Cheapest(false), None) => format!("{sheets}; a smaller mix is not excluded"),
        }
    }
}

/// The bound in words: "2 sheets, proved least" or "4 sheets; 3 not excluded".
#[must_use]
pub fn bound_words(sheets: u32, least_sheets: u32) -> String {
    let found = sheets_words(sheets);
    if sheets <= least_sheets {
        format!("{found}, proved least")
    } else {
        format!("{found}; {least_sheets} not excluded")
    }
}

fn sheets_words(sheets: u32) -> String {
    if sheets == 1 { "1 sheet".to_owned() } else { format!("{sheets} sheets") }
}

/// The table as text, the reasons of choices that cannot be under it.
#[must_use]
pub fn text(metal: &str, choices: &[SheetChoice], units: ListUnits) -> String {
    let mut text = format!("Sheets for {metal}\n\n{}", table(choices, units).text());
    for (name, reason) in misfits(choices) {
        for line in broken(&format!("{name}: {reason}"), super::table::LINE_WIDTH) {
            text.push_str(&line);
            text.push('\n');
        }
    }
    text
}

/// The choices that take something.
pub(crate) fn table(choices: &[SheetChoice], units: ListUnits) -> Table {
    let area = format!("area, {}", units.area.name());
    let mut table = Table::new(&[
        ("", Side::Words),
        ("sheets", Side::Words),
        ("how many", Side::Words),
        (&area, Side::Number),
        ("money", Side::Number),
        ("yield", Side::Number),
    ]);
    table.says_from([
        ["", ""],
        ["", ""],
        ["sheets of the best nest found for this choice, verified; the bound is proved by area, by widths and by pairs that cannot share a sheet", ""],
        ["number of sheets × their sizes (sheets in the job, or the rack)", ""],
        ["number of sheets × their prices (sheets in the job)", ""],
        ["area of the flats ÷ area of the sheets", ""],
    ]);
    for choice in choices {
        let Ok(taken) = &choice.outcome else { continue };
        table.row(vec![
            if choice.chosen { "used".to_owned() } else { String::new() },
            choice.name.clone(),
            taken.words(),
            taken.area.print(units.area, 2),
            taken.money.map_or_else(|| "no price".to_owned(), Money::print),
            format!("{}.{} %", taken.yield_permille / 10, taken.yield_permille % 10),
        ]);
    }
    table
}

/// The choices that cannot be, with the reason.
pub(crate) fn misfits(choices: &[SheetChoice]) -> Vec<(&str, &str)> {
    choices
        .iter()
        .filter_map(|choice| Some((choice.name.as_str(), choice.outcome.as_ref().err()?.as_str())))
        .collect()
}
