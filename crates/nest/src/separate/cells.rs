//! A lattice over a no-fit polygon: which edges can be nearest in each cell, and which cells lie clear of it.
//!
//! The distance to the border changes by no more than the way gone. So in a cell whose centre is at distance d, and
//! whose corners lie r from the centre, only edges within d + 2r of the centre can be nearest, and where r < d the
//! whole cell lies on the centre's side. Coarse cells are judged first, so that fine ones look at few edges.
//!
//! In a cell that lies wholly inside the depth is interpolated between its corners. That is off by a share of the
//! cell where the nearest edge changes, but quick, and the place where the depth ends stays exact.

use crate::separate::Spot;

/// On which side of the border a cell lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    Inside,
    Outside,
    /// The border may pass through.
    Either,
}

/// What a cell holds instead of the number of its list of edges. Two bytes a cell, because the search jumps about
/// in the lattices of all pairs and is held up by memory first of all.
const OUTSIDE: u16 = u16::MAX;

/// Set in a cell that lies wholly inside, beside the number of its list.
const INSIDE: u16 = 1 << 15;

/// The lattice.
#[derive(Debug)]
pub(crate) struct Cells {
    low: Spot,
    /// Cells in a step along each axis.
    per_step: Spot,
    /// Cells along each axis. Numbers of cells are `i32`, to and from which `f64` is turned quickest.
    count: i32,
    /// [`OUTSIDE`], or the number of a list in `starts`, with [`INSIDE`].
    cells: Vec<u16>,
    /// Where the lists of edges begin in `near`, and where the last ends.
    starts: Vec<u32>,
    near: Vec<u32>,
    /// Depth at every corner of the cells in units of `depth_unit`; only those of cells inside are set.
    corners: Vec<u16>,
    depth_unit: f64,
}

/// What a cell says of a place.
pub(crate) enum Known<'a> {
    Outside,
    /// Deep inside: about so deep.
    Inside(f64),
    /// The border may be near: ask these edges.
    Ask(&'a [u32]),
}

/// Coarse cells along each axis.
const COARSE: usize = 8;

/// Room for rounding when edges are left out: a share of the cell's reach.
const SPARE: f64 = 2.01;

/// What is known of the border from a spot.
pub(crate) trait Border {
    /// Distance to one edge.
    fn distance(&self, edge: u32, at: Spot) -> f64;
    /// True when the spot lies inside, judged by the edges given, the nearest among them.
    fn is_inside(&self, edges: &[u32], at: Spot) -> bool;
}

impl Cells {
    /// A lattice over the rectangle from `low` to `high`, each coarse cell cut into `fine` by `fine`.
    pub(crate) fn new(low: Spot, high: Spot, edges: u32, fine: usize, border: &impl Border) -> Self {
        let count = COARSE * fine;
        let whole = i32::try_from(count).unwrap_or(i32::MAX);
        let side = Spot::new((high.x - low.x) / share(count), (high.y - low.y) / share(count));
        let per_step = Spot::new(1.0 / side.x, 1.0 / side.y);
        let (cells, corners) = (vec![OUTSIDE; count * count], vec![0; (count + 1) * (count + 1)]);
        let depth_unit = 0.5 * (high.x - low.x).min(high.y - low.y) / f64::from(u16::MAX);
        let (starts, near) = (vec![0], Vec::new());
        let mut made = Self { low, per_step, count: whole, cells, starts, near, corners, depth_unit };
        let all: Vec<u32> = (0..edges).collect();
        let wide = Spot::new(side.x * share(fine), side.y * share(fine));
        let (mut some, mut few) = (Vec::new(), Vec::new());
        for row in 0..COARSE {
            for column in 0..COARSE {
                let side_of = judged(low, wide, (column, row), &all, border, &mut some);
                if side_of == Side::Outside {
                    continue;
                }
                for inner in 0..fine * fine {
                    let (x, y) = (column * fine + inner % fine, row * fine + inner / fine);
                    let side_of = judged(low, side, (x, y), &some, border, &mut few);
                    made.put(y * count + x, side_of, &few);
                    if side_of == Side::Inside {
                        made.measure_corners((x, y), side, &few, border);
                    }
                }
            }
        }
        made.near.shrink_to_fit();
        made
    }

    fn put(&mut self, cell: usize, side: Side, near: &[u32]) {
        if side == Side::Outside {
            return;
        }
        let list = u16::try_from(self.starts.len() - 1).unwrap_or(INSIDE - 1);
        self.near.extend_from_slice(near);
        self.starts.push(u32::try_from(self.near.len()).unwrap_or(u32::MAX));
        self.cells[cell] = if side == Side::Inside { list | INSIDE } else { list };
    }

    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "depths are whole units below 2^16"
    )]
    fn measure_corners(&mut self, (x, y): (usize, usize), side: Spot, near: &[u32], border: &impl Border) {
        let in_row = self.corners_in_row();
        for (x, y) in [(x, y), (x + 1, y), (x, y + 1), (x + 1, y + 1)] {
            let at = Spot::new(self.low.x + share(x) * side.x, self.low.y + share(y) * side.y);
            let depth = near.iter().fold(f64::INFINITY, |least, &edge| least.min(border.distance(edge, at)));
            self.corners[y * in_row + x] = (depth / self.depth_unit).round() as u16;
        }
    }

    /// What the cell that holds `at` says.
    #[inline]
    pub(crate) fn known(&self, at: Spot) -> Known<'_> {
        let (x, y) = ((at.x - self.low.x) * self.per_step.x, (at.y - self.low.y) * self.per_step.y);
        let (column, row) = (self.bin(x), self.bin(y));
        let cell = self.cells[index(row * self.count + column)];
        if cell == OUTSIDE {
            return Known::Outside;
        }
        if cell & INSIDE == 0 {
            return Known::Ask(self.edges_of(cell));
        }
        let (u, v) = (x - f64::from(column), y - f64::from(row));
        let below = index(row * (self.count + 1) + column);
        let above = below + self.corners_in_row();
        let pair = |first: usize| match self.corners.get(first..first + 2) {
            Some(&[left, right]) => (f64::from(left), f64::from(right)),
            _ => (0.0, 0.0),
        };
        let ((a, b), (c, d)) = (pair(below), pair(above));
        let (low, high) = (a + u * (b - a), c + u * (d - c));
        Known::Inside((low + v * (high - low)) * self.depth_unit)
    }

    /// The edges that can be nearest to `at`.
    pub(crate) fn near(&self, at: Spot) -> &[u32] {
        let column = self.bin((at.x - self.low.x) * self.per_step.x);
        let row = self.bin((at.y - self.low.y) * self.per_step.y);
        self.edges_of(self.cells[index(row * self.count + column)])
    }

    #[inline]
    const fn corners_in_row(&self) -> usize {
        index(self.count + 1)
    }

    fn edges_of(&self, cell: u16) -> &[u32] {
        if cell == OUTSIDE {
            return &[];
        }
        let list = usize::from(cell & !INSIDE);
        &self.near[self.starts[list] as usize..self.starts[list + 1] as usize]
    }

    #[inline]
    #[expect(
        clippy::cast_possible_truncation,
        reason = "spots asked about lie in the rectangle, and the last cell takes its far border"
    )]
    fn bin(&self, cells: f64) -> i32 {
        (cells as i32).min(self.count - 1)
    }
}

/// A number of a cell or corner, never below zero.
#[inline]
#[expect(clippy::cast_sign_loss, reason = "places in the rectangle have no negative cells")]
const fn index(number: i32) -> usize {
    number as usize
}

/// The side of one cell; `near` becomes those of `edges` that can be nearest in it.
fn judged(
    low: Spot,
    side: Spot,
    (column, row): (usize, usize),
    edges: &[u32],
    border: &impl Border,
    near: &mut Vec<u32>,
) -> Side {
    let centre = Spot::new(low.x + (share(column) + 0.5) * side.x, low.y + (share(row) + 0.5) * side.y);
    let reach = 0.5 * (side.x * side.x + side.y * side.y).sqrt();
    let distances = edges.iter().map(|&edge| (edge, border.distance(edge, centre)));
    let nearest = distances.clone().fold(f64::INFINITY, |least, (_, distance)| least.min(distance));
    near.clear();
    near.extend(distances.filter(|(_, distance)| *distance <= nearest + SPARE * reach).map(|(edge, _)| edge));
    match (reach < nearest, border.is_inside(near, centre)) {
        (false, _) => Side::Either,
        (true, true) => Side::Inside,
        (true, false) => Side::Outside,
    }
}

#[expect(clippy::cast_precision_loss, reason = "counts of cells are small")]
const fn share(count: usize) -> f64 {
    count as f64
}
