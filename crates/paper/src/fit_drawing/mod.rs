//! Pictures of fit checks: side views and plans of a part among the things around it, one under the other.
//!
//! Not in true size: every picture is drawn to the width of the page, so that a long deck and a small tray read alike.

use checks::fit::{Role, Scene, SceneFigure, Turned};
use geometry::{Contour, Point, Vector, polygon, tolerance};

use crate::drawing::symbols;
use crate::page::{Anchor, Fill, Ink, Item, Page, Pen, Shape, Text, TextBox, font};

/// Width of every picture, mm.
const WIDTH_MM: f64 = 170.0;

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
            Text::new(Point::new(0.0, head_mm), scene.title.as_str(), 1.1 * TEXT_MM).bold(),
        ));
        let (drawn, height_mm) = drawn(scene, most_mm);
        head_mm -= 1.5 * TEXT_MM;
        let by = Vector::new(0.0, head_mm - TEXT_MM);
        items.push(Item::group(scene.title.as_str(), drawn.iter().map(|item| item.moved(by)).collect()));
        head_mm -= height_mm + 2.0 * TEXT_MM;
    }
    let margin = Vector::new(2.0 * TEXT_MM, 2.0 * TEXT_MM);
    let low = Point::new(0.0, head_mm) - margin;
    Page { title: title.to_owned(), low, high: Point::new(WIDTH_MM, 0.0) + margin, text_mm: TEXT_MM, items }
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
    let labels: Vec<Text> =
        scene.labels.iter().map(|(place, way, words)| label(put(*place), *way, words)).collect();
    let taken: Vec<TextBox> = labels.iter().map(Text::bounding_box).collect();
    let named = scene.figures.iter().filter(|figure| !figure.name.is_empty());
    items.extend(named.map(|figure| name((figure, scale * height), &scene.figures, &taken, put)));
    items.extend(scene.turns.iter().flat_map(|turned| arc(turned, put)));
    items.extend(labels.into_iter().map(Item::Text));
    for (place, words) in &scene.marks {
        let at = put(*place);
        items.push(symbols::dot(at, 0.2 * TEXT_MM));
        // Outside the corners of what is drawn.
        let right = indent + scale * width - at.x < EDGE_SHARE * WIDTH_MM;
        let below = at.y + scale * height < EDGE_SHARE * WIDTH_MM;
        let (across, anchor) = if right { (0.4, Anchor::Start) } else { (-0.4, Anchor::End) };
        let off = Vector::new(across, if below { -1.0 } else { 0.3 });
        let words = Text::new(at + off * TEXT_MM, words.as_str(), 0.9 * TEXT_MM);
        items.push(Item::Text(words.anchored(anchor)));
    }
    (items, scale * height)
}

/// A point nearer to the edge of the picture than this share of its width has its words outside.
const EDGE_SHARE: f64 = 0.01;

/// Degrees between two points of a drawn arc.
const ARC_STEP_DEGREES: f64 = 3.0;

/// An angle: both arms, the arc between them with an arrow at its end, and its words outside the arc.
fn arc(turned: &Turned, put: impl Fn(Point) -> Point) -> Vec<Item> {
    let arm = turned.from - turned.about;
    let at = |share: f64, reach: f64| put(turned.about + arm.turned(share * turned.turn_rad) * reach);
    let steps = (turned.turn_rad.abs().to_degrees() / ARC_STEP_DEGREES).ceil().max(1.0);
    let mut items =
        [0.0, 1.0].map(|share| Item::line(at(share, 0.0), at(share, 1.1), Pen::Dimension)).to_vec();
    let mut step = 0.0;
    while step < steps {
        items.push(Item::line(at(step / steps, 1.0), at((step + 1.0) / steps, 1.0), Pen::Dimension));
        step += 1.0;
    }
    let last = at(1.0, 1.0) - at(1.0 - 0.5 / steps, 1.0);
    if tolerance::SAME_POINT_MM < last.length() {
        items.push(symbols::arrow_head(at(1.0, 1.0), last.unit(), TEXT_MM));
    }
    let middle = at(0.5, 1.0);
    let out = (middle - put(turned.about)).unit();
    let foot = middle + out * TEXT_MM;
    let anchor = if out.x < 0.0 { Anchor::End } else { Anchor::Start };
    items.push(Item::Text(Text::new(foot, turned.words.as_str(), TEXT_MM).bold().anchored(anchor)));
    items
}

/// Words beside a place, on the side that `way` points to.
fn label(at: Point, way: Vector, words: &str) -> Text {
    let anchor = match way.x {
        x if 0.5 < x => Anchor::Start,
        x if x < -0.5 => Anchor::End,
        _ => Anchor::Middle,
    };
    let middle = at + way * (0.95 * TEXT_MM) - Vector::new(0.0, 0.35 * TEXT_MM);
    Text::new(middle, words, 0.85 * TEXT_MM).anchored(anchor)
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
/// of the picture, where nothing else that stands still is; moved to the side of the words that are `taken` already.
fn name(
    (figure, height_mm): (&SceneFigure, f64),
    others: &[SceneFigure],
    taken: &[TextBox],
    put: impl Fn(Point) -> Point,
) -> Item {
    let corners: Vec<Point> = figure.corners.iter().map(|&corner| put(corner)).collect();
    let (low, high) = polygon::bounds(&corners);
    let middle = low.toward(high, 0.5);
    let words = Text::new(middle - Vector::new(0.0, 0.35 * TEXT_MM), figure.name.as_str(), TEXT_MM);
    let words = words.anchored(Anchor::Middle);
    let width = font::width_mm(&figure.name, font::Weight::Regular, TEXT_MM);
    let has_room = width + TEXT_MM < high.x - low.x && 1.6 * TEXT_MM < high.y - low.y;
    let (above, below) = (high.y + 0.4 * TEXT_MM, low.y - 1.1 * TEXT_MM);
    let lies_on_another = |foot: f64| {
        let fixed = others.iter().filter(|other| other.role == Role::Fixed && *other != figure);
        fixed.into_iter().any(|other| {
            let corners: Vec<Point> = other.corners.iter().map(|&corner| put(corner)).collect();
            let (other_low, other_high) = polygon::bounds(&corners);
            let across = other_low.x < middle.x + 0.5 * width && middle.x - 0.5 * width < other_high.x;
            across && other_low.y < foot + TEXT_MM && foot < other_high.y
        })
    };
    let places = if middle.y < -0.5 * height_mm { [below, above] } else { [above, below] };
    let beside = places.into_iter().find(|&foot| !lies_on_another(foot)).unwrap_or(places[0]);
    let placed = match figure.role {
        Role::Fixed if has_room => words.inked(Ink::White),
        Role::Fixed => Text { at: Point::new(middle.x, beside), ..words },
        Role::Opening => Text { at: Point::new(middle.x, high.y + 0.4 * TEXT_MM), ..words },
        Role::Clear | Role::Part | Role::Before => words,
    };
    let is_clear = |text: &Text| {
        let room = text.bounding_box().grown(0.1 * TEXT_MM);
        !taken.iter().any(|other| other.overlaps(&room))
    };
    let spread = 0.25 * (high.x - low.x).max(2.0 * width);
    let mut moved = [0.0, -1.0, 1.0, -1.6, 1.6]
        .map(|share| Text { at: placed.at + Vector::new(share * spread, 0.0), ..placed.clone() });
    let first = moved.iter().position(is_clear).unwrap_or(0);
    moved.swap(0, first);
    let [text, ..] = moved;
    Item::Text(text)
}
