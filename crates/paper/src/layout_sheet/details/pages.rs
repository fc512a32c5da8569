//! Pages of details: two in a row, each with the table of its points beside it.

use geometry::{Point, Vector};
use units::LengthStyle;

use super::near::{sawn_jog, too_near};
use super::{CROSS_MM, Detail, RADIUS_MM, TEXT_MM, lines, metal, numbers, ring, within};
use crate::drawing::block::Block;
use crate::drawing::{assemble, printed, symbols, unit_words, which};
use crate::layout_sheet::heading::TAPE_FROM;
use crate::layout_sheet::point_table::FROM_DATUM;
use crate::layout_sheet::points::{arc_centres, centre_of};
use crate::layout_sheet::{Fact, PartSheet};
use crate::page::font::Weight;
use crate::page::{Item, Page};
use crate::placing::Field;

/// Width of a detail with its table, mm; two stand side by side on a letter or A4 sheet.
const CELL_MM: f64 = 92.0;

/// Height of the details on one page, mm: a letter sheet less heading, foot and edges.
const ROOM_MM: f64 = 165.0;

/// The details, two in a row, on as many pages as leave their text at its size on a letter or A4 sheet.
pub(in crate::layout_sheet) fn pages(sheet: &PartSheet<'_>, details: &[Detail]) -> Vec<Page> {
    let mut drawings: Vec<(Vec<Item>, f64)> = Vec::new();
    for row in details.chunks(2) {
        let (_, foot) = drawn_row(sheet, row, 0.0);
        if drawings.last().is_none_or(|(_, head)| head + foot < -ROOM_MM) {
            drawings.push((Vec::new(), 0.0));
        }
        if let Some((items, head)) = drawings.last_mut() {
            let (own, foot) = drawn_row(sheet, row, *head);
            items.extend(own);
            *head = foot - 2.0 * TEXT_MM;
        }
    }
    let count = drawings.len();
    let numbered = (1..).zip(drawings);
    let has_slight = details.iter().any(|detail| !detail.slight.is_empty());
    numbered
        .map(|(number, (items, _))| page(sheet, items, &which("page", number, count), has_slight))
        .collect()
}

/// Up to two details side by side, from `head` down to the height that is returned.
fn drawn_row(sheet: &PartSheet<'_>, row: &[Detail], head: f64) -> (Vec<Item>, f64) {
    let mut foot = head;
    let group = |(detail, left): (&Detail, f64)| {
        let (items, low) = one(sheet, detail, Point::new(left, head));
        foot = low.min(foot);
        Item::group(detail.name.as_str(), items)
    };
    let items = row.iter().zip([0.0, CELL_MM]).map(group).collect();
    (items, foot)
}

/// Where the numbers of details come from that are no running dimensions: the appendix tells the same.
pub(crate) const ORIGINS: [(&str, &str); 3] = [
    ("detail, drawn at", SCALE_FROM),
    ("detail, jogs and slits", NEAR_FROM),
    ("detail, centre of an arc", CENTRE_FROM),
];

const SCALE_FROM: &str = "the largest scale of a list at which all its points lie well within the ring; its points have the numbers of the flat, \
                          whatever the scale";
const NEAR_FROM: &str = "nearest distance between the two points, or the two sides of the slit, on the flat; how small a jog is still sawn by hand is \
                         common practice, no source";
const CENTRE_FROM: &str = "centre and radius of the arc of the flat that ends there";

/// Said under every page of details.
const HOW_TO_READ: &str = "Grey is metal, white is cut away. Cut and bend lines end at the ring. The layout sheet shows where \
                           each detail lies. Points are numbered going round the part, counter-clockwise from the datum corner.";

/// Said where a page names slight corners.
const SLIGHT: &str = "A number with a letter is a corner too slight to be sawn: the straight cut between the numbers beside it \
                      passes it by less than ";

/// What a number with a letter is, a sentence.
pub(in crate::layout_sheet) fn slight_words(style: LengthStyle) -> String {
    format!("{SLIGHT}{}.", sawn_jog(style))
}

fn page(sheet: &PartSheet<'_>, drawing: Vec<Item>, which: &str, has_slight: bool) -> Page {
    let mut words = HOW_TO_READ.to_owned();
    if has_slight {
        words += &format!(" {}", slight_words(sheet.style));
    }
    page_of(
        sheet,
        drawing,
        (&format!("crowded corners, each at a scale of its own{which}"), &format!("details{which}")),
        &words,
    )
}

/// A page of its own about one part: `what` it shows, in words and in short, and what stands under it.
pub(in crate::layout_sheet) fn page_of(
    sheet: &PartSheet<'_>,
    drawing: Vec<Item>,
    (what, short): (&str, &str),
    words: &str,
) -> Page {
    let width_mm = 2.0 * CELL_MM;
    let mut heading = Block::new(0.0, width_mm);
    heading.title(sheet.mark, &format!("{}: {what}", sheet.title), sheet.job, TEXT_MM);
    let facts = [
        ("numbers are", "running dimensions from the datum corner".to_owned(), ""),
        ("numbers in", unit_words(sheet.style), TAPE_FROM),
        ("drawn with", sheet.face.to_owned(), ""),
    ];
    let facts = facts.map(|(name, value, origin)| Fact {
        name: name.to_owned(),
        value,
        origin: origin.to_owned(),
        ..Fact::default()
    });
    heading.ruled_facts(&facts, TEXT_MM);
    let mut foot = Block::new(0.0, width_mm);
    foot.rule();
    foot.paragraph_from((words, NEAR_FROM), Weight::Regular, TEXT_MM, "");
    assemble(format!("{}: {} {short}", sheet.job, sheet.mark), drawing, heading, foot, TEXT_MM)
}

/// One detail with its upper left corner at `corner`, its table beside it, and the height of its foot.
fn one(sheet: &PartSheet<'_>, detail: &Detail, corner: Point) -> (Vec<Item>, f64) {
    let middle = corner + Vector::new(RADIUS_MM, -RADIUS_MM);
    let place = |point: Point| middle + (point - detail.centre) * detail.enlarged;
    let mut items = vec![ring(middle, RADIUS_MM)];
    items.extend(metal(sheet.flat, middle, place));
    let mut field = Field::default();
    for (from, to, pen) in lines(sheet.flat) {
        if let Some((from, to)) = within((place(from), place(to)), middle, RADIUS_MM) {
            field.add_line(from, to);
            items.push(Item::line(from, to, pen));
        }
    }
    let way = |k: u32| middle + Vector::at_angle(f64::from(k) * std::f64::consts::PI / 12.0) * RADIUS_MM;
    (0..24).for_each(|k| field.add_line(way(k), way(k + 1)));
    let crosses = arc_centres(sheet.flat).into_iter().map(|(centre, _)| place(centre));
    for centre in crosses.filter(|centre| centre.distance(middle) + CROSS_MM < RADIUS_MM) {
        symbols::cross_lines(centre, CROSS_MM).into_iter().for_each(|[from, to]| field.add_line(from, to));
        items.extend(symbols::centre_cross(centre, CROSS_MM));
    }
    items.extend(numbers(&mut field, detail, place));
    let table = table(sheet, detail, corner);
    items.extend(table.items);
    (items, table.foot_mm.min(corner.y - 2.0 * RADIUS_MM))
}

fn table(sheet: &PartSheet<'_>, detail: &Detail, corner: Point) -> Block {
    let taken = 2.0 * RADIUS_MM + TEXT_MM;
    let mut table = Block::new(corner.x + taken, CELL_MM - taken - TEXT_MM);
    table.foot_mm = corner.y;
    let head = format!("{}, {}", detail.name, size_words(detail.enlarged));
    table.paragraph_from((&head, SCALE_FROM), Weight::Bold, TEXT_MM, "");
    let row =
        |(name, at): (String, Point)| vec![name, printed(at.x, sheet.style), printed(at.y, sheet.style)];
    let rows: Vec<Vec<String>> = detail.named().into_iter().map(row).collect();
    table.table(&[("", ""), ("from left", FROM_DATUM), ("from bottom", FROM_DATUM)], &rows, 0.95 * TEXT_MM);
    for (name, at) in detail.named() {
        if let Some(of) = centre_of(sheet.flat, at, sheet.style) {
            table.paragraph_from(
                (&format!("{name}: centre of {of}, no corner"), CENTRE_FROM),
                Weight::Regular,
                0.9 * TEXT_MM,
                "",
            );
        }
    }
    for words in too_near(sheet.flat, &detail.points, sheet.style) {
        table.paragraph_from((&words, NEAR_FROM), Weight::Regular, 0.9 * TEXT_MM, "");
    }
    table
}

/// "5 × full size", "1/2 full size".
fn size_words(enlarged: f64) -> String {
    match enlarged {
        whole if (whole - 1.0).abs() < f64::EPSILON => "full size".to_owned(),
        half if (half - 0.5).abs() < f64::EPSILON => "1/2 full size".to_owned(),
        quarter if (quarter - 0.25).abs() < f64::EPSILON => "1/4 full size".to_owned(),
        times => format!("{times} × full size"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_of_details_in_words() {
        assert_eq!(
            [0.25, 0.5, 1.0, 2.5].map(size_words),
            ["1/4 full size", "1/2 full size", "full size", "2.5 × full size"]
        );
    }
}
