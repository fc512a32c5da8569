//! A lattice over a no-fit polygon: which edges can be nearest in each cell, and where a cell is clear of them.
//!
//! The distance to the border changes by no more than the way gone. So in a cell whose centre is at distance d, and
//! whose corners lie r from the centre, only edges within d + 2r of the centre can be nearest, and where r < d the
//! whole cell lies on the centre's side.

use crate::separate::Spot;

/// On which side of the border a cell lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Side {
    Inside,
    Outside,
    /// The border may pass through; the centre lies inside.
    FromInside,
    /// The border may pass through; the centre lies outside.
    FromOutside,
}

/// The lattice.
#[derive(Debug)]
pub(crate) struct Cells {
    low: Spot,
    /// Cells in a step along each axis.
    per_step: Spot,
    side: Spot,
    columns: usize,
    rows: usize,
    sides: Vec<Side>,
    /// Where each cell's edges begin in `edges`; one entry more than cells.
    starts: Vec<u32>,
    edges: Vec<u32>,
}

/// How far the lattice reaches beyond the rectangle, as odd shares of its sides.
const SHIFTED: Spot = Spot::new(0.011_234_567, 0.013_579_123);

impl Cells {
    /// A lattice over the rectangle from `low` to `high`; `distances` gives the distance of a spot to every edge and
    /// whether the spot is inside.
    pub(crate) fn new(
        low: Spot,
        high: Spot,
        edge_count: usize,
        mut distances: impl FnMut(Spot, &mut Vec<f64>) -> bool,
    ) -> Self {
        // Outlines drawn on a round grid would have edges run through centres of cells, where sides are undecided.
        let (all_x, all_y) = (high.x - low.x, high.y - low.y);
        let low = Spot::new(low.x - SHIFTED.x * all_x, low.y - SHIFTED.y * all_y);
        let count = match edge_count {
            0..=12 => 8,
            13..=40 => 16,
            _ => 28,
        };
        let side = Spot::new((high.x - low.x) / f64::from(count), (high.y - low.y) / f64::from(count));
        let reach = 0.5 * (side.x * side.x + side.y * side.y).sqrt();
        let count = count as usize;
        let per_step = Spot::new(1.0 / side.x, 1.0 / side.y);
        let (sides, edges) = (Vec::with_capacity(count * count), Vec::new());
        let mut cells =
            Self { low, per_step, side, columns: count, rows: count, sides, starts: vec![0], edges };
        let mut found = Vec::with_capacity(edge_count);
        let mut y = low.y + 0.5 * side.y;
        for _ in 0..count {
            let mut x = low.x + 0.5 * side.x;
            for _ in 0..count {
                found.clear();
                let inside = distances(Spot::new(x, y), &mut found);
                cells.push(inside, reach, &found);
                x += side.x;
            }
            y += side.y;
        }
        cells
    }

    fn push(&mut self, inside: bool, reach: f64, distances: &[f64]) {
        let nearest = distances.iter().copied().fold(f64::INFINITY, f64::min);
        let side = match (reach < nearest, inside) {
            (true, true) => Side::Inside,
            (true, false) => Side::Outside,
            (false, true) => Side::FromInside,
            (false, false) => Side::FromOutside,
        };
        self.sides.push(side);
        if side != Side::Outside {
            let near = |(edge, distance): (usize, &f64)| {
                (*distance <= nearest + 2.01 * reach).then(|| u32::try_from(edge).ok()).flatten()
            };
            self.edges.extend(distances.iter().enumerate().filter_map(near));
        }
        self.starts.push(u32::try_from(self.edges.len()).unwrap_or(u32::MAX));
    }

    /// The side of the cell that holds `at`, its centre, and the edges that can be nearest there.
    #[inline]
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "spots asked about lie in the rectangle, and the last cell takes its far border"
    )]
    pub(crate) fn at(&self, at: Spot) -> (Side, Spot, &[u32]) {
        let column = (((at.x - self.low.x) * self.per_step.x) as usize).min(self.columns - 1);
        let row = (((at.y - self.low.y) * self.per_step.y) as usize).min(self.rows - 1);
        let cell = row * self.columns + column;
        let range = self.starts[cell] as usize..self.starts[cell + 1] as usize;
        let centre = Spot::new(
            self.low.x + (column as f64 + 0.5) * self.side.x,
            self.low.y + (row as f64 + 0.5) * self.side.y,
        );
        (self.sides[cell], centre, &self.edges[range])
    }
}
