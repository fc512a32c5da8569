//! A sheet in stretches along its length, so that small parts come out large enough to read; all measures still start at
//! the sheet's own datum corner.

use geometry::{Point, Vector, tolerance};

use super::drops::{self, ShownDrop};
use super::{Drop, Piece, PieceDatum, SheetMap};
use crate::drawing::label::Label;
use crate::drawing::{clipped, which};
use crate::page::font::Weight;
use crate::page::{Item, Pen};
use crate::placing::Field;

/// The most stretches of a sheet.
pub(super) const MOST: usize = 8;

/// Said on the key plan.
pub(super) const KEY_PLAN: &str =
    "Key plan: marks that find no room here stand on the maps of the stretches behind it.";

/// A stretch of a sheet, or all of it.
pub(super) struct Stretch {
    /// Its corners on the sheet.
    pub(super) low: Point,
    high: Point,
    /// Which of how many; none for the whole sheet.
    number: Option<(usize, usize)>,
    /// Its parts, by their places in the map.
    members: Vec<usize>,
}

/// The sheet in `count` stretches of one length; a part belongs where its middle lies, and its stretch reaches round it.
pub(super) fn of(map: &SheetMap<'_>, count: usize) -> Vec<Stretch> {
    let step = map.length_mm / count as f64;
    let stretch = |number: usize| {
        let (from, to) = (step * number as f64, step * (number + 1) as f64);
        let lies = |piece: &(usize, &Piece)| {
            let (low, high) = piece.1.outline.bounds();
            let middle = low.toward(high, 0.5).x;
            from <= middle && (middle < to || number + 1 == count)
        };
        let members: Vec<(usize, &Piece)> = map.pieces.iter().enumerate().filter(lies).collect();
        let bounds = members.iter().map(|(_, piece)| piece.outline.bounds());
        let (left, right) =
            bounds.fold((from, to), |(left, right), (low, high)| (left.min(low.x), right.max(high.x)));
        Stretch {
            low: Point::new(left, 0.0),
            high: Point::new(right, map.width_mm),
            number: Some((number + 1, count)),
            members: members.iter().map(|(number, _)| *number).collect(),
        }
    };
    (0..count).map(stretch).filter(|stretch| !stretch.members.is_empty()).collect()
}

impl Stretch {
    /// All of the sheet.
    pub(super) fn whole(map: &SheetMap<'_>) -> Self {
        let high = Point::new(map.length_mm, map.width_mm);
        Self { low: Point::default(), high, number: None, members: (0..map.pieces.len()).collect() }
    }

    /// The part of the sheet that it shows.
    pub(super) const fn window(&self) -> (Point, Point) {
        (self.low, self.high)
    }

    /// True for all of the sheet.
    pub(super) const fn is_whole(&self) -> bool {
        self.number.is_none()
    }

    /// Length and width, mm.
    pub(super) fn size_mm(&self) -> (f64, f64) {
        (self.high.x - self.low.x, self.high.y - self.low.y)
    }

    /// ", stretch 2 of 3"; nothing for the whole.
    pub(super) fn which(&self) -> String {
        self.number.map_or_else(String::new, |(number, count)| which("stretch", number, count))
    }

    fn shift(&self) -> Vector {
        Point::default() - self.low
    }

    /// Its parts, their places from its own corner.
    pub(super) fn pieces(&self, map: &SheetMap<'_>) -> Vec<Piece> {
        let by = self.shift();
        let piece = |number: &usize| {
            let piece = &map.pieces[*number];
            Piece {
                outline: piece.outline.mapped(false, |point| point + by),
                bend_lines: piece
                    .bend_lines
                    .iter()
                    .map(|(way, from, to)| (*way, *from + by, *to + by))
                    .collect(),
                datum: PieceDatum { corner: piece.datum.corner + by, ..piece.datum },
                ..piece.clone()
            }
        };
        self.members.iter().map(piece).collect()
    }

    /// The drops as far as they lie in it, their places from its own corner.
    pub(super) fn drops(&self, map: &SheetMap<'_>) -> Vec<ShownDrop> {
        let by = self.shift();
        let shown = |(number, drop): (usize, &Drop)| {
            let low = Point::new(drop.low.x.max(self.low.x), drop.low.y);
            let high = Point::new(drop.high.x.min(self.high.x), drop.high.y);
            (tolerance::SCRIBED_LINE_MM < high.x - low.x).then(|| ShownDrop {
                shown: Drop { low: low + by, high: high + by, ..*drop },
                whole: *drop,
                mark: format!("drop {}", drops::mark(number)),
            })
        };
        map.drops.iter().enumerate().filter_map(shown).collect()
    }

    /// Edges and trim lines of the sheet as far as they lie in it, without the datum corner where that lies elsewhere; `None`
    /// for the whole sheet.
    pub(super) fn edges(&self, map: &SheetMap<'_>) -> Option<Vec<Item>> {
        self.number?;
        let by = self.shift();
        let mut items = Vec::new();
        for (inset, pen) in [(0.0, Pen::SheetEdge), (map.edge_trim_mm, Pen::TrimEdge)] {
            let (right, top) = (map.length_mm - inset, map.width_mm - inset);
            let corners =
                [(inset, inset), (right, inset), (right, top), (inset, top)].map(|(x, y)| Point::new(x, y));
            let sides = corners.iter().zip(corners.iter().cycle().skip(1));
            let seen = sides.filter_map(|(from, to)| clipped((*from, *to), (self.low, self.high)));
            items.extend(seen.map(|(from, to)| Item::line(from + by, to + by, pen)));
        }
        Some(items)
    }
}

/// On the key plan: every stretch between two ticks over the sheet, with its number.
pub(super) fn key(field: &mut Field, stretches: &[Stretch], text_mm: f64) -> Vec<Item> {
    let mut items = Vec::new();
    for (number, stretch) in stretches.iter().enumerate() {
        // Stretches that share parts of the sheet lie at different heights.
        let rise = (1.2 + 1.6 * (number % 2) as f64) * text_mm;
        let (from, to) = (
            Point::new(stretch.low.x, stretch.high.y + rise),
            Point::new(stretch.high.x, stretch.high.y + rise),
        );
        let tick = Vector::new(0.0, 0.4 * text_mm);
        items.push(Item::line(from, to, Pen::Dimension));
        items.extend([from, to].map(|end| Item::line(end - tick, end + tick, Pen::Dimension)));
        field.add_line(from, to);
        let words = stretch.number.map_or_else(String::new, |(number, _)| format!("stretch {number}"));
        let label = Label { weight: Weight::Bold, ..Label::new(words, 0.8 * text_mm) };
        let centre = from.toward(to, 0.5) + Vector::new(0.0, 0.6 * text_mm);
        let level = Vector::new(1.0, 0.0);
        field.take(label.room(centre, level));
        items.extend(label.items(centre, level));
    }
    items
}
