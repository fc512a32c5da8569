//! How a flat is divided over leaves.

use fold::FlatPattern;
use geometry::outline::Chords;
use geometry::{Point, Vector, polygon};

use crate::packet::leaves::PaperSize;
use crate::packet::leaves::sheet::{EDGE_MM, FOOT_MM};

/// Strips of a leaf beside the pattern, mm: for the head, the upright bar and the level bar.
const HEAD_MM: f64 = 13.0;
const SIDE_MM: f64 = 11.0;
const BAR_MM: f64 = 11.0;

/// How much of the pattern neighbours share, mm: wide enough to glue.
pub(super) const OVERLAP_MM: f64 = 12.0;

/// Free edge about the pattern, mm.
const AROUND_MM: f64 = 4.0;

/// One leaf of the grid: column from the left and row from below, counted from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Tile {
    pub(super) column: usize,
    pub(super) row: usize,
}

/// The grid.
#[derive(Debug, Clone)]
pub(super) struct Grid {
    /// Width and height of a leaf, mm.
    pub(super) leaf_mm: (f64, f64),
    /// Width and height of what a leaf shows of the pattern, mm.
    pub(super) window_mm: (f64, f64),
    /// How many columns and rows.
    pub(super) counts: (usize, usize),
    outer: Vec<Point>,
    holes: Vec<Vec<Point>>,
}

impl Grid {
    /// The paper held the way that takes fewer leaves, upright where both take as many.
    pub(super) fn best(flat: &FlatPattern, paper: PaperSize) -> Self {
        let (upright, across) = (Self::on(flat, paper.upright_mm()), Self::on(flat, paper.across_mm()));
        if across.tiles().len() < upright.tiles().len() { across } else { upright }
    }

    fn on(flat: &FlatPattern, leaf_mm: (f64, f64)) -> Self {
        let (width, height) = leaf_mm;
        let window_mm = (width - 2.0 * EDGE_MM - SIDE_MM, height - FOOT_MM - BAR_MM - EDGE_MM - HEAD_MM);
        let (length, depth) = flat.extents_mm();
        let along = |extent: f64, window: f64| {
            let mut count = 1;
            let mut reach = window;
            while reach < extent + 2.0 * AROUND_MM {
                reach += window - OVERLAP_MM;
                count += 1;
            }
            count
        };
        let counts = (along(length, window_mm.0), along(depth, window_mm.1));
        let outer = flat.outline.outer.corners(Chords::Outside);
        let holes = flat.outline.holes.iter().map(|hole| hole.corners(Chords::On)).collect();
        Self { leaf_mm, window_mm, counts, outer, holes }
    }

    /// What a tile shows of the pattern: its lower left and upper right corner there.
    pub(super) fn shown(&self, tile: Tile) -> (Point, Point) {
        let step = Vector::new(self.window_mm.0 - OVERLAP_MM, self.window_mm.1 - OVERLAP_MM);
        let low = Point::new(step.x * tile.column as f64 - AROUND_MM, step.y * tile.row as f64 - AROUND_MM);
        (low, low + Vector::new(self.window_mm.0, self.window_mm.1))
    }

    /// Where the window lies on every leaf: its lower left and upper right corner.
    pub(super) fn window(&self) -> (Point, Point) {
        let low = Point::new(EDGE_MM + SIDE_MM, FOOT_MM + BAR_MM);
        (low, low + Vector::new(self.window_mm.0, self.window_mm.1))
    }

    /// The tiles that show metal, by rows from below.
    pub(super) fn tiles(&self) -> Vec<Tile> {
        self.all().filter(|tile| self.has_metal(*tile)).collect()
    }

    /// The tiles that are left out, since they would be blank.
    pub(super) fn blank(&self) -> Vec<Tile> {
        self.all().filter(|tile| !self.has_metal(*tile)).collect()
    }

    fn all(&self) -> impl Iterator<Item = Tile> {
        let (columns, rows) = self.counts;
        (0..rows).flat_map(move |row| (0..columns).map(move |column| Tile { column, row }))
    }

    /// The tile beside `tile`, if there is one that is printed.
    pub(super) fn beside(&self, tile: Tile, (right, up): (usize, usize)) -> Option<Tile> {
        let other = Tile { column: tile.column + right, row: tile.row + up };
        let exists = other.column < self.counts.0 && other.row < self.counts.1;
        (exists && self.has_metal(other)).then_some(other)
    }

    fn has_metal(&self, tile: Tile) -> bool {
        let (low, high) = self.shown(tile);
        let corners = [low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)];
        let crosses = |outline: &[Point]| {
            polygon::edges(outline).any(|edge| {
                polygon::contains(&corners, edge.0)
                    || polygon::edges(&corners).any(|side| polygon::segments_touch(side, edge))
            })
        };
        let middle = low.toward(high, 0.5);
        crosses(&self.outer)
            || self.holes.iter().any(|hole| crosses(hole))
            || (polygon::contains(&self.outer, middle)
                && !self.holes.iter().any(|hole| polygon::contains(hole, middle)))
    }
}

impl Tile {
    /// "B3": row letter and column number.
    pub(super) fn name(self) -> String {
        let mut letters = String::new();
        let mut row = self.row;
        loop {
            let letter = u8::try_from(row % 26).map_or('?', |number| char::from(b'A' + number));
            letters.insert(0, letter);
            if row < 26 {
                break;
            }
            row = row / 26 - 1;
        }
        format!("{letters}{}", self.column + 1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_lettered_and_columns_numbered() {
        let name = |column, row| Tile { column, row }.name();
        assert_eq!([name(0, 0), name(2, 1), name(0, 25), name(1, 26)], ["A1", "B3", "Z1", "AA2"]);
    }
}
