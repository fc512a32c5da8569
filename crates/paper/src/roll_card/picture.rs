//! The pictures of a roll card.

use std::f64::consts::PI;

use geometry::{Contour, Point, Vector, trig};
use units::Length;

use super::{RollCard, TEXT_MM, WIDTH_MM, words};
use crate::page::{Anchor, Fill, Item, Pen, Shape, Text};

/// Radius of the finished ring on the card, mm.
const RING_MM: f64 = 24.0;

/// Least thickness of drawn metal, mm.
const DRAWN_MM: f64 = 0.9;

/// Height of the words in a picture, mm.
const WORDS_MM: f64 = 0.9 * TEXT_MM;

/// Height of a picture over its middle and under it, mm.
const HALF_MM: f64 = RING_MM + 4.0;

/// The pictures side by side: the sheet in the roll, the finished ring from its end, a cone from its side.
pub(super) fn items(card: &RollCard<'_>) -> Vec<Item> {
    let count = if card.ring.cone.is_some() { 3.0 } else { 2.0 };
    let wide = WIDTH_MM / count;
    let centre = |number: f64| Point::new((number + 0.5) * wide, 0.0);
    let mut items = in_the_roll(card, centre(0.0));
    items.extend(from_its_end(card, centre(1.0)));
    if card.ring.cone.is_some() {
        items.extend(from_its_side(card, centre(2.0)));
    }
    items
}

fn caption(words: &str, centre: Point) -> Item {
    let at = centre + Vector::new(0.0, HALF_MM + 0.6 * TEXT_MM);
    Item::Text(Text::new(at, words, WORDS_MM).bold().anchored(Anchor::Middle))
}

fn circle(centre: Point, radius: f64) -> Vec<Point> {
    arc(centre, radius, (0.0, 2.0 * PI))
}

/// Points on an arc, the first and the last on its ends.
fn arc(centre: Point, radius: f64, (from, to): (f64, f64)) -> Vec<Point> {
    let steps = 48;
    let at = |step: i32| {
        let angle = from + (to - from) * f64::from(step) / f64::from(steps);
        centre + Vector::new(trig::cos(angle), trig::sin(angle)) * radius
    };
    (0..=steps).map(at).collect()
}

/// A strip of metal between two lines of points.
fn strip(inside: Vec<Point>, outside: Vec<Point>) -> Item {
    let ring: Vec<Point> = inside.into_iter().chain(outside.into_iter().rev()).collect();
    Item::Shape(Shape {
        contours: vec![Contour::polygon(&ring)],
        pen: Some(Pen::MetalCut),
        fill: Some(Fill::Black),
    })
}

fn drawn_thickness(card: &RollCard<'_>, scale: f64) -> f64 {
    (card.ring.thickness_mm * scale).max(DRAWN_MM)
}

fn scale(card: &RollCard<'_>) -> f64 {
    2.0 * RING_MM / card.ring.outside_mm.iter().copied().fold(1.0, f64::max)
}

/// A sketch: the sheet on its way in, its ends bent before, between the two rolls of the pinch and over the rear roll.
fn in_the_roll(card: &RollCard<'_>, centre: Point) -> Vec<Item> {
    let thick = drawn_thickness(card, scale(card));
    let roll_mm = 5.5;
    let machine = |at: Point| Item::edge(&circle(at, roll_mm), Pen::Machine);
    let level = centre + Vector::new(0.0, -6.0);
    let pinch = level + Vector::new(4.0, 0.0);
    let rear = level + Vector::new(4.0 + 1.9 * roll_mm, -0.2 * roll_mm);
    // The first end stands up beyond the pinch, the last one still lies behind it.
    let bent_rad = PI / 5.0;
    let radius = 0.6 * RING_MM;
    let end = |at: Point, toward: f64, from_inside: f64| -> Vec<Point> {
        let middle = at + Vector::new(0.0, radius);
        let points = arc(middle, radius - from_inside, (-0.5 * PI, -0.5 * PI + toward * bent_rad));
        if toward < 0.0 { points.into_iter().rev().collect() } else { points }
    };
    let (left, right) = (level + Vector::new(-20.0, 0.0), pinch + Vector::new(2.0, 0.0));
    let side = |from_inside: f64| -> Vec<Point> {
        let mut points = end(left, -1.0, from_inside);
        points.extend(end(right, 1.0, from_inside));
        points
    };
    let lead = Point::new(right.x + 0.6 * radius + 4.0, level.y + 0.5 * radius);
    let tail = Point::new(left.x - 0.5 * radius, level.y + 0.35 * radius + 3.0);
    let [first, last] = &card.ring.ends;
    let face = if card.ring.marked_outside { "marked face down" } else { "marked face up" };
    let note =
        |at: Point, words: &str, anchor: Anchor| Item::Text(Text::new(at, words, WORDS_MM).anchored(anchor));
    vec![
        caption("in the roll, a sketch", centre),
        machine(pinch + Vector::new(0.0, roll_mm + thick)),
        machine(pinch + Vector::new(0.0, -roll_mm)),
        machine(rear + Vector::new(0.5 * roll_mm, -roll_mm)),
        strip(side(0.0), side(thick)),
        note(lead, &format!("{first} first"), Anchor::Start),
        note(tail, last, Anchor::Middle),
        note(level + Vector::new(-14.0, -WORDS_MM - 2.0), face, Anchor::Middle),
    ]
}

/// The finished ring from its end, of a cone the large one, with the straightedge across the inside.
fn from_its_end(card: &RollCard<'_>, centre: Point) -> Vec<Item> {
    let scale = scale(card);
    let Some(check) = card.ring.checks.last() else { return Vec::new() };
    let print = |mm: f64| Length::from_millimetres(mm).print(card.style);
    let inside = check.radius_mm * scale;
    let outside = inside + drawn_thickness(card, scale);
    let half = 0.5 * check.chord_mm * scale;
    let level = inside - check.rise_mm * scale;
    // A seam at the top, a hair open, so that it shows.
    let open = 0.015 * PI;
    let turn = (0.5 * PI + open, 2.5 * PI - open);
    let [left, right] = [-half, half].map(|x| centre + Vector::new(x, -level));
    let foot = centre + Vector::new(0.0, -inside);
    let name = if check.end.is_empty() { "finished, from its end" } else { "large end, finished" };
    let text = |at: f64, words: String| {
        let at = centre + Vector::new(0.0, at);
        Item::Text(Text::new(at, words, WORDS_MM).anchored(Anchor::Middle).from(words::CHECKS))
    };
    let size = |at: f64, words: String| {
        let at = centre + Vector::new(0.0, at);
        Item::Text(Text::new(at, words, WORDS_MM).anchored(Anchor::Middle).from(words::DIAMETERS))
    };
    let last = |sizes: &[f64]| sizes.last().copied().unwrap_or_default();
    vec![
        caption(name, centre),
        strip(arc(centre, inside, turn), arc(centre, outside, turn)),
        Item::line(left, right, Pen::Dimension),
        Item::line(foot, centre + Vector::new(0.0, -level), Pen::Dimension),
        Item::Text(
            Text::new(centre + Vector::new(0.0, inside - 1.6 * WORDS_MM), "seam", WORDS_MM)
                .anchored(Anchor::Middle),
        ),
        size(0.5 * inside, format!("inside {}", print(last(&card.ring.inside_mm)))),
        size(0.5 * inside - 1.5 * WORDS_MM, format!("outside {}", print(last(&card.ring.outside_mm)))),
        text(-level + 2.0 * WORDS_MM, format!("straightedge {}", print(check.chord_mm))),
        text(-level + 0.5 * WORDS_MM, format!("off the metal {}", print(check.rise_mm))),
    ]
}

/// A cone from its side with its element lines as the half that is seen has them.
fn from_its_side(card: &RollCard<'_>, centre: Point) -> Vec<Item> {
    let Some((lean_rad, [inner_mm, outer_mm])) = card.ring.cone else { return Vec::new() };
    let height_mm = (outer_mm - inner_mm) * trig::cos(lean_rad);
    let widest_mm = card.ring.outside_mm.iter().copied().fold(1.0, f64::max);
    let scale = (1.7 * RING_MM / widest_mm).min(1.5 * RING_MM / height_mm);
    let half_high = 0.5 * height_mm * scale;
    let radii: Vec<f64> = card.ring.outside_mm.iter().map(|outside| 0.5 * outside * scale).collect();
    let [small, large] = radii[..] else { return Vec::new() };
    let (top, foot) = (half_high, -half_high);
    let at = |x: f64, y: f64| centre + Vector::new(x, y);
    let outline = [at(-large, foot), at(large, foot), at(small, top), at(-small, top)];
    let lines = f64::from(u32::try_from(card.ring.lines).unwrap_or(u32::MAX)).max(1.0);
    let element = |number: f64| {
        let x = trig::cos(2.0 * PI * (number + 0.5) / lines);
        Item::line(at(large * x, foot), at(small * x, top), Pen::Scribed)
    };
    let numbers = std::iter::successors(Some(0.0), |n| Some(n + 1.0)).take_while(|n| n + 0.5 < 0.5 * lines);
    let mut items = vec![caption("from its side", centre), Item::edge(&outline, Pen::ViewOutline)];
    items.extend(numbers.map(element));
    let text = |y: f64, words: String| {
        Item::Text(Text::new(at(0.0, y), words, WORDS_MM).anchored(Anchor::Middle).from(words::DIAMETERS))
    };
    let print = |mm: f64| Length::from_millimetres(mm).print(card.style);
    items.push(text(top + 0.6 * WORDS_MM, format!("outside {}", print(card.ring.outside_mm[0]))));
    items.push(text(foot - 1.4 * WORDS_MM, format!("outside {}", print(card.ring.outside_mm[1]))));
    items.push(text(foot - 2.9 * WORDS_MM, format!("{} along the plate", print(outer_mm - inner_mm))));
    items
}
