//! Under the drawing: what the lines mean, a bar to check the print by, notes and cautions.

use fold::Direction;
use geometry::outline::Chords;
use geometry::{Point, Vector, tolerance};
use units::{Length, LengthStyle, LengthUnit};

use super::PartSheet;
use super::numbered::ByNumber;
use crate::drawing::block::Block;
use crate::drawing::legend::{self, Entry};
use crate::page::font::Weight;
use crate::page::{Item, Pen};

/// Where the numbers under a layout sheet come from: the appendix tells the same.
pub(crate) const ORIGINS: [(&str, &str); 2] =
    [("check bar, and the width of a scribed line", BAR_FROM), ("notes and cautions", SAID_FROM)];

const BAR_FROM: &str = "the bar is drawn so long; places half the width of a scribed line apart share a number (common practice, no source)";
/// Also of the cautions on the first leaf.
const SAID_FROM: &str =
    "measured on the flat or on the refolded part, or given by the job; a limit has its source beside it";

/// Said where the datum corner is cut away.
const OFF_THE_METAL: &str = "The datum corner is not on the finished part. Scribe two lines square to one another through it, where the sheet map places it, and measure from them: the metal beyond may be another part's.";

/// Said where the rows hold no crowded corner.
const BY_TABLE: &str = "Crowded corners have no numbers here: every point has its own in the table \"every point by number\" that follows. Along \
                        the edges stand bend lines, lone corners and the size.";

/// Said where the rows hold no corner at all.
const ALL_BY_NUMBER: &str = "Corners and holes have no numbers here: every one is numbered on the page \"every point by number\" \
                             of this mark, stretch by stretch where one drawing would be too small, and has its running dimensions in the \
                             table there. Along the edges stand bend lines and the size.";

/// Said where the rows hold no hole.
const HOLES_BY_TABLE: &str = "Holes have no numbers here: every one is numbered on the page \"every hole by number\" of \
                              this mark and has its own running dimensions and diameter in the table there.";

/// Said where stations lie on an edge that a bend makes.
const ON_BENDS: &str = "Stations show where the widths were given: at the finished outside edge, which the bend makes. Nothing \
                        is scribed there; the bend line lies beside it.";

/// The foot, its head at height 0; `by_table` says that crowded corners have their numbers in the table of points alone,
/// `by_number` what has them on drawings of its own.
pub(super) fn block(
    (sheet, by_table, by_number): (&PartSheet<'_>, bool, ByNumber),
    left_mm: f64,
    width_mm: f64,
    text_mm: f64,
) -> Block {
    let mut block = Block::new(left_mm, width_mm);
    block.rule();
    let strip = sheet.strip.map(|bend| bend.direction);
    let has = |direction| {
        strip == Some(direction) || sheet.flat.bends.iter().any(|bend| bend.direction == direction)
    };
    let bends = [Direction::Up, Direction::Down].into_iter().filter(|direction| has(*direction));
    let scribed = (!sheet.named.lines.is_empty()).then_some(Entry::Scribed);
    let entries: Vec<Entry> = std::iter::once(Entry::Cut)
        .chain(bends.map(Entry::Bend))
        .chain(scribed)
        .chain([Entry::Datum])
        .collect();
    legend::set(&mut block, &entries, text_mm);
    if !datum_is_on_the_metal(sheet) {
        block.skip(0.3 * text_mm);
        block.paragraph(OFF_THE_METAL, Weight::Bold, text_mm, "");
    }
    check_bar(&mut block, sheet, text_mm);
    let corners = if by_number == ByNumber::All { ALL_BY_NUMBER } else { BY_TABLE };
    if by_table {
        block.paragraph(corners, Weight::Bold, text_mm, "");
    }
    if by_number == ByNumber::Holes {
        block.paragraph(HOLES_BY_TABLE, Weight::Bold, text_mm, "");
    }
    if !sheet.named.on_bends.is_empty() {
        block.paragraph(ON_BENDS, Weight::Regular, text_mm, "");
    }
    if !sheet.notes.is_empty() || !sheet.cautions.is_empty() {
        block.skip(0.7 * text_mm);
        block.rule();
    }
    list(&mut block, "Notes", sheet.notes, "–", text_mm);
    list(&mut block, "Cautions", sheet.cautions, "!", text_mm);
    block
}

fn list(block: &mut Block, head: &str, lines: &[String], lead: &str, text_mm: f64) {
    if lines.is_empty() {
        return;
    }
    block.skip(0.2 * text_mm);
    block.paragraph(head, Weight::Bold, text_mm, "");
    for line in lines {
        block.paragraph_from((line, SAID_FROM), Weight::Regular, 0.95 * text_mm, lead);
    }
}

/// A bar of a round length, to prove a full-size print with a tape.
fn check_bar(block: &mut Block, sheet: &PartSheet<'_>, text_mm: f64) {
    let choices: [(f64, &str); 3] = match sheet.style.unit() {
        LengthUnit::Inch => [(2.0 * 25.4, "2 in"), (6.0 * 25.4, "6 in"), (24.0 * 25.4, "24 in")],
        LengthUnit::Millimetre => [(50.0, "50 mm"), (200.0, "200 mm"), (500.0, "500 mm")],
    };
    let wanted = 8.0 * text_mm;
    let (length, name) =
        choices.into_iter().rev().find(|(length, _)| *length <= wanted).unwrap_or(choices[0]);
    let words = format!(
        "This bar is {name} long when printed full size. In any other print read the numbers, never scale the drawing. Places closer \
         than a scribed line ({}) share a number.",
        scribed_length(sheet.style, tolerance::SCRIBED_LINE_MM)
    );
    block.skip(2.0 * text_mm);
    let from = Point::new(block.left_mm, block.foot_mm + 0.35 * text_mm);
    let to = from + Vector::new(length, 0.0);
    let tick = Vector::new(0.0, 0.5 * text_mm);
    block.items.push(Item::line(from, to, Pen::Datum));
    block.items.extend([from, to].map(|end| Item::line(end - tick, end + tick, Pen::Datum)));
    let gap = length + 0.8 * text_mm;
    let mut beside = Block::new(block.left_mm + gap, block.width_mm - gap);
    beside.foot_mm = block.foot_mm + 1.3 * text_mm;
    beside.paragraph_from((&words, BAR_FROM), Weight::Regular, text_mm, "");
    block.foot_mm = beside.foot_mm;
    block.items.extend(beside.items);
}

fn scribed_length(style: LengthStyle, millimetres: f64) -> String {
    let width = Length::from_millimetres(millimetres);
    match style.unit() {
        LengthUnit::Inch => width.print_with_unit(LengthStyle::Inches { places: 3 }),
        LengthUnit::Millimetre => width.print_with_unit(LengthStyle::Millimetres { places: 1 }),
    }
}

/// True when the datum corner is a corner of the metal itself.
fn datum_is_on_the_metal(sheet: &PartSheet<'_>) -> bool {
    let corners = sheet.flat.outline.outer.corners(Chords::On);
    corners.iter().any(|corner| corner.distance(Point::default()) <= tolerance::SCRIBED_LINE_MM)
}
