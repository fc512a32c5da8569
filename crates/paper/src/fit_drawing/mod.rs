//! Pictures of fit checks: side views and plans of a part among the things around it, one under the other.
//!
//! Not in true size: every picture is drawn to the width of the page, so that a long deck and a small tray read alike.

use checks::fit::{Role, Scene, SceneFigure};
use geometry::{Contour, Point, Vector, polygon};

use crate::page::{Anchor, Fill, Ink, Item, Page, Pen, Shape, Text, font};

/// Width of every picture, mm.
const WIDTH_MM: f64 = 170.0;

/// Greatest height of one picture, mm.
const MOST_HEIGHT_MM: f64 = 110.0;

/// Height of ordinary text, mm.
const TEXT_MM: f64 = 3.2;

/// Draws pictures one under the other.
#[must_use]
pub fn draw(title: &str, scenes: &[Scene]) -> Page {
    let mut items = Vec::new();
    let mut head_mm = 0.0;
    for scene in scenes {
        head_mm -= 2.0 * TEXT_MM;
        items.push(Item::Text(
            Text::new(Point::new(0.0, head_mm), scene.title.as_str(), 1.1 * TEXT_MM).bold(),
        ));
        let (drawn, height_mm) = drawn(scene);
        head_mm -= 1.5 * TEXT_MM;
        let by = Vector::new(0.0, head_mm - TEXT_MM);
        items.push(Item::group(scene.title.as_str(), drawn.iter().map(|item| item.moved(by)).collect()));
        head_mm -= height_mm + 2.0 * TEXT_MM;
    }
    let margin = Vector::new(2.0 * TEXT_MM, 2.0 * TEXT_MM);
    let low = Point::new(0.0, head_mm) - margin;
    Page { title: title.to_owned(), low, high: Point::new(WIDTH_MM, 0.0) + margin, text_mm: TEXT_MM, items }
}

/// One picture, its upper left corner at the origin, and its height, mm.
fn drawn(scene: &Scene) -> (Vec<Item>, f64) {
    let figures = scene.figures.iter().flat_map(|figure| figure.corners.iter().copied());
    let corners: Vec<Point> = figures.chain(scene.marks.iter().map(|(place, _)| *place)).collect();
    let (low, high) = polygon::bounds(&corners);
    let (width, height) = (high.x - low.x, high.y - low.y);
    if width <= 0.0 || height <= 0.0 {
        return (Vec::new(), 0.0);
    }
    let scale = (WIDTH_MM / width).min(MOST_HEIGHT_MM / height);
    let indent = 0.5 * (WIDTH_MM - scale * width);
    let put = |p: Point| Point::new(indent + scale * (p.x - low.x), scale * (p.y - high.y));
    let mut items: Vec<Item> = scene.figures.iter().map(|figure| area(figure, put)).collect();
    items.extend(
        scene
            .figures
            .iter()
            .filter(|figure| !figure.name.is_empty())
            .map(|figure| name(figure, put, scale * height)),
    );
    for (place, words) in &scene.marks {
        let at = put(*place);
        items.push(crate::drawing::symbols::dot(at, 0.2 * TEXT_MM));
        let words = Text::new(at + Vector::new(-0.4, 0.3) * TEXT_MM, words.as_str(), 0.9 * TEXT_MM);
        items.push(Item::Text(words.anchored(Anchor::End)));
    }
    (items, scale * height)
}

fn area(figure: &SceneFigure, put: impl Fn(Point) -> Point) -> Item {
    let corners: Vec<Point> = figure.corners.iter().map(|&corner| put(corner)).collect();
    let (pen, fill) = match figure.role {
        Role::Fixed => (Some(Pen::Frame), Some(Fill::Black)),
        Role::Opening => (Some(Pen::CutEdge), None),
        Role::Clear => (Some(Pen::TrimEdge), None),
        Role::Part => (Some(Pen::Datum), Some(Fill::Metal)),
        Role::Before => (Some(Pen::TrimEdge), None),
    };
    Item::Shape(Shape { contours: vec![Contour::polygon(&corners)], pen, fill })
}

/// The name of a figure: in its middle where there is room, white on black; else above it, or below it in the lower half
/// of the picture.
fn name(figure: &SceneFigure, put: impl Fn(Point) -> Point, height_mm: f64) -> Item {
    let corners: Vec<Point> = figure.corners.iter().map(|&corner| put(corner)).collect();
    let (low, high) = polygon::bounds(&corners);
    let middle = low.toward(high, 0.5);
    let words = Text::new(middle - Vector::new(0.0, 0.35 * TEXT_MM), figure.name.as_str(), TEXT_MM);
    let words = words.anchored(Anchor::Middle);
    let width = font::width_mm(&figure.name, font::Weight::Regular, TEXT_MM);
    let has_room = width + TEXT_MM < high.x - low.x && 1.6 * TEXT_MM < high.y - low.y;
    let beside = if middle.y < -0.5 * height_mm { low.y - 1.1 * TEXT_MM } else { high.y + 0.4 * TEXT_MM };
    Item::Text(match figure.role {
        Role::Fixed if has_room => words.inked(Ink::White),
        Role::Fixed => Text { at: Point::new(middle.x, beside), ..words },
        Role::Opening => Text { at: Point::new(middle.x, high.y + 0.4 * TEXT_MM), ..words },
        Role::Clear | Role::Part | Role::Before => words,
    })
}
