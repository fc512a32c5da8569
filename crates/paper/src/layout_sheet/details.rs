//! Details of crowded corners, each as large as its ring holds: reliefs, notches and mitres too small to read in the drawing, every point
//! numbered, with a table of its running dimensions.

mod near;
mod pages;

use fold::FlatPattern;
use geometry::outline::Chords;
use geometry::{Contour, Outline, Point, Region, Vector, polygon, tolerance};

use super::PartSheet;
use super::seen_in_ring::{self, Slight};
use crate::drawing::NAMES_EM;
use crate::drawing::label::Label;
use crate::drawing::leader;
use crate::page::font::Weight;
use crate::page::{Fill, Item, Pen, Shape, TextBox};
use crate::placing::Field;

pub(super) use near::sawn_jog;
pub(crate) use pages::ORIGINS;
pub(super) use pages::{page_of, pages, slight_words};

/// Points nearer to one another than this, in text heights, crowd.
const CROWDED_EM: f64 = 1.4;

/// Fewest points worth a detail; two of them are where nobody sees at this distance, in text heights, which number along goes with
/// which number up.
const FEWEST: usize = 3;
const PAIR_EM: f64 = 0.5;

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

/// Height of the number of a point, mm.
pub(super) const POINT_MM: f64 = 0.8 * TEXT_MM;

/// Radius of a detail, mm.
pub(super) const RADIUS_MM: f64 = 21.0;

/// Reach of the cross at the centre of an arc, mm of paper.
pub(super) const CROSS_MM: f64 = 1.2;

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
    let is_blind_pair = |crowd: &Vec<Point>| match crowd[..] {
        [a, b] => {
            let is_off = |apart_mm: f64| tolerance::SAWN_JOG_MM <= apart_mm.abs();
            is_off(a.x - b.x) && is_off(a.y - b.y) && a.distance(b) <= PAIR_EM * text_mm
        }
        _ => false,
    };
    let is_crowd = |crowd: &Vec<Point>| FEWEST <= crowd.len() || is_blind_pair(crowd);
    let mut waiting: Vec<Vec<Point>> = crowds(points, near_mm).into_iter().filter(is_crowd).collect();
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
        let pieces = ring_pieces(detail.centre, ring_radius_mm(detail, text_mm));
        pieces.for_each(|(from, to)| field.add_line(from, to));
    }
}

fn ring_pieces(centre: Point, radius_mm: f64) -> impl Iterator<Item = (Point, Point)> {
    let way = move |piece: u32| {
        let turn = f64::from(piece) / f64::from(RING_PIECES);
        centre + Vector::at_angle(2.0 * std::f64::consts::PI * turn) * radius_mm
    };
    (0..RING_PIECES).map(move |piece| (way(piece), way(piece + 1)))
}

/// The name of a detail that is not laid yet.
struct Waiting {
    name: Label,
    /// Where its leader may end, clear of other rings.
    tips: Vec<Point>,
    /// Where it may end at all.
    all: Vec<Point>,
    /// The other rings, which no leader should cross: it would seem to be theirs.
    barred: Vec<(Point, Point)>,
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
    let mut waiting: Vec<Waiting> = Vec::new();
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
        let others = details.iter().filter(|other| other.name != detail.name);
        let barred =
            others.flat_map(|other| ring_pieces(other.centre, ring_radius_mm(other, text_mm))).collect();
        waiting.push(Waiting { name, tips, all, barred });
    }
    let near =
        leader::in_some_order(field, &mut waiting, TRIES, |field, Waiting { name, tips, barred, .. }| {
            leader::place_within_reach(field, name, (tips, barred))
        });
    items.extend(near.unwrap_or_else(|| {
        let lay = |Waiting { name, tips, all, barred }: &Waiting| {
            // A leader that ends beside another ring is better than one across the drawing or through words.
            let within = leader::place_within_reach(field, name, (tips, barred));
            let within = within.or_else(|| leader::place_within_reach(field, name, (tips, &[])));
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
    beside_points(field, &placed, POINT_MM)
}

/// Lays the number of every point, so high, beside it, or on a leader.
pub(super) fn beside_points(field: &mut Field, points: &[(String, Point)], size_mm: f64) -> Vec<Item> {
    let mut items = Vec::new();
    let level = Vector::new(1.0, 0.0);
    for (name, at) in points {
        let at = *at;
        let label = Label { weight: Weight::Bold, ..Label::new(name.as_str(), size_mm) };
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
}
