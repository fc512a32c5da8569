//! Bend lines, each with its way and its turn in words.

use fold::{Direction, FlatPattern};
use geometry::Point;
use units::LengthStyle;

use crate::drawing::label::{self, Label};
use crate::drawing::{bend_label, leader};
use crate::page::{Item, Pen};
use crate::placing::Field;

/// The bend lines.
pub(super) fn lines(flat: &FlatPattern) -> Vec<Item> {
    flat.marks().map(|(bend, (from, to))| Item::line(from, to, Pen::bend(bend.direction))).collect()
}

/// The words for every bend, beside its line or on a leader; the bends with the least choice come first.
pub(super) fn labels(
    field: &mut Field,
    (flat, marked_with, style): (&FlatPattern, &str, LengthStyle),
    text_mm: f64,
    bounds: (Point, Point),
) -> Vec<Item> {
    let mut waiting: Vec<(usize, Label, (Point, Point))> = flat
        .bends
        .iter()
        .map(|bend| {
            let side = side_words(bend.direction, marked_with);
            let label = bend_label((bend, flat.thickness_mm), style, &side, text_mm);
            let marks = bend.marks(flat.thickness_mm);
            let line = marks.last().copied().unwrap_or((bend.from, bend.to));
            let choices = label::places_beside(field, &label, line).len();
            (choices, label, line)
        })
        .collect();
    waiting.sort_by_key(|(choices, ..)| if *choices == 0 { usize::MAX } else { *choices });
    waiting.iter().flat_map(|(_, label, line)| place(field, label, *line, bounds)).collect()
}

/// Where lugs or film come to lie: a bend up closes over the marked face, a bend down carries it outside.
#[must_use]
pub fn side_words(direction: Direction, marked_with: &str) -> String {
    match direction {
        _ if marked_with.is_empty() => String::new(),
        Direction::Up => format!(", {marked_with} inside"),
        Direction::Down => format!(", {marked_with} outside"),
    }
}

/// Beside its line where no extension line runs through it, else on a leader.
fn place(field: &mut Field, label: &Label, line: (Point, Point), bounds: (Point, Point)) -> Vec<Item> {
    let along = label::reading(line.1 - line.0);
    let suits = |field: &Field, centre: Point| field.hairlines_through(&label.room(centre, along)) == 0;
    label::lay_beside(field, label, line, suits).unwrap_or_else(|| {
        let tips = [0.5, 0.25, 0.75].map(|share| line.0.toward(line.1, share));
        leader::place(field, label, &tips, bounds)
    })
}
