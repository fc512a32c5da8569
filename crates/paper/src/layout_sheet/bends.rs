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

/// A bend that waits for its words.
struct Waiting {
    label: Label,
    /// Its line, or that of its lines which the words stand at.
    line: (Point, Point),
    /// All other bend lines, those of its own strikes too.
    others: Vec<(Point, Point)>,
    /// How many places there are beside its line.
    choices: usize,
}

/// The words for every bend, beside its line or on a leader; the bends with the least choice come first.
pub(super) fn labels(
    field: &mut Field,
    (flat, marked_with, style): (&FlatPattern, &str, LengthStyle),
    text_mm: f64,
    bounds: (Point, Point),
) -> Vec<Item> {
    let marks: Vec<Vec<(Point, Point)>> =
        flat.bends.iter().map(|bend| bend.marks(flat.thickness_mm)).collect();
    let mut waiting: Vec<Waiting> = flat
        .bends
        .iter()
        .enumerate()
        .map(|(number, bend)| {
            let side = side_words(bend.direction, marked_with);
            let label = bend_label((bend, flat.thickness_mm), style, &side, text_mm);
            let line = marks[number].last().copied().unwrap_or((bend.from, bend.to));
            let own = (number, marks[number].len().saturating_sub(1));
            let all = marks.iter().enumerate().flat_map(|(bend, lines)| {
                lines.iter().enumerate().map(move |(place, line)| ((bend, place), *line))
            });
            let others = all.filter(|(place, _)| *place != own).map(|(_, line)| line).collect();
            let choices = label::places_beside(field, &label, line).len();
            Waiting { label, line, others, choices }
        })
        .collect();
    waiting.sort_by_key(|bend| if bend.choices == 0 { usize::MAX } else { bend.choices });
    // First in the neighbourhood of every line, then out beside the drawing, and only then across other bend lines.
    let near = leader::in_some_order(field, &mut waiting, NEAR_TRIES, |field, bend| {
        bend.beside(field)
            .or_else(|| leader::place_within_reach(field, &bend.label, (&bend.tips(), &bend.others)))
    });
    let clear = near.or_else(|| {
        leader::in_some_order(field, &mut waiting, TRIES, |field, bend| bend.place(field, bounds))
    });
    clear.unwrap_or_else(|| {
        let lay = |bend: &Waiting| {
            let across = |field: &mut Field| leader::place(field, &bend.label, &bend.tips()[..3], bounds);
            bend.place(field, bounds).unwrap_or_else(|| across(field))
        };
        waiting.iter().flat_map(lay).collect()
    })
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

/// Where a leader may end on a bend line, as shares of its length, best first.
const TIP_SHARES: [f64; 13] = [0.5, 0.25, 0.75, 0.12, 0.88, 0.37, 0.63, 0.18, 0.82, 0.06, 0.94, 0.02, 0.98];

/// How many orders are tried with all words near their lines, and with some beside the whole drawing.
const NEAR_TRIES: usize = 3;
const TRIES: usize = 12;

impl Waiting {
    /// Beside its line where no extension line runs through it.
    fn beside(&self, field: &mut Field) -> Option<Vec<Item>> {
        let along = label::reading(self.line.1 - self.line.0);
        let suits =
            |field: &Field, centre: Point| field.hairlines_through(&self.label.room(centre, along)) == 0;
        label::lay_beside(field, &self.label, self.line, suits)
    }

    /// Beside its line, or on a leader that crosses no other bend line: nobody could tell which of the two the words belong to.
    /// `None` where there is neither.
    fn place(&self, field: &mut Field, bounds: (Point, Point)) -> Option<Vec<Item>> {
        self.beside(field)
            .or_else(|| leader::place_clear_of(field, &self.label, (&self.tips(), &self.others), bounds))
    }

    fn tips(&self) -> [Point; 13] {
        TIP_SHARES.map(|share| self.line.0.toward(self.line.1, share))
    }
}
