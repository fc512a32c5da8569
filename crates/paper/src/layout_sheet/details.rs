//! Details of crowded corners, each as large as its ring holds: reliefs, notches and mitres too small to read in the drawing, every point
//! numbered, with a table of its running dimensions.

use fold::FlatPattern;
use geometry::outline::Chords;
use geometry::{Contour, Outline, Point, Region, Vector, polygon, tolerance};
use units::{LengthStyle, LengthUnit};

use super::PartSheet;
use super::seen_in_ring::{self, Slight};
use crate::drawing::NAMES_EM;
use crate::drawing::block::Block;
use crate::drawing::label::Label;
use crate::drawing::{assemble, leader, printed, unit_words, which};
use crate::page::font::Weight;
use crate::page::{Fill, Item, Page, Pen, Shape, TextBox};
use crate::placing::Field;

/// Points nearer to one another than this, in text heights, crowd.
const CROWDED_EM: f64 = 1.4;

/// Fewest points worth a detail.
const FEWEST: usize = 3;

/// Points of a detail that come out nearer to one another than this, mm, are hard to tell apart.
const APART_MM: f64 = 1.6;

/// The smallest ring on the drawing of the whole part, in text heights.
const LEAST_RING_EM: f64 = 0.7;

/// How far the end of a leader keeps from the rings of other details, in text heights.
const TIP_CLEAR_EM: f64 = 0.4;

/// How often a crowd is parted at most.
const PARTINGS: usize = 3;

/// Height of ordinary text on the page of details, mm.
pub(super) const TEXT_MM: f64 = 3.0;

/// Radius of a detail, mm.
pub(super) const RADIUS_MM: f64 = 21.0;

/// Width of a detail with its table, mm; two stand side by side on a letter or A4 sheet.
const CELL_MM: f64 = 92.0;

/// Height of the details on one page, mm: a letter sheet less heading, foot and edges.
const ROOM_MM: f64 = 165.0;

/// How far out in its ring, as a share of its radius, a corner is seen well enough to be named.
const SEEN_SHARE: f64 = 0.92;

/// Enlargements that are used.
const ENLARGEMENTS: [f64; 15] =
    [0.25, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0];

/// A crowded corner.
pub(super) struct Detail {
    /// "detail 1".
    name: String,
    /// Every point of its own, in the flat, with its number going round the part.
    points: Vec<(usize, Point)>,
    /// Points of other details, or of none, that its ring shows.
    others: Vec<(usize, Point)>,
    /// Corners too slight to be sawn that its ring shows.
    slight: Vec<Slight>,
    /// Its middle, in the flat.
    pub(super) centre: Point,
    /// Times full size.
    pub(super) enlarged: f64,
}

impl Detail {
    /// "detail 3".
    pub(super) fn short_name(&self) -> &str {
        self.name.split(" at ").next().unwrap_or_default()
    }

    /// The numbers of its points, in rising order.
    pub(super) fn numbers(&self) -> impl Iterator<Item = usize> + '_ {
        self.points.iter().map(|(number, _)| *number)
    }

    /// Every corner that its ring shows, by name, in the order of the numbers.
    fn named(&self) -> Vec<(String, Point)> {
        let numbered = self.points.iter().chain(&self.others);
        let numbered = numbered.map(|(number, at)| ((*number, 0), number.to_string(), *at));
        let slight =
            self.slight.iter().map(|corner| ((corner.after, corner.place + 1), corner.name(), corner.at));
        let mut all: Vec<_> = numbered.chain(slight).collect();
        all.sort_by_key(|(order, ..)| *order);
        all.into_iter().map(|(_, name, at)| (name, at)).collect()
    }
}

/// The crowded corners of a part, every one with numbers of its own: no corner has another one's running dimensions.
pub(super) fn find(sheet: &PartSheet<'_>, points: &[Point], text_mm: f64) -> Vec<Detail> {
    let mut details: Vec<Detail> = Vec::new();
    let all_slight = seen_in_ring::slight(sheet.flat, points);
    for crowd in told_apart(points, text_mm) {
        let Some((centre, reach, enlarged)) = enlargement(&crowd) else { continue };
        let near = sheet.named.nearest(sheet.flat, centre, reach + CROWDED_EM * text_mm);
        let at = near.map_or_else(String::new, |name| format!(" at {name}"));
        let name = format!("detail {}{at}", details.len() + 1);
        let number = |at: Point| points.iter().position(|point| *point == at).map(|place| (place + 1, at));
        let mut numbered: Vec<(usize, Point)> = crowd.into_iter().filter_map(number).collect();
        numbered.sort_by_key(|(number, _)| *number);
        let ring = (centre, SEEN_SHARE * RADIUS_MM / enlarged, enlarged);
        let others = seen_in_ring::others(points, &numbered, ring);
        let mut shown: Vec<Point> = numbered.iter().chain(&others).map(|(_, at)| *at).collect();
        let mut slight = Vec::new();
        for corner in &all_slight {
            if corner.at.distance(centre) <= ring.1 && seen_in_ring::is_apart(&shown, corner.at, enlarged) {
                shown.push(corner.at);
                slight.push(*corner);
            }
        }
        details.push(Detail { name, points: numbered, others, slight, centre, enlarged });
    }
    details
}

/// Every point that has its numbers in the table of a detail.
pub(super) fn points(details: &[Detail]) -> Vec<Point> {
    details.iter().flat_map(|detail| detail.points.iter().map(|(_, at)| *at)).collect()
}

/// Every slight corner that a detail shows, each once, in order.
pub(super) fn slight(details: &[Detail]) -> Vec<Slight> {
    let mut all: Vec<Slight> = details.iter().flat_map(|detail| detail.slight.iter().copied()).collect();
    all.sort_by_key(|corner| (corner.after, corner.place));
    all.dedup();
    all
}

/// Crowds to enlarge. One whose points still lie on one another when it fills a ring, or that would not come out full size, is
/// parted into closer crowds.
fn told_apart(points: &[Point], text_mm: f64) -> Vec<Vec<Point>> {
    let mut told: Vec<Vec<Point>> = Vec::new();
    let mut near_mm = CROWDED_EM * text_mm;
    let mut waiting: Vec<Vec<Point>> =
        crowds(points, near_mm).into_iter().filter(|crowd| FEWEST <= crowd.len()).collect();
    for _ in 0..PARTINGS {
        near_mm *= 0.5;
        let is_told = |crowd: &Vec<Point>| {
            enlargement(crowd)
                .is_none_or(|(_, _, enlarged)| 1.0 <= enlarged && APART_MM <= enlarged * closest_mm(crowd))
        };
        let (apart, close): (Vec<_>, Vec<_>) = waiting.into_iter().partition(is_told);
        told.extend(apart);
        waiting = close
            .into_iter()
            .flat_map(|crowd| {
                let closer: Vec<_> =
                    crowds(&crowd, near_mm).into_iter().filter(|part| 1 < part.len()).collect();
                if closer.is_empty() { vec![crowd] } else { closer }
            })
            .collect();
    }
    told.extend(waiting);
    told.retain(|crowd| {
        let (low, high) = polygon::bounds(crowd);
        tolerance::SAWN_JOG_MM <= low.distance(high)
    });
    let key = |crowd: &Vec<Point>| (crowd[0].y, crowd[0].x);
    told.sort_by(|a, b| key(a).0.total_cmp(&key(b).0).then(key(a).1.total_cmp(&key(b).1)));
    told
}

/// Middle and reach of a crowd, mm, and the largest enlargement at which it stays within its ring.
fn enlargement(crowd: &[Point]) -> Option<(Point, f64, f64)> {
    let (low, high) = polygon::bounds(crowd);
    let centre = low.toward(high, 0.5);
    let reach = crowd.iter().map(|point| point.distance(centre)).fold(0.0, f64::max);
    let room = 0.65 * RADIUS_MM;
    let enlarged = ENLARGEMENTS.into_iter().rev().find(|enlarged| enlarged * reach <= room)?;
    Some((centre, reach, enlarged))
}

/// The least distance between two points of a crowd, jogs not counted, mm.
fn closest_mm(crowd: &[Point]) -> f64 {
    let pairs = crowd.iter().enumerate().flat_map(|(at, a)| crowd[at + 1..].iter().map(|b| a.distance(*b)));
    pairs.filter(|&apart| tolerance::SAWN_JOG_MM <= apart).fold(f64::INFINITY, f64::min)
}

/// Points in crowds: each no farther than `near_mm` from another one of its crowd.
fn crowds(points: &[Point], near_mm: f64) -> Vec<Vec<Point>> {
    let mut crowds: Vec<Vec<Point>> = Vec::new();
    for &point in points {
        let near = |crowd: &Vec<Point>| crowd.iter().any(|other| other.distance(point) <= near_mm);
        let (own, apart): (Vec<_>, Vec<_>) = crowds.into_iter().partition(near);
        crowds = apart;
        let mut crowd = own.concat();
        if crowd.iter().all(|known| tolerance::SCRIBED_LINE_MM < known.distance(point)) {
            crowd.push(point);
        }
        crowds.push(crowd);
    }
    for crowd in &mut crowds {
        crowd.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    }
    let key = |crowd: &Vec<Point>| (crowd[0].y, crowd[0].x);
    crowds.sort_by(|a, b| key(a).0.total_cmp(&key(b).0).then(key(a).1.total_cmp(&key(b).1)));
    crowds
}

/// Straight pieces that stand for a ring in the field.
const RING_PIECES: u32 = 16;

/// Radius of the ring round a detail on the drawing of the whole part, mm: one that is not lost in the letter beside it.
fn ring_radius_mm(detail: &Detail, text_mm: f64) -> f64 {
    (RADIUS_MM / detail.enlarged).max(LEAST_RING_EM * text_mm)
}

/// Keeps words off the rings, and out of them: a name in another detail's ring would be read as its name.
pub(super) fn occupy(field: &mut Field, details: &[Detail], text_mm: f64) {
    for detail in details {
        let radius = ring_radius_mm(detail, text_mm);
        let way = |piece: u32| {
            let turn = f64::from(piece) / f64::from(RING_PIECES);
            detail.centre + Vector::at_angle(2.0 * std::f64::consts::PI * turn) * radius
        };
        (0..RING_PIECES).for_each(|piece| field.add_line(way(piece), way(piece + 1)));
    }
}

/// On the drawing of the whole part: a ring round every detail, with its name on a leader. The leader ends well clear of the
/// other rings, where the ring has such a place.
pub(super) fn rings(
    field: &mut Field,
    details: &[Detail],
    text_mm: f64,
    bounds: (Point, Point),
) -> Vec<Item> {
    let mut items: Vec<Item> =
        details.iter().map(|detail| ring(detail.centre, ring_radius_mm(detail, text_mm))).collect();
    let mut waiting: Vec<(Label, Vec<Point>, Vec<Point>)> = Vec::new();
    for detail in details {
        let radius = ring_radius_mm(detail, text_mm);
        // Slanting ways first, then those between them.
        let eighth = std::f64::consts::FRAC_PI_4;
        let turns = [1.0, 3.0, 5.0, 7.0, 0.5, 1.5, 2.5, 3.5, 4.5, 5.5, 6.5, 7.5];
        let tips = turns.map(|turn| detail.centre + Vector::at_angle(turn * eighth) * radius);
        let is_apart = |tip: &&Point| {
            let others = details.iter().filter(|other| other.name != detail.name);
            others
                .map(|other| tip.distance(other.centre) - ring_radius_mm(other, text_mm))
                .all(|off| TIP_CLEAR_EM * text_mm <= off)
        };
        let apart: Vec<Point> = tips.iter().filter(is_apart).copied().collect();
        let all = tips.to_vec();
        let tips = if apart.is_empty() { all.clone() } else { apart };
        // The letter or station stands beside the ring already.
        let name = Label { weight: Weight::Bold, ..Label::new(detail.short_name(), NAMES_EM * text_mm) };
        waiting.push((name, tips, all));
    }
    let near = leader::in_some_order(field, &mut waiting, TRIES, |field, (name, tips, _)| {
        leader::place_within_reach(field, name, (tips, &[]))
    });
    items.extend(near.unwrap_or_else(|| {
        let lay = |(name, tips, all): &(Label, Vec<Point>, Vec<Point>)| {
            // A leader that ends beside another ring is better than one across the drawing or through words.
            let within = leader::place_within_reach(field, name, (tips, &[]));
            let any = within.or_else(|| leader::place_within_reach(field, name, (all, &[])));
            any.unwrap_or_else(|| leader::place(field, name, all, bounds))
        };
        waiting.iter().flat_map(lay).collect()
    }));
    items
}

/// How many orders of the names of details are tried.
const TRIES: usize = 8;

pub(super) fn ring(centre: Point, radius_mm: f64) -> Item {
    let contours = vec![Contour::round_hole(centre, radius_mm).reversed()];
    Item::Shape(Shape { contours, pen: Some(Pen::Dimension), fill: None })
}

/// The details, two in a row, on as many pages as leave their text at its size on a letter or A4 sheet.
pub(super) fn pages(sheet: &PartSheet<'_>, details: &[Detail]) -> Vec<Page> {
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

/// Said under every page of details.
const HOW_TO_READ: &str = "Grey is metal, white is cut away. Cut and bend lines end at the ring. The layout sheet shows where \
                           each detail lies. Points are numbered going round the part, counter-clockwise from the datum corner.";

/// Said where a page names slight corners.
const SLIGHT: &str = "A number with a letter is a corner too slight to be sawn: the straight cut between the numbers beside it \
                      passes it by less than ";

fn page(sheet: &PartSheet<'_>, drawing: Vec<Item>, which: &str, has_slight: bool) -> Page {
    let mut words = HOW_TO_READ.to_owned();
    if has_slight {
        words += &format!(" {SLIGHT}{}.", sawn_jog(sheet.style));
    }
    page_of(
        sheet,
        drawing,
        (&format!("crowded corners, each at a scale of its own{which}"), &format!("details{which}")),
        &words,
    )
}

/// A page of its own about one part: `what` it shows, in words and in short, and what stands under it.
pub(super) fn page_of(
    sheet: &PartSheet<'_>,
    drawing: Vec<Item>,
    (what, short): (&str, &str),
    words: &str,
) -> Page {
    let width_mm = 2.0 * CELL_MM;
    let mut heading = Block::new(0.0, width_mm);
    heading.title(sheet.mark, &format!("{}: {what}", sheet.title), sheet.job, TEXT_MM);
    let pairs = [
        ("numbers are".to_owned(), "running dimensions from the datum corner".to_owned()),
        ("numbers in".to_owned(), unit_words(sheet.style)),
        ("drawn with".to_owned(), sheet.face.to_owned()),
    ];
    heading.ruled_pairs(&pairs, TEXT_MM);
    let mut foot = Block::new(0.0, width_mm);
    foot.rule();
    foot.paragraph(words, Weight::Regular, TEXT_MM, "");
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
    table.paragraph(&head, Weight::Bold, TEXT_MM, "");
    let row =
        |(name, at): (String, Point)| vec![name, printed(at.x, sheet.style), printed(at.y, sheet.style)];
    let rows: Vec<Vec<String>> = detail.named().into_iter().map(row).collect();
    table.table(&["", "right", "up"], &rows, 0.95 * TEXT_MM);
    for words in too_near(sheet.flat, &detail.points, sheet.style) {
        table.paragraph(&words, Weight::Regular, 0.9 * TEXT_MM, "");
    }
    table
}

/// [`tolerance::SAWN_JOG_MM`] as the page prints lengths.
pub(super) const fn sawn_jog(style: LengthStyle) -> &'static str {
    match style.unit() {
        LengthUnit::Inch => "1/64 in",
        LengthUnit::Millimetre => "0.4 mm",
    }
}

/// Points of a detail nearer to one another than any jog that can be sawn, in words: the sides of a slit, and how it is cut as the
/// caution of it says; else one mark.
fn too_near(flat: &FlatPattern, points: &[(usize, Point)], style: LengthStyle) -> Vec<String> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for (number, (_, point)) in points.iter().enumerate() {
        let near = |group: &&mut Vec<usize>| {
            group.iter().any(|&other| points[other].1.distance(*point) < tolerance::SAWN_JOG_MM)
        };
        match groups.iter_mut().find(near) {
            Some(group) => group.push(number),
            None => groups.push(vec![number]),
        }
    }
    let words = |group: &Vec<usize>| {
        let numbers: Vec<String> = group.iter().map(|&place| points[place].0.to_string()).collect();
        let numbers = numbers.join(", ");
        let at: Vec<Point> = group.iter().map(|&place| points[place].1).collect();
        match slit_mm(flat, &at) {
            Some(width_mm) => {
                let cut = checks::slit_cut_words(width_mm, style);
                format!("{numbers}: sides of a slit {} wide; {cut}", printed(width_mm, style))
            }
            None => format!("{numbers}: less than {} apart, one mark", sawn_jog(style)),
        }
    };
    groups.iter().filter(|group| 1 < group.len()).map(words).collect()
}

/// The least distance, mm, between two of these corners of the outer edge with no metal between them.
fn slit_mm(flat: &FlatPattern, corners: &[Point]) -> Option<f64> {
    let outer = flat.outline.outer.corners(Chords::On);
    let on_edge = |at: Point| {
        polygon::edges(&outer).any(|edge| polygon::point_to_segment(at, edge) <= tolerance::SAME_POINT_MM)
    };
    let pairs =
        corners.iter().enumerate().flat_map(|(at, a)| corners[at + 1..].iter().map(move |b| (*a, *b)));
    let open = pairs.filter(|(a, b)| {
        let middle = a.toward(*b, 0.5);
        on_edge(*a) && on_edge(*b) && (on_edge(middle) || !polygon::contains(&outer, middle))
    });
    open.map(|(a, b)| a.distance(b)).min_by(f64::total_cmp)
}

/// "drawn at 5 × full size", "drawn at 1/2 full size".
fn size_words(enlarged: f64) -> String {
    match enlarged {
        whole if (whole - 1.0).abs() < f64::EPSILON => "drawn full size".to_owned(),
        half if (half - 0.5).abs() < f64::EPSILON => "drawn at 1/2 full size".to_owned(),
        quarter if (quarter - 0.25).abs() < f64::EPSILON => "drawn at 1/4 full size".to_owned(),
        times => format!("drawn at {times} × full size"),
    }
}

/// Cut edges and bend lines of the flat.
pub(super) fn lines(flat: &FlatPattern) -> Vec<(Point, Point, Pen)> {
    let contours = std::iter::once(&flat.outline.outer).chain(&flat.outline.holes);
    let mut lines: Vec<(Point, Point, Pen)> = Vec::new();
    for contour in contours {
        let corners = contour.corners(Chords::On);
        lines.extend(polygon::edges(&corners).map(|(from, to)| (from, to, Pen::CutEdge)));
    }
    lines.extend(flat.marks().map(|(bend, (from, to))| (from, to, Pen::light_bend(bend.direction))));
    lines
}

/// The stretch of a line within a circle.
fn within((from, to): (Point, Point), centre: Point, radius_mm: f64) -> Option<(Point, Point)> {
    let (along, off) = (to - from, from - centre);
    let squared = along.dot(along);
    let half = off.dot(along) / squared;
    let root = half * half - (off.dot(off) - radius_mm * radius_mm) / squared;
    if squared <= 0.0 || root <= 0.0 {
        return None;
    }
    let (first, last) = ((-half - root.sqrt()).max(0.0), (-half + root.sqrt()).min(1.0));
    (first < last).then(|| (from.toward(to, first), from.toward(to, last)))
}

/// What of the metal lies within the circle.
fn metal(flat: &FlatPattern, middle: Point, place: impl Fn(Point) -> Point) -> Option<Item> {
    let ring = Contour::round_hole(middle, RADIUS_MM).reversed();
    let circle = Outline { outer: ring, holes: Vec::new() };
    let placed = flat.outline.mapped(false, place);
    let [circle, placed] = [circle, placed].map(|outline| Region::of(&outline.to_polygon(Chords::On)));
    let metal = circle.intersection(&placed);
    let rings = metal.polygons().into_iter().flat_map(|polygon| {
        std::iter::once(polygon.outer)
            .chain(polygon.holes)
            .map(|ring| Contour::polygon(&ring))
            .collect::<Vec<_>>()
    });
    let contours: Vec<Contour> = rings.collect();
    (!contours.is_empty()).then_some(Item::Shape(Shape { contours, pen: None, fill: Some(Fill::Metal) }))
}

/// The number of every point, beside it or on a leader, inside the circle where there is room.
fn numbers(field: &mut Field, detail: &Detail, place: impl Fn(Point) -> Point) -> Vec<Item> {
    let placed: Vec<(String, Point)> =
        detail.named().into_iter().map(|(name, at)| (name, place(at))).collect();
    beside_points(field, &placed)
}

/// Lays the number of every point beside it, or on a leader.
pub(super) fn beside_points(field: &mut Field, points: &[(String, Point)]) -> Vec<Item> {
    let mut items = Vec::new();
    let level = Vector::new(1.0, 0.0);
    for (name, at) in points {
        let at = *at;
        let label = Label { weight: Weight::Bold, ..Label::new(name.as_str(), 0.8 * TEXT_MM) };
        let ways = [0.8, 1.1, 1.5, 2.0, 2.6].into_iter().flat_map(|em: f64| {
            (0..12_u32).map(move |k| Vector::at_angle(f64::from(k) * std::f64::consts::PI / 6.0 + 0.26) * em)
        });
        let spots = ways.map(|way| at + way * label.size_mm);
        let room = |centre: Point| -> TextBox { label.room(centre, level).grown(0.08 * label.size_mm) };
        let found = spots.into_iter().find(|&centre| {
            field.is_clear(&room(centre))
                && field.crossings((at.toward(centre, 0.3), centre)) == Some(0)
                && field.leaders_crossed((at.toward(centre, 0.3), centre), name) == [0, 0]
        });
        match found {
            Some(centre) => {
                field.take(label.room(centre, level));
                items.extend(label.items(centre, level));
            }
            None => items.extend(leader::place(field, &label, &[at], (at, at))),
        }
    }
    items
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_cut_to_the_circle() {
        let point = Point::new;
        let cut = within((point(-9.0, 3.0), point(9.0, 3.0)), point(0.0, 0.0), 5.0).unwrap();
        assert!(cut.0.distance(point(-4.0, 3.0)) < 1e-9 && cut.1.distance(point(4.0, 3.0)) < 1e-9);
        assert_eq!(within((point(-9.0, 6.0), point(9.0, 6.0)), point(0.0, 0.0), 5.0), None);
        let inside = (point(-1.0, 0.0), point(1.0, 0.5));
        assert_eq!(within(inside, point(0.0, 0.0), 5.0), Some(inside));
    }

    #[test]
    fn every_crowd_stands_for_itself() {
        let crowd = [(0.0, 0.0), (3.0, 0.0), (3.0, 2.0), (0.5, 4.0)].map(|(x, y)| Point::new(x, y));
        let mirrored = crowd.map(|p| Point::new(70.0 - p.y, p.x));
        assert_eq!(crowds(&[crowd.as_slice(), &mirrored].concat(), 4.5).len(), 2);
        assert_eq!(told_apart(&[crowd.as_slice(), &mirrored].concat(), 3.2).len(), 2);
    }

    #[test]
    fn a_jog_too_small_to_saw_is_no_detail_of_its_own() {
        // Four corners .2 mm apart, and a true notch far from them.
        let points = [
            (0.0, 0.0),
            (0.2, 0.0),
            (0.0, 0.2),
            (0.2, 0.2),
            (90.0, 0.0),
            (92.0, 0.0),
            (92.0, 2.0),
            (90.0, 2.0),
        ];
        let points = points.map(|(x, y)| Point::new(x, y));
        let told = told_apart(&points, 3.0);
        assert_eq!(told.len(), 1, "{told:?}");
        assert!(told[0].iter().all(|point| 50.0 < point.x));
    }

    #[test]
    fn sizes_of_details_in_words() {
        assert_eq!(
            [0.25, 0.5, 1.0, 2.5].map(size_words),
            [
                "drawn at 1/4 full size",
                "drawn at 1/2 full size",
                "drawn full size",
                "drawn at 2.5 × full size"
            ]
        );
    }
}
