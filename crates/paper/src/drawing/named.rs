//! What a drawing names on a flat beside its faces: corners by letter, edges by what lies there, stations.

use fold::FlatPattern;
use geometry::outline::Chords;
use geometry::{Point, Vector, polygon, tolerance};

use super::label::{self, Label};
use super::{NAMES_EM, leader, letters};
use crate::page::font::Weight;
use crate::page::{Item, TextBox};
use crate::placing::Field;

/// Where numbers in the names of edges come from.
const EDGE_FROM: &str =
    "which piece or joint it is, counted from the start, and the gap there as the job asks for it";

/// Shares of an edge at which a leader to it may end, best first.
pub(crate) const TIP_SHARES: [f64; 5] = [0.5, 0.35, 0.65, 0.2, 0.8];

/// The same toward the ends of an edge, where words stand all along it.
const END_SHARES: [f64; 6] = [0.1, 0.9, 0.05, 0.95, 0.02, 0.98];

/// More letters than these on one picture are a thicket.
const MOST_LETTERS: usize = 40;

/// Names of places in a flat.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Named {
    /// Letters of corners; where there are none, corners take the letters that the names of their faces share.
    pub corners: Vec<(String, Point)>,
    /// Words for edges, from end to end.
    pub edges: Vec<(String, [Point; 2])>,
    /// Points that are scribed: stations along an edge, corners of what is laid on the part.
    pub stations: Vec<(String, Point)>,
    /// Points at which a size was given, on an edge that a bend makes: they are named, but nothing is scribed there.
    pub on_bends: Vec<(String, Point)>,
    /// Lines right across the part that are scribed, from end to end: frames.
    pub lines: Vec<(String, [Point; 2])>,
}

impl Named {
    /// The letter of every corner of the root that has one.
    #[must_use]
    pub fn all_letters(&self, flat: &FlatPattern) -> Vec<(String, Point)> {
        if self.corners.is_empty() { letters::of_corners(flat) } else { self.corners.clone() }
    }

    /// The letters that a picture of the folded part shows: all, or of very many corners those that the names of faces speak of.
    #[must_use]
    pub fn letters(&self, flat: &FlatPattern) -> Vec<(String, Point)> {
        let mut all = self.all_letters(flat);
        if MOST_LETTERS < all.len() {
            let ends = flat.faces.iter().filter_map(|face| face.name.rsplit(' ').next());
            let ends: Vec<&str> = ends.collect();
            all.retain(|(letter, _)| {
                ends.iter()
                    .any(|sides| sides.starts_with(letter.as_str()) || sides.ends_with(letter.as_str()))
            });
        }
        all
    }

    /// The letter of the corner, or the station, that lies nearest to `at` and within `reach_mm`.
    pub(crate) fn nearest(&self, flat: &FlatPattern, at: Point, reach_mm: f64) -> Option<String> {
        let near = |places: &[(String, Point)]| {
            let close = places.iter().filter(|(_, place)| place.distance(at) <= reach_mm);
            close.min_by(|a, b| a.1.distance(at).total_cmp(&b.1.distance(at))).map(|(name, _)| name.clone())
        };
        near(&self.all_letters(flat)).or_else(|| near(&self.stations)).or_else(|| near(&self.on_bends))
    }

    /// What has running dimensions besides the points of the outline: along x, and along y. A station that is one of `points`
    /// has its numbers already.
    pub(crate) fn rows(&self, points: &[Point]) -> [Vec<Point>; 2] {
        let is_new = |at: &Point| points.iter().all(|point| tolerance::SAWN_JOG_MM <= point.distance(*at));
        let stations: Vec<Point> = self.stations.iter().map(|(_, at)| *at).filter(is_new).collect();
        let mut rows = [stations.clone(), stations];
        for (_, [from, to]) in &self.lines {
            let run = *to - *from;
            let is_along = |part: f64| part.abs() <= tolerance::SCRIBED_LINE_MM;
            // A line square to a datum edge has one number, its extension line running the whole length of it.
            if !is_along(run.y) {
                rows[0].extend(if is_along(run.x) { vec![highest(*from, *to)] } else { vec![*from, *to] });
            }
            if !is_along(run.x) {
                rows[1].extend(if is_along(run.y) { vec![rightmost(*from, *to)] } else { vec![*from, *to] });
            }
        }
        rows
    }

    /// Words along edges, beside them on the metal or on a leader.
    pub(crate) fn edge_words(
        &self,
        field: &mut Field,
        (flat, middle): (&FlatPattern, Point),
        text_mm: f64,
        bounds: (Point, Point),
    ) -> Vec<Item> {
        let outer = flat.outline.outer.corners(Chords::On);
        let bends: Vec<(Point, Point)> = flat.marks().map(|(_, ends)| ends).collect();
        let mut items = Vec::new();
        for (words, [from, to]) in &self.edges {
            let label = Label::new(words.as_str(), NAMES_EM * text_mm).from(EDGE_FROM);
            let label = Label { weight: Weight::Bold, ..label };
            let along = label::reading(*to - *from);
            let inward = |centre: Point| {
                0.0 < (middle - *from).cross(*to - *from) * (centre - *from).cross(*to - *from)
            };
            let beside = EDGE_CLEAR_EM.into_iter().find_map(|clear| {
                let suits = |field: &Field, centre: Point| {
                    let room = label.room(centre, along).grown(clear * label.size_mm);
                    let is_off_bends = bends.iter().all(|&line| !room.meets(line));
                    inward(centre) && field.hairlines_through(&room) == 0 && is_off_bends
                };
                label::lay_beside(field, &label, (*from, *to), suits)
            });
            items.extend(beside.unwrap_or_else(|| {
                let tips = |shares: &[f64]| -> Vec<Point> {
                    let at = |share: &f64| beyond(&outer, from.toward(*to, *share), (*from, *to), middle);
                    shares.iter().map(at).collect()
                };
                let clear = leader::place_clear_of(field, &label, (&tips(&TIP_SHARES), &[]), bounds);
                let clear = clear
                    .or_else(|| leader::place_clear_of(field, &label, (&tips(&END_SHARES), &[]), bounds));
                clear.unwrap_or_else(|| leader::place(field, &label, &tips(&TIP_SHARES), bounds))
            }));
        }
        items
    }
}

/// Where one meets the edge of the flat going out from a place on an edge of its root: what bends off there is that edge, and its
/// words must not lead to the bend line.
fn beyond(outer: &[Point], at: Point, (from, to): (Point, Point), middle: Point) -> Point {
    let across = (to - from).unit().left();
    let outward = if 0.0 < (at - middle).dot(across) { across } else { -across };
    let meets = |(a, b): (Point, Point)| {
        let run = b - a;
        let slope = outward.cross(run);
        if slope.abs() <= tolerance::PARALLEL_SINE * run.length() {
            return None;
        }
        let (off, share) = ((a - at).cross(run) / slope, (a - at).cross(outward) / slope);
        (-tolerance::SCRIBED_LINE_MM <= off && (0.0..=1.0).contains(&share)).then_some(off)
    };
    let nearest = polygon::edges(outer).filter_map(meets).min_by(f64::total_cmp);
    nearest.map_or(at, |off| at + outward * off)
}

/// What a word along an edge keeps off bend lines, in text heights: nearer to one it would seem to lie on it, yet a leader across the
/// part is worse.
const EDGE_CLEAR_EM: [f64; 2] = [0.4, 0.15];

fn highest(a: Point, b: Point) -> Point {
    if a.y < b.y { b } else { a }
}

fn rightmost(a: Point, b: Point) -> Point {
    if a.x < b.x { b } else { a }
}

/// How far the nearest side of a letter may stand from its corner, in text heights; beyond that it has a leader.
const BESIDE_EM: [f64; 5] = [0.25, 0.45, 0.7, 1.0, 1.3];

/// Turns away from the way inward that are tried, degrees.
const TURNS_DEGREES: [f64; 7] = [0.0, 25.0, -25.0, 50.0, -50.0, 75.0, -75.0];

/// Lays a letter at its corner: beside it toward `middle` where `holds` says that there is room and nothing lies there, or
/// on a leader that ends in the corner.
pub(crate) fn at_corner(
    field: &mut Field,
    label: &Label,
    at: (Point, Point),
    holds: impl Fn(&TextBox) -> bool,
    bounds: (Point, Point),
) -> Vec<Item> {
    let beside = beside_corner(field, label, at, holds);
    beside.unwrap_or_else(|| leader::place(field, label, &[at.0], bounds))
}

/// The same, beside it alone; `None` where there is no room.
pub(crate) fn beside_corner(
    field: &mut Field,
    label: &Label,
    (corner, middle): (Point, Point),
    holds: impl Fn(&TextBox) -> bool,
) -> Option<Vec<Item>> {
    let level = Vector::new(1.0, 0.0);
    let inward = (middle - corner).unit().angle();
    let spots = BESIDE_EM.iter().flat_map(|em| {
        TURNS_DEGREES.map(|turn| {
            let way = Vector::at_angle(inward + turn.to_radians());
            let off = em * label.size_mm;
            let reach =
                Vector::new(way.x * (off + 0.5 * label.width_mm()), way.y * (off + 0.5 * label.height_mm()));
            corner + reach
        })
    });
    // An extension line stops at a word: better that than a leader across the part.
    for over_hairlines in [false, true] {
        for centre in spots.clone() {
            let room = label.room(centre, level).grown(0.1 * label.size_mm);
            let is_clear = field.is_clear(&room) && (over_hairlines || field.hairlines_through(&room) == 0);
            if holds(&room) && is_clear {
                field.take(label.room(centre, level));
                return Some(label.items(centre, level));
            }
        }
    }
    None
}
