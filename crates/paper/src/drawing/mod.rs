//! What all drawings share: labels and their places, running dimensions, symbols, blocks of text.

pub(crate) mod block;
mod gaps;
pub(crate) mod label;
pub(crate) mod leader;
pub(crate) mod legend;
pub(crate) mod letters;
pub(crate) mod named;
pub(crate) mod room;
pub(crate) mod running;
pub(crate) mod symbols;

use fold::Direction;
use fold::flat::BendLine;
use fold::part::Forming;
use geometry::{Point, Vector, tolerance};
use units::{Angle, Length, LengthStyle, LengthUnit};

use crate::page::font::Weight;
use crate::page::{self, Ink, Item, Page};
use block::Block;
use label::Label;

/// Height of ordinary text on the drawing of a part of this extent, mm.
///
/// The drawing is printed fitted to a letter or A4 sheet, upright or across, whichever lets the text come out
/// larger; heading, labels and foot take so many text heights that the part itself is left with these shares of
/// the paper when the text is to come out 2.6 mm high (between 7 and 8 points). Small parts print full size and
/// keep 3 mm.
pub(crate) fn text_height_mm(width_mm: f64, height_mm: f64) -> f64 {
    const UPRIGHT: (f64, f64) = (49.0, 41.0);
    const ACROSS: (f64, f64) = (74.0, 13.0);
    const LEAST_MM: f64 = 3.0;
    let needed = |(across, up): (f64, f64)| (width_mm / across).max(height_mm / up);
    needed(UPRIGHT).min(needed(ACROSS)).max(LEAST_MM)
}

/// Height of names on a layout sheet, of faces, edges, details and holes, in text heights: they stand in narrow places, and what
/// they name is told by larger words or on a page of its own.
pub(crate) const NAMES_EM: f64 = 0.9;

/// A computed length as the job prints it.
pub(crate) fn printed(millimetres: f64, style: LengthStyle) -> String {
    Length::from_millimetres(millimetres).print(style)
}

/// A thickness or bend radius: metal is bought in decimals, whatever tape the shop lays out with.
pub(crate) fn printed_thickness(millimetres: f64, style: LengthStyle) -> String {
    const PLACES: u8 = 3;
    match style {
        LengthStyle::Tape { .. } => printed(millimetres, LengthStyle::Inches { places: PLACES }),
        LengthStyle::Inches { .. } | LengthStyle::Millimetres { .. } => printed(millimetres, style),
    }
}

/// The way and the turn of a bend in words: "bend UP 90.0°".
#[must_use]
pub fn bend_words(direction: Direction, turn_rad: f64) -> String {
    let way = match direction {
        Direction::Up => "UP",
        Direction::Down => "DOWN",
    };
    format!("bend {way} {}°", Angle::from_radians(turn_rad).print(1))
}

/// " (inside 107.6°)": what a bevel held into a bend reads. A turn near square could be taken for it, so it stands beside
/// every one that is not square; a slight or a nearly closed one is not mistaken.
fn inside_words(bend: &BendLine) -> String {
    let printed = Angle::from_radians(bend.turn_rad).print(1);
    let mistaken = (10.0..170.0).contains(&bend.turn_rad.to_degrees()) && printed != "90.0";
    if !mistaken || !matches!(bend.forming, Forming::Brake) {
        return String::new();
    }
    format!(" (inside {}°)", Angle::from_radians(std::f64::consts::PI - bend.turn_rad).print(1))
}

/// How a bend is made that is not the metal's plain bend, as it goes on after [`bend_words`]: ", 7 strikes .463 apart,
/// inside radius 2.000". `thickness_mm` is the sheet's.
#[must_use]
pub fn making_words(bend: &BendLine, thickness_mm: f64, style: LengthStyle) -> String {
    let mut words = match bend.forming {
        Forming::Brake | Forming::Joggle(_) => String::new(),
        Forming::Hem => ", hem".to_owned(),
        Forming::Sprung => ", NOT BENT: sprung by hand".to_owned(),
        Forming::Rolled if bend.marks(thickness_mm).len() == 2 => ", rolled from line to line".to_owned(),
        Forming::Rolled => ", rolled".to_owned(),
        Forming::Bumped(0 | 1) => ", one strike".to_owned(),
        Forming::Bumped(strikes) => {
            let apart = printed(bend.zone_mm / f64::from(strikes), style);
            format!(", {strikes} strikes {apart} apart")
        }
    };
    if bend.own_radius {
        words += &match bend.inside_radius_mm {
            pressed if pressed <= tolerance::SAME_POINT_MM => ", closed".to_owned(),
            radius => format!(", inside radius {}", printed_thickness(radius, style)),
        };
    }
    words
}

/// The label of a bend: its way, its turn, how it is made, and a `tail` of words.
pub(crate) fn bend_label(
    (bend, thickness_mm): (&BendLine, f64),
    style: LengthStyle,
    tail: &str,
    text_mm: f64,
) -> Label {
    let making = making_words(bend, thickness_mm, style);
    let words = format!("{}{}{making}{tail}", bend_words(bend.direction, bend.turn_rad), inside_words(bend));
    let label = Label::new(words, text_mm);
    Label { weight: Weight::Bold, ink: Ink::Accent, bend: Some(bend.direction), ..label }
}

/// A sentence saying what unit the numbers are in.
pub(crate) fn unit_words(style: LengthStyle) -> String {
    match style {
        LengthStyle::Tape { denominator } => {
            format!("inches: 1/{} on the tape, then thousandths more (+) or less (-)", denominator.number())
        }
        LengthStyle::Inches { .. } => "inches".to_owned(),
        LengthStyle::Millimetres { .. } => "millimetres".to_owned(),
    }
}

/// The word for the unit, short.
pub(crate) const fn unit_mark(style: LengthStyle) -> &'static str {
    match style.unit() {
        LengthUnit::Inch => "in",
        LengthUnit::Millimetre => "mm",
    }
}

/// ", page 2 of 3"; nothing for the only one.
pub(crate) fn which(what: &str, number: usize, count: usize) -> String {
    if count == 1 { String::new() } else { format!(", {what} {number} of {count}") }
}

/// What lies of a straight piece within an upright rectangle.
///
/// By Liang and Barsky, "A new concept and method for line clipping", 1984: every side cuts the range of shares that is
/// left (from memory).
pub(crate) fn clipped((from, to): (Point, Point), (low, high): (Point, Point)) -> Option<(Point, Point)> {
    let along = to - from;
    let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
    let sides = [
        (-along.x, from.x - low.x),
        (along.x, high.x - from.x),
        (-along.y, from.y - low.y),
        (along.y, high.y - from.y),
    ];
    for (outward, inside) in sides {
        if outward.abs() <= f64::MIN_POSITIVE {
            if inside < 0.0 {
                return None;
            }
        } else if outward < 0.0 {
            enter = enter.max(inside / outward);
        } else {
            leave = leave.min(inside / outward);
        }
    }
    (enter < leave).then(|| (from.toward(to, enter), from.toward(to, leave)))
}

/// The narrowest columns of text over and under a drawing, in text heights.
const LEAST_WIDTH_EM: f64 = 44.0;

/// Left edge and width, mm, of the columns of text over and under a drawing.
pub(crate) fn columns(drawing: &[Item], text_mm: f64) -> (f64, f64) {
    columns_at_least(drawing, LEAST_WIDTH_EM * text_mm)
}

/// The same, so wide at least; a drawing that is narrower stands in their middle.
fn columns_at_least(drawing: &[Item], width_mm: f64) -> (f64, f64) {
    let (low, high) = page::bounds(drawing).unwrap_or_default();
    let own_mm = high.x - low.x;
    let width_mm = own_mm.max(width_mm);
    (low.x - 0.5 * (width_mm - own_mm), width_mm)
}

/// Widths of heading and foot that are tried, in text heights: words that run wider leave more height to the drawing.
const WIDTHS_EM: [f64; 3] = [LEAST_WIDTH_EM, 56.0, 70.0];

/// The page drawn with columns of a few widths (left edge and width, mm) at which its text comes out largest on paper.
pub(crate) fn of_best_width(drawing: &[Item], text_mm: f64, page: impl Fn((f64, f64)) -> Page) -> Page {
    let [narrowest, wider @ ..] =
        WIDTHS_EM.map(|width_em| page(columns_at_least(drawing, width_em * text_mm)));
    wider.into_iter().fold(narrowest, |best, page| {
        if page::printed_text_mm(&best) < page::printed_text_mm(&page) { page } else { best }
    })
}

/// Said where words on the drawing are shortened.
const SHORTENED: &str = "Words that end in … are shortened here; heading and lists have them whole.";

fn has_shortened(drawing: &[Item]) -> bool {
    let mut shortened = false;
    page::visit(drawing, &mut |item| {
        shortened |= matches!(item, Item::Text(text) if text.words.ends_with('…'));
    });
    shortened
}

/// Puts the heading over the drawing and the foot under it, and trims the paper to them.
pub(crate) fn assemble(
    title: String,
    drawing: Vec<Item>,
    heading: Block,
    mut foot: Block,
    text_mm: f64,
) -> Page {
    let mut drawing = gaps::left_for_words(drawing, text_mm);
    if has_shortened(&drawing) {
        foot.paragraph(SHORTENED, Weight::Regular, text_mm, "");
    }
    let (low, high) = page::bounds(&drawing).unwrap_or_default();
    let lift = Vector::new(0.0, high.y + 1.5 * text_mm - heading.foot_mm);
    let drop = Vector::new(0.0, low.y - text_mm);
    let margin = Vector::new(MARGIN_EM * text_mm, MARGIN_EM * text_mm);
    let left = low.x.min(heading.left_mm);
    let corner = Point::new(left + heading.width_mm, lift.y);
    let base = Point::new(left, drop.y + foot.foot_mm);
    let moved = |items: Vec<Item>, by: Vector| items.iter().map(|item| item.moved(by)).collect();
    drawing.push(Item::group(HEADING, moved(heading.items, lift)));
    drawing.push(Item::group(FOOT, moved(foot.items, drop)));
    Page { title, low: base - margin, high: corner + margin, text_mm, items: drawing }
}

/// The names of the groups over and under a drawing.
const HEADING: &str = "heading";
const FOOT: &str = "legend and notes";

/// True for the words over a drawing.
pub(crate) fn is_heading(item: &Item) -> bool {
    matches!(item, Item::Group(group) if group.name == HEADING)
}

/// True for the words under a drawing.
pub(crate) fn is_foot(item: &Item) -> bool {
    matches!(item, Item::Group(group) if group.name == FOOT)
}

/// A page with the words under its drawing set anew, so much narrower, by left edge and width, mm; `None` for one without such
/// words, or too narrow for it.
pub(crate) fn set_foot_anew(page: &Page, aside_mm: f64, foot: impl Fn(f64, f64) -> Block) -> Option<Page> {
    let (_, head) = page.items.iter().find(|item| is_foot(item))?.bounds()?;
    let margin_mm = MARGIN_EM * page.text_mm;
    let width_mm = page.width_mm() - 2.0 * margin_mm - aside_mm;
    if width_mm < LEAST_FOOT_EM * page.text_mm {
        return None;
    }
    let mut foot = foot(page.low.x + margin_mm, width_mm);
    let rest: Vec<Item> = page.items.iter().filter(|item| !is_foot(item)).cloned().collect();
    if has_shortened(&rest) {
        foot.paragraph(SHORTENED, Weight::Regular, page.text_mm, "");
    }
    let drop = Vector::new(0.0, head.y);
    let low = Point::new(page.low.x, head.y + foot.foot_mm - margin_mm);
    let group = Item::group(FOOT, foot.items.iter().map(|item| item.moved(drop)).collect());
    Some(Page { low, items: rest.into_iter().chain([group]).collect(), ..page.clone() })
}

/// The narrowest column of words under a drawing with something beside it, in text heights.
const LEAST_FOOT_EM: f64 = 34.0;

/// Between the edge of the paper and the words on it, in text heights.
pub(crate) const MARGIN_EM: f64 = 1.5;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_cut_to_the_rectangle() {
        let point = Point::new;
        let window = (point(0.0, 0.0), point(10.0, 5.0));
        let near = |cut: (Point, Point), from: Point, to: Point| {
            cut.0.distance(from) < 1e-9 && cut.1.distance(to) < 1e-9
        };
        let slant = clipped((point(-5.0, -5.0), point(15.0, 15.0)), window).unwrap();
        assert!(near(slant, point(0.0, 0.0), point(5.0, 5.0)));
        let level = clipped((point(2.0, 1.0), point(30.0, 1.0)), window).unwrap();
        assert!(near(level, point(2.0, 1.0), point(10.0, 1.0)));
        assert_eq!(clipped((point(-5.0, 6.0), point(15.0, 6.0)), window), None);
    }
}
