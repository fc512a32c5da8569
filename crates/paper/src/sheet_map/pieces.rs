//! The parts on a sheet, each with its mark and which copy it is.

use geometry::outline::Chords;
use geometry::{Contour, Point, Vector, polygon, tolerance};

use super::{Piece, PieceDatum};
use crate::drawing::label::Label;
use crate::drawing::room::{self, Figure};
use crate::drawing::{leader, symbols};
use crate::page::font::{self, Weight};
use crate::page::{Fill, Item, Pen, Shape, TextBox};
use crate::placing::Field;

/// The longest mark on a map, in text heights; a longer one is shortened.
const LONGEST_EM: f64 = 16.0;

/// Marks cut edges as lines that no text may touch, and bend lines as lines it should keep off.
pub(super) fn occupy(field: &mut Field, pieces: &[Piece], text_mm: f64) {
    for piece in pieces {
        for contour in contours(piece) {
            for (from, to) in polygon::edges(&contour.corners(Chords::On)) {
                field.add_line(from, to);
            }
        }
        field.add_area(piece.outline.outer.corners(Chords::On));
        for &(_, from, to) in &piece.bend_lines {
            field.add_hairline(from, to);
        }
        field.take(datum_room(piece, text_mm));
    }
}

/// Where labels go that find no room on their part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Outside {
    /// On leaders beside it.
    OnLeaders,
    /// Nowhere: another map has them.
    Elsewhere,
}

/// One group a part, named after its mark; labels that find no room on their part come last. Also how many these are.
pub(super) fn groups(
    field: &mut Field,
    pieces: &[Piece],
    text_mm: f64,
    (outside, bounds): (Outside, (Point, Point)),
) -> (Vec<Item>, usize) {
    let laid: Vec<Option<Vec<Item>>> =
        pieces.iter().map(|piece| on_the_part(field, piece, text_mm)).collect();
    let without = laid.iter().filter(|label| label.is_none()).count();
    let group = |(piece, label): (&Piece, Option<Vec<Item>>)| {
        let mut items = metal(piece, text_mm);
        match (label, outside) {
            (Some(label), _) => items.extend(label),
            (None, Outside::OnLeaders) => items.extend(beside_the_part(field, piece, text_mm, bounds)),
            (None, Outside::Elsewhere) => {}
        }
        Item::group(piece.mark.as_str(), items)
    };
    (pieces.iter().zip(laid).map(group).collect(), without)
}

fn contours(piece: &Piece) -> impl Iterator<Item = &Contour> {
    std::iter::once(&piece.outline.outer).chain(&piece.outline.holes)
}

fn metal(piece: &Piece, text_mm: f64) -> Vec<Item> {
    let outline = Shape {
        contours: contours(piece).cloned().collect(),
        pen: Some(Pen::CutEdge),
        fill: Some(Fill::Metal),
    };
    let mut items = vec![Item::Shape(outline)];
    let lines = piece.bend_lines.iter().map(|&(way, from, to)| Item::line(from, to, Pen::light_bend(way)));
    items.push(Item::group(format!("{} bend lines", piece.mark), lines.collect()));
    items.extend(datum(piece, text_mm));
    items
}

/// The side of the sign at the datum corner: smaller on a small part, so that its mark still finds room.
fn datum_mm(piece: &Piece, text_mm: f64) -> f64 {
    let (low, high) = piece.outline.bounds();
    (0.7 * text_mm).min(0.25 * (high.x - low.x).min(high.y - low.y))
}

/// The room of that sign.
fn datum_room(piece: &Piece, text_mm: f64) -> TextBox {
    let (PieceDatum { corner, along, up }, side) = (piece.datum, datum_mm(piece, text_mm));
    let corner = within(corner, [along, up], side);
    let low = if piece.datum.is_turned_over() { corner + up * side } else { corner };
    TextBox::new(low, along, side, side)
}

/// A black triangle in the datum corner of the layout sheet; where that corner lies off the metal, dotted lines along both
/// datum edges lead to it.
fn datum(piece: &Piece, text_mm: f64) -> Vec<Item> {
    let (PieceDatum { corner, along, up }, side) = (piece.datum, datum_mm(piece, text_mm));
    let corners = piece.outline.outer.corners(Chords::On);
    let nearest = |edge: Vector| {
        let on_edge = corners.iter().map(|&at| at - corner).filter(move |way| {
            let off = (*way - edge * way.dot(edge)).length();
            off <= tolerance::SCRIBED_LINE_MM
        });
        on_edge.map(move |way| way.dot(edge)).min_by(f64::total_cmp)
    };
    let leads = [along, up].into_iter().filter_map(|edge| {
        let reach = nearest(edge).filter(|reach| tolerance::SCRIBED_LINE_MM < *reach)?;
        Some(Item::line(corner, corner + edge * reach, Pen::Extension))
    });
    let inside = within(corner, [along, up], side);
    leads.chain([symbols::datum_triangle(inside, [along, up], side)]).collect()
}

/// The corner of the sign, off both edges: signs of parts that touch would run into one another.
fn within(corner: Point, [along, up]: [Vector; 2], side_mm: f64) -> Point {
    corner + (along + up) * (INSIDE * side_mm)
}

/// How far inside its part the sign lies, in its own sides.
const INSIDE: f64 = 0.22;

/// The mark, and which of how many: in words, or short where room is scarce.
fn label(piece: &Piece, is_short: bool, size_mm: f64) -> Label {
    let Piece { mark, copy, of, .. } = piece;
    let mark = font::shortened(mark, Weight::Bold, size_mm, LONGEST_EM * size_mm);
    let over = match (piece.datum.is_turned_over(), is_short) {
        (false, _) => "",
        (true, false) => ", turned over",
        (true, true) => ", over",
    };
    let words = match (of, is_short) {
        (1, _) => format!("{mark}{over}"),
        (_, false) => format!("{mark} no. {copy} of {of}{over}"),
        (_, true) => format!("{mark} no. {copy}{over}"),
    };
    Label { weight: Weight::Bold, ..Label::new(words, size_mm) }
}

/// The label on the part, as large as it fits, level or upright; over a bend line only where there is no other room.
fn on_the_part(field: &mut Field, piece: &Piece, text_mm: f64) -> Option<Vec<Item>> {
    // As small as can be read in a print of the whole sheet.
    const CHOICES: [(bool, f64); 7] =
        [(false, 1.6), (false, 1.3), (false, 1.0), (true, 1.0), (false, 0.8), (true, 0.7), (true, 0.65)];
    let outer = piece.outline.outer.corners(Chords::On);
    let holes: Vec<Vec<Point>> = piece.outline.holes.iter().map(|hole| hole.corners(Chords::On)).collect();
    let figure = Figure { outer: &outer, holes: &holes };
    [room::lay_off_hairlines, room::lay].iter().find_map(|lay| {
        CHOICES.iter().find_map(|&(is_short, size)| {
            let label = label(piece, is_short, size * text_mm);
            let ways = [Vector::new(1.0, 0.0), Vector::new(0.0, 1.0)];
            ways.into_iter().find_map(|along| lay(field, figure, &label, along))
        })
    })
}

fn beside_the_part(field: &mut Field, piece: &Piece, text_mm: f64, bounds: (Point, Point)) -> Vec<Item> {
    let corners = piece.outline.outer.corners(Chords::On);
    let (low, high) = polygon::bounds(&corners);
    let items =
        leader::place_off_areas(field, &label(piece, true, 0.8 * text_mm), &[low.toward(high, 0.5)], bounds);
    // Where it comes to lie on a drop, its hatching stops at the words.
    let patch = |item: &Item| match item {
        Item::Text(text) => Some(Item::area(&text.bounding_box().corners, Fill::Paper)),
        _ => None,
    };
    items.iter().filter_map(patch).collect::<Vec<_>>().into_iter().chain(items.iter().cloned()).collect()
}
