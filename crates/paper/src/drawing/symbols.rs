//! Small drawn signs: bend triangles and edge views, arrows, the datum block, the mark tag.

use geometry::{Contour, Point, Vector};

use super::label::Label;
use crate::page::font::{self, Weight};
use crate::page::{Anchor, Fill, Ink, Item, Pen, Shape, Text};
use fold::Direction;

/// The triangle of a bend about `centre`, `size_mm` high, upright when `up` points up: filled with its tip up for a
/// bend up, hollow with its tip down for a bend down.
pub(crate) fn bend_triangle(direction: Direction, centre: Point, up: Vector, size_mm: f64) -> Item {
    let half = 0.5 * size_mm;
    let tip = match direction {
        Direction::Up => up,
        Direction::Down => -up,
    };
    let base = centre - tip * half;
    let side = tip.right() * (1.1 * half);
    let (pen, fill) = match direction {
        Direction::Up => (None, Fill::Accent),
        Direction::Down => (Some(Pen::BendSign), Fill::Paper),
    };
    let contour = Contour::polygon(&[centre + tip * half, base - side, base + side]);
    Item::Shape(Shape { contours: vec![contour], pen, fill: Some(fill) })
}

/// The sheet seen on edge with its end bent up or down: `width_mm` wide, starting at `at`.
pub(crate) fn edge_view(direction: Direction, at: Point, width_mm: f64) -> Vec<Item> {
    let rise = match direction {
        Direction::Up => 0.5 * width_mm,
        Direction::Down => -0.5 * width_mm,
    };
    let knee = at + Vector::new(0.75 * width_mm, 0.0);
    let end = knee + Vector::new(0.25 * width_mm, rise);
    vec![Item::line(at, knee, Pen::CutEdge), Item::line(knee, end, Pen::CutEdge)]
}

/// A filled arrow head with its tip at `tip`, pointing along the unit vector `toward`.
pub(crate) fn arrow_head(tip: Point, toward: Vector, length_mm: f64) -> Item {
    let base = tip - toward * length_mm;
    let side = toward.left() * (0.3 * length_mm);
    Item::area(&[tip, base + side, base - side], Fill::Black)
}

/// Length of the lay arrow, in text heights.
pub(crate) const LAY_ARROW_EM: f64 = 9.0;

/// The lay arrow: the word "lay" reading along `along`, with arrows pointing both ways.
pub(crate) fn lay_arrow(centre: Point, along: Vector, text_mm: f64) -> Vec<Item> {
    let label = Label::new("lay", text_mm);
    let (near, far) = (0.5 * (label.width_mm() + text_mm), 0.5 * LAY_ARROW_EM * text_mm);
    let arrow = |way: Vector| {
        let (from, to) = (centre + way * near, centre + way * far);
        [Item::line(from, to, Pen::Dimension), arrow_head(to, way, text_mm)]
    };
    let arrows = [arrow(along), arrow(-along)].into_iter().flatten();
    label.items(centre, along).into_iter().chain(arrows).collect()
}

/// A thin arrow of this length that starts at `from`: the way the nap runs.
pub(crate) fn nap_arrow(from: Point, toward: Vector, length_mm: f64) -> Vec<Item> {
    let tip = from + toward * length_mm;
    vec![Item::line(from, tip, Pen::Datum), arrow_head(tip, toward, 0.35 * length_mm)]
}

/// The dot that ends a leader.
pub(crate) fn dot(centre: Point, radius_mm: f64) -> Item {
    let contours = vec![Contour::round_hole(centre, radius_mm).reversed()];
    Item::Shape(Shape { contours, pen: None, fill: Some(Fill::Black) })
}

/// The solid block outside the datum corner.
pub(crate) fn datum_block(corner: Point, size_mm: f64) -> Item {
    let (left, below) = (Vector::new(-size_mm, 0.0), Vector::new(0.0, -size_mm));
    Item::area(&[corner, corner + left, corner + left + below, corner + below], Fill::Black)
}

/// The solid triangle inside the datum corner of a part, its legs along the two datum edges.
pub(crate) fn datum_triangle(corner: Point, edges: [Vector; 2], size_mm: f64) -> Item {
    let [along, up] = edges.map(|edge| corner + edge * size_mm);
    Item::area(&[corner, along, up], Fill::Black)
}

/// A cross at the centre of a hole or an arc.
pub(crate) fn centre_cross(centre: Point, reach_mm: f64) -> [Item; 2] {
    cross_lines(centre, reach_mm).map(|[from, to]| Item::line(from, to, Pen::Dimension))
}

/// The two lines of the cross at a centre.
pub(crate) fn cross_lines(centre: Point, reach_mm: f64) -> [[Point; 2]; 2] {
    let (across, up) = (Vector::new(reach_mm, 0.0), Vector::new(0.0, reach_mm));
    [[centre - across, centre + across], [centre - up, centre + up]]
}

/// White words on a black block whose upper left corner is `corner`; also the width and height of the block.
pub(crate) fn tag(corner: Point, words: &str, size_mm: f64) -> (Vec<Item>, f64, f64) {
    let pad = 0.35 * size_mm;
    let width = font::width_mm(words, Weight::Bold, size_mm) + 2.0 * pad;
    let height = font::ASCENT_EM * size_mm + 1.4 * pad;
    let right = Vector::new(width, 0.0);
    let down = Vector::new(0.0, -height);
    let block = Item::area(&[corner, corner + down, corner + down + right, corner + right], Fill::Black);
    let baseline = corner + Vector::new(0.5 * width, -0.7 * pad - font::ASCENT_EM * size_mm);
    let text = Text::new(baseline, words, size_mm).bold().anchored(Anchor::Middle).inked(Ink::White);
    (vec![block, Item::Text(text)], width, height)
}
