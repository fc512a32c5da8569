//! Blocks of text set downward from a starting height.

use std::borrow::Cow;

use geometry::{Point, Vector};

use super::symbols;
use crate::layout_sheet::Fact;
use crate::page::font::{self, Weight};
use crate::page::{Item, Pen, Text};

/// The heading of a column of a table, and where the numbers under it come from: field, formula or table row; empty for names.
pub(crate) type Column<'a> = (&'a str, &'a str);

/// A column of text in the making.
pub(crate) struct Block {
    /// What has been set so far.
    pub(crate) items: Vec<Item>,
    /// Left edge, mm.
    pub(crate) left_mm: f64,
    /// Width, mm.
    pub(crate) width_mm: f64,
    /// Foot of what has been set so far, mm.
    pub(crate) foot_mm: f64,
}

impl Block {
    /// An empty column, its head at height 0.
    pub(crate) const fn new(left_mm: f64, width_mm: f64) -> Self {
        Self { items: Vec::new(), left_mm, width_mm, foot_mm: 0.0 }
    }

    /// Leaves `gap_mm` free.
    pub(crate) fn skip(&mut self, gap_mm: f64) {
        self.foot_mm -= gap_mm;
    }

    /// Draws a rule across the column.
    pub(crate) fn rule(&mut self) {
        let from = Point::new(self.left_mm, self.foot_mm);
        self.items.push(Item::line(from, from + Vector::new(self.width_mm, 0.0), Pen::Frame));
    }

    /// Sets `words`, broken into lines, `indent_mm` from the left edge; `lead` stands before the first line.
    pub(crate) fn paragraph(&mut self, words: &str, weight: Weight, size_mm: f64, lead: &str) {
        self.paragraph_from((words, ""), weight, size_mm, lead);
    }

    /// The same, with where the numbers of the words come from.
    pub(crate) fn paragraph_from(
        &mut self,
        (words, origin): (&str, &str),
        weight: Weight,
        size_mm: f64,
        lead: &str,
    ) {
        let indent =
            if lead.is_empty() { 0.0 } else { font::width_mm(lead, weight, size_mm) + 0.4 * size_mm };
        let lines = font::wrapped(words, weight, size_mm, self.width_mm - indent);
        for (number, line) in lines.into_iter().enumerate() {
            self.foot_mm -= 1.3 * size_mm;
            if number == 0 && !lead.is_empty() {
                self.put(lead.to_owned(), weight, size_mm, 0.0);
            }
            self.put_from(line, weight, size_mm, indent, origin);
        }
    }

    /// The tag in white on black, the title and a line under it beside it. A long tag is set smaller, one that would
    /// still take over half the width stands on lines of its own.
    pub(crate) fn title(&mut self, tag: &str, title: &str, under: &str, text_mm: f64) {
        let corner = Point::new(self.left_mm, self.foot_mm);
        let mut tags = [2.4, 1.9, 1.5].iter().map(|size| symbols::tag(corner, tag, size * text_mm));
        if let Some((items, width, height)) = tags.find(|(_, width, _)| *width <= 0.5 * self.width_mm) {
            let gap = width + text_mm;
            let mut beside = Self::new(self.left_mm + gap, self.width_mm - gap);
            beside.foot_mm = self.foot_mm;
            beside.paragraph(title, Weight::Bold, 1.6 * text_mm, "");
            beside.paragraph(under, Weight::Regular, 1.1 * text_mm, "");
            beside.skip(0.3 * text_mm);
            self.items.extend(items);
            self.items.extend(beside.items);
            self.foot_mm = beside.foot_mm.min(self.foot_mm - height);
        } else {
            self.paragraph(tag, Weight::Bold, 1.6 * text_mm, "");
            self.paragraph(title, Weight::Bold, 1.2 * text_mm, "");
            self.paragraph(under, Weight::Regular, 1.1 * text_mm, "");
        }
        self.skip(0.6 * text_mm);
    }

    /// Sets facts between two rules.
    pub(crate) fn ruled_facts(&mut self, facts: &[Fact], text_mm: f64) {
        self.rule();
        self.facts(facts, 0.95 * text_mm);
        self.skip(0.7 * text_mm);
        self.rule();
    }

    /// Sets facts in order, name and value, in as many columns as give the fewest lines. A wide one takes several columns;
    /// one wider than the block is broken into lines.
    fn facts(&mut self, facts: &[Fact], size_mm: f64) {
        let widths: Vec<f64> =
            facts.iter().map(|fact| pair_width(&fact.name, &fact.value, size_mm)).collect();
        let columns = (1..=5).min_by_key(|&columns| self.grid(&widths, columns).1).unwrap_or(1);
        let cell = self.width_mm / f64::from(columns);
        let (places, _) = self.grid(&widths, columns);
        let head = self.foot_mm;
        let mut broken = 0.0;
        for ((fact, width), (line, column)) in facts.iter().zip(&widths).zip(places) {
            self.foot_mm = head - broken - 1.35 * size_mm * f64::from(line + 1);
            if *width <= self.width_mm {
                self.pair(fact, size_mm, cell * f64::from(column));
            } else {
                let start = self.foot_mm;
                self.long_pair(fact, size_mm);
                broken += start - self.foot_mm;
            }
        }
    }

    /// Sets a table: a bold heading, a rule, and rows; columns as wide as their widest cell. The type is set smaller
    /// where the table would not fit the width.
    pub(crate) fn table(&mut self, columns: &[Column<'_>], rows: &[Vec<String>], text_mm: f64) {
        let widths = |size_mm: f64| -> Vec<f64> {
            let column = |(number, (head, _)): (usize, &Column<'_>)| {
                let cells = rows.iter().filter_map(|row| row.get(number));
                let widest = cells.map(|cell| font::width_mm(cell, Weight::Regular, size_mm));
                widest.fold(font::width_mm(head, Weight::Bold, size_mm), f64::max) + 1.4 * size_mm
            };
            columns.iter().enumerate().map(column).collect()
        };
        let whole: f64 = widths(text_mm).iter().sum();
        let size_mm = text_mm * (self.width_mm / whole).min(1.0);
        let widths = widths(size_mm);
        let line = |block: &mut Self, cells: &mut dyn Iterator<Item = (String, &str)>, weight: Weight| {
            block.foot_mm -= 1.35 * size_mm;
            let mut indent = 0.0;
            for ((cell, from), width) in cells.zip(&widths) {
                let from = if cell.is_empty() { "" } else { from };
                block.put_from(cell, weight, size_mm, indent, from);
                indent += width;
            }
        };
        line(self, &mut columns.iter().map(|&(head, _)| (head.to_owned(), "")), Weight::Bold);
        self.skip(0.35 * size_mm);
        self.rule();
        for row in rows {
            let froms = columns.iter().map(|&(_, from)| from);
            line(self, &mut row.iter().cloned().zip(froms), Weight::Regular);
        }
    }

    /// Line and column of every pair in a grid of so many columns, and the number of lines.
    fn grid(&self, widths: &[f64], columns: u32) -> (Vec<(u32, u32)>, u32) {
        let cell = self.width_mm / f64::from(columns);
        let (mut line, mut column) = (0, 0);
        let mut places = Vec::with_capacity(widths.len());
        for &width in widths {
            let span = (1..columns).find(|&span| width <= cell * f64::from(span)).unwrap_or(columns);
            if columns < column + span {
                (line, column) = (line + 1, 0);
            }
            places.push((line, column));
            column += span;
        }
        (places, line + 1)
    }

    fn pair(&mut self, fact: &Fact, size_mm: f64, indent_mm: f64) {
        let Fact { name, value, origin, .. } = fact;
        let name = apart(name);
        let after = indent_mm + font::width_mm(&name, Weight::Regular, size_mm) + 0.5 * size_mm;
        self.put(name.into_owned(), Weight::Regular, size_mm, indent_mm);
        self.put_from(value.clone(), Weight::Bold, size_mm, after, origin);
    }

    /// A pair on lines of its own from this line on, the value broken where it must be.
    fn long_pair(&mut self, fact: &Fact, size_mm: f64) {
        let Fact { name, value, origin, .. } = fact;
        let name = apart(name);
        let indent = font::width_mm(&name, Weight::Regular, size_mm) + 0.5 * size_mm;
        self.foot_mm += 1.35 * size_mm;
        if 0.5 * self.width_mm < indent {
            self.paragraph(&name, Weight::Regular, size_mm, "");
            self.paragraph_from((value, origin), Weight::Bold, size_mm, "");
            return;
        }
        let lines = font::wrapped(value, Weight::Bold, size_mm, self.width_mm - indent);
        for (number, line) in lines.into_iter().enumerate() {
            self.foot_mm -= 1.35 * size_mm;
            if number == 0 {
                self.put(name.clone().into_owned(), Weight::Regular, size_mm, 0.0);
            }
            self.put_from(line, Weight::Bold, size_mm, indent, origin);
        }
    }

    fn put(&mut self, words: String, weight: Weight, size_mm: f64, indent_mm: f64) {
        self.put_from(words, weight, size_mm, indent_mm, "");
    }

    fn put_from(&mut self, words: String, weight: Weight, size_mm: f64, indent_mm: f64, origin: &str) {
        let at = Point::new(self.left_mm + indent_mm, self.foot_mm);
        self.items.push(Item::Text(Text { weight, ..Text::new(at, words, size_mm).from(origin) }));
    }
}

/// A name that ends in a digit, set apart from the number behind it: "bend 1 3/16" would be read as one.
fn apart(name: &str) -> Cow<'_, str> {
    if name.ends_with(|last: char| last.is_ascii_digit()) { format!("{name}:").into() } else { name.into() }
}

/// Width of a pair with the gap to its neighbour.
fn pair_width(name: &str, value: &str, size_mm: f64) -> f64 {
    const GAP_EM: f64 = 2.0;
    font::width_mm(&apart(name), Weight::Regular, size_mm)
        + font::width_mm(value, Weight::Bold, size_mm)
        + GAP_EM * size_mm
}
