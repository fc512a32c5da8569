//! Pictures of fit checks: side views and plans of a part among the things around it, one under the other.
//!
//! Not in true size: every picture is drawn to the width of the page, so that a long deck and a small tray read alike.

mod words;

use checks::fit::{Role, Scene, SceneFigure, Turned};
use geometry::{Contour, Point, Vector, polygon, tolerance};

use crate::drawing::symbols;
use crate::page::{self, Fill, Item, Page, Pen, Shape, Text};
use words::Words;

/// Width of every picture, mm.
const WIDTH_MM: f64 = 170.0;

/// Where the numbers in the answer and in its pictures come from.
pub(crate) const ANSWER: &str =
    "what the job asks and what was found, as the table of numbers under the answer tells it";

/// Greatest height of one picture, mm.
const MOST_HEIGHT_MM: f64 = 110.0;

/// Greatest height of the pictures of one check together, mm: they stand on one leaf with its answer and its numbers.
const ALL_HEIGHT_MM: f64 = 96.0;

/// Height of ordinary text, mm.
const TEXT_MM: f64 = 3.2;

/// Draws pictures one under the other.
#[must_use]
pub fn draw(title: &str, scenes: &[Scene]) -> Page {
    let mut items = Vec::new();
    let mut head_mm = 0.0;
    let most_mm = MOST_HEIGHT_MM.min(ALL_HEIGHT_MM / scenes.len().max(1) as f64);
    for scene in scenes {
        head_mm -= 2.0 * TEXT_MM;
        items.push(Item::Text(
            Text::new(Point::new(0.0, head_mm), scene.title.as_str(), 1.1 * TEXT_MM).from(ANSWER).bold(),
        ));
        let (drawn, height_mm) = drawn(scene, most_mm);
        head_mm -= 1.5 * TEXT_MM;
        let by = Vector::new(0.0, head_mm - TEXT_MM);
        let name = format!("picture: {}", scene.title);
        items.push(Item::group(name, drawn.iter().map(|item| item.moved(by)).collect()));
        head_mm -= height_mm + 2.0 * TEXT_MM;
    }
    let margin = Vector::new(2.0 * TEXT_MM, 2.0 * TEXT_MM);
    // Words on leaders may stand beside a picture that takes the whole width.
    let (least, most) = page::bounds(&items).unwrap_or_default();
    let low = Point::new(least.x.min(0.0), head_mm) - margin;
    let high = Point::new(most.x.max(WIDTH_MM), 0.0) + margin;
    Page { title: title.to_owned(), low, high, text_mm: TEXT_MM, items }
}

/// One picture no higher than `most_mm`, its upper left corner at the origin, and its height, mm.
fn drawn(scene: &Scene, most_mm: f64) -> (Vec<Item>, f64) {
    let figures = scene.figures.iter().flat_map(|figure| figure.corners.iter().copied());
    let corners: Vec<Point> = figures.chain(scene.marks.iter().map(|(place, _)| *place)).collect();
    let (low, high) = polygon::bounds(&corners);
    let (width, height) = (high.x - low.x, high.y - low.y);
    if width <= 0.0 || height <= 0.0 {
        return (Vec::new(), 0.0);
    }
    let scale = (WIDTH_MM / width).min(most_mm / height);
    let indent = 0.5 * (WIDTH_MM - scale * width);
    let put = |p: Point| Point::new(indent + scale * (p.x - low.x), scale * (p.y - high.y));
    let mut items: Vec<Item> = scene.figures.iter().map(|figure| area(figure, put)).collect();
    items.extend(scene.turns.iter().flat_map(|turned| arc(turned, put)));
    items.extend(scene.marks.iter().map(|(place, _)| symbols::dot(put(*place), DOT_EM * TEXT_MM)));
    let mut words = Words::beside(scene, &items, put);
    items.extend(words.items(scene, put));
    let bounds = page::bounds(&items).unwrap_or_default();
    // Words may stand over the figures, below them and beside them.
    let head = Vector::new(0.0, -bounds.1.y);
    (items.iter().map(|item| item.moved(head)).collect(), bounds.1.y - bounds.0.y)
}

/// Radius of the dot of a mark, in text heights.
const DOT_EM: f64 = 0.2;

/// Degrees between two points of a drawn arc.
const ARC_STEP_DEGREES: f64 = 3.0;

/// An angle: both arms and the arc between them with an arrow at its end.
fn arc(turned: &Turned, put: impl Fn(Point) -> Point) -> Vec<Item> {
    let arm = turned.from - turned.about;
    let at = |share: f64, reach: f64| put(turned.about + arm.turned(share * turned.turn_rad) * reach);
    let points: Vec<Point> = words::along_arc(turned).into_iter().map(&put).collect();
    let steps = points.len().saturating_sub(1) as f64;
    let mut items =
        [0.0, 1.0].map(|share| Item::line(at(share, 0.0), at(share, 1.1), Pen::Dimension)).to_vec();
    items.extend(points.windows(2).map(|pair| Item::line(pair[0], pair[1], Pen::Dimension)));
    let last = at(1.0, 1.0) - at(1.0 - 0.5 / steps, 1.0);
    if tolerance::SAME_POINT_MM < last.length() {
        items.push(symbols::arrow_head(at(1.0, 1.0), last.unit(), TEXT_MM));
    }
    items
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
