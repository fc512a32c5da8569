//! The scrap report as a picture: one bar a sheet, told apart by pattern alone.

use estimate::{Breakdown, ScrapReport};
use geometry::{Contour, Point, Vector};
use units::Area;

use crate::page::font::{self, Weight};
use crate::page::{Fill, Item, Page, Pen, Text, hatch_lines};

/// Height of the text, and size of everything else in text heights.
const TEXT_MM: f64 = 3.2;
const BAR_WIDTH_MM: f64 = 170.0;
const BAR_HEIGHT_MM: f64 = 6.0;

/// How one line of the breakdown is filled: hatched at an angle in degrees and a spacing in mm, solid, or empty.
#[derive(Debug, Clone, Copy)]
enum Pattern {
    Solid,
    Hatched(f64, f64),
    Empty,
}

const LINES: [(&str, Pattern); 5] = [
    ("parts", Pattern::Solid),
    ("kept drops", Pattern::Hatched(45.0, 1.6)),
    ("kerf", Pattern::Hatched(90.0, 0.5)),
    ("edge trim", Pattern::Hatched(135.0, 0.8)),
    ("scrap", Pattern::Empty),
];

/// Draws the bars, the patterns explained under them.
#[must_use]
pub fn draw(job: &str, report: &ScrapReport) -> Page {
    let mut items = Vec::new();
    let mut foot = 0.0;
    for sheet in &report.sheets {
        foot -= 1.4 * TEXT_MM;
        let name = font::shortened(&sheet.sheet, Weight::Bold, TEXT_MM, BAR_WIDTH_MM);
        items.push(Item::Text(Text {
            weight: Weight::Bold,
            ..Text::new(Point::new(0.0, foot), name, TEXT_MM)
        }));
        foot -= 0.5 * TEXT_MM + BAR_HEIGHT_MM;
        items.push(Item::group(sheet.sheet.as_str(), bar(&sheet.breakdown, Point::new(0.0, foot))));
        foot -= 0.6 * TEXT_MM;
    }
    foot -= 2.0 * TEXT_MM;
    items.extend(legend(foot));
    let margin = Vector::new(TEXT_MM, TEXT_MM);
    let (low, high) = (Point::new(0.0, foot), Point::new(BAR_WIDTH_MM, 0.0));
    let title = format!("{job}: what became of the metal");
    Page { title, low: low - margin, high: high + margin, text_mm: TEXT_MM, items }
}

/// One bar from `corner`; what a line takes of its length is its share of the sheet.
fn bar(breakdown: &Breakdown, corner: Point) -> Vec<Item> {
    let whole = breakdown.whole.area;
    let mut items = Vec::new();
    let mut left = 0.0;
    for (line, (_, pattern)) in breakdown.lines().iter().zip(LINES) {
        let right = left + BAR_WIDTH_MM * share(line.area, whole);
        items.extend(filled(corner + Vector::new(left, 0.0), right - left, pattern));
        left = right;
    }
    items.push(Item::edge(&rectangle(corner, BAR_WIDTH_MM), Pen::DropEdge));
    items
}

fn share(part: Area, whole: Area) -> f64 {
    if whole == Area::ZERO { 0.0 } else { part.square_millimetres() / whole.square_millimetres() }
}

fn rectangle(corner: Point, width_mm: f64) -> [Point; 4] {
    let (right, up) = (Vector::new(width_mm, 0.0), Vector::new(0.0, BAR_HEIGHT_MM));
    [corner, corner + right, corner + right + up, corner + up]
}

fn filled(corner: Point, width_mm: f64, pattern: Pattern) -> Vec<Item> {
    let corners = rectangle(corner, width_mm);
    let mut items = match pattern {
        Pattern::Solid => vec![Item::area(&corners, Fill::Black)],
        Pattern::Hatched(degrees, spacing) => {
            hatch_lines(&[Contour::polygon(&corners)], spacing, degrees.to_radians())
        }
        Pattern::Empty => Vec::new(),
    };
    items.push(Item::edge(&corners, Pen::Hatch));
    items
}

fn legend(foot: f64) -> Vec<Item> {
    let mut items = Vec::new();
    let mut x = 0.0;
    for (name, pattern) in LINES {
        let corner = Point::new(x, foot - 0.2 * BAR_HEIGHT_MM);
        items.extend(filled(corner, 2.2 * TEXT_MM, pattern));
        items.push(Item::Text(Text::new(Point::new(x + 2.8 * TEXT_MM, foot + 0.4), name, TEXT_MM)));
        x += BAR_WIDTH_MM / 5.0;
    }
    items
}
