//! Drops: hatched, with their size.

use geometry::{Contour, Point, Vector};

use super::Drop;
use crate::drawing::label::Label;
use crate::drawing::printed;
use crate::drawing::room::{self, Figure};
use crate::page::{Fill, Item, Pen, hatch_lines};
use crate::placing::Field;
use units::LengthStyle;

/// A drop as far as it is shown, and the size of the whole of it.
pub(super) struct ShownDrop {
    pub(super) shown: Drop,
    pub(super) whole_mm: [f64; 2],
}

/// Every drop with its size on a patch of clear paper; takes the room of the words.
pub(super) fn items(field: &mut Field, style: LengthStyle, drops: &[ShownDrop], text_mm: f64) -> Vec<Item> {
    let mut items = Vec::new();
    for ShownDrop { shown: drop, whole_mm } in drops {
        let corners = corners(drop);
        let spacing = 0.9 * text_mm;
        items.extend(hatch_lines(&[Contour::polygon(&corners)], spacing, std::f64::consts::FRAC_PI_4));
        items.push(Item::edge(&corners, Pen::DropEdge));
        items.extend(size(field, whole_mm.map(|mm| printed(mm, style)), drop, text_mm).unwrap_or_default());
    }
    items
}

fn corners(drop: &Drop) -> [Point; 4] {
    let (low, high) = (drop.low, drop.high);
    [low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)]
}

/// The size in words, as large as it fits, level or upright; a drop too small for words stays without, its size
/// stands in the lists.
fn size(field: &mut Field, [along, across]: [String; 2], drop: &Drop, text_mm: f64) -> Option<Vec<Item>> {
    const SIZES_EM: [f64; 3] = [1.0, 0.8, 0.65];
    let corners = corners(drop);
    let figure = Figure { outer: &corners, holes: &[] };
    let words = format!("drop {along} × {across}");
    SIZES_EM.iter().find_map(|size| {
        let label = Label::new(words.as_str(), size * text_mm);
        [Vector::new(1.0, 0.0), Vector::new(0.0, 1.0)].into_iter().find_map(|direction| {
            let centre = room::find(field, figure, label.width_mm(), label.height_mm(), direction)?;
            let patch = label.room(centre, direction).grown(0.2 * label.size_mm);
            field.take(patch);
            let mut items = vec![Item::area(&patch.corners, Fill::Paper)];
            items.extend(label.items(centre, direction));
            Some(items)
        })
    })
}
