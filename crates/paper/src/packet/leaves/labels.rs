//! Labels to stick on parts and drops, of their true size, on sheets of common labels.

use geometry::{Point, Vector};

use super::super::PieceLabel;
use super::PaperSize;
use super::sheet;
use crate::offcut_label::{fitted, mark_lines};
use crate::page::font;
use crate::page::{Item, Pen, Text};
use crate::pdf::Leaf;

/// Free edge within a label, mm.
const MARGIN_MM: f64 = 4.0;

/// From line to line, in sizes of text.
const LINE_EM: f64 = 1.3;

/// A sheet of labels.
struct Stock {
    /// Width and height of a label, mm.
    label_mm: (f64, f64),
    /// Columns and rows.
    counts: (usize, usize),
    /// From the upper left corner of the paper to the first label, mm.
    from_mm: (f64, f64),
    /// From the left edge of a label to that of the next, mm.
    step_mm: f64,
}

/// Sheets of ten labels of 4 × 2 in on letter paper, of eight of 99.1 × 67.7 mm on A4; common practice, from memory.
const fn stock(paper: PaperSize) -> Stock {
    match paper {
        PaperSize::Letter | PaperSize::Tabloid => Stock {
            label_mm: (4.0 * 25.4, 2.0 * 25.4),
            counts: (2, 5),
            from_mm: (25.4 * 5.0 / 32.0, 25.4 / 2.0),
            step_mm: 25.4 * 67.0 / 16.0,
        },
        PaperSize::A4 | PaperSize::A3 => {
            Stock { label_mm: (99.1, 67.7), counts: (2, 4), from_mm: (4.65, 13.1), step_mm: 101.6 }
        }
    }
}

/// Sheets of labels, one label after the other along the rows.
pub(crate) fn leaves<'a>(labels: &[PieceLabel], paper: PaperSize) -> Vec<Leaf<'a>> {
    on_sheets(labels, paper, |label, _, corner| Item::group(label.mark.as_str(), items(label, paper, corner)))
}

/// Labels of any kind on sheets of common labels: `draw` is given the label, its width and height and where its lower left
/// corner lies, mm.
pub(crate) fn on_sheets<'a, L>(
    labels: &[L],
    paper: PaperSize,
    draw: impl Fn(&L, (f64, f64), Point) -> Item,
) -> Vec<Leaf<'a>> {
    let Stock { label_mm, counts: (columns, rows), from_mm, step_mm } = stock(paper);
    let (_, height) = paper.upright_mm();
    let sheets = labels.chunks(columns * rows).enumerate();
    sheets
        .map(|(number, labels)| {
            let name = if number == 0 { "Labels".to_owned() } else { format!("Labels ({})", number + 1) };
            let mut leaf = sheet::blank(name, paper.upright_mm());
            for (place, label) in labels.iter().enumerate() {
                let (column, row) = (place % columns, place / columns);
                let x = from_mm.0 + step_mm * column as f64;
                let y = height - from_mm.1 - label_mm.1 * (row + 1) as f64;
                leaf.items.push(draw(label, label_mm, Point::new(x, y)));
            }
            leaf
        })
        .collect()
}

/// Width and height of a label on sheets of this paper, mm.
pub(crate) const fn label_mm(paper: PaperSize) -> (f64, f64) {
    stock(paper).label_mm
}

/// One label with its lower left corner at `corner`.
fn items(label: &PieceLabel, paper: PaperSize, corner: Point) -> Vec<Item> {
    let (width, height) = stock(paper).label_mm;
    let (right, up) = (Vector::new(width, 0.0), Vector::new(0.0, height));
    let mut items = vec![Item::edge(&[corner, corner + right, corner + right + up, corner + up], Pen::Frame)];
    let room = width - 2.0 * MARGIN_MM;
    let mut top = corner + Vector::new(MARGIN_MM, height - MARGIN_MM);
    let mut set = |text: Text| {
        let at = top - Vector::new(0.0, font::ASCENT_EM * text.size_mm);
        top = top - Vector::new(0.0, LINE_EM * text.size_mm);
        items.push(Item::Text(Text { at, ..text }));
        top
    };
    let mut below = corner + up;
    for line in mark_lines(&label.mark, room) {
        below = set(line);
    }
    let (size_mm, lines) = fitted(&label.words, room, below.y - corner.y - MARGIN_MM);
    for line in lines {
        set(Text::new(corner, line, size_mm));
    }
    items
}
