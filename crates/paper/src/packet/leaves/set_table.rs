//! A table with its columns measured for leaves of words.

use geometry::Point;

use super::sheet::TEXT_MM;
use crate::lists::table::{Side, Table};
use crate::page::font::{self, Weight};
use crate::page::{Anchor, Item, Text};

/// Between columns of a table, mm.
pub(super) const GAP_MM: f64 = 3.0;

/// From line to line, in sizes of text.
pub(super) const LINE_EM: f64 = 1.35;

/// Below a rule, in sizes of text.
pub(super) const RULE_EM: f64 = 0.45;

/// The narrowest column of words, in sizes of text.
const LEAST_WORDS_EM: f64 = 6.0;

/// A column of words holds its sizes whole up to this width, in sizes of text: "13 13/16 - .004 × 30 1/16 + .004" and no more.
const WIDEST_WORD_EM: f64 = 18.0;

/// Sizes of text in a table, largest first: the first at which its numbers stay whole.
pub(super) const TABLE_SIZES_MM: [f64; 5] = [3.2, 2.9, 2.6, 2.3, 2.0];

/// The same in the appendix, which is looked up and not worked from.
pub(super) const SMALL_SIZES_MM: [f64; 3] = [2.5, 2.3, 2.0];

/// A table with its columns measured.
pub(super) struct SetTable<'t> {
    table: &'t Table,
    /// Height of its text, mm.
    pub(super) size_mm: f64,
    widths_mm: Vec<f64>,
}

impl<'t> SetTable<'t> {
    /// The largest text of these sizes at which the columns of numbers stay whole and those of words keep a readable width.
    pub(super) fn fit(table: &'t Table, room_mm: f64, sizes_mm: &[f64]) -> Self {
        let tries = sizes_mm.iter().map(|&size_mm| Self::at(table, size_mm, room_mm));
        let mut smallest = None;
        for set in tries {
            let fits = set.width_mm() <= room_mm;
            smallest = Some(set);
            if fits {
                break;
            }
        }
        smallest.unwrap_or_else(|| Self::at(table, TEXT_MM, room_mm))
    }

    /// Columns of words give way, the widest first.
    fn at(table: &'t Table, size_mm: f64, room_mm: f64) -> Self {
        let wide = |words: &str, weight| font::width_mm(words, weight, size_mm);
        let mut widths_mm: Vec<f64> =
            table.columns().iter().map(|(heading, _)| wide(heading, Weight::Bold)).collect();
        for (cells, _) in table.rows() {
            for (width, cell) in widths_mm.iter_mut().zip(cells) {
                *width = width.max(wide(cell, Weight::Regular));
            }
        }
        let mut set = Self { table, size_mm, widths_mm };
        let least = set.least_mm();
        while room_mm < set.width_mm() {
            let columns = set.widths_mm.iter_mut().zip(&least).zip(table.columns());
            let words = columns.filter(|((width, least), (_, side))| *side == Side::Words && *least < *width);
            let Some(((widest, least), _)) = words.max_by(|((a, _), _), ((b, _), _)| a.total_cmp(b)) else {
                break;
            };
            *widest = (*widest - size_mm).max(*least);
        }
        set
    }

    /// The narrowest that each column is set: it holds its sizes whole, up to [`WIDEST_WORD_EM`].
    fn least_mm(&self) -> Vec<f64> {
        let mut least = vec![LEAST_WORDS_EM * self.size_mm; self.widths_mm.len()];
        for (cells, _) in self.table.rows() {
            for (least, cell) in least.iter_mut().zip(cells) {
                let widest = font::widest_word_mm(cell, Weight::Regular, self.size_mm);
                *least = least.max(widest.min(WIDEST_WORD_EM * self.size_mm));
            }
        }
        least
    }

    pub(super) fn width_mm(&self) -> f64 {
        let gaps = self.widths_mm.len().saturating_sub(1) as f64;
        self.widths_mm.iter().sum::<f64>() + GAP_MM * gaps
    }

    fn broken(&self, cells: &[String], weight: Weight) -> Vec<Vec<String>> {
        // The widest cell is as wide as its column; a hair more keeps it on its line.
        let room = |width: f64| width + 0.01 * self.size_mm;
        let columns = cells.iter().zip(&self.widths_mm);
        columns.map(|(cell, width)| font::wrapped(cell, weight, self.size_mm, room(*width))).collect()
    }

    pub(super) fn height_mm(&self, cells: &[String], weight: Weight) -> f64 {
        let lines = self.broken(cells, weight).iter().map(Vec::len).max().unwrap_or(0).max(1);
        LINE_EM * self.size_mm * lines as f64 + 0.15 * self.size_mm
    }

    /// A row with the rule over it, if it is a sum.
    pub(super) fn row_mm(&self, cells: &[String], is_sum: bool) -> f64 {
        let rule = if is_sum { RULE_EM * self.size_mm } else { 0.0 };
        rule + self.height_mm(cells, Weight::Regular)
    }

    /// One row with its upper left corner at `corner`.
    pub(super) fn items(&self, cells: &[String], weight: Weight, corner: Point) -> Vec<Item> {
        let mut items = Vec::new();
        let mut left = corner.x;
        let columns = self.broken(cells, weight).into_iter().zip(&self.widths_mm).zip(self.table.columns());
        for ((lines, width), (_, side)) in columns {
            let (x, anchor) = match side {
                Side::Words => (left, Anchor::Start),
                Side::Number => (left + width, Anchor::End),
            };
            let mut y = corner.y - font::ASCENT_EM * self.size_mm;
            for line in lines {
                let text = Text { weight, ..Text::new(Point::new(x, y), line, self.size_mm) };
                items.push(Item::Text(text.anchored(anchor)));
                y -= LINE_EM * self.size_mm;
            }
            left += width + GAP_MM;
        }
        items
    }
}
