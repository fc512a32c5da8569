//! Places by number, for parts with more of them than running dimensions hold clearly: every hole, or every corner and hole, has a
//! number beside it on a drawing large enough for it, and its running dimensions in a table. The layout sheet keeps the outer
//! edge in its rows where it can.

mod corners;
mod pages;
mod stretches;

use fold::FlatPattern;
use geometry::{Contour, Outline, Point, Vector, tolerance};
use units::LengthStyle;

use super::PartSheet;
use super::points::{self, full_circle, slot};
use crate::drawing::printed;
use crate::drawing::running::{CROWDED, PITCH_EM};

pub(crate) use pages::ORIGINS;
pub(super) use pages::{pages_of_all, pages_of_holes};

/// What goes by number on drawings of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum ByNumber {
    /// Nothing.
    None,
    /// Holes, openings and slots.
    Holes,
    /// Every corner of the edge too.
    All,
}

/// Fewer places than this stay in the rows.
const FEWEST: usize = 12;

/// More callouts than this, each for one hole alone, are a fan of leaders.
const MOST_CALLOUTS: usize = 8;

/// A place to mark: where a hole is drilled, the corner of an opening, a point of the outer edge.
#[derive(Debug, Clone, PartialEq)]
struct Place {
    /// Its number.
    number: usize,
    /// Where it is.
    at: Point,
    /// Radius of what is drilled there, mm; 0 for a corner of an opening.
    radius_mm: f64,
    /// What is there: "dia 1/4".
    what: String,
    /// From a drilled end of a slot, the way off the slot.
    off: Option<Vector>,
    /// It is a point of the outer edge.
    is_on_edge: bool,
}

/// The flat without its holes: what the layout sheet then shows in its rows.
pub(super) fn without_holes(flat: &FlatPattern) -> FlatPattern {
    FlatPattern { outline: Outline { outer: flat.outline.outer.clone(), holes: Vec::new() }, ..flat.clone() }
}

/// Whether the holes of a flat crowd rows of this text height, mm, or would have callouts that nobody can follow.
pub(super) fn are_crowded(flat: &FlatPattern, text_mm: f64) -> bool {
    if !are_many(flat) {
        return false;
    }
    let places = unnumbered(flat, NO_STYLE);
    let (width, height) = flat.extents_mm();
    let fills = |way: fn(Point) -> f64, length_mm: f64| {
        CROWDED * length_mm < lines(&places, way).iter().map(|_| PITCH_EM * text_mm).sum::<f64>()
    };
    fills(|at| at.x, width) || fills(|at| at.y, height) || !are_alike(flat) && MOST_CALLOUTS < places.len()
}

/// How much room the numbers of these points need in a row, mm.
pub(super) fn needed_mm(points: &[Point], way: fn(Point) -> f64, text_mm: f64) -> f64 {
    distinct(points.iter().map(|at| way(*at)).collect()).iter().map(|_| PITCH_EM * text_mm).sum()
}

/// Where places lie one way, in rising order, those within a scribed line of their neighbour being one.
fn lines(places: &[Vec<Place>], way: fn(Point) -> f64) -> Vec<f64> {
    distinct(places.iter().flatten().map(|place| way(place.at)).collect())
}

/// Places along a row in rising order, those within a scribed line of their neighbour being one.
fn distinct(mut along: Vec<f64>) -> Vec<f64> {
    along.sort_by(f64::total_cmp);
    along.dedup_by(|next, last| *next - *last <= tolerance::SCRIBED_LINE_MM);
    along
}

/// Whether a flat has so many holes that they may be what makes its layout sheet too small to read.
pub(super) fn are_many(flat: &FlatPattern) -> bool {
    FEWEST <= unnumbered(flat, NO_STYLE).iter().flatten().count()
}

/// Whether one callout speaks for all holes.
pub(super) fn are_alike(flat: &FlatPattern) -> bool {
    let mut radii = flat.outline.holes.iter().map(|hole| full_circle(hole).map(|(_, radius_mm)| radius_mm));
    let Some(Some(first)) = radii.next() else { return false };
    radii.all(|radius| radius.is_some_and(|radius| (radius - first).abs() <= tolerance::SAME_POINT_MM))
}

/// For counting only.
const NO_STYLE: LengthStyle = LengthStyle::Millimetres { places: 1 };

/// The places of every hole, hole by hole, still without numbers.
fn unnumbered(flat: &FlatPattern, style: LengthStyle) -> Vec<Vec<Place>> {
    flat.outline.holes.iter().map(|hole| places_of(hole, style)).collect()
}

fn places_of(hole: &Contour, style: LengthStyle) -> Vec<Place> {
    let place = |at: Point, radius_mm: f64, what: String| Place {
        number: 0,
        at,
        radius_mm,
        what,
        off: None,
        is_on_edge: false,
    };
    let dia = |radius_mm: f64| format!("dia {}", printed(2.0 * radius_mm, style));
    if let Some((centre, radius_mm)) = full_circle(hole) {
        return vec![place(centre, radius_mm, dia(radius_mm))];
    }
    if let Some(slot) = slot(hole) {
        let words = format!("slot, {}", dia(slot.radius_mm));
        let [first, second] = slot.centres;
        let ends = [(first, first - second), (second, second - first)];
        let end = |(at, off): (Point, Vector)| Place {
            off: Some(off.unit()),
            ..place(at, slot.radius_mm, words.clone())
        };
        return ends.map(end).to_vec();
    }
    let corners = points::of_opening(hole);
    let mut places: Vec<Place> = corners.into_iter().map(|at| place(at, 0.0, "corner".to_owned())).collect();
    let centre = |(at, radius_mm)| place(at, 0.0, format!("centre R {}", printed(radius_mm, style)));
    places.extend(points::circles(hole).into_iter().map(centre));
    places
}

/// Every place with its number, from `first` on, holes in rows: along the rows where those are fewer, else up the columns.
fn holes_in_order(sheet: &PartSheet<'_>, first: usize) -> Vec<Place> {
    let mut holes = unnumbered(sheet.flat, sheet.style);
    let (columns, rows) = (lines(&holes, |at| at.x), lines(&holes, |at| at.y));
    let in_rows = rows.len() <= columns.len();
    // The row that a place lies in: those within a scribed line of its neighbour are one.
    let row = |at: Point| if in_rows { nearest(&rows, at.y) } else { nearest(&columns, at.x) };
    let along = |at: Point| if in_rows { at.x } else { at.y };
    let corner = |hole: &[Place]| hole.first().map_or_else(Point::default, |place| place.at);
    holes.sort_by(|a, b| {
        let (a, b) = (corner(a), corner(b));
        row(a).cmp(&row(b)).then(along(a).total_cmp(&along(b)))
    });
    let mut places: Vec<Place> = holes.into_iter().flatten().collect();
    for (number, place) in (first..).zip(&mut places) {
        place.number = number;
    }
    places
}

fn nearest(lines: &[f64], at: f64) -> usize {
    lines.partition_point(|line| *line <= at + tolerance::SAME_POINT_MM)
}

/// Places one after the other at equal distances, all alike.
#[derive(Debug, Clone, PartialEq)]
struct EqualRow {
    from: Place,
    to: Place,
    count: usize,
    pitch_mm: f64,
}

/// Fewest places worth telling as a row.
const FEWEST_IN_ROW: usize = 4;

/// The rows of equal pitch. Each place lies where the pitch leads to within the rounding of a job's numbers; a row whose steps
/// only look alike is none.
fn equal_rows(places: &[Place]) -> Vec<EqualRow> {
    let mut rows = Vec::new();
    let mut begin = 0;
    while begin + 1 < places.len() {
        let from = &places[begin];
        let step = places[begin + 1].at - from.at;
        let goes_on = |(k, place): &(f64, &Place)| {
            let level = step.x.abs().min(step.y.abs()) <= tolerance::SAME_POINT_MM;
            let off = place.at.distance(from.at + step * *k);
            level && off <= tolerance::DRAWN_POINT_MM && place.what == from.what && 0.0 < place.radius_mm
        };
        let steps = (0_u32..).map(f64::from).zip(&places[begin..]);
        let count = steps.take_while(goes_on).count();
        if FEWEST_IN_ROW <= count && from.what.starts_with("dia") {
            let to = places[begin + count - 1].clone();
            rows.push(EqualRow { from: from.clone(), to, count, pitch_mm: step.length() });
            begin += count;
        } else {
            begin += 1;
        }
    }
    rows
}
