//! A layer of a crate from above: every flat where it lies, its mark and hand on it.

use geometry::outline::Chords;
use geometry::{Outline, Point, Vector, polygon};

use crate::page::font::{self, Weight};
use crate::page::{Anchor, Fill, Item, Page, Pen, Shape, Text};

/// The longer side of a crate on paper, mm.
const LONGEST_MM: f64 = 170.0;

/// Ordinary text, and the largest and smallest that stands on a flat, mm.
const TEXT_MM: f64 = 3.4;
const LARGEST_MM: f64 = 6.0;
const LEAST_MM: f64 = 1.6;

/// From line to line, in sizes of text.
const LINE_EM: f64 = 1.3;

/// A flat in its layer.
#[derive(Debug, Clone)]
pub struct LaidFlat {
    /// Its mark.
    pub mark: String,
    /// Its hand, if it has one.
    pub hand: Option<String>,
    /// Its outline where it lies, mm from the crate's corner.
    pub outline: Outline,
}

/// Draws one layer: the crate's length runs from left to right.
#[must_use]
pub fn draw(title: &str, inside_mm: [f64; 2], flats: &[LaidFlat]) -> Page {
    let scale = LONGEST_MM / inside_mm[0].max(inside_mm[1]);
    let high = Point::new(inside_mm[0] * scale, inside_mm[1] * scale);
    let head = 2.0 * LINE_EM * TEXT_MM;
    let corners = [(0.0, 0.0), (high.x, 0.0), (high.x, high.y), (0.0, high.y)];
    let frame = corners.map(|(x, y)| Point::new(x, y));
    let mut items = vec![
        Item::edge(&frame, Pen::SheetEdge),
        Item::Text(Text::new(Point::new(0.0, high.y + 0.5 * TEXT_MM), title, TEXT_MM).bold()),
    ];
    items.extend(flats.iter().map(|flat| Item::group(flat.mark.as_str(), items_of(flat, scale))));
    Page {
        title: title.to_owned(),
        low: Point::new(-TEXT_MM, -TEXT_MM),
        high: Point::new(high.x + TEXT_MM, high.y + head),
        text_mm: TEXT_MM,
        items,
    }
}

fn items_of(flat: &LaidFlat, scale: f64) -> Vec<Item> {
    let outline = flat.outline.mapped(false, |point| point_at(point, scale));
    let scaled = std::iter::once(outline.outer).chain(outline.holes).collect();
    let mut items =
        vec![Item::Shape(Shape { contours: scaled, pen: Some(Pen::CutEdge), fill: Some(Fill::Metal) })];
    let ring = flat.outline.outer.corners(Chords::On);
    let (low, high) = polygon::bounds(&ring);
    let size = (high - low) * scale;
    let mut lines = vec![flat.mark.clone()];
    lines.extend(flat.hand.as_ref().map(|hand| hand.to_uppercase()));
    let upright = size.x < size.y;
    let (room, across) = if upright { (size.y, size.x) } else { (size.x, size.y) };
    let widest = lines.iter().map(|line| font::width_mm(line, Weight::Bold, 1.0)).fold(0.0, f64::max);
    let by_height = across / (LINE_EM * lines.len() as f64 + 0.4);
    let text_mm = (0.9 * room / widest).min(by_height).min(LARGEST_MM);
    if text_mm < LEAST_MM {
        return items;
    }
    let middle = point_at(low.toward(high, 0.5), scale);
    let turn = if upright { std::f64::consts::FRAC_PI_2 } else { 0.0 };
    let (along, down) = (turn, if upright { Vector::new(1.0, 0.0) } else { Vector::new(0.0, -1.0) });
    let first = -0.5 * LINE_EM * text_mm * (lines.len() as f64 - 1.0);
    for (number, line) in lines.into_iter().enumerate() {
        let foot = middle + down * (first + number as f64 * LINE_EM * text_mm + 0.35 * text_mm);
        let text = Text::new(foot, line, text_mm).bold().anchored(Anchor::Middle).turned(along);
        items.push(Item::Text(text));
    }
    items
}

fn point_at(point: Point, scale: f64) -> Point {
    Point::new(point.x * scale, point.y * scale)
}
