//! Drops: hatched, with their mark and size, and a table of their places to scribe them by.

use geometry::{Contour, Point, Vector, polygon};

use super::Drop;
use crate::drawing::block::{Block, Column};
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
    /// What it is called: "drop d2".
    pub(super) mark: String,
}

impl ShownDrop {
    /// Length and height of all that can be used of it, as printed.
    fn size(&self, style: LengthStyle) -> [String; 2] {
        let Drop { low, high, .. } = self.whole;
        [high.x - low.x, high.y - low.y].map(|mm| printed(mm, style))
    }

    /// "50 × 60": the piece that comes off with it, where that is more.
    fn comes_off(&self, style: LengthStyle) -> Option<String> {
        Some(self.whole.comes_off_mm?.map(|mm| printed(mm, style)).join(" × "))
    }
}

/// What drop `number` of a sheet is called, counted from nothing, on maps, in cutting orders and lists; its label and its mark in
/// the rack have the sheet before it: "skin-1 d1".
#[must_use]
pub fn mark(number: usize) -> String {
    format!("d{}", number + 1)
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

/// Mark and sizes, as large as they fit, level or upright; else what can be used of it, else the mark alone.
fn on_the_drop(field: &mut Field, style: LengthStyle, drop: &ShownDrop, text_mm: f64) -> Option<Vec<Item>> {
    const SIZES_EM: [f64; 3] = [1.0, 0.85, 0.75];
    let corners = corners(&drop.shown);
    let figure = Figure { outer: &corners, holes: &[] };
    let [along, across] = drop.size(style);
    let alone = format!("{}: {along} × {across}", drop.mark);
    let words = match drop.comes_off(style) {
        Some(off) => {
            let mark = format!("{}:", drop.mark);
            let both = format!("{mark} {off} whole, {along} × {across} usable");
            vec![both, format!("{mark} {along} × {across} usable"), drop.mark.clone()]
        }
        None => vec![alone, drop.mark.clone()],
    };
    words.iter().find_map(|words| {
        SIZES_EM.iter().find_map(|size| {
            let label = Label::new(words.as_str(), size * text_mm).from(SIZES);
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

/// Where every drop lies, to scribe it by: from the datum corner of the sheet to its own lower left corner, and its size; and
/// the size of the piece that comes off with it, where that is more.
pub(super) fn table(block: &mut Block, style: LengthStyle, drops: &[ShownDrop], text_mm: f64) {
    if drops.is_empty() {
        return;
    }
    let has_more = drops.iter().any(|drop| drop.whole.comes_off_mm.is_some());
    let columns = if has_more { COLUMNS.as_slice() } else { &COLUMNS[..5] };
    let row = |drop: &ShownDrop| {
        let [along, across] = drop.size(style);
        let [right, up] = [drop.whole.low.x, drop.whole.low.y].map(|mm| printed(mm, style));
        let mut row = vec![drop.mark.clone(), right, up, along.clone(), across.clone()];
        if has_more {
            row.push(drop.comes_off(style).unwrap_or_else(|| format!("{along} × {across}")));
        }
        row
    };
    let rows: Vec<Vec<String>> = drops.iter().map(row).collect();
    block.skip(0.6 * text_mm);
    block.table(columns, &rows, text_mm);
    block.skip(0.6 * text_mm);
    block.rule();
}

/// Where the numbers of drops come from.
const PLACE: &str = "lower left corner of the drop on the sheet as it is nested, from the sheet's two datum edges; rounded once";
const USABLE: &str = "a rectangle free of parts, of the gap round them and of the edge trim, found once the nest is settled; it is kept by the shop's least size of a drop";
const COMES_OFF: &str = "the whole piece that the straight cuts of the order leave with it, to the cuts and to edges that are not trimmed";

const SIZES: &str = "as in the table of drops on the map: what comes off whole, and what of it can be used";

/// Over the table of drops.
const COLUMNS: [Column<'static>; 6] = [
    ("usable drop", ""),
    ("from left datum edge", PLACE),
    ("up from lower datum edge", PLACE),
    ("length, to the right", USABLE),
    ("height, up", USABLE),
    ("comes off as", COMES_OFF),
];

/// The same for the appendix.
pub(crate) const ORIGINS: [Column<'static>; 4] = [
    ("drops, sizes on the map", SIZES),
    ("drops, place on the sheet", PLACE),
    ("drops, usable size", USABLE),
    ("drops, what comes off", COMES_OFF),
];
