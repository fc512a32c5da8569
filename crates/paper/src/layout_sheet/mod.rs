//! The layout sheet: one part in true size, with everything needed to mark, cut and bend it.
//!
//! The paper grows around the part. Text grows with the part too, so that a print fitted to a letter sheet stays
//! readable. The datum corner is the lower left corner of the smallest upright rectangle around the flat.

mod bends;
mod callouts;
mod details;
mod faces;
mod folded_view;
mod foot;
mod going_round;
mod heading;
mod metal;
mod numbered;
mod point_table;
mod points;
mod seen_in_ring;
mod strip;

pub use bends::side_words;

use fold::{Direction, FlatPattern};
use geometry::outline::Chords;
use geometry::{Point, Vector};
use units::LengthStyle;

use crate::drawing::block::Block;
use crate::drawing::running::{self, Frame};
use crate::drawing::{assemble, of_best_width, set_foot_anew, symbols, text_height_mm};
use crate::isometric::Folded;
use crate::page::{self, Item, Page, Pen};
use crate::placing::Field;

pub(crate) use callouts::ORIGINS as CALLOUT_ORIGINS;
pub(crate) use details::ORIGINS as DETAIL_ORIGINS;
pub(crate) use foot::ORIGINS as FOOT_ORIGINS;
pub(crate) use heading::{PROOF_FROM, TAPE_FROM};
use numbered::ByNumber;
pub(crate) use numbered::ORIGINS as HOLE_ORIGINS;
pub(crate) use point_table::ORIGINS as POINT_ORIGINS;

pub use crate::drawing::named::Named;
pub use crate::drawing::{bend_words, making_words};

/// One number or word about a part, and where it came from.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Fact {
    /// What it is: "hip B, true length".
    pub name: String,
    /// Its value as printed.
    pub value: String,
    /// The field, formula or table row it came from, in words.
    pub origin: String,
    /// The fields of the job file behind it, as they are written there.
    pub fields: Vec<String>,
}

/// Where what the heading says comes from: field, formula or table row; empty for none.
#[derive(Debug, Clone, Copy, Default)]
pub struct Origins<'a> {
    /// The metal.
    pub metal: &'a str,
    /// Its thickness.
    pub thickness: &'a str,
    /// Its inside radius.
    pub inside_radius: &'a str,
    /// The weight of one.
    pub weight: &'a str,
    /// The bend number.
    pub bend_number: &'a str,
}

/// All that a layout sheet shows.
#[derive(Debug, Clone, Copy)]
pub struct PartSheet<'a> {
    /// Name of the job.
    pub job: &'a str,
    /// Mark of the part.
    pub mark: &'a str,
    /// What it is, in words.
    pub title: &'a str,
    /// The metal, in words.
    pub metal: &'a str,
    /// How many to make.
    pub quantity: u32,
    /// The flat, its datum corner at (0, 0).
    pub flat: &'a FlatPattern,
    /// How lengths are printed.
    pub style: LengthStyle,
    /// Numbers worth knowing.
    pub facts: &'a [Fact],
    /// Which bend number was used, and whose it is; empty for a part without bends.
    pub bend_number: &'a str,
    /// What the refold proof showed; empty for a part without bends.
    pub proof: &'a str,
    /// Direction of the lay in the flat, if the metal has one.
    pub lay: Option<Vector>,
    /// Which side the drawing shows: "this face up".
    pub face: &'a str,
    /// Weight of one, with its unit.
    pub weight: &'a str,
    /// Notes.
    pub notes: &'a [String],
    /// Cautions.
    pub cautions: &'a [String],
    /// What only the marked face has, lugs or film, to be said at every bend; empty for plain metal.
    pub marked_with: &'a str,
    /// Where what the heading says comes from.
    pub origins: Origins<'a>,
    /// Corners, edges and stations that the drawing names.
    pub named: &'a Named,
    /// The part as it is when bent; none for one without bends.
    pub folded: Option<&'a Folded>,
    /// For a test strip: how it is bent and what that should come to.
    pub strip: Option<StripBend<'a>>,
}

/// How a test strip is bent across its middle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StripBend<'a> {
    /// What its two legs should be together, with the unit.
    pub legs: &'a str,
    /// As most bends of the parts that it proves.
    pub direction: Direction,
}

/// How much larger the text is tried than its first guess, until it comes out readable.
const LARGER: [f64; 8] = [1.0, 1.08, 1.16, 1.25, 1.35, 1.5, 1.7, 2.0];

/// The drawings of one part.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheets {
    /// The layout sheet.
    pub layout: Page,
    /// Its numbers in words, where the layout sheet has no room for them.
    pub numbers: Option<Page>,
    /// Every point of its outline by number, where it has more corners than its running dimensions hold clearly.
    pub points: Vec<Page>,
    /// Its crowded corners, each at a scale of its own.
    pub details: Vec<Page>,
    /// What its heading says beside the facts it was given, with where it comes from.
    pub facts: Vec<Fact>,
}

/// Draws the layout sheet of one part, its text as large as the rule of readable scale asks ([`page::AT_ARMS_LENGTH_MM`]): first
/// the text grows, then the numbers in words move to a page of their own, then it grows again.
#[must_use]
pub fn draw(sheet: &PartSheet<'_>) -> Sheets {
    let Fitted { shown, layout, numbers } = fitted(sheet);
    let alone = more_numbers();
    let drawn_of = if numbers.is_some() { PartSheet { facts: &alone, ..*sheet } } else { *sheet };
    let again = |text_mm| drawn(&drawn_of, &shown, text_mm);
    let beside_foot = |page: &Page, aside_mm: f64| with_room_beside_foot(page, (sheet, &shown), aside_mm);
    let layout = folded_view::added(layout, sheet, again, beside_foot);
    let details = details::find(sheet, &shown.points, layout.text_mm);
    let points = match shown.by_number {
        ByNumber::All => {
            numbered::pages_of_all(sheet, &points::to_dimension(&numbered::without_holes(sheet.flat)))
        }
        ByNumber::Holes | ByNumber::None => {
            let table =
                point_table::is_needed(&details).then(|| point_table::pages(sheet, &shown.points, &details));
            let mut points = table.unwrap_or_default();
            if shown.by_number == ByNumber::Holes {
                // Where corners go by numbers too, no number stands for two places.
                let first = if details.is_empty() { 1 } else { shown.points.len() + 1 };
                points.extend(numbered::pages_of_holes(sheet, first));
            }
            points
        }
    };
    let details = details::pages(sheet, &details);
    Sheets { layout, numbers, points, details, facts: heading::own(sheet) }
}

/// The layout sheet without its numbers in words, where that makes it readable, or much larger.
fn without_numbers(whole: &Page, parted: &PartSheet<'_>, shown: &Shown) -> Option<Page> {
    let readable = page::AT_ARMS_LENGTH_MM <= page::printed_text_mm(whole);
    if readable && heading_share(whole) <= MOST_HEADING {
        return None;
    }
    let page = grown(parted, shown);
    let better = if readable {
        MUCH_LARGER * scale(whole) < scale(&page)
    } else {
        page::printed_text_mm(whole) < page::printed_text_mm(&page)
    };
    better.then_some(page)
}

/// The layout sheet with the words under its drawing set so much narrower.
fn with_room_beside_foot(
    page: &Page,
    (sheet, shown): (&PartSheet<'_>, &Shown),
    aside_mm: f64,
) -> Option<Page> {
    let crowded = details::find(sheet, &shown.points, page.text_mm);
    let by_table = shown.by_number == ByNumber::All || point_table::is_needed(&crowded);
    set_foot_anew(page, aside_mm, |left_mm, width_mm| {
        foot::block((sheet, by_table, shown.by_number), left_mm, width_mm, page.text_mm)
    })
}

/// What the rows of a layout sheet show.
struct Shown {
    /// Every point with running dimensions, or crowded into a detail.
    points: Vec<Point>,
    /// What has its numbers on drawings of their own instead.
    by_number: ByNumber,
}

/// A layout sheet, what its rows show, and its numbers in words where they have a page of their own.
struct Fitted {
    shown: Shown,
    layout: Page,
    numbers: Option<Page>,
}

/// Fewer corners than this stay in the rows, however small they come out.
const FEWEST_BY_NUMBER: usize = 40;

/// The layout sheet with what its rows can show at a readable scale; where they would be too small, with no corner in them.
fn fitted(sheet: &PartSheet<'_>) -> Fitted {
    let all_by_number = || {
        let shown = Shown { points: Vec::new(), by_number: ByNumber::All };
        let whole = grown(sheet, &shown);
        parted(sheet, shown, whole)
    };
    let edge = points::to_dimension(&numbered::without_holes(sheet.flat));
    if edge.len() < FEWEST_BY_NUMBER {
        let (shown, whole) = in_rows_or_by_number(sheet);
        return parted(sheet, shown, whole);
    }
    if overflows_rows(sheet, &edge) {
        return all_by_number();
    }
    let (shown, whole) = in_rows_or_by_number(sheet);
    let in_rows = parted(sheet, shown, whole);
    let reached = page::printed_text_mm(&in_rows.layout);
    if page::AT_ARMS_LENGTH_MM <= reached {
        return in_rows;
    }
    let all = all_by_number();
    if reached < page::printed_text_mm(&all.layout) { all } else { in_rows }
}

/// Whether what the rows would show of these points needs so much more room than the part is long that no row holds it.
fn overflows_rows(sheet: &PartSheet<'_>, edge: &[Point]) -> bool {
    let (width, height) = sheet.flat.extents_mm();
    let text_mm = text_height_mm(width, height);
    let crowded = details::find(sheet, edge, text_mm);
    let by_table = point_table::is_needed(&crowded);
    let [along_x, along_y] = in_rows(sheet, edge.to_vec(), by_table.then_some(crowded.as_slice()), None);
    let room_mm = OVERFLOWING * width.max(height);
    room_mm < numbered::needed_mm(&along_x, |at| at.x, text_mm)
        || room_mm < numbered::needed_mm(&along_y, |at| at.y, text_mm)
}

/// Rows that need so many times the length of the part are not tried.
const OVERFLOWING: f64 = 1.6;

/// The layout sheet with its numbers in words, or with these on a page of their own where it comes out better so.
fn parted(sheet: &PartSheet<'_>, shown: Shown, whole: Page) -> Fitted {
    let alone = more_numbers();
    let parted = PartSheet { facts: &alone, ..*sheet };
    let found = if sheet.facts.is_empty() { None } else { without_numbers(&whole, &parted, &shown) };
    match found {
        Some(layout) => Fitted { shown, layout, numbers: Some(numbers_page(sheet)) },
        None => Fitted { shown, layout: whole, numbers: None },
    }
}

/// What stands for the numbers in words where these have a page of their own.
fn more_numbers() -> [Fact; 1] {
    [Fact { name: "more numbers".to_owned(), value: MORE_NUMBERS.to_owned(), ..Fact::default() }]
}

/// The layout sheet with its holes in the rows where they have room and leave it readable, else without them.
fn in_rows_or_by_number(sheet: &PartSheet<'_>) -> (Shown, Page) {
    let (width, height) = sheet.flat.extents_mm();
    let all = Shown { points: points::to_dimension(sheet.flat), by_number: ByNumber::None };
    if !numbered::are_crowded(sheet.flat, text_height_mm(width, height)) {
        let whole = grown(sheet, &all);
        if page::AT_ARMS_LENGTH_MM <= page::printed_text_mm(&whole) || !numbered::are_many(sheet.flat) {
            return (all, whole);
        }
    }
    let edge = points::to_dimension(&numbered::without_holes(sheet.flat));
    let shown = Shown { points: edge, by_number: ByNumber::Holes };
    let whole = grown(sheet, &shown);
    (shown, whole)
}

/// The share of a page that its heading may take before it is tried without the numbers, and how much larger the part must
/// then come out.
const MOST_HEADING: f64 = 0.2;
const MUCH_LARGER: f64 = 1.2;

/// How much of a page its heading takes.
fn heading_share(page: &Page) -> f64 {
    let heading =
        page.items.iter().find(|item| matches!(item, Item::Group(group) if group.name == "heading"));
    let bounds = heading.and_then(|heading| page::bounds(std::slice::from_ref(heading)));
    bounds.map_or(0.0, |(low, high)| (high.y - low.y) / page.height_mm())
}

/// Paper millimetres to a millimetre of the part.
fn scale(page: &Page) -> f64 {
    page::printed_text_mm(page) / page.text_mm
}

/// Said where the numbers stand on a page of their own.
const MORE_NUMBERS: &str = "slants, turns and seams stand on the page \"numbers\" that follows";

/// The layout sheet at the first of a few text heights at which it is readable, or at the best of them.
fn grown(sheet: &PartSheet<'_>, shown: &Shown) -> Page {
    let (width, height) = sheet.flat.extents_mm();
    let first = text_height_mm(width, height);
    let mut best = drawn(sheet, shown, first);
    for share in &LARGER[1..] {
        let reached = page::printed_text_mm(&best);
        if page::AT_ARMS_LENGTH_MM <= reached {
            break;
        }
        let larger = drawn(sheet, shown, share * first);
        if reached < page::printed_text_mm(&larger) {
            best = larger;
        }
    }
    best
}

/// The numbers that the heading of the layout sheet has no room for, as a page.
fn numbers_page(sheet: &PartSheet<'_>) -> Page {
    const TEXT_MM: f64 = 3.0;
    const WIDTH_MM: f64 = 180.0;
    let title = format!("{}: {}: numbers", sheet.job, sheet.mark);
    let heading = heading::numbers(sheet, WIDTH_MM, TEXT_MM);
    assemble(title, Vec::new(), heading, Block::new(0.0, WIDTH_MM), TEXT_MM)
}

/// The layout sheet with ordinary text of this height, mm.
fn drawn(sheet: &PartSheet<'_>, shown: &Shown, text_mm: f64) -> Page {
    let (width, height) = sheet.flat.extents_mm();
    let points = &shown.points;
    let crowded = details::find(sheet, points, text_mm);
    let by_table = shown.by_number == ByNumber::All || point_table::is_needed(&crowded);
    let strip = sheet.strip.map(|bend| (strip::bend_line(sheet.flat), bend));
    let [along_x, along_y] =
        in_rows(sheet, points.clone(), by_table.then_some(crowded.as_slice()), strip.map(|(line, _)| line));
    let begins = Vector::default();
    let frame = Frame { width_mm: width, height_mm: height, style: sheet.style, text_mm, begins };
    let mut field = Field::default();
    let dimensions = running::rows(&mut field, [&along_x, &along_y], frame);
    occupy(&mut field, (sheet, &crowded), strip.map(|(line, _)| line), text_mm);
    let lay = |first: &[usize]| labels(field.clone(), (sheet, shown, &crowded), text_mm, first);
    // A face that its own bend's words fill is named before them, where its name is else reached through words alone.
    let (mut labels, struck) = lay(&[]);
    if !struck.is_empty() {
        let (again, left) = lay(&struck);
        if left.len() < struck.len() {
            labels = again;
        }
    }
    let name = |what: &str| format!("{} {what}", sheet.mark);
    let mut drawing = vec![
        Item::group(name("datum"), datum(width, height, text_mm)),
        Item::group(sheet.mark, metal::items(sheet.flat)),
        Item::group(name("dimensions"), dimensions),
        Item::group(name("bend lines"), bends::lines(sheet.flat)),
        Item::group(name("scribed lines"), scribed(sheet)),
        Item::group(name("labels"), labels),
    ];
    drawing.extend(strip.map(|(line, legs)| {
        let items = strip::items(line, legs, sheet.flat, text_mm);
        Item::group(name("strip"), items)
    }));
    of_best_width(&drawing, text_mm, |(left_mm, width_mm)| {
        let heading = heading::block(sheet, left_mm, width_mm, text_mm);
        let foot = foot::block((sheet, by_table, shown.by_number), left_mm, width_mm, text_mm);
        let title = format!("{}: {}: {}", sheet.job, sheet.mark, sheet.title);
        assemble(title, drawing.clone(), heading, foot, text_mm)
    })
}

/// Lines across the part that are scribed alone.
fn scribed(sheet: &PartSheet<'_>) -> Vec<Item> {
    sheet.named.lines.iter().map(|(_, [from, to])| Item::line(*from, *to, Pen::Scribed)).collect()
}

/// All words of the layout sheet but its running dimensions, the names of the faces `first` before all others; and the faces
/// whose leader runs through words.
fn labels(
    mut field: Field,
    (sheet, shown, crowded): (&PartSheet<'_>, &Shown, &[details::Detail]),
    text_mm: f64,
    first: &[usize],
) -> (Vec<Item>, Vec<usize>) {
    let field = &mut field;
    let (width, height) = sheet.flat.extents_mm();
    let bounds = (Point::default(), Point::new(width, height));
    let (named, names) = faces::names_first(field, sheet, text_mm, first);
    let stations = faces::stations(field, sheet, text_mm, bounds);
    let mut labels = bends::labels(field, (sheet.flat, sheet.marked_with, sheet.style), text_mm, bounds);
    if let Some(bend) = sheet.strip {
        let side = side_words(bend.direction, sheet.marked_with);
        let line = strip::bend_line(sheet.flat);
        labels.extend(strip::label(field, (line, bend.direction, &side), text_mm, bounds));
    }
    // What must stand at its own corner comes first, what may stand anywhere on its face last.
    labels.extend(stations);
    let letters = match shown.by_number {
        ByNumber::All => sheet.named.letters(sheet.flat),
        ByNumber::Holes | ByNumber::None => sheet.named.all_letters(sheet.flat),
    };
    labels.extend(faces::letters(field, (sheet, letters), text_mm, bounds));
    labels.extend(details::rings(field, crowded, text_mm, bounds));
    labels.extend(callouts::labels(field, (sheet, shown.by_number), text_mm, bounds));
    let (others, struck) = faces::labels(field, sheet, text_mm, (bounds, &named));
    labels.extend(others);
    labels.extend(names);
    (labels, struck)
}

/// What has running dimensions along x and along y: the points of the outline, or what a table of the `tabled` corners leaves of
/// them, what is only scribed, and the size.
fn in_rows(
    sheet: &PartSheet<'_>,
    points: Vec<Point>,
    tabled: Option<&[details::Detail]>,
    strip: Option<(Point, Point)>,
) -> [Vec<Point>; 2] {
    let scribed = sheet.named.rows(&points);
    let [mut along_x, mut along_y] = match tabled {
        Some(crowded) => point_table::left_in_rows(sheet.flat, &points, crowded),
        None => [points.clone(), points],
    };
    let [across, up] = scribed;
    along_x.extend(across);
    along_y.extend(up);
    if let Some((from, to)) = strip {
        along_x.push(from);
        along_y.extend([from, to]);
    }
    let [farthest_right, highest] = points::extents(sheet.flat);
    along_x.push(farthest_right);
    along_y.push(highest);
    [along_x, along_y]
}

/// Keeps words off the metal's lines, the bend line of a strip, the rings of details and the lines of the datum.
fn occupy(
    field: &mut Field,
    (sheet, crowded): (&PartSheet<'_>, &[details::Detail]),
    strip: Option<(Point, Point)>,
    text_mm: f64,
) {
    let (width, height) = sheet.flat.extents_mm();
    metal::occupy(field, sheet.flat);
    // A word in an opening would seem to name what lies in it.
    sheet.flat.outline.holes.iter().for_each(|hole| field.add_area(hole.corners(Chords::On)));
    details::occupy(field, crowded, text_mm);
    for (from, to) in datum_lines(width, height, text_mm).into_iter().chain(strip) {
        field.add_line(from, to);
    }
}

/// Cut edges, crosses of holes and bend lines of a flat, without words.
pub(crate) fn metal_lines(flat: &FlatPattern) -> Vec<Item> {
    vec![Item::group("cut edges", metal::items(flat)), Item::group("bend lines", bends::lines(flat))]
}

/// The datum edges, a little longer than the part, and the block outside their corner.
fn datum(width_mm: f64, height_mm: f64, text_mm: f64) -> Vec<Item> {
    let lines = datum_lines(width_mm, height_mm, text_mm);
    let lines = lines.map(|(from, to)| Item::line(from, to, Pen::Datum)).into_iter();
    lines.chain([symbols::datum_block(Point::default(), 0.7 * text_mm)]).collect()
}

/// The two lines of the datum.
fn datum_lines(width_mm: f64, height_mm: f64, text_mm: f64) -> [(Point, Point); 2] {
    let (corner, past) = (Point::default(), 0.9 * text_mm);
    [(corner, Point::new(width_mm + past, 0.0)), (corner, Point::new(0.0, height_mm + past))]
}
