//! The table of a whole outline: every point by number going round, for parts with more corners than running dimensions
//! can hold clearly. The layout sheet then keeps bend lines, lone corners and the size in its rows.

use fold::FlatPattern;
use fold::flat::BendLine;
use geometry::{Point, Segment, Vector, polygon, tolerance};
use units::LengthStyle;

use super::PartSheet;
use super::details::{self, CROSS_MM, Detail, RADIUS_MM, TEXT_MM};
use super::points::{arc_centres, centre_of};
use crate::drawing::block::{Block, Column};
use crate::drawing::label::Label;
use crate::drawing::{bend_words, leader, printed, symbols, which};
use crate::page::font::Weight;
use crate::page::{Fill, Item, Page, Shape};
use crate::placing::Field;

/// The rule by which a part goes by its table, mm (1/32 in): corners of its details that lie this near to one another along
/// a row would have to share a number, or have numbers that nobody can tell apart.
const TOO_NEAR_MM: f64 = 25.4 / 32.0;

/// Width and height of the numbered drawing at the most, mm.
const DRAWING_MM: (f64, f64) = (184.0, 105.0);

/// Columns of the table side by side: numbers of a tape are long.
const fn columns_of(style: LengthStyle) -> u8 {
    match style {
        LengthStyle::Tape { .. } => 2,
        LengthStyle::Inches { .. } | LengthStyle::Millimetres { .. } => 3,
    }
}

/// Height of what stands between heading and foot of one page, mm.
const ROOM_MM: f64 = 232.0;

/// Height of the type in the table, mm, and of one of its lines.
const TYPE_MM: f64 = 0.95 * TEXT_MM;
const LINE_MM: f64 = 1.35 * TYPE_MM;

/// The smallest ring, in text heights.
const LEAST_RING_EM: f64 = 0.7;

/// Whether a part with these details has more corners than its rows can show clearly: see [`TOO_NEAR_MM`].
pub(super) fn is_needed(details: &[Detail]) -> bool {
    let ways: [fn(Point) -> f64; 2] = [|point| point.x, |point| point.y];
    ways.into_iter().any(|way| {
        let mut along: Vec<f64> = details::points(details).into_iter().map(way).collect();
        along.sort_by(f64::total_cmp);
        along.windows(2).any(|pair| {
            let apart = pair[1] - pair[0];
            tolerance::SCRIBED_LINE_MM < apart && apart <= TOO_NEAR_MM
        })
    })
}

/// What the rows along x and along y still show where the table has the rest: points of no detail, bend lines that run along
/// or across, and the size.
pub(super) fn left_in_rows(flat: &FlatPattern, points: &[Point], details: &[Detail]) -> [Vec<Point>; 2] {
    let tabled = details::points(details);
    let lone: Vec<Point> = points.iter().filter(|point| !tabled.contains(point)).copied().collect();
    let straight = |way: fn(Point) -> f64| {
        let lines = flat.marks().map(|(_, ends)| ends);
        let lines =
            lines.filter(move |(from, to)| (way(*from) - way(*to)).abs() <= tolerance::SCRIBED_LINE_MM);
        lines.map(|(from, to)| if from.x + from.y <= to.x + to.y { from } else { to })
    };
    let along_x = straight(|point| point.x).chain(lone.iter().copied()).collect();
    let along_y = straight(|point| point.y).chain(lone.iter().copied()).collect();
    [along_x, along_y]
}

/// The numbered drawing and the table, on as many pages as it takes.
pub(super) fn pages(sheet: &PartSheet<'_>, points: &[Point], details: &[Detail]) -> Vec<Page> {
    let (drawing, foot_mm) = drawing(sheet, points, details);
    let tables = tables(sheet, (points, details));
    let rows = point_rows(sheet, points, details);
    let lines = |count: usize| (0..count).map(|_| LINE_MM).sum::<f64>();
    let table_mm = |rows: &[Vec<String>]| if rows.is_empty() { 0.0 } else { lines(rows.len() + 3) };
    let bends_mm: f64 = tables.iter().map(|(_, rows)| table_mm(rows)).sum();
    let side_by_side = usize::from(columns_of(sheet.style));
    // As many rows as the columns hold in a height.
    let holds = |height_mm: f64| {
        let each = (1..=rows.len()).take_while(|&each| lines(each + 2) <= height_mm).count();
        side_by_side * each.max(1)
    };
    let (first, rest) = rows.split_at(holds(ROOM_MM + foot_mm - bends_mm).min(rows.len()));
    let per_page = holds(ROOM_MM - bends_mm);
    let mut parts: Vec<&[Vec<String>]> = vec![first];
    parts.extend(rest.chunks(per_page));
    let count = parts.len();
    let words = words(sheet, !details::slight(details).is_empty());
    let page = |(place, rows): (usize, &[Vec<String>])| {
        let (mut items, head_mm) =
            if place == 0 { (drawing.clone(), foot_mm - TEXT_MM) } else { (Vec::new(), 0.0) };
        let (table, low_mm) = columns((rows, columns_of(sheet.style)), head_mm);
        items.extend(table);
        if place + 1 == count {
            let mut head_mm = low_mm - LINE_MM;
            for (headings, rows) in tables.iter().filter(|(_, rows)| !rows.is_empty()) {
                let mut block = Block::new(0.0, DRAWING_MM.0);
                block.foot_mm = head_mm;
                block.table(headings, rows, TYPE_MM);
                head_mm = block.foot_mm - LINE_MM;
                items.push(Item::group(headings[0].0, block.items));
            }
        }
        let which = which("page", place + 1, count);
        details::page_of(sheet, items, (&format!("every point by number{which}"), "points"), &words)
    };
    parts.into_iter().enumerate().map(page).collect()
}

/// The bend lines and the long slanted edges by their points, each under its heads.
pub(super) fn tables(
    sheet: &PartSheet<'_>,
    places: (&[Point], &[Detail]),
) -> [(&'static [Column<'static>], Vec<Vec<String>>); 2] {
    [(&BENDS, bend_rows(sheet.flat, places, sheet)), (&SLANTED, slanted_rows(sheet.flat, places, sheet))]
}

/// Said under the table.
fn words(sheet: &PartSheet<'_>, has_slight: bool) -> String {
    let jog = details::sawn_jog(sheet.style);
    let centres = if arc_centres(sheet.flat).is_empty() {
        ""
    } else {
        " A centre, drawn with a cross, is no corner and is not joined to anything: set a compass there to the radius of the arc."
    };
    let slight = if has_slight { format!(" {}", details::slight_words(sheet.style)) } else { String::new() };
    format!(
        "Points are numbered going round the part, counter-clockwise from the datum corner; openings follow. All numbers are \
         measured from the two datum edges, none from its neighbour. Two corners less than {jog} apart are one. Mark all \
         points, join the corners as drawn, then the bend lines from point to point.{centres}{slight}"
    )
}

/// The flat with the number of every lone point, and a ring with its numbers for every detail; also the foot of it all, mm.
fn drawing(sheet: &PartSheet<'_>, points: &[Point], details: &[Detail]) -> (Vec<Item>, f64) {
    let (width, height) = sheet.flat.extents_mm();
    let margin = 5.0 * TEXT_MM;
    let (wide, high) = (DRAWING_MM.0 - 6.0 * margin, DRAWING_MM.1 - 2.0 * margin);
    let scale = (wide / width).min(high / height);
    let left = 0.5 * (DRAWING_MM.0 - scale * width);
    let place = |point: Point| Point::new(left + scale * point.x, -margin - scale * (height - point.y));
    let mut field = Field::default();
    let mut items = vec![metal_shape(sheet.flat, place)];
    for (from, to, pen) in details::lines(sheet.flat) {
        let (from, to) = (place(from), place(to));
        field.add_line(from, to);
        items.push(Item::line(from, to, pen));
    }
    // Those in a ring are drawn in its detail.
    let tabled = details::points(details);
    for (centre, _) in arc_centres(sheet.flat).into_iter().filter(|(centre, _)| !tabled.contains(centre)) {
        for [from, to] in symbols::cross_lines(place(centre), CROSS_MM) {
            field.add_line(from, to);
        }
        items.extend(symbols::centre_cross(place(centre), CROSS_MM));
    }
    let bounds = (place(Point::default()), place(Point::new(width, height)));
    let rings: Vec<(Point, f64)> = details
        .iter()
        .map(|detail| {
            (place(detail.centre), (scale * RADIUS_MM / detail.enlarged).max(LEAST_RING_EM * TEXT_MM))
        })
        .collect();
    for &(centre, radius) in &rings {
        items.push(details::ring(centre, radius));
        let rim: Vec<Point> = around(centre, radius).collect();
        polygon::edges(&rim).for_each(|(from, to)| field.add_line(from, to));
    }
    let lone = (1_usize..).zip(points).filter(|(_, point)| !tabled.contains(point));
    let lone: Vec<(String, Point)> =
        lone.map(|(number, point)| (number.to_string(), place(*point))).collect();
    items.extend(details::beside_points(&mut field, &lone, details::POINT_MM));
    for (detail, &(centre, radius)) in details.iter().zip(&rings) {
        let words = format!("{}: {}", detail.short_name(), spans(detail.numbers()));
        let label = Label { weight: Weight::Bold, ..Label::new(words, 0.85 * TEXT_MM) };
        let tips: Vec<Point> = around(centre, radius).collect();
        items.extend(leader::place(&mut field, &label, &tips, bounds));
    }
    let low = crate::page::bounds(&items).map_or(0.0, |(low, _)| low.y);
    (vec![Item::group(format!("{} numbered", sheet.mark), items)], low)
}

/// Places round a ring, slanting ones only.
fn around(centre: Point, radius_mm: f64) -> impl Iterator<Item = Point> {
    (0..12_u32).map(move |k| {
        centre + Vector::at_angle((f64::from(k) + 0.5) * std::f64::consts::PI / 6.0) * radius_mm
    })
}

fn metal_shape(flat: &FlatPattern, place: impl Fn(Point) -> Point) -> Item {
    let placed = flat.outline.mapped(false, place);
    let contours = std::iter::once(placed.outer).chain(placed.holes).collect();
    Item::Shape(Shape { contours, pen: None, fill: Some(Fill::Metal) })
}

/// "4–9, 12": numbers in rising order.
fn spans(numbers: impl Iterator<Item = usize>) -> String {
    let mut spans: Vec<(usize, usize)> = Vec::new();
    for number in numbers {
        match spans.last_mut() {
            Some((_, last)) if *last + 1 == number => *last = number,
            _ => spans.push((number, number)),
        }
    }
    let words = spans.into_iter().map(|(first, last)| match last - first {
        0 => first.to_string(),
        1 => format!("{first}, {last}"),
        _ => format!("{first}–{last}"),
    });
    words.collect::<Vec<_>>().join(", ")
}

/// What a point is beside a corner: the end of a bend line, the centre of an arc.
pub(super) fn what_is_at(sheet: &PartSheet<'_>, at: Point) -> Vec<String> {
    let mut ends = sheet.flat.marks().flat_map(|(_, (from, to))| [from, to]);
    let is_end = ends.any(|end| end.distance(at) < tolerance::SAWN_JOG_MM);
    let centre = centre_of(sheet.flat, at, sheet.style).map(|of| format!("centre of {of}"));
    is_end.then(|| "bend".to_owned()).into_iter().chain(centre).collect()
}

/// Number, from the left datum edge, from the lower one, and whether a bend line ends there or what it is the centre of.
///
/// Corners too slight to be sawn follow the point that they are named after, where a detail shows them.
fn point_rows(sheet: &PartSheet<'_>, points: &[Point], details: &[Detail]) -> Vec<Vec<String>> {
    let row = |(number, at): (usize, &Point)| {
        let what = what_is_at(sheet, *at).join(", ");
        vec![number.to_string(), printed(at.x, sheet.style), printed(at.y, sheet.style), what]
    };
    let slight = details::slight(details);
    let behind = |number: usize| {
        let own = slight.iter().filter(move |corner| corner.after == number);
        own.map(|corner| {
            let [right, up] = [corner.at.x, corner.at.y].map(|mm| printed(mm, sheet.style));
            vec![corner.name(), right, up, "slight".to_owned()]
        })
    };
    (1..).zip(points).flat_map(|at| std::iter::once(row(at)).chain(behind(at.0))).collect()
}

/// The rows in columns side by side from `head_mm` down; also the foot of the longest.
fn columns((rows, count): (&[Vec<String>], u8), head_mm: f64) -> (Vec<Item>, f64) {
    let each = rows.len().div_ceil(usize::from(count)).max(1);
    let width_mm = DRAWING_MM.0 / f64::from(count);
    let mut items = Vec::new();
    let (mut low_mm, mut left_mm) = (head_mm, 0.0);
    for chunk in rows.chunks(each) {
        let mut block = Block::new(left_mm, width_mm - 2.0 * TEXT_MM);
        block.foot_mm = head_mm;
        block.table(&POINTS, chunk, TYPE_MM);
        low_mm = low_mm.min(block.foot_mm);
        items.extend(block.items);
        left_mm += width_mm;
    }
    (vec![Item::group("points", items)], low_mm)
}

/// Where a place on the drawn figure comes from.
pub(crate) const FROM_DATUM: &str =
    "measured on the flat from its two datum edges; each is rounded once, never from its neighbour";

/// Over the table of points.
const POINTS: [Column<'static>; 4] = [
    ("point", ""),
    ("from left", FROM_DATUM),
    ("from bottom", FROM_DATUM),
    (
        "",
        "what stands there: the end of a bend line, a slight corner, or an arc with its radius or diameter, as the flat has it",
    ),
];

/// Over the table of bend lines, and over that of slanted edges.
const BENDS: [Column<'static>; 5] = [
    ("bend line", "turn: how far one face is swung out of the other, as the part's shape asks for it"),
    ("between", ""),
    ("points", FROM_DATUM),
    ("long", BEND_LONG),
    ("to edge or next line", BEND_REACH),
];
const SLANTED: [Column<'static>; 3] = [("slanted edge of", ""), ("points", FROM_DATUM), ("long", EDGE_LONG)];

const BEND_LONG: &str = "√(Δx² + Δy²) between the two points where the bend line meets the cut edges of the flat, before they are rounded";
const BEND_REACH: &str = "square to the bend line on the flat, to the farthest corner of the face beyond it or to the next bend line along it; bend deductions are in it";
const EDGE_LONG: &str = "√(Δx² + Δy²) between the two points of the edge, before they are rounded";

/// Where the numbers of the pages of points come from, for the appendix.
pub(crate) const ORIGINS: [Column<'static>; 4] = [
    ("points by number, from left and from bottom", FROM_DATUM),
    ("bend line, long", BEND_LONG),
    ("bend line, to edge or next line", BEND_REACH),
    ("slanted edge, long", EDGE_LONG),
];

/// The number of the point at a place, that of the slight corner there, or its running dimensions.
fn named(at: Point, (points, details): (&[Point], &[Detail]), style: LengthStyle) -> String {
    let numbered = (1_usize..).zip(points).map(|(number, point)| (number.to_string(), *point));
    let slight = details::slight(details).into_iter().map(|corner| (corner.name(), corner.at));
    let near = |places: &mut dyn Iterator<Item = (String, Point)>| {
        let close = places.filter(|(_, place)| place.distance(at) < tolerance::SAWN_JOG_MM);
        close.min_by(|a, b| a.1.distance(at).total_cmp(&b.1.distance(at))).map(|(name, _)| name)
    };
    match near(&mut numbered.into_iter()).or_else(|| near(&mut slight.into_iter())) {
        Some(name) => name,
        None => format!("{} right, {} up", printed(at.x, style), printed(at.y, style)),
    }
}

/// The way of every bend, the faces it joins, the points its line runs between, how long it is, and how far the metal beyond
/// reaches from it in the flat: what a tape proves of it before the saw.
fn bend_rows(flat: &FlatPattern, places: (&[Point], &[Detail]), sheet: &PartSheet<'_>) -> Vec<Vec<String>> {
    let rows = flat.marks().map(|(bend, (from, to))| {
        let names = [bend.parent, bend.child].map(|face| flat.faces[face].name.as_str()).join(" to ");
        vec![
            bend_words(bend.direction, bend.turn_rad),
            names,
            format!("from {} to {}", named(from, places, sheet.style), named(to, places, sheet.style)),
            printed(from.distance(to), sheet.style),
            printed(reach_mm(flat, bend, from), sheet.style),
        ]
    });
    rows.collect()
}

/// How far the face beyond a bend reaches from its line in the flat, mm: to the next bend line along it, else to its edge.
fn reach_mm(flat: &FlatPattern, bend: &BendLine, from: Point) -> f64 {
    let across = bend.across();
    let off = |at: Point| (at - from).dot(across);
    let beyond = flat.bends.iter().filter(|next| next.parent == bend.child);
    let along = beyond.filter(|next| next.across().cross(across).abs() <= tolerance::SAME_HEADING_SINE);
    let next = along.map(|next| off(next.from)).filter(|off| 0.0 < *off).min_by(f64::total_cmp);
    let edge = flat.faces[bend.child].corners.iter().map(|corner| off(*corner));
    next.unwrap_or_else(|| edge.fold(0.0, f64::max))
}

/// A slanted edge shorter than this share of the part's size is told by its points alone.
const LONG_SHARE: f64 = 0.15;

/// Long cut edges that run along neither datum edge, by their points: running dimensions do not show how long they are.
fn slanted_rows(
    flat: &FlatPattern,
    (points, details): (&[Point], &[Detail]),
    sheet: &PartSheet<'_>,
) -> Vec<Vec<String>> {
    let (width, height) = flat.extents_mm();
    let is_slanted = |run: Vector| {
        LONG_SHARE * width.max(height) <= run.length()
            && tolerance::SAWN_JOG_MM < run.x.abs().min(run.y.abs())
    };
    let mut rows = Vec::new();
    for (from, piece) in flat.outline.outer.pieces() {
        let Segment::Line { to } = piece else { continue };
        if !is_slanted(to - from) {
            continue;
        }
        // Where a corner beside it is left out, the edge runs on to the point that stands for both.
        let ends = [from, to].map(|end| {
            let near = points.iter().filter(|point| point.distance(end) < tolerance::SAWN_JOG_MM);
            near.min_by(|a, b| a.distance(end).total_cmp(&b.distance(end))).copied().unwrap_or(end)
        });
        let middle = from.toward(to, 0.5);
        let off = |corners: &[Point]| {
            let edges = polygon::edges(corners).map(|edge| polygon::point_to_segment(middle, edge));
            edges.fold(f64::INFINITY, f64::min)
        };
        let face = flat.faces.iter().min_by(|a, b| off(&a.corners).total_cmp(&off(&b.corners)));
        let [first, last] = ends.map(|end| named(end, (points, details), sheet.style));
        rows.push(vec![
            face.map_or_else(String::new, |face| face.name.clone()),
            format!("from {first} to {last}"),
            printed(ends[0].distance(ends[1]), sheet.style),
        ]);
    }
    rows
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_in_spans() {
        assert_eq!(spans([1, 2, 3, 7, 8, 11].into_iter()), "1–3, 7, 8, 11");
        assert_eq!(spans([4].into_iter()), "4");
    }
}
