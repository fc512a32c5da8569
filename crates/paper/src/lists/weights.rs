//! Weights: tables of parts, of loads about a pin or a datum, and of a lid's swing.

use super::table::{LINE_WIDTH, Side, Table, broken};

/// A column of words.
pub const WORDS: bool = false;
/// A column of numbers.
pub const NUMBERS: bool = true;

/// A table as text: headings with whether the column holds numbers, rows, and the sum below them, if there is one.
#[must_use]
pub fn sheet(columns: &[(&str, bool)], rows: Vec<Vec<String>>, sum: Option<Vec<String>>) -> String {
    let side = |numbers: bool| if numbers { Side::Number } else { Side::Words };
    let columns: Vec<(&str, Side)> =
        columns.iter().map(|&(heading, numbers)| (heading, side(numbers))).collect();
    let mut table = Table::new(&columns);
    rows.into_iter().for_each(|row| table.row(row));
    if let Some(sum) = sum {
        table.sum(sum);
    }
    table.text()
}

/// Breaks the lines of a text that are longer than a list's.
#[must_use]
pub fn wrapped(text: &str) -> String {
    let line = |line: &str| {
        if line.chars().count() <= LINE_WIDTH { line.to_owned() } else { broken(line, LINE_WIDTH).join("\n") }
    };
    text.lines().map(line).collect::<Vec<_>>().join("\n")
}
