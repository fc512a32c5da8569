//! The pieces on a roll, a sheet or a face, each with its mark, its size and the way its nap runs.

use geometry::{Contour, Point, Vector, polygon};

use super::MappedPiece;
use crate::drawing::label::{self, Label};
use crate::drawing::room::{self, Figure};
use crate::drawing::{leader, symbols};
use crate::page::font::{self, Weight};
use crate::page::{Fill, Item, Pen, Shape, TextBox};
use crate::placing::Field;

/// The longest mark, in text heights; a longer one is shortened.
const LONGEST_EM: f64 = 24.0;

/// Room for the arrow of the nap beside words, in their height.
const ARROW_EM: f64 = 1.4;

/// Cut edges and seams are lines that no text may touch.
pub(super) fn occupy(field: &mut Field, pieces: &[MappedPiece]) {
    for piece in pieces {
        polygon::edges(&corners(piece)).for_each(|(from, to)| field.add_line(from, to));
        field.add_area(corners(piece).to_vec());
        piece.seams.iter().for_each(|seam| field.add_line(seam.from, seam.to));
    }
}

/// One group a piece, named after its mark.
pub(super) fn groups(
    field: &mut Field,
    pieces: &[MappedPiece],
    has_nap: bool,
    (text_mm, bounds): (f64, (Point, Point)),
) -> Vec<Item> {
    let laid: Vec<Option<Vec<Item>>> =
        pieces.iter().map(|piece| words(field, piece, has_nap, text_mm)).collect();
    let seams: Vec<Vec<Item>> = pieces.iter().map(|piece| seams(field, piece, text_mm)).collect();
    let group = |((piece, words), seams): ((&MappedPiece, Option<Vec<Item>>), Vec<Item>)| {
        let contours = vec![Contour::polygon(&corners(piece))];
        let metal = Shape { contours, pen: Some(Pen::CutEdge), fill: Some(Fill::Metal) };
        let mut items = vec![Item::Shape(metal)];
        items.extend(words.unwrap_or_else(|| {
            let label = mark(piece, 0.8 * text_mm);
            leader::place(field, &label, &[piece.low.toward(piece.high, 0.5)], bounds)
        }));
        items.extend(seams);
        Item::group(piece.mark.as_str(), items)
    };
    pieces.iter().zip(laid).zip(seams).map(group).collect()
}

fn corners(piece: &MappedPiece) -> [Point; 4] {
    let (low, high) = (piece.low, piece.high);
    [low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)]
}

/// Where sizes of pieces and places of seams come from.
const SIZE: &str = "size and seams of the piece or face in the job, as it is divided into panels, with what is added at its seams";

fn mark(piece: &MappedPiece, size_mm: f64) -> Label {
    let words = font::shortened(&piece.mark, Weight::Bold, size_mm, LONGEST_EM * size_mm);
    Label { weight: Weight::Bold, ..Label::new(words, size_mm) }
}

/// Mark over size, and the arrow of the nap before them, as large as they fit, level or upright; else the mark alone.
fn words(field: &mut Field, piece: &MappedPiece, has_nap: bool, text_mm: f64) -> Option<Vec<Item>> {
    const SIZES_EM: [f64; 4] = [1.4, 1.1, 0.9, 0.75];
    let corners = corners(piece);
    let figure = Figure { outer: &corners, holes: &[] };
    [true, false].into_iter().find_map(|has_size| {
        SIZES_EM.iter().find_map(|size| {
            let mut lines = vec![mark(piece, size * text_mm)];
            if has_size {
                lines.push(Label::new(piece.size.as_str(), 0.85 * size * text_mm).from(SIZE));
            }
            [Vector::new(1.0, 0.0), Vector::new(0.0, 1.0)].into_iter().find_map(|along| {
                let arrow_mm = if has_nap { ARROW_EM * size * text_mm } else { 0.0 };
                let width = lines.iter().map(Label::width_mm).fold(0.0, f64::max) + arrow_mm;
                let height: f64 = lines.iter().map(Label::height_mm).sum();
                let centre = room::find(field, figure, width, height, along)?;
                field.take(TextBox::centred(centre, along, width, height));
                Some(set(&lines, (centre, along), [width, height], arrow_mm))
            })
        })
    })
}

/// The lines, one under the other, in a box of this size; the arrow always runs up the page.
fn set(
    lines: &[Label],
    (centre, along): (Point, Vector),
    [width, height]: [f64; 2],
    arrow_mm: f64,
) -> Vec<Item> {
    let up = along.left();
    let mut head = centre + up * (0.5 * height) + along * (0.5 * arrow_mm);
    let mut items = Vec::new();
    for line in lines {
        items.extend(line.items(head - up * (0.5 * line.height_mm()), along));
        head = head - up * line.height_mm();
    }
    if 0.0 < arrow_mm {
        let is_level = along.y.abs() < along.x.abs();
        let (length, start) = if is_level {
            (0.9 * height, along * (0.35 * arrow_mm) - up * (0.45 * height))
        } else {
            (0.85 * arrow_mm, Vector::default())
        };
        let from = centre - along * (0.5 * width) + start;
        items.extend(symbols::nap_arrow(from, Vector::new(0.0, 1.0), length));
    }
    items
}

/// Every seam of a piece, its place beside it where there is room; its number stands among the running dimensions too.
fn seams(field: &mut Field, piece: &MappedPiece, text_mm: f64) -> Vec<Item> {
    let mut items = Vec::new();
    for seam in &piece.seams {
        items.push(Item::line(seam.from, seam.to, Pen::Seam));
        let inside = |_: &Field, at: Point| {
            let (low, high) = (piece.low, piece.high);
            low.x < at.x && at.x < high.x && low.y < at.y && at.y < high.y
        };
        let label = Label::new(seam.words.as_str(), 0.8 * text_mm).from(SIZE);
        items.extend(label::lay_beside(field, &label, (seam.from, seam.to), inside).unwrap_or_default());
    }
    items
}
