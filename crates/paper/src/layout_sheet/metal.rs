//! The metal itself: outline and holes as one figure.

use fold::FlatPattern;
use geometry::outline::Chords;
use geometry::{Contour, polygon};

use super::points::{arc_centres, full_circle, slot};
use crate::drawing::symbols;
use crate::page::{Fill, Item, Pen, Shape};
use crate::placing::Field;

/// Reach of the cross at the centre of an arc at the most, mm.
const MOST_REACH_MM: f64 = 12.0;

/// How far the cross at the centre of an arc reaches, mm: never to the arc itself.
fn reach_mm(radius_mm: f64) -> f64 {
    (0.6 * radius_mm).min(MOST_REACH_MM)
}

/// The outline with its holes, and a cross wherever one is drilled, in round holes and at both ends of slots, and where a compass
/// is set, at the centres of arcs.
pub(super) fn items(flat: &FlatPattern) -> Vec<Item> {
    let contours: Vec<Contour> =
        std::iter::once(&flat.outline.outer).chain(&flat.outline.holes).cloned().collect();
    let mut items = vec![Item::Shape(Shape { contours, pen: Some(Pen::CutEdge), fill: Some(Fill::Metal) })];
    let circles = flat.outline.holes.iter().filter_map(full_circle);
    items.extend(circles.flat_map(|(centre, radius)| symbols::centre_cross(centre, 0.6 * radius)));
    let slots = flat.outline.holes.iter().filter_map(slot);
    let drilled = slots.flat_map(|slot| slot.centres.map(|centre| (centre, slot.radius_mm)));
    items.extend(drilled.flat_map(|(centre, radius)| symbols::centre_cross(centre, 0.6 * radius)));
    let arcs = arc_centres(flat).into_iter();
    items.extend(arcs.flat_map(|(centre, radius)| symbols::centre_cross(centre, reach_mm(radius))));
    items
}

/// Marks cut edges, crosses at the centres of arcs and bend lines as lines that no text may touch.
pub(super) fn occupy(field: &mut Field, flat: &FlatPattern) {
    for contour in std::iter::once(&flat.outline.outer).chain(&flat.outline.holes) {
        for (from, to) in polygon::edges(&contour.corners(Chords::On)) {
            field.add_line(from, to);
        }
    }
    for (centre, radius_mm) in arc_centres(flat) {
        for [from, to] in symbols::cross_lines(centre, reach_mm(radius_mm)) {
            field.add_line(from, to);
        }
    }
    for (_, (from, to)) in flat.marks() {
        field.add_line(from, to);
    }
}
