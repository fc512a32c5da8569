//! Passages of words and tables: the same for the terminal, the page and the leaves.

use super::table::{LINE_WIDTH, Side, Table, broken};

/// A column of a table.
#[derive(Debug, Clone)]
pub struct Column {
    heading: String,
    side: Side,
    /// Where its numbers come from, in a row and in the sum.
    from: [String; 2],
}

impl Column {
    /// A column of words.
    pub fn words(heading: impl Into<String>) -> Self {
        Self { heading: heading.into(), side: Side::Words, from: Default::default() }
    }

    /// A column of numbers, and where they come from: field, formula, row of a table.
    pub fn numbers(heading: impl Into<String>, from: impl Into<String>) -> Self {
        Self { heading: heading.into(), side: Side::Number, from: [from.into(), String::new()] }
    }

    /// The same, with where the number below the column comes from.
    #[must_use]
    pub fn summed(mut self, from: impl Into<String>) -> Self {
        self.from[1] = from.into();
        self
    }

    /// The same, set as words: for sizes such as "4 × 3".
    #[must_use]
    pub const fn as_words(mut self) -> Self {
        self.side = Side::Words;
        self
    }
}

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

/// A table: columns, rows, and the sum below them, if there is one.
#[must_use]
pub fn sheet(columns: Vec<Column>, rows: Vec<Vec<String>>, sum: Option<Vec<String>>) -> Passage {
    let headings: Vec<(&str, Side)> =
        columns.iter().map(|column| (column.heading.as_str(), column.side)).collect();
    let mut table = Table::new(&headings);
    rows.into_iter().for_each(|row| table.row(row));
    if let Some(sum) = sum {
        table.sum(sum);
    }
    table.says_from(columns.into_iter().map(|column| column.from));
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
