//! Tables: the same cells as aligned text and as HTML.

use crate::markup::Markup;
use crate::page::unbroken;

/// The most characters to a line of text.
pub(crate) const LINE_WIDTH: usize = 100;

/// Blanks between columns.
const GAP: usize = 2;

/// The narrowest a column of words is broken to.
const LEAST_WORDS: usize = 8;

/// Which side of its column a cell keeps to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Side {
    /// Words, which may be broken into lines.
    Words,
    /// Numbers.
    Number,
}

/// A row of a table.
#[derive(Debug, Clone)]
struct Row {
    cells: Vec<String>,
    /// Where its numbers come from, where that is not said of their columns.
    from: Vec<String>,
    is_sum: bool,
}

/// A table in the making.
#[derive(Debug, Clone)]
pub(crate) struct Table {
    columns: Vec<(String, Side)>,
    /// Where the numbers of each column come from, in rows and in sums; nothing for words.
    from: Vec<[String; 2]>,
    rows: Vec<Row>,
}

impl Table {
    /// An empty table with these headings.
    pub(crate) fn new(columns: &[(&str, Side)]) -> Self {
        let columns = columns.iter().map(|&(heading, side)| (heading.to_owned(), side)).collect();
        Self { columns, from: Vec::new(), rows: Vec::new() }
    }

    /// Says of every column, by its place, where its numbers come from: in a row, and in a sum.
    pub(crate) fn says_from<T: Into<String>>(&mut self, columns: impl IntoIterator<Item = [T; 2]>) {
        self.from = columns.into_iter().map(|from| from.map(Into::into)).collect();
    }

    /// Adds a row.
    pub(crate) fn row(&mut self, cells: Vec<String>) {
        self.row_from(cells, Vec::new());
    }

    /// Adds a row, and where its numbers come from, cell by cell; an empty origin is that of the column.
    pub(crate) fn row_from(&mut self, cells: Vec<String>, from: Vec<String>) {
        self.rows.push(Row { cells, from, is_sum: false });
    }

    /// Adds a sum, set off by a rule.
    pub(crate) fn sum(&mut self, cells: Vec<String>) {
        self.sum_from(cells, Vec::new());
    }

    /// Adds a sum, and where its numbers come from.
    pub(crate) fn sum_from(&mut self, cells: Vec<String>, from: Vec<String>) {
        self.rows.push(Row { cells, from, is_sum: true });
    }

    /// Headings of the columns and the side that cells keep to.
    pub(crate) fn columns(&self) -> &[(String, Side)] {
        &self.columns
    }

    /// The rows; true for sums.
    pub(crate) fn rows(&self) -> impl Iterator<Item = (&[String], bool)> {
        self.rows.iter().map(|row| (row.cells.as_slice(), row.is_sum))
    }

    /// Where the numbers come from, a line a column, and a line a row that has its own.
    pub(crate) fn origins(&self) -> Vec<(String, String)> {
        let mut origins: Vec<(String, String)> = Vec::new();
        for ((heading, _), [from, sum]) in
            self.columns.iter().zip(&self.from).filter(|(_, from)| !from[0].is_empty())
        {
            let has_sum = self.rows.iter().any(|row| row.is_sum) && !sum.is_empty();
            let words = if has_sum { format!("{from}; at the foot: {sum}") } else { from.clone() };
            origins.push((heading.clone(), words));
        }
        for row in &self.rows {
            let own = row.from.iter().enumerate().filter(|(_, from)| !from.is_empty());
            origins.extend(own.map(|(place, from)| {
                (format!("{}, {}", self.name(row), self.columns[place].0), from.clone())
            }));
        }
        origins
    }

    /// What a row is called: its cell under the first heading of words.
    fn name<'a>(&self, row: &'a Row) -> &'a str {
        let named =
            self.columns.iter().position(|(heading, side)| *side == Side::Words && !heading.is_empty());
        row.cells.get(named.unwrap_or(0)).map_or("", String::as_str)
    }

    /// Where the number of one cell comes from, its row named; nothing for words and empty cells.
    fn origin(&self, row: &Row, place: usize) -> Option<String> {
        let own = row.from.get(place).filter(|from| !from.is_empty());
        let column = self.from.get(place).map(|[from, sum]| if row.is_sum { sum } else { from });
        let from = own.or(column).filter(|from| !from.is_empty() && !row.cells[place].is_empty())?;
        Some(format!("{}: {from}", self.name(row)))
    }

    /// As text. Columns of words give way, the widest first, until a line holds [`LINE_WIDTH`] characters.
    pub(crate) fn text(&self) -> String {
        let widths = self.widths();
        let headings: Vec<String> = self.columns.iter().map(|(heading, _)| heading.clone()).collect();
        let rule = widths.iter().map(|width| "-".repeat(*width)).collect::<Vec<_>>().join(&" ".repeat(GAP));
        let mut text = self.lines(&headings, &widths);
        text.push_str(&format!("{rule}\n"));
        for row in &self.rows {
            if row.is_sum {
                text.push_str(&format!("{rule}\n"));
            }
            text.push_str(&self.lines(&row.cells, &widths));
        }
        text
    }

    /// Writes an HTML table.
    pub(crate) fn html(&self, markup: &mut Markup) {
        let class = |side: Side| match side {
            Side::Words => Vec::new(),
            Side::Number => vec![("class", "number".to_owned())],
        };
        markup.open("table", &[]);
        markup.open("tr", &[]);
        for (heading, side) in &self.columns {
            markup.words("th", &class(*side), heading);
        }
        markup.close("tr");
        for row in &self.rows {
            let sum = if row.is_sum { vec![("class", "sum".to_owned())] } else { Vec::new() };
            markup.open("tr", &sum);
            for (place, (cell, (_, side))) in row.cells.iter().zip(&self.columns).enumerate() {
                let mut attributes = class(*side);
                attributes.extend(self.origin(row, place).map(|origin| ("title", origin)));
                markup.words("td", &attributes, cell);
            }
            markup.close("tr");
        }
        markup.close("table");
    }

    fn widths(&self) -> Vec<usize> {
        let mut widths: Vec<usize> = self.columns.iter().map(|(heading, _)| count(heading)).collect();
        for row in &self.rows {
            for (width, cell) in widths.iter_mut().zip(&row.cells) {
                *width = (*width).max(count(cell));
            }
        }
        while LINE_WIDTH < widths.iter().sum::<usize>() + GAP * widths.len().saturating_sub(1) {
            let breakable = widths.iter_mut().zip(&self.columns);
            let words = breakable.filter(|(width, (_, side))| *side == Side::Words && LEAST_WORDS < **width);
            let Some((widest, _)) = words.max_by_key(|(width, _)| **width) else { break };
            *widest -= 1;
        }
        widths
    }

    /// One row as lines, its cells broken to their columns.
    fn lines(&self, cells: &[String], widths: &[usize]) -> String {
        let broken: Vec<Vec<String>> =
            cells.iter().zip(widths).map(|(cell, width)| broken(cell, *width)).collect();
        let height = broken.iter().map(Vec::len).max().unwrap_or(0).max(1);
        let mut text = String::new();
        for line in 0..height {
            let padded = broken.iter().zip(widths).zip(&self.columns).map(|((lines, width), (_, side))| {
                let cell = lines.get(line).map_or("", String::as_str);
                let blanks = " ".repeat(width.saturating_sub(count(cell)));
                match side {
                    Side::Words => format!("{cell}{blanks}"),
                    Side::Number => format!("{blanks}{cell}"),
                }
            });
            let joined = padded.collect::<Vec<_>>().join(&" ".repeat(GAP));
            text.push_str(joined.trim_end());
            text.push('\n');
        }
        text
    }
}

fn count(text: &str) -> usize {
    text.chars().count()
}

/// Breaks `text` at blanks to lines of `width` characters. A number and what belongs to it stay on one line where a line
/// holds them; a longer word is broken anywhere.
pub(crate) fn broken(text: &str, width: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in unbroken::words(text) {
        push_word(&word, width, &mut lines);
    }
    lines
}

fn push_word(word: &str, width: usize, lines: &mut Vec<String>) {
    if let Some(line) = lines.last_mut().filter(|line| count(line) + 1 + count(word) <= width) {
        line.push(' ');
        line.push_str(word);
        return;
    }
    let pieces = if count(word) <= width { Vec::new() } else { unbroken::pieces(word) };
    if pieces.len() < 2 {
        let letters: Vec<char> = word.chars().collect();
        lines.extend(letters.chunks(width.max(1)).map(|piece| piece.iter().collect::<String>()));
    } else {
        pieces.iter().for_each(|piece| push_word(piece, width, lines));
    }
}

/// Words broken to the line behind what leads them.
pub(crate) fn hung(lead: &str, words: &str) -> String {
    let indent = " ".repeat(lead.chars().count());
    let lines = broken(words, LINE_WIDTH - indent.len());
    let line =
        |(number, line): (usize, String)| format!("{}{line}\n", if number == 0 { lead } else { &indent });
    lines.into_iter().enumerate().map(line).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_line_up_and_words_break() {
        let mut table = Table::new(&[("mark", Side::Words), ("weight", Side::Number), ("what", Side::Words)]);
        let long = "a very long description ".repeat(6);
        table.row(vec!["L1".to_owned(), "12.8".to_owned(), long]);
        table.sum(vec![String::new(), "12.8".to_owned(), String::new()]);
        let text = table.text();
        assert!(text.lines().all(|line| line.chars().count() <= LINE_WIDTH), "{text}");
        assert!(text.starts_with("mark  weight  what\n----  ------  ---"), "{text}");
        assert!(text.contains("\nL1      12.8  a very"), "{text}");
        assert_eq!(text.matches("description").count(), 6);
    }
}
