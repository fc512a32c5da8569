//! The whole sheet: all pieces of a ring, a set or an assembly as they stand together, each with its mark.

use fold::facets::{Facet, Facets, Surface};
use geometry::{Point, Point3, Vector, Vector3, polygon};

use crate::drawing::block::Block;
use crate::drawing::{assemble, columns, symbols, text_height_mm};
use crate::isometric::{self, Scene, View};
use crate::page::font::Weight;
use crate::page::{Item, Page, Pen, Text};

/// Height of the eye over the level, degrees, as isometric views have it: its tangent is 1/√2.
const HEIGHT_DEGREES: f64 = 35.264_389_682_754_654;

/// Where the eye may stand about the upright axis, degrees, the first taken where several show as much.
const ROUND_DEGREES: [f64; 4] = [-45.0, -135.0, 45.0, 135.0];

/// From one mark of the column to the next, in text heights.
const LINE_EM: f64 = 1.7;

/// A piece as it stands in the whole.
#[derive(Debug, Clone)]
pub struct StandingPiece {
    /// Its mark.
    pub mark: String,
    /// Its surface, in the coordinates of the whole, z up.
    pub facets: Facets,
}

/// All that a whole sheet shows.
#[derive(Debug, Clone, Copy)]
pub struct WholeSheet<'a> {
    /// Name of the job.
    pub job: &'a str,
    /// Mark or name of the whole.
    pub mark: &'a str,
    /// What it is, in words.
    pub title: &'a str,
    /// Its pieces.
    pub pieces: &'a [StandingPiece],
    /// Where the places come from, one sentence.
    pub origin: &'a str,
}

/// Draws the whole in one isometric view, what lies behind metal left out, with a mark to every piece that is seen.
#[must_use]
pub fn draw(sheet: &WholeSheet<'_>) -> Page {
    let all = Facets {
        facets: sheet.pieces.iter().flat_map(|piece| piece.facets.facets.iter().cloned()).collect(),
        edges: sheet.pieces.iter().flat_map(|piece| piece.facets.edges.iter().copied()).collect(),
    };
    let view = chosen_view(sheet.pieces, &all);
    let lines = isometric::visible(&all, view);
    let ends: Vec<Point> = lines.iter().flat_map(|line| line.ends).collect();
    let (low, high) = polygon::bounds(&ends);
    let text_mm = text_height_mm(high.x - low.x, high.y - low.y);
    let scene = Scene::of(&all, view);
    let tip = |piece: &StandingPiece| seen_place(piece, &scene, view);
    let tips: Vec<Option<Point>> = sheet.pieces.iter().map(tip).collect();
    let mut drawing =
        vec![Item::group(format!("{} together", sheet.mark), isometric::drawn(&lines, |at| at))];
    drawing.push(Item::group(format!("{} marks", sheet.mark), marks(sheet, &tips, high, text_mm)));
    let (left_mm, width_mm) = columns(&drawing, text_mm);
    let mut heading = Block::new(left_mm, width_mm);
    heading.title(sheet.mark, &format!("{}, put together", sheet.title), sheet.job, text_mm);
    heading.rule();
    let mut foot = Block::new(left_mm, width_mm);
    foot.rule();
    let words = format!(
        "A picture of which piece goes where, not to measure. Lines behind metal are left out. {}",
        sheet.origin
    );
    foot.paragraph(&words, Weight::Regular, text_mm, "");
    let hidden: Vec<&str> = sheet
        .pieces
        .iter()
        .zip(&tips)
        .filter(|(_, tip)| tip.is_none())
        .map(|(piece, _)| piece.mark.as_str())
        .collect();
    if !hidden.is_empty() {
        let words = format!("Hidden behind the others: {}.", hidden.join(", "));
        foot.paragraph(&words, Weight::Regular, text_mm, "");
    }
    assemble(format!("{}: {} put together", sheet.job, sheet.mark), drawing, heading, foot, text_mm)
}

/// The view that shows the most sides of plates, by their middles.
fn chosen_view(pieces: &[StandingPiece], all: &Facets) -> View {
    let mut best = (View::from_direction(ROUND_DEGREES[0], HEIGHT_DEGREES, 1.0), 0);
    for view in ROUND_DEGREES.map(|round| View::from_direction(round, HEIGHT_DEGREES, 1.0)) {
        let scene = Scene::of(all, view);
        let faces = pieces.iter().flat_map(|piece| sides(piece, view));
        let seen = faces.filter(|facet| scene.sees(view.project(middle(&facet.rings[0])))).count();
        if best.1 < seen {
            best = (view, seen);
        }
    }
    best.0
}

/// The large sides of a piece's plates and bends that look toward the eye.
fn sides(piece: &StandingPiece, view: View) -> impl Iterator<Item = &Facet> {
    let toward = view.toward;
    let faces = move |facet: &&Facet| facet.surface != Surface::Cut && 0.0 < facet.normal.dot(toward);
    piece.facets.facets.iter().filter(faces)
}

/// The middle of a ring's corners.
fn middle(ring: &[Point3]) -> Point3 {
    let count = f64::from(u32::try_from(ring.len()).unwrap_or(u32::MAX));
    let sum = ring.iter().fold(Vector3::default(), |sum, corner| sum + (*corner - Point3::default()));
    Point3::default() + sum * (1.0 / count)
}

/// A place on a piece that nothing hides, on its largest side that has one.
fn seen_place(piece: &StandingPiece, scene: &Scene, view: View) -> Option<Point> {
    let area = |facet: &Facet| {
        let ring: Vec<Point> = facet.rings[0].iter().map(|corner| view.project(*corner).0).collect();
        polygon::signed_area(&ring).abs()
    };
    let mut sides: Vec<&Facet> = sides(piece, view).collect();
    sides.sort_by(|a, b| area(b).total_cmp(&area(a)));
    sides.into_iter().find_map(|facet| {
        let ring = &facet.rings[0];
        let middle = middle(ring);
        let shares = [0.0, 0.3, 0.6, 0.85];
        let places =
            shares.into_iter().flat_map(|share| ring.iter().map(move |corner| middle.toward(*corner, share)));
        let flat = |ring: &Vec<Point3>| -> Vec<Point> {
            ring.iter().map(|corner| view.project(*corner).0).collect()
        };
        let rings: Vec<Vec<Point>> = facet.rings.iter().map(flat).collect();
        // A place in a hole lies in two rings.
        let on_metal =
            |place: Point| rings.iter().filter(|ring| polygon::contains(ring, place)).count() % 2 == 1;
        places
            .map(|place| view.project(place))
            .find(|(place, near)| on_metal(*place) && scene.sees((*place, *near)))
            .map(|(place, _)| place)
    })
}

/// The marks in a column on the right, from the highest tip down, each on a line to its tip.
fn marks(sheet: &WholeSheet<'_>, tips: &[Option<Point>], high: Point, text_mm: f64) -> Vec<Item> {
    let mut seen: Vec<(&str, Point)> = sheet
        .pieces
        .iter()
        .zip(tips)
        .filter_map(|(piece, tip)| Some((piece.mark.as_str(), (*tip)?)))
        .collect();
    seen.sort_by(|a, b| b.1.y.total_cmp(&a.1.y));
    let left = high.x + 3.0 * text_mm;
    let mut items = Vec::new();
    let mut above = f64::INFINITY;
    for (mark, tip) in seen {
        let y = tip.y.min(above - LINE_EM * text_mm);
        above = y;
        let middle = Point::new(left - 0.4 * text_mm, y + 0.35 * text_mm);
        items.push(Item::line(tip, middle, Pen::Dimension));
        items.push(symbols::dot(tip, 0.14 * text_mm));
        let at = Point::new(left, 0.0) + Vector::new(0.0, y);
        items.push(Item::Text(Text { weight: Weight::Bold, ..Text::new(at, mark.to_owned(), text_mm) }));
    }
    items
}
