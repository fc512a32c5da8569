//! The pages of places by number: the numbered drawing, or a key plan and its stretches, then rows of equal pitch and the table.

use fold::FlatPattern;
use geometry::outline::Chords;
use geometry::{Contour, Point, Region, Vector, polygon, tolerance};
use units::LengthStyle;

use super::stretches::{self, HOLDS_NUMBER_MM, Stretch};
use super::{EqualRow, Place, corners, equal_rows, holes_in_order, without_holes};
use crate::drawing::block::{Block, Column};
use crate::drawing::label::Label;
use crate::drawing::{clipped, leader, printed, symbols, unit_mark, which};
use crate::layout_sheet::PartSheet;
use crate::layout_sheet::details::{self, TEXT_MM};
use crate::layout_sheet::point_table::{self, FROM_DATUM};
use crate::page::font::Weight;
use crate::page::{AT_ARMS_LENGTH_MM, Fill, Item, Pen, Shape};
use crate::placing::Field;

/// Width of everything, mm, and height of a drawing at the most.
const WIDTH_MM: f64 = 184.0;
const DRAWING_MM: f64 = 102.0;

/// Left free round a drawing for leaders, mm.
const MARGIN_MM: f64 = 9.0;

/// Height between heading and foot of one page, mm.
const ROOM_MM: f64 = 195.0;

/// Height of the numbers beside the holes: as of running dimensions on a layout sheet.
const NUMBER_MM: f64 = AT_ARMS_LENGTH_MM;

/// Height of the type in the tables, mm, and of one of its lines.
const TYPE_MM: f64 = 0.95 * TEXT_MM;
const LINE_MM: f64 = 1.35 * TYPE_MM;

/// Something that stays on one page: its head at height 0, its foot at minus its height.
struct Piece {
    items: Vec<Item>,
    height_mm: f64,
}

/// What pages of places are called, and how they are read.
#[derive(Clone, Copy)]
struct Said {
    /// "every hole by number".
    what: &'static str,
    /// "holes".
    short: &'static str,
    /// Under every page.
    how_to_read: &'static str,
    /// Over the table.
    heads: &'static [Column<'static>; 4],
}

/// Every hole by number, numbers from `first` on.
pub(in crate::layout_sheet) fn pages_of_holes(sheet: &PartSheet<'_>, first: usize) -> Vec<crate::Page> {
    let places = holes_in_order(sheet, first);
    let mut pieces = drawings(sheet, &places);
    pieces.extend(rows_of_equal_pitch(sheet, &places));
    on_pages((sheet, OF_HOLES), pieces, &places)
}

/// Every point of the outer edge by number, these points, and every hole behind them.
pub(in crate::layout_sheet) fn pages_of_all(sheet: &PartSheet<'_>, points: &[Point]) -> Vec<crate::Page> {
    let mut places = corners::places(sheet, points);
    places.extend(holes_in_order(sheet, points.len() + 1));
    let mut pieces = drawings(sheet, &places);
    pieces.extend(rows_of_equal_pitch(sheet, &places));
    for (heads, rows) in point_table::tables(sheet, (points, &[])) {
        pieces.extend(rows.chunks(ROWS_OF_A_PIECE).map(|rows| table_piece(heads, rows)));
    }
    on_pages((sheet, OF_ALL), pieces, &places)
}

/// Most rows of a table that stay on one page.
const ROWS_OF_A_PIECE: usize = 40;

/// A table as wide as the page.
fn table_piece(heads: &[Column<'_>], rows: &[Vec<String>]) -> Piece {
    let mut block = Block::new(0.0, WIDTH_MM);
    block.table(heads, rows, TYPE_MM);
    Piece { height_mm: 2.0 * TEXT_MM - block.foot_mm, items: block.items }
}

/// The numbered drawing, or a key plan and the drawings of its stretches.
fn drawings(sheet: &PartSheet<'_>, places: &[Place]) -> Vec<Piece> {
    let room = (WIDTH_MM - 2.0 * MARGIN_MM, DRAWING_MM - 2.0 * MARGIN_MM);
    let stretches = stretches::of(places, sheet.flat.extents_mm(), room);
    if let [only] = stretches[..] {
        return vec![drawing(sheet, places, only, room, "")];
    }
    let mut pieces = vec![key_plan(sheet, &stretches, room)];
    for (number, stretch) in (1..).zip(&stretches) {
        let name = format!("stretch {number}");
        pieces.push(drawing(sheet, places, *stretch, room, &name));
    }
    pieces
}

/// The pieces one below the other, the table behind them, on as many pages as it takes.
fn on_pages((sheet, said): (&PartSheet<'_>, Said), pieces: Vec<Piece>, places: &[Place]) -> Vec<crate::Page> {
    let mut bodies: Vec<(Vec<Item>, f64)> = vec![(Vec::new(), 0.0)];
    let mut put = |piece: Piece| {
        if bodies.last().is_some_and(|(items, foot)| !items.is_empty() && foot - piece.height_mm < -ROOM_MM) {
            bodies.push((Vec::new(), 0.0));
        }
        if let Some((items, foot)) = bodies.last_mut() {
            items.extend(piece.items.iter().map(|item| item.moved(Vector::new(0.0, *foot))));
            *foot -= piece.height_mm;
        }
        bodies.last().map_or(0.0, |(_, foot)| ROOM_MM + foot)
    };
    let mut left_mm = ROOM_MM;
    for piece in pieces {
        left_mm = put(piece);
    }
    let mut rest = places;
    while !rest.is_empty() {
        let side_by_side = usize::from(columns_of(sheet.style));
        let holds = |room_mm: f64| {
            let lines = |count: usize| (0..count + 3).map(|_| LINE_MM).sum::<f64>();
            (1..=rest.len()).take_while(|&each| lines(each) <= room_mm).count()
        };
        // A few lines at the foot of a page are no table.
        let each = if holds(left_mm) < LEAST_LINES { holds(ROOM_MM) } else { holds(left_mm) };
        let each = each.max(1).min(rest.len().div_ceil(side_by_side));
        let (now, later) = rest.split_at((side_by_side * each).min(rest.len()));
        put(table((sheet, said), now, each));
        (rest, left_mm) = (later, ROOM_MM);
    }
    let count = bodies.len();
    let page = |(number, (items, _)): (usize, (Vec<Item>, f64))| {
        let which = which("page", number, count);
        details::page_of(sheet, items, (&format!("{}{which}", said.what), said.short), said.how_to_read)
    };
    (1..).zip(bodies).map(page).collect()
}

/// The shortest table that is begun at the foot of a page, in lines.
const LEAST_LINES: usize = 6;

/// Pages of holes, and of all places.
const OF_HOLES: Said =
    Said { what: "every hole by number", short: "holes", how_to_read: HOW_TO_READ, heads: &HOLES };
const OF_ALL: Said =
    Said { what: "every point by number", short: "points", how_to_read: HOW_TO_READ_ALL, heads: &PLACES };

/// Said under every page of all places.
const HOW_TO_READ_ALL: &str = "Grey is metal, white is cut away; a thin frame is where a drawing ends, and no cut. Corners are numbered \
                               going round the part, counter-clockwise from the datum corner; holes follow. All numbers of the table are \
                               measured from the two datum edges, none from its neighbour. Mark all points, join the corners as \
                               drawn, then the bend lines from point to point. A centre, of an arc or a hole, is no corner and is not \
                               joined to anything.";

/// Said under every page of holes.
const HOW_TO_READ: &str = "Grey is metal, white is cut away; a thin frame is where a drawing ends, and no cut. A number stands in its \
                           hole, at its upper right, or off the end of its slot; any other has a line to its hole. All numbers of the table are measured from the two datum edges to the centre, none from its neighbour; a pitch is told to check by. \
                           Centre-punch every centre before drilling. A slot has two numbers, one for each of its drilled ends; an \
                           opening one for each corner.";

/// Where a size of a hole comes from, and a pitch.
const HOLE_SIZE: &str = "size of the hole or slot, as the part's shape asks for it";
const PLACE: &str =
    "letter of the corner, end of a bend line, or size of the hole or arc, as the part's shape asks for it";
const PITCH: &str = "distance from centre to centre on the flat, found to be the same all along the row";

/// Over the table of holes, that of all places, and that of rows of equal pitch.
const HOLES: [Column<'static>; 4] =
    [("hole", ""), ("from left", FROM_DATUM), ("from bottom", FROM_DATUM), ("", HOLE_SIZE)];
const PLACES: [Column<'static>; 4] =
    [("point", ""), ("from left", FROM_DATUM), ("from bottom", FROM_DATUM), ("", PLACE)];
const EQUAL_ROWS: [Column<'static>; 5] = [
    ("row of holes", ""),
    ("equal pitch", PITCH),
    ("first: right, up", FROM_DATUM),
    ("last: right, up", FROM_DATUM),
    ("", HOLE_SIZE),
];

/// Where the numbers of these pages come from, for the appendix.
pub(crate) const ORIGINS: [Column<'static>; 3] = [
    ("holes by number, from left and from bottom", FROM_DATUM),
    ("holes, size", HOLE_SIZE),
    ("holes, equal pitch", PITCH),
];

/// How many columns of the table stand side by side.
const fn columns_of(style: LengthStyle) -> u8 {
    match style {
        LengthStyle::Tape { .. } => 2,
        LengthStyle::Inches { .. } | LengthStyle::Millimetres { .. } => 3,
    }
}

/// A part of the table in columns side by side, `each` rows to a column.
fn table((sheet, said): (&PartSheet<'_>, Said), places: &[Place], each: usize) -> Piece {
    let width_mm = WIDTH_MM / f64::from(columns_of(sheet.style));
    let (mut items, mut left_mm, mut foot_mm) = (Vec::new(), 0.0, 0.0_f64);
    for chunk in places.chunks(each) {
        let mut block = Block::new(left_mm, width_mm - 2.0 * TEXT_MM);
        let row = |place: &Place| {
            let [right, up] = [place.at.x, place.at.y].map(|mm| printed(mm, sheet.style));
            vec![place.number.to_string(), right, up, place.what.clone()]
        };
        let rows: Vec<Vec<String>> = chunk.iter().map(row).collect();
        block.table(said.heads, &rows, TYPE_MM);
        foot_mm = foot_mm.min(block.foot_mm);
        items.extend(block.items);
        left_mm += width_mm;
    }
    Piece {
        items: vec![Item::group(format!("{} by number", said.short), items)],
        height_mm: 2.0 * TEXT_MM - foot_mm,
    }
}

/// The rows of equal pitch, if there are any.
fn rows_of_equal_pitch(sheet: &PartSheet<'_>, places: &[Place]) -> Vec<Piece> {
    let rows: Vec<Vec<String>> = equal_rows(places)
        .iter()
        .map(|EqualRow { from, to, count, pitch_mm }| {
            let at = |place: &Place| {
                let [right, up] = [place.at.x, place.at.y].map(|mm| printed(mm, sheet.style));
                format!("{right}, {up}")
            };
            let pitch = printed(*pitch_mm, sheet.style);
            let numbers = format!("{}–{}", from.number, to.number);
            vec![numbers, format!("{count} at {pitch}"), at(from), at(to), from.what.clone()]
        })
        .collect();
    rows.chunks(ROWS_OF_A_PIECE).map(|rows| table_piece(&EQUAL_ROWS, rows)).collect()
}

/// The whole part with the frame and the number of every stretch.
fn key_plan(sheet: &PartSheet<'_>, stretches: &[Stretch], room: (f64, f64)) -> Piece {
    let edge = without_holes(sheet.flat);
    let whole = whole(sheet.flat);
    let (mut items, mut field, place) = begun(&PartSheet { flat: &edge, ..*sheet }, whole, room);
    let bounds = (place(whole.low), place(whole.high));
    let frames: Vec<(Point, Point)> = stretches
        .iter()
        .map(|stretch| stretch.within(whole))
        .map(|shown| (place(shown.low), place(shown.high)))
        .collect();
    for &(low, high) in &frames {
        let corners = rectangle(low, high);
        polygon::edges(&corners).for_each(|(from, to)| field.add_line(from, to));
        items.push(Item::edge(&corners, Pen::Dimension));
    }
    let mut holes = Vec::new();
    for hole in &sheet.flat.outline.holes {
        let corners: Vec<Point> = hole.corners(Chords::On).into_iter().map(&place).collect();
        polygon::edges(&corners).for_each(|(from, to)| field.add_line(from, to));
        holes.push(Item::edge(&corners, Pen::CutEdge));
    }
    items.push(Item::group(KEY_HOLES, holes));
    // Between the holes of its stretch, or beside the part on a leader.
    let in_it = |field: &Field, (low, high): (Point, Point), label: &Label| {
        let spots = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8];
        let spots = spots.iter().flat_map(|up| spots.map(|along| (along, *up)));
        let mut spots = spots
            .map(|(along, up)| Point::new(low.x + along * (high.x - low.x), low.y + up * (high.y - low.y)));
        spots.find(|&centre| field.is_clear(&label.room(centre, LEVEL).grown(0.4)))
    };
    for (number, frame) in (1..).zip(frames) {
        let label = Label { weight: Weight::Bold, ..Label::new(format!("{number}"), NUMBER_MM) };
        if let Some(centre) = in_it(&field, frame, &label) {
            field.take(label.room(centre, LEVEL));
            items.extend(label.items(centre, LEVEL));
        } else {
            let ((low, high), across) = (frame, 0.5 * (frame.0.x + frame.1.x));
            let tips = [Point::new(across, high.y), Point::new(across, low.y)];
            items.extend(leader::place(&mut field, &label, &tips, bounds));
        }
    }
    finished(items, "key plan: the numbers stand in the stretches that are framed here".to_owned())
}

/// What the holes of the key plan stand under.
const KEY_HOLES: &str = "holes of the key plan";

const LEVEL: Vector = Vector::new(1.0, 0.0);

fn rectangle(low: Point, high: Point) -> [Point; 4] {
    [low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)]
}

fn whole(flat: &FlatPattern) -> Stretch {
    let (width, height) = flat.extents_mm();
    Stretch { low: Point::default(), high: Point::new(width, height) }
}

/// The metal and the bend lines of a stretch, where they lie on paper, and what is taken of the room.
fn begun(
    sheet: &PartSheet<'_>,
    stretch: Stretch,
    room: (f64, f64),
) -> (Vec<Item>, Field, impl Fn(Point) -> Point + use<>) {
    let scale = stretch.scale(room);
    let left = 0.5 * (WIDTH_MM - scale * (stretch.high.x - stretch.low.x));
    let place = move |at: Point| {
        Point::new(left + scale * (at.x - stretch.low.x), -MARGIN_MM - scale * (stretch.high.y - at.y))
    };
    let metal = Region::of(&sheet.flat.outline.to_polygon(Chords::On));
    let metal = metal.intersection(&Region::rectangle(stretch.low, stretch.high)).polygons();
    let rings = metal.into_iter().flat_map(|metal| std::iter::once(metal.outer).chain(metal.holes));
    let contours: Vec<Contour> =
        rings.map(|ring| Contour::polygon(&ring.into_iter().map(&place).collect::<Vec<_>>())).collect();
    let mut items = vec![Item::Shape(Shape { contours, pen: None, fill: Some(Fill::Metal) })];
    let (mut field, mut bends) = (Field::default(), Vec::new());
    // So that an edge along the frame is drawn.
    let edge = Vector::new(tolerance::SCRIBED_LINE_MM, tolerance::SCRIBED_LINE_MM);
    for (from, to, pen) in details::lines(sheet.flat) {
        if let Some((from, to)) = clipped((from, to), (stretch.low - edge, stretch.high + edge)) {
            let (from, to) = (place(from), place(to));
            field.add_line(from, to);
            let kind = if pen == Pen::CutEdge { &mut items } else { &mut bends };
            kind.push(Item::line(from, to, pen));
        }
    }
    items.push(Item::group(format!("{} bend lines", sheet.mark), bends));
    if stretch.low.x <= 0.0 && stretch.low.y <= 0.0 {
        items.push(symbols::datum_block(place(Point::default()), 2.0));
    }
    (items, field, place)
}

/// A drawing with its name over it.
fn finished(items: Vec<Item>, name: String) -> Piece {
    let (low, high) = crate::page::bounds(&items).unwrap_or_default();
    let mut block = Block::new(0.0, WIDTH_MM);
    if !name.is_empty() {
        block.paragraph(&name, Weight::Bold, TEXT_MM, "");
    }
    let down = Vector::new(0.0, block.foot_mm - TEXT_MM - high.y);
    let height_mm = high.y - low.y + 3.0 * TEXT_MM - block.foot_mm;
    let mut all = block.items;
    all.extend(items.iter().map(|item| item.moved(down)));
    Piece { items: vec![Item::group("numbered holes", all)], height_mm }
}

/// One stretch with the number of every hole in it.
fn drawing(sheet: &PartSheet<'_>, places: &[Place], stretch: Stretch, room: (f64, f64), name: &str) -> Piece {
    let shown = stretch.within(whole(sheet.flat));
    let (mut items, mut field, place) = begun(sheet, shown, room);
    let scale = shown.scale(room);
    let frame = (place(shown.low), place(shown.high));
    if !name.is_empty() {
        let corners = rectangle(frame.0, frame.1);
        polygon::edges(&corners).for_each(|(from, to)| field.add_line(from, to));
        items.push(Item::edge(&corners, Pen::Dimension));
    }
    let own: Vec<&Place> = places.iter().filter(|place| stretch.holds(place.at)).collect();
    let mut numbers = Vec::new();
    let edge: Vec<(String, Point)> = own
        .iter()
        .filter(|place| place.is_on_edge)
        .map(|point| (point.number.to_string(), place(point.at)))
        .collect();
    numbers.extend(details::beside_points(&mut field, &edge, NUMBER_MM));
    for hole in own.iter().filter(|place| !place.is_on_edge) {
        if hole.off.is_some() {
            items.extend(symbols::centre_cross(place(hole.at), CROSS_SHARE * scale * hole.radius_mm));
        }
        numbers.extend(number(&mut field, hole, (place(hole.at), scale * hole.radius_mm), frame));
    }
    items.push(Item::group(format!("{} hole marks", sheet.mark), numbers));
    let words = if name.is_empty() { String::new() } else { words(sheet, name, shown, &own) };
    finished(items, words)
}

/// "stretch 2, 30 places: from 96 to 192 right and from 0 to 20 up (in)".
fn words(sheet: &PartSheet<'_>, name: &str, shown: Stretch, own: &[&Place]) -> String {
    let size = |mm: f64| printed(mm, sheet.style);
    format!(
        "{name}, {} places: from {} to {} right and from {} to {} up ({})",
        own.len(),
        size(shown.low.x),
        size(shown.high.x),
        size(shown.low.y),
        size(shown.high.y),
        unit_mark(sheet.style)
    )
}

/// The number of a hole: in it where it is large enough, else at its upper right or off the end of its slot, else on a leader.
fn number(
    field: &mut Field,
    hole: &Place,
    (at, radius_mm): (Point, f64),
    frame: (Point, Point),
) -> Vec<Item> {
    let label = Label { weight: Weight::Bold, ..Label::new(hole.number.to_string(), NUMBER_MM) };
    let inside = (HOLDS_NUMBER_MM <= radius_mm && hole.off.is_none()).then_some(at);
    let slanting = Vector::at_angle(0.6);
    // The sides of a slot leave no room but off its end.
    let way = match hole.off {
        Some(off) if off.x.abs() < off.y.abs() && off.y < 0.0 => Vector::new(slanting.x, -slanting.y),
        Some(off) if off.y.abs() <= off.x.abs() && off.x < 0.0 => Vector::new(-slanting.x, slanting.y),
        _ => slanting,
    };
    let beside = at + way * (radius_mm + BESIDE_MM) + Vector::new(0.5 * label.width_mm() * way.x, 0.0);
    let mut spots = inside.into_iter().chain([beside]);
    let found = spots.find(|&centre| field.is_clear(&label.room(centre, LEVEL).grown(0.3)));
    if let Some(centre) = found {
        field.take(label.room(centre, LEVEL));
        return label.items(centre, LEVEL);
    }
    let rim = [0.785, 2.356, 5.498, 3.927].map(|turn| at + Vector::at_angle(turn) * radius_mm);
    leader::place(field, &label, &rim, frame)
}

/// Reach of the cross in the end of a slot, as a share of its radius.
const CROSS_SHARE: f64 = 0.6;

/// From the rim of a hole to its number, mm of paper.
const BESIDE_MM: f64 = 1.7;
