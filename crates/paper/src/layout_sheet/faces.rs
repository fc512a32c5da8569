//! What stands on the faces: the mark, which face is up, the lay, and the names of the faces.

use geometry::outline::Chords;
use geometry::{Point, Vector, polygon};

use super::PartSheet;
use crate::drawing::NAMES_EM;
use crate::drawing::label::{self, Label};
use crate::drawing::room::{self, Figure};
use crate::drawing::{leader, named, symbols};
use crate::page::font::Weight;
use crate::page::{Item, TextBox};
use crate::placing::Field;

/// Lays the names of these faces alone, each on its own face; gives those that were laid, by their places among all.
pub(super) fn names_first(
    field: &mut Field,
    sheet: &PartSheet<'_>,
    text_mm: f64,
    faces: &[usize],
) -> (Vec<usize>, Vec<Item>) {
    let holes: Vec<Vec<Point>> =
        sheet.flat.outline.holes.iter().map(|hole| hole.corners(Chords::On)).collect();
    let (mut named, mut items) = (Vec::new(), Vec::new());
    for &number in faces {
        let face = &sheet.flat.faces[number];
        let label = Label::new(face.name.as_str(), NAMES_EM * text_mm);
        let figure = Figure { outer: &face.corners, holes: &holes };
        if let Some(own) = room::lay(field, figure, &label, label::reading(face.placement.x)) {
            named.push(number);
            items.extend(own);
        }
    }
    (named, items)
}

/// Lays words of edges, mark, face side, lay arrow and the names of faces that are not `named` yet; gives also the faces whose
/// leader runs through words. Mark, face side and lay stand in the heading too and are left out where the metal has no room for
/// them; all else then stands off on a leader.
pub(super) fn labels(
    field: &mut Field,
    sheet: &PartSheet<'_>,
    text_mm: f64,
    (bounds, named): ((Point, Point), &[usize]),
) -> (Vec<Item>, Vec<usize>) {
    let holes: Vec<Vec<Point>> =
        sheet.flat.outline.holes.iter().map(|hole| hole.corners(Chords::On)).collect();
    let figures: Vec<Figure<'_>> =
        sheet.flat.faces.iter().map(|face| Figure { outer: &face.corners, holes: &holes }).collect();
    let Some(&root) = figures.first() else { return Default::default() };
    let level = Vector::new(1.0, 0.0);
    // On the root, or on the largest face that has room for it: the same side of all faces is up.
    let mut others: Vec<Figure<'_>> = figures[1..].to_vec();
    let area = |figure: &Figure<'_>| polygon::signed_area(figure.outer).abs();
    others.sort_by(|a, b| area(b).total_cmp(&area(a)));
    let wide: Vec<Figure<'_>> = std::iter::once(root).chain(others).collect();
    let mut items: Vec<Item> = Vec::new();
    items.extend(sheet.named.edge_words(field, (sheet.flat, polygon::centroid(root.outer)), text_mm, bounds));
    let clear = |field: &mut Field, label: &Label| {
        wide.iter().find_map(|&figure| room::lay_off_hairlines(field, figure, label, level))
    };
    let sizes = [2.6, 1.8, 1.2];
    let marks = sizes.map(|size| Label { weight: Weight::Bold, ..Label::new(sheet.mark, size * text_mm) });
    let mark = marks.iter().find_map(|mark| clear(field, mark)).or_else(|| {
        marks.iter().find_map(|mark| wide.iter().find_map(|&figure| room::lay(field, figure, mark, level)))
    });
    items.extend(mark.unwrap_or_default());
    let short = sheet.face.split(':').next().unwrap_or_default();
    let faces = [(sheet.face, 1.1), (sheet.face, 0.9), (short, 1.1), (short, 0.9)];
    let face = faces.iter().find_map(|&(words, size)| clear(field, &Label::new(words, size * text_mm)));
    items.extend(face.unwrap_or_default());
    if let Some(lay) = sheet.lay {
        items.extend(lay_arrow(field, &wide, lay, text_mm));
    }
    // A name on a leader that stands on another face would be read as that one's.
    sheet.flat.faces.iter().for_each(|face| field.add_face(face.corners.clone()));
    let mut struck = Vec::new();
    let faces = sheet.flat.faces.iter().zip(figures).enumerate();
    for (number, (face, figure)) in faces.filter(|(number, _)| !named.contains(number)) {
        let label = Label::new(face.name.as_str(), NAMES_EM * text_mm);
        let along = label::reading(face.placement.x);
        let named = room::lay_off_hairlines(field, figure, &label, along).unwrap_or_else(|| {
            // What all else is bent off goes by the mark.
            if number == 0 {
                return Vec::new();
            }
            let middle = polygon::centroid(&face.corners);
            let shares = [0.4, 0.65, 0.85];
            let on = shares
                .into_iter()
                .flat_map(|share| face.corners.iter().map(move |corner| middle.toward(*corner, share)));
            let tips: Vec<Point> = std::iter::once(middle).chain(on).take(13).collect();
            leader::place_open(field, &label, &tips, bounds).unwrap_or_else(|| {
                struck.push(number);
                leader::place(field, &label, &tips, bounds)
            })
        });
        items.extend(named);
    }
    (items, struck)
}

/// Stations along an edge, each straight inward of its own place where there is room, so that all leaders run alike and none
/// can be read as that of its neighbour or of a detail; else on a leader like any other.
pub(super) fn stations(
    field: &mut Field,
    sheet: &PartSheet<'_>,
    text_mm: f64,
    bounds: (Point, Point),
) -> Vec<Item> {
    let Some(root) = sheet.flat.faces.first() else { return Vec::new() };
    let mut items = Vec::new();
    for (station, at) in sheet.named.stations.iter().chain(&sheet.named.on_bends) {
        let label = Label::new(station.as_str(), NAMES_EM * text_mm);
        let off = |edge: &(Point, Point)| polygon::point_to_segment(*at, *edge);
        let nearest = polygon::edges(&root.corners).min_by(|a, b| off(a).total_cmp(&off(b)));
        let inward = nearest.map(|(from, to)| (to - from).unit().left());
        let straight = inward.and_then(|way| leader::place_along(field, &label, *at, way));
        items.extend(straight.unwrap_or_else(|| leader::place(field, &label, &[*at], bounds)));
    }
    for (line, [from, to]) in &sheet.named.lines {
        let label = Label::new(line.as_str(), NAMES_EM * text_mm);
        let tips = LINE_TIPS.map(|share| from.toward(*to, share));
        items.extend(leader::place(field, &label, &tips, bounds));
    }
    items
}

/// Where a leader may end on a line across the part, clear of its edges, as shares of its length, best first.
const LINE_TIPS: [f64; 5] = [0.75, 0.5, 0.25, 0.62, 0.38];

/// Corners nearer to one another than this, in text heights, have no room for two letters beside them.
const LETTERS_APART_EM: f64 = 2.0;

/// These letters of the root's corners, each at its corner.
pub(super) fn letters(
    field: &mut Field,
    (sheet, letters): (&PartSheet<'_>, Vec<(String, Point)>),
    text_mm: f64,
    bounds: (Point, Point),
) -> Vec<Item> {
    let Some(root) = sheet.flat.faces.first() else { return Vec::new() };
    let middle = polygon::centroid(&root.corners);
    let metal = sheet.flat.outline.outer.corners(Chords::On);
    let mut items = Vec::new();
    let all = letters;
    for (number, (letter, corner)) in all.iter().cloned().enumerate() {
        let label = Label { weight: Weight::Bold, ..Label::new(letter, text_mm) };
        // A corner that the job gives may be cut off: its letter then stands where it was.
        let holds = |room: &TextBox| {
            !sheet.named.corners.is_empty() || polygon::contains(&root.corners, room.centre())
        };
        // Two letters beside corners that lie on one another at this scale tell neither: each leads to its own.
        let apart: Vec<Point> =
            all.iter().enumerate().filter(|(other, _)| *other != number).map(|(_, (_, at))| *at).collect();
        let is_crowded = apart.iter().any(|at| at.distance(corner) < LETTERS_APART_EM * text_mm);
        let beside =
            if is_crowded { None } else { named::beside_corner(field, &label, (corner, middle), holds) };
        // At the far end of a part, or across it, a letter would be read as that of the other end.
        let off = |field: &mut Field| leader::place_at_corner(field, &label, (corner, &apart), &metal);
        let placed = beside.or_else(|| off(field));
        items.extend(placed.unwrap_or_else(|| leader::place(field, &label, &[corner], bounds)));
    }
    items
}

/// A double arrow along the lay with the word at its middle, on the root or on the largest face that has room for it; smaller
/// where none has.
fn lay_arrow(field: &mut Field, faces: &[Figure<'_>], lay: Vector, text_mm: f64) -> Vec<Item> {
    let along = label::reading(lay);
    let sizes = [1.0, NAMES_EM].into_iter().map(|size| size * text_mm);
    let found =
        sizes.flat_map(|size| faces.iter().map(move |face| (size, *face))).find_map(|(size, face)| {
            let height = Label::new("lay", size).height_mm();
            let length = symbols::LAY_ARROW_EM * size;
            let centre = room::find(field, face, length, height, along)?;
            Some((size, centre, TextBox::centred(centre, along, length, height)))
        });
    let Some((size_mm, centre, room)) = found else { return Vec::new() };
    field.take(room);
    symbols::lay_arrow(centre, along, size_mm)
}
