//! Passages of words and tables: the same for the terminal, the page and the leaves.

use super::table::{LINE_WIDTH, Side, Table, broken};

/// A column of words.
pub const WORDS: bool = false;
/// A column of numbers.
pub const NUMBERS: bool = true;

/// A piece of a list.
#[derive(Debug, Clone)]
pub enum Passage {
    /// A line that heads what follows.
    Heading(String),
    /// Lines of words.
    Words(String),
    /// A table.
    Table(Sheet),
}

/// A table of a list.
#[derive(Debug, Clone)]
pub struct Sheet(Table);

/// A table: headings with whether the column holds numbers, rows, and the sum below them, if there is one.
#[must_use]
pub fn sheet(columns: &[(&str, bool)], rows: Vec<Vec<String>>, sum: Option<Vec<String>>) -> Passage {
    let side = |numbers: bool| if numbers { Side::Number } else { Side::Words };
    let columns: Vec<(&str, Side)> =
        columns.iter().map(|&(heading, numbers)| (heading, side(numbers))).collect();
    let mut table = Table::new(&columns);
    rows.into_iter().for_each(|row| table.row(row));
    if let Some(sum) = sum {
        table.sum(sum);
    }
    Passage::Table(Sheet(table))
}

impl Sheet {
    pub(crate) const fn table(&self) -> &Table {
        &self.0
    }
}

/// Passages as text.
#[must_use]
pub fn in_text(passages: &[Passage]) -> String {
    let text = |passage: &Passage| match passage {
        Passage::Heading(words) | Passage::Words(words) => words.clone(),
        Passage::Table(sheet) => sheet.0.text(),
    };
    passages.iter().map(text).collect()
}

/// Breaks the lines of a text that are longer than a list's.
#[must_use]
pub fn wrapped(text: &str) -> String {
    let line = |line: &str| {
        if line.chars().count() <= LINE_WIDTH { line.to_owned() } else { broken(line, LINE_WIDTH).join("\n") }
    };
    text.lines().map(line).collect::<Vec<_>>().join("\n")
}
