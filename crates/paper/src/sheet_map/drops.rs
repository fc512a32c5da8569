//! Drops: hatched, with their mark and size, and a table of their places to scribe them by.

use geometry::{Contour, Point, Vector, polygon};

use super::Drop;
use crate::drawing::block::Block;
use crate::drawing::label::Label;
use crate::drawing::room::{self, Figure};
use crate::drawing::{leader, printed};
use crate::page::font::Weight;
use crate::page::{Fill, Item, Pen, hatch_lines};
use crate::placing::Field;
use units::LengthStyle;

/// A drop as far as it is shown, and the whole of it on the sheet.
pub(super) struct ShownDrop {
    pub(super) shown: Drop,
    pub(super) whole: Drop,
    /// What it is called: "drop", or "drop 2" of several.
    pub(super) mark: String,
}

impl ShownDrop {
    /// Length and height of the whole of it as printed.
    fn size(&self, style: LengthStyle) -> [String; 2] {
        let Drop { low, high } = self.whole;
        [high.x - low.x, high.y - low.y].map(|mm| printed(mm, style))
    }
}

/// What drop `number` of `count` is called, counted from nothing: its label has the same words.
pub(super) fn mark(number: usize, count: usize) -> String {
    if count == 1 { "drop".to_owned() } else { format!("drop {}", number + 1) }
}

/// Every drop with its words on a patch of clear paper; takes the room of the words.
pub(super) fn items(
    field: &mut Field,
    style: LengthStyle,
    drops: &[ShownDrop],
    (text_mm, bounds): (f64, (Point, Point)),
) -> Vec<Item> {
    let mut items = Vec::new();
    for drop in drops {
        let corners = corners(&drop.shown);
        for (from, to) in polygon::edges(&corners) {
            field.add_line(from, to);
        }
        field.add_area(corners.to_vec());
        let spacing = 0.9 * text_mm;
        items.extend(hatch_lines(&[Contour::polygon(&corners)], spacing, std::f64::consts::FRAC_PI_4));
        items.push(Item::edge(&corners, Pen::DropEdge));
    }
    for drop in drops {
        let words = on_the_drop(field, style, drop, text_mm);
        items.extend(words.unwrap_or_else(|| {
            let label = Label { weight: Weight::Bold, ..Label::new(drop.mark.as_str(), 0.8 * text_mm) };
            leader::place(field, &label, &[drop.shown.low.toward(drop.shown.high, 0.5)], bounds)
        }));
    }
    items
}

fn corners(drop: &Drop) -> [Point; 4] {
    let (low, high) = (drop.low, drop.high);
    [low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)]
}

/// Mark and size, as large as they fit, level or upright; else the mark alone.
fn on_the_drop(field: &mut Field, style: LengthStyle, drop: &ShownDrop, text_mm: f64) -> Option<Vec<Item>> {
    const SIZES_EM: [f64; 3] = [1.0, 0.85, 0.75];
    let corners = corners(&drop.shown);
    let figure = Figure { outer: &corners, holes: &[] };
    let [along, across] = drop.size(style);
    let stop = if drop.mark == "drop" { "" } else { ":" };
    let whole = format!("{}{stop} {along} × {across}", drop.mark);
    [whole.as_str(), drop.mark.as_str()].into_iter().find_map(|words| {
        SIZES_EM.iter().find_map(|size| {
            let label = Label::new(words, size * text_mm);
            [Vector::new(1.0, 0.0), Vector::new(0.0, 1.0)].into_iter().find_map(|direction| {
                let centre = room::find(field, figure, label.width_mm(), label.height_mm(), direction)?;
                let patch = label.room(centre, direction).grown(0.2 * label.size_mm);
                field.take(patch);
                let mut items = vec![Item::area(&patch.corners, Fill::Paper)];
                items.extend(label.items(centre, direction));
                Some(items)
            })
        })
    })
}

/// Where every drop lies, to scribe it by: from the datum corner of the sheet to its own lower left corner, and its size.
pub(super) fn table(block: &mut Block, style: LengthStyle, drops: &[ShownDrop], text_mm: f64) {
    if drops.is_empty() {
        return;
    }
    let row = |drop: &ShownDrop| {
        let [along, across] = drop.size(style);
        let [right, up] = [drop.whole.low.x, drop.whole.low.y].map(|mm| printed(mm, style));
        vec![drop.mark.clone(), right, up, along, across]
    };
    let rows: Vec<Vec<String>> = drops.iter().map(row).collect();
    block.skip(0.6 * text_mm);
    block.table(&HEADINGS, &rows, text_mm);
    block.skip(0.6 * text_mm);
    block.rule();
}

/// Over the table of drops.
const HEADINGS: [&str; 5] = [
    "scribe to keep",
    "from left datum edge",
    "up from lower datum edge",
    "length, to the right",
    "height, up",
];
