//! A test strip: the bend line across its middle, and the bent strip with what is measured on it.

use fold::{Direction, FlatPattern};
use geometry::{Point, Vector};

use crate::drawing::label::{self, Label};
use crate::drawing::{bend_words, leader};
use crate::layout_sheet::StripBend;
use crate::page::font::Weight;
use crate::page::{Anchor, Fill, Ink, Item, Pen, Text};
use crate::placing::Field;

/// Length of a leg of the bent strip in the picture, which is not to scale, in text heights.
const LEG_EM: f64 = 11.0;

/// Its thickness there, in text heights.
const THICK_EM: f64 = 0.5;

/// The line across the middle of the longer side.
pub(super) fn bend_line(flat: &FlatPattern) -> (Point, Point) {
    let (width, height) = flat.extents_mm();
    if height <= width {
        (Point::new(0.5 * width, 0.0), Point::new(0.5 * width, height))
    } else {
        (Point::new(0.0, 0.5 * height), Point::new(width, 0.5 * height))
    }
}

/// "bend DOWN 90.0°, lugs outside" at the bend line, with the words about the side that are given.
pub(super) fn label(
    field: &mut Field,
    (line, direction, side): ((Point, Point), Direction, &str),
    text_mm: f64,
    bounds: (Point, Point),
) -> Vec<Item> {
    let words = bend_words(direction, std::f64::consts::FRAC_PI_2) + side;
    let label = Label::new(words, text_mm);
    let label = Label { weight: Weight::Bold, ink: Ink::Accent, bend: Some(direction), ..label };
    label::lay_beside(field, &label, line, |_, _| true)
        .unwrap_or_else(|| leader::place(field, &label, &[line.0.toward(line.1, 0.6)], bounds))
}

/// The bend line itself, and right of the flat the bent strip in side view with a line to write each leg on.
pub(super) fn items(
    line: (Point, Point),
    StripBend { legs, direction }: StripBend<'_>,
    flat: &FlatPattern,
    text_mm: f64,
) -> Vec<Item> {
    let em = |share: f64| share * text_mm;
    let (width, _) = flat.extents_mm();
    let heel = Point::new(width + em(20.0), em(2.0));
    let at = |right: f64, up: f64| heel + Vector::new(em(right), em(up));
    let bent = [
        at(0.0, 0.0),
        at(LEG_EM, 0.0),
        at(LEG_EM, THICK_EM),
        at(THICK_EM, THICK_EM),
        at(THICK_EM, LEG_EM),
        at(0.0, LEG_EM),
    ];
    let square =
        [at(THICK_EM, THICK_EM + 1.2), at(THICK_EM + 1.2, THICK_EM + 1.2), at(THICK_EM + 1.2, THICK_EM)];
    let mut items = vec![Item::line(line.0, line.1, Pen::bend(direction)), Item::area(&bent, Fill::Black)];
    items.extend(square.windows(2).map(|pair| Item::line(pair[0], pair[1], Pen::Dimension)));
    // What is measured, from outside to end, beside each leg.
    let measured = |from: Point, to: Point, out: Vector| {
        let ends = [from, to].map(|end| Item::line(end + out * em(0.2), end + out * em(1.4), Pen::Extension));
        ends.into_iter().chain([Item::line(from + out * em(1.0), to + out * em(1.0), Pen::Dimension)])
    };
    items.extend(measured(at(0.0, 0.0), at(LEG_EM, 0.0), Vector::new(0.0, -1.0)));
    items.extend(measured(at(0.0, 0.0), at(0.0, LEG_EM), Vector::new(-1.0, 0.0)));
    let text = |place: Point, words: &str| Text::new(place, words, text_mm);
    let words = [
        text(at(0.0, -2.4), "leg 1, outside to end: ________"),
        text(at(-1.5, 0.5 * LEG_EM), "leg 2, outside to end: ________").anchored(Anchor::End),
        text(at(THICK_EM + 1.6, THICK_EM + 1.2), "turn by the square: ________"),
        text(at(THICK_EM + 1.6, LEG_EM - 1.0), "bent, seen from the side, not to scale").bold(),
        text(at(THICK_EM + 1.6, LEG_EM - 2.6), &format!("leg 1 + leg 2 should be {legs}")),
        text(at(THICK_EM + 1.6, LEG_EM - 4.2), "measured: ________"),
    ];
    items.extend(words.into_iter().map(Item::Text));
    items
}
