//! A small picture of a part for documents: folded on the left, flat on the right, without words.

use fold::flat::BendLine;
use fold::{FlatPattern, facets};
use geometry::outline::Chords;
use geometry::{Contour, Point, Vector, polygon};

use crate::isometric::{self, Standing};
use crate::page::{Fill, Item, Page, Pen, Shape};

/// Width and height of either half, mm.
const HALF_MM: (f64, f64) = (90.0, 70.0);

/// Between the halves and round the whole, mm.
const GAP_MM: f64 = 6.0;

/// Pens take their weight from this, mm.
const TEXT_MM: f64 = 4.0;

/// Draws the picture; the scales of its halves differ.
#[must_use]
pub fn draw(mark: &str, flat: &FlatPattern, standing: Standing) -> Page {
    let (width, height) = HALF_MM;
    let middle =
        |half: f64| Point::new(GAP_MM + 0.5 * width + half * (width + GAP_MM), GAP_MM + 0.5 * height);
    let items = vec![
        Item::group(format!("{mark} folded"), folded(flat, standing, middle(0.0))),
        Item::group(format!("{mark} flat"), laid_flat(flat, middle(1.0))),
    ];
    let high = Point::new(2.0 * width + 3.0 * GAP_MM, height + 2.0 * GAP_MM);
    Page { title: format!("{mark}, folded and flat"), low: Point::default(), high, text_mm: TEXT_MM, items }
}

/// Brings figures with these corners into one half of the picture.
fn fitted(corners: &[Point], middle: Point) -> impl Fn(Point) -> Point + use<> {
    let (low, high) = polygon::bounds(corners);
    let (width, height) = HALF_MM;
    let needed = ((high.x - low.x) / width).max((high.y - low.y) / height);
    let scale = if 0.0 < needed { 1.0 / needed } else { 1.0 };
    let centre = low.toward(high, 0.5);
    move |point: Point| middle + (point - centre) * scale
}

fn folded(flat: &FlatPattern, standing: Standing, middle: Point) -> Vec<Item> {
    let facets = facets::of(flat);
    let lines = isometric::visible(&facets, isometric::choose(&facets, standing));
    let ends: Vec<Point> = lines.iter().flat_map(|line| line.ends).collect();
    let place = fitted(&ends, middle);
    isometric::drawn(&lines, place)
}

fn laid_flat(flat: &FlatPattern, middle: Point) -> Vec<Item> {
    let corners = flat.outline.outer.corners(Chords::On);
    let (low, high) = polygon::bounds(&corners);
    let upright = high.x - low.x < high.y - low.y;
    // A tall flat lies on its side, where it comes out larger.
    let turn = |point: Point| if upright { Point::default() + Vector::new(-point.y, point.x) } else { point };
    let turned: Vec<Point> = corners.into_iter().map(turn).collect();
    let place = fitted(&turned, middle);
    let place = |point: Point| place(turn(point));
    let contours: Vec<Contour> = std::iter::once(&flat.outline.outer)
        .chain(&flat.outline.holes)
        .map(|contour| contour.mapped(false, place))
        .collect();
    let mut items = vec![Item::Shape(Shape { contours, pen: Some(Pen::CutEdge), fill: Some(Fill::Metal) })];
    let line = |(bend, (from, to)): (&BendLine, (Point, Point))| {
        Item::line(place(from), place(to), Pen::bend(bend.direction))
    };
    items.extend(flat.marks().map(line));
    items
}
