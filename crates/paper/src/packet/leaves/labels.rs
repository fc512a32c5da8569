//! Labels to stick on parts and drops, of their true size, on sheets of common labels.

use geometry::{Point, Vector};

use super::super::PieceLabel;
use super::label_sheet::LabelSheet;
use super::sheet;
use crate::offcut_label::{fitted, mark_lines};
use crate::page::font::{self, Weight};
use crate::page::{Item, Pen, SMALLEST_MM, Text};
use crate::pdf::Leaf;

/// Free edge within a label, mm, and within one that is lower than [`LOW_MM`].
const MARGIN_MM: f64 = 4.0;
const LOW_MARGIN_MM: f64 = 2.0;

/// A label lower than this has small margins, mm.
const LOW_MM: f64 = 40.0;

/// From line to line, in sizes of text.
const LINE_EM: f64 = 1.3;

/// Sizes of text tried on one label before the words go on on another, mm; the last is that of words on several labels.
const SIZES_MM: [f64; 2] = [2.2, 2.0];

/// The largest that the mark is set on a low label, mm.
const LOW_MARK_MM: f64 = 4.6;

/// Sheets of labels, one label after the other along the rows. Words that find no room at a size that can be read go on on
/// another label, which says so.
pub(crate) fn leaves<'a>(labels: &[PieceLabel], sheet: &LabelSheet) -> Vec<Leaf<'a>> {
    let set: Vec<Set> = labels.iter().flat_map(|label| sets(label, sheet)).collect();
    on_sheets(&set, sheet, |set, corner| Item::group(set.mark.as_str(), items(set, sheet, corner)))
}

/// Labels of any kind on a sheet: `draw` is given the label and where its lower left corner lies, mm.
pub(crate) fn on_sheets<'a, L>(
    labels: &[L],
    stock: &LabelSheet,
    draw: impl Fn(&L, Point) -> Item,
) -> Vec<Leaf<'a>> {
    let LabelSheet { label_mm, counts: (columns, rows), from_mm, step_mm, .. } = *stock;
    let (_, height) = stock.paper_mm();
    let sheets = labels.chunks(columns * rows).enumerate();
    sheets
        .map(|(number, labels)| {
            let name = if number == 0 { "Labels".to_owned() } else { format!("Labels ({})", number + 1) };
            let mut leaf = sheet::blank(name, stock.paper_mm());
            for (place, label) in labels.iter().enumerate() {
                let (column, row) = (place % columns, place / columns);
                let x = from_mm.0 + step_mm * column as f64;
                let y = height - from_mm.1 - label_mm.1 * (row + 1) as f64;
                leaf.items.push(draw(label, Point::new(x, y)));
            }
            leaf
        })
        .collect()
}

/// What stands on one label.
struct Set {
    mark: String,
    size_mm: f64,
    lines: Vec<String>,
}

/// Free edge within a label of such a sheet, mm.
pub(crate) fn margin_mm(sheet: &LabelSheet) -> f64 {
    if sheet.label_mm.1 < LOW_MM { LOW_MARGIN_MM } else { MARGIN_MM }
}

/// The mark in lines.
pub(crate) fn mark_of(mark: &str, sheet: &LabelSheet) -> Vec<Text> {
    let lines = mark_lines(mark, sheet.label_mm.0 - 2.0 * margin_mm(sheet));
    let low = sheet.label_mm.1 < LOW_MM;
    let size = |text: Text| if low { Text { size_mm: text.size_mm.min(LOW_MARK_MM), ..text } } else { text };
    lines.into_iter().map(size).collect()
}

/// The labels of one piece: one, where its words find room.
fn sets(label: &PieceLabel, sheet: &LabelSheet) -> Vec<Set> {
    let (width, height) = sheet.label_mm;
    let margin = margin_mm(sheet);
    let room = width - 2.0 * margin;
    let high = |mark: &str| -> f64 {
        let marks: f64 = mark_of(mark, sheet).iter().map(|line| LINE_EM * line.size_mm).sum();
        height - 2.0 * margin - marks
    };
    let (size_mm, lines) = fitted(&label.words, room, high(&label.mark));
    let needs = |size_mm: f64, lines: &[String]| LINE_EM * size_mm * lines.len() as f64;
    if SMALLEST_MM <= size_mm && needs(size_mm, &lines) <= high(&label.mark) {
        return vec![Set { mark: label.mark.clone(), size_mm, lines }];
    }
    let wrapped = |size_mm: f64| -> Vec<String> {
        label.words.iter().flat_map(|words| font::wrapped(words, Weight::Regular, size_mm, room)).collect()
    };
    let whole = SIZES_MM.into_iter().find(|&size| needs(size, &wrapped(size)) <= high(&label.mark));
    if let Some(size_mm) = whole {
        return vec![Set { mark: label.mark.clone(), size_mm, lines: wrapped(size_mm) }];
    }
    let size_mm = SIZES_MM[SIZES_MM.len() - 1];
    let (mut rest, mut sets) = (wrapped(size_mm), Vec::new());
    while !rest.is_empty() {
        let mark = format!("{}, label {}", label.mark, sets.len() + 1);
        let holds = (1..=rest.len()).take_while(|&count| LINE_EM * size_mm * count as f64 <= high(&mark));
        let later = rest.split_off(holds.count().max(1));
        sets.push(Set { mark, size_mm, lines: rest });
        rest = later;
    }
    sets
}

/// One label with its lower left corner at `corner`.
fn items(set: &Set, sheet: &LabelSheet, corner: Point) -> Vec<Item> {
    let ((width, height), margin) = (sheet.label_mm, margin_mm(sheet));
    let (right, up) = (Vector::new(width, 0.0), Vector::new(0.0, height));
    let mut items = vec![Item::edge(&[corner, corner + right, corner + right + up, corner + up], Pen::Frame)];
    let mut top = corner + Vector::new(margin, height - margin);
    let words = set.lines.iter().map(|line| Text::new(corner, line.clone(), set.size_mm));
    for text in mark_of(&set.mark, sheet).into_iter().chain(words) {
        let at = top - Vector::new(0.0, font::ASCENT_EM * text.size_mm);
        top = top - Vector::new(0.0, LINE_EM * text.size_mm);
        items.push(Item::Text(Text { at, ..text }));
    }
    items
}
