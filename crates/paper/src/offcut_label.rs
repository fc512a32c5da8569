//! Labels to stick on the offcuts in the rack: the mark large, what it is in words, its outline small.

use geometry::{Contour, Point, Vector, polygon};

use crate::drawing::legend::TORN_ANGLE;
use crate::packet::LabelSheet;
use crate::packet::leaves::labels::{margin_mm, mark_of, on_sheets};
use crate::page::font::{self, Weight};
use crate::page::{Fill, Item, Page, Pen, Shape, Text, hatch_lines};
use crate::pdf::Leaf;

/// Width and height of one label, mm.
const LABEL_MM: (f64, f64) = (96.0, 50.0);

/// Labels to a row.
const ACROSS: usize = 2;

/// From the label's edge to what is on it, mm.
const MARGIN_MM: f64 = 4.0;

/// Room for the outline at the right of a label, mm.
const PICTURE_MM: (f64, f64) = (34.0, 26.0);

/// Ordinary text and the mark, mm.
const TEXT_MM: f64 = 3.4;
const MARK_MM: f64 = 7.0;

/// Sizes of ordinary text, largest first; the longest words that a rack takes find room at the last.
const TEXT_SIZES_MM: [f64; 9] = [TEXT_MM, 3.2, 3.0, 2.8, 2.6, 2.4, 2.2, 2.0, 1.8];

/// From line to line, in sizes of text.
const LINE_EM: f64 = 1.3;

/// The smallest a long mark is set, mm.
const LEAST_MARK_MM: f64 = 3.0;

/// From line to line of the hatching of what may not be used, mm.
const HATCH_MM: f64 = 0.8;

/// The sizes of ordinary text on sheets of labels, largest first; nothing is set smaller, it goes on on another label.
const SHEET_TEXT_MM: [f64; 4] = [TEXT_MM, 3.0, 2.7, 2.4];

/// What one label says.
#[derive(Debug, Clone)]
pub struct OffcutLabel {
    /// The mark.
    pub mark: String,
    /// What it is, a line each.
    pub words: Vec<String>,
    /// Its corners, mm.
    pub outline: Vec<Point>,
    /// Corners of its holes.
    pub holes: Vec<Vec<Point>>,
    /// Corners of its zones that may not be used: they are hatched.
    pub torn: Vec<Vec<Point>>,
    /// Direction of lugs or grain, when known.
    pub lay: Option<Vector>,
}

/// Draws the labels, two to a row, true size.
#[must_use]
pub fn draw(labels: &[OffcutLabel]) -> Page {
    let (width, height) = LABEL_MM;
    let mut items = Vec::new();
    for (number, label) in labels.iter().enumerate() {
        let (column, row) = (number % ACROSS, number / ACROSS);
        let corner = Point::new(column as f64 * width, -((row + 1) as f64) * height);
        items.push(Item::group(label.mark.as_str(), items_of(label, corner)));
    }
    let rows = labels.len().div_ceil(ACROSS);
    let low = Point::new(0.0, -(rows as f64) * height);
    let high = Point::new(ACROSS as f64 * width, 0.0);
    Page { title: "labels of offcuts".to_owned(), low, high, text_mm: TEXT_MM, items }
}

/// The labels on sheets of common labels, true size. Words that find no room at a size that can be read go on on another
/// label.
#[must_use]
pub fn leaves<'a>(labels: &[OffcutLabel], sheet: &LabelSheet) -> Vec<Leaf<'a>> {
    let set: Vec<Set<'_>> = labels.iter().flat_map(|label| sets(label, sheet)).collect();
    on_sheets(&set, sheet, |set, corner| Item::group(set.mark.as_str(), items_of_set(set, sheet, corner)))
}

/// What stands on one label of a sheet.
struct Set<'a> {
    mark: String,
    size_mm: f64,
    lines: Vec<String>,
    /// Drawn on the first label of a piece.
    picture: Option<&'a OffcutLabel>,
}

/// Room for the outline on a label of such a sheet, mm: clear of two lines of the mark, and less than half as wide.
fn picture_mm(sheet: &LabelSheet) -> (f64, f64) {
    let (width, height) = sheet.label_mm;
    let below_mark = height - 2.0 * margin_mm(sheet) - 2.0 * LINE_EM * LEAST_MARK_MM;
    (PICTURE_MM.0.min(0.36 * width), PICTURE_MM.1.min(below_mark))
}

/// Room beside the picture, mm.
fn text_room(sheet: &LabelSheet) -> f64 {
    sheet.label_mm.0 - 3.0 * margin_mm(sheet) - picture_mm(sheet).0
}

/// The labels of one piece: one, where its words find room.
fn sets<'a>(label: &'a OffcutLabel, sheet: &LabelSheet) -> Vec<Set<'a>> {
    let (_, height) = sheet.label_mm;
    let mark_mm =
        |mark: &str| -> f64 { mark_of(mark, sheet).iter().map(|line| LINE_EM * line.size_mm).sum() };
    let left = |mark: &str, size_mm: f64| {
        ((height - 2.0 * margin_mm(sheet) - mark_mm(mark)) / (LINE_EM * size_mm)).floor().max(1.0)
    };
    let wrapped = |size_mm: f64| -> Vec<String> {
        let lines = label.words.iter();
        lines.flat_map(|words| font::wrapped(words, Weight::Regular, size_mm, text_room(sheet))).collect()
    };
    let whole = SHEET_TEXT_MM.into_iter().find(|&size| wrapped(size).len() as f64 <= left(&label.mark, size));
    if let Some(size_mm) = whole {
        return vec![Set {
            mark: label.mark.clone(),
            size_mm,
            lines: wrapped(size_mm),
            picture: Some(label),
        }];
    }
    let size_mm = SHEET_TEXT_MM[SHEET_TEXT_MM.len() - 1];
    let (mut lines, mut labels) = (wrapped(size_mm), Vec::new());
    while !lines.is_empty() {
        let number = labels.len() + 1;
        let mark = format!("{}, label {number}", label.mark);
        let mut room = 0;
        while ((room + 1) as f64) <= left(&mark, size_mm) {
            room += 1;
        }
        let rest = lines.split_off(room.min(lines.len()));
        labels.push(Set { mark, size_mm, lines, picture: (number == 1).then_some(label) });
        lines = rest;
    }
    labels
}

fn items_of_set(set: &Set<'_>, sheet: &LabelSheet, corner: Point) -> Vec<Item> {
    let ((width, height), margin) = (sheet.label_mm, margin_mm(sheet));
    let frame = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
    let mut items = vec![Item::edge(&frame.map(|(x, y)| corner + Vector::new(x, y)), Pen::Frame)];
    let mut top = corner + Vector::new(margin, height - margin);
    let words = set.lines.iter().map(|line| Text::new(corner, line.clone(), set.size_mm));
    for text in mark_of(&set.mark, sheet).into_iter().chain(words) {
        let at = top - Vector::new(0.0, font::ASCENT_EM * text.size_mm);
        top = top - Vector::new(0.0, LINE_EM * text.size_mm);
        items.push(Item::Text(Text { at, ..text }));
    }
    let room = picture_mm(sheet);
    let middle = corner + Vector::new(width - margin - 0.5 * room.0, margin + 0.5 * room.1);
    items.extend(set.picture.into_iter().flat_map(|label| picture(label, middle, room)));
    items
}

fn items_of(label: &OffcutLabel, corner: Point) -> Vec<Item> {
    let (width, height) = LABEL_MM;
    let frame = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
    let mut items = vec![Item::edge(&frame.map(|(x, y)| corner + Vector::new(x, y)), Pen::Frame)];
    let room = width - 2.0 * MARGIN_MM;
    let mut foot = corner + Vector::new(MARGIN_MM, height - MARGIN_MM - font::ASCENT_EM * MARK_MM);
    for line in mark_lines(&label.mark, room) {
        items.push(Item::Text(Text { at: foot, ..line.clone() }));
        foot = foot - Vector::new(0.0, LINE_EM * line.size_mm);
    }
    let text_room = room - PICTURE_MM.0 - MARGIN_MM;
    let (size_mm, lines) = fitted(&label.words, text_room, foot.y - corner.y);
    for line in lines {
        items.push(Item::Text(Text::new(foot, line, size_mm)));
        foot = foot - Vector::new(0.0, LINE_EM * size_mm);
    }
    let middle = corner + Vector::new(width - MARGIN_MM - 0.5 * PICTURE_MM.0, MARGIN_MM + 0.5 * PICTURE_MM.1);
    items.extend(picture(label, middle, PICTURE_MM));
    items
}

/// The words at the largest size at which all of them find room.
pub(crate) fn fitted(words: &[String], width_mm: f64, height_mm: f64) -> (f64, Vec<String>) {
    let wrapped = |size_mm: f64| -> Vec<String> {
        words.iter().flat_map(|words| font::wrapped(words, Weight::Regular, size_mm, width_mm)).collect()
    };
    let fits = |size_mm: &f64| LINE_EM * size_mm * (wrapped(*size_mm).len() as f64) <= height_mm;
    let sizes = TEXT_SIZES_MM.into_iter();
    let size_mm = sizes.clone().find(fits).unwrap_or(TEXT_SIZES_MM[TEXT_SIZES_MM.len() - 1]);
    (size_mm, wrapped(size_mm))
}

/// The mark as large as the label holds; a long one smaller, and broken when it must be.
pub(crate) fn mark_lines(mark: &str, room: f64) -> Vec<Text> {
    let bold = |words: String, size_mm: f64| Text::new(Point::default(), words, size_mm).bold();
    let whole = font::width_mm(mark, Weight::Bold, 1.0).max(room / MARK_MM);
    let size_mm = (room / whole).min(MARK_MM);
    if LEAST_MARK_MM <= size_mm {
        return vec![bold(mark.to_owned(), size_mm)];
    }
    let lines = font::wrapped(mark, Weight::Bold, LEAST_MARK_MM, room);
    lines.into_iter().map(|line| bold(line, LEAST_MARK_MM)).collect()
}

/// The outline round `middle`, as large as the room for it allows, mm.
fn picture(label: &OffcutLabel, middle: Point, room: (f64, f64)) -> Vec<Item> {
    let (low, high) = polygon::bounds(&label.outline);
    let needed = ((high.x - low.x) / room.0).max((high.y - low.y) / room.1);
    let scale = if 0.0 < needed { 1.0 / needed } else { 1.0 };
    let centre = low.toward(high, 0.5);
    let contour = |ring: &Vec<Point>| {
        let corners: Vec<Point> = ring.iter().map(|&corner| middle + (corner - centre) * scale).collect();
        Contour::polygon(&corners)
    };
    let contours = std::iter::once(&label.outline).chain(&label.holes).map(contour).collect();
    let mut items = vec![Item::Shape(Shape { contours, pen: Some(Pen::CutEdge), fill: Some(Fill::Metal) })];
    for zone in &label.torn {
        let zone = [contour(zone)];
        items.extend(hatch_lines(&zone, HATCH_MM, TORN_ANGLE));
        items.push(Item::Shape(Shape { contours: zone.to_vec(), pen: Some(Pen::Hatch), fill: None }));
    }
    if let Some(lay) = label.lay {
        items.extend(crate::drawing::symbols::lay_arrow(middle, lay, TEXT_MM));
    }
    items
}
