//! What stands on the faces: the mark, which face is up, the lay, and the names of the faces.

use geometry::outline::Chords;
use geometry::{Point, Vector, polygon};

use super::PartSheet;
use crate::drawing::label::{self, Label};
use crate::drawing::room::{self, Figure};
use crate::drawing::symbols;
use crate::page::font::Weight;
use crate::page::{Item, TextBox};
use crate::placing::Field;

/// Lays mark, face side, lay arrow and face names wherever the metal has room for them; all of it except the face
/// names stands in the heading too.
pub(super) fn labels(field: &mut Field, sheet: &PartSheet<'_>, text_mm: f64) -> Vec<Item> {
    let holes: Vec<Vec<Point>> =
        sheet.flat.outline.holes.iter().map(|hole| hole.corners(Chords::On)).collect();
    let figures: Vec<Figure<'_>> =
        sheet.flat.faces.iter().map(|face| Figure { outer: &face.corners, holes: &holes }).collect();
    let Some(&root) = figures.first() else { return Vec::new() };
    let level = Vector::new(1.0, 0.0);
    // On the root, or on the largest face that has room for it: the same side of all faces is up.
    let mut others: Vec<Figure<'_>> = figures[1..].to_vec();
    let area = |figure: &Figure<'_>| polygon::signed_area(figure.outer).abs();
    others.sort_by(|a, b| area(b).total_cmp(&area(a)));
    let wide: Vec<Figure<'_>> = std::iter::once(root).chain(others).collect();
    let mark = [2.6, 1.8, 1.2].iter().find_map(|size| {
        let mark = Label { weight: Weight::Bold, ..Label::new(sheet.mark, size * text_mm) };
        wide.iter().find_map(|&figure| room::lay(field, figure, &mark, level))
    });
    let mut items = letters(field, sheet, root, text_mm);
    items.extend(mark.unwrap_or_default());
    let face = Label::new(sheet.face, 1.1 * text_mm);
    items.extend(wide.iter().find_map(|&figure| room::lay(field, figure, &face, level)).unwrap_or_default());
    if let Some(lay) = sheet.lay {
        items.extend(lay_arrow(field, root, lay, text_mm));
    }
    for (face, figure) in sheet.flat.faces.iter().zip(figures) {
        let label = Label::new(face.name.as_str(), 0.85 * text_mm);
        let along = label::reading(face.placement.x);
        items.extend(room::lay(field, figure, &label, along).unwrap_or_default());
    }
    items
}

/// Letters of the root's corners, as near to them as there is room, toward the middle of the face.
fn letters(field: &mut Field, sheet: &PartSheet<'_>, root: Figure<'_>, text_mm: f64) -> Vec<Item> {
    let level = Vector::new(1.0, 0.0);
    let middle = polygon::centroid(root.outer);
    let mut items = Vec::new();
    for (letter, corner) in super::corners(sheet) {
        let label = Label { weight: Weight::Bold, ..Label::new(letter, text_mm) };
        let inward = (middle - corner).unit();
        let centres = [1.0, 1.5, 2.2, 3.0, 4.0].map(|em| corner + inward * (em * text_mm));
        let clear = |centre: &&Point| {
            let room = label.room(**centre, level).grown(0.1 * label.size_mm);
            // A corner that the job gives may be cut off: its letter then stands where it was.
            let on_metal = polygon::contains(root.outer, **centre) || !sheet.corners.is_empty();
            on_metal && field.is_clear(&room)
        };
        if let Some(&centre) = centres.iter().find(clear) {
            field.take(label.room(centre, level));
            items.extend(label.items(centre, level));
        }
    }
    items
}

/// A double arrow along the lay with the word at its middle.
fn lay_arrow(field: &mut Field, root: Figure<'_>, lay: Vector, text_mm: f64) -> Vec<Item> {
    let along = label::reading(lay);
    let label = Label::new("lay", text_mm);
    let (length, height) = (symbols::LAY_ARROW_EM * text_mm, label.height_mm());
    let Some(centre) = room::find(field, root, length, height, along) else { return Vec::new() };
    field.take(TextBox::centred(centre, along, length, height));
    symbols::lay_arrow(centre, along, text_mm)
}
