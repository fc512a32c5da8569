//! How deep a shift lies in a no-fit polygon.

use geometry::grid::{GridPoint, cross};
use geometry::nofit::Region;

use crate::separate::cells::{Border, Cells, Known};
use crate::separate::{Spot, TOUCHING_STEPS, float};

/// An edge of a no-fit polygon, the inside to its left.
#[derive(Debug, Clone, Copy)]
struct Edge {
    from: Spot,
    along: Spot,
    /// One over the squared length.
    inverse: f64,
    /// A spot whose nearest place on the border is this edge's first, or last, corner lies inside.
    inside_at: [bool; 2],
}

/// A no-fit polygon in `f64` for fast questions.
#[derive(Debug)]
pub(crate) struct Depth {
    low: Spot,
    high: Spot,
    border: Edges,
    cells: Cells,
}

/// All edges of the border.
#[derive(Debug)]
struct Edges(Vec<Edge>);

impl Depth {
    /// `fine` sets how fine the lattice is.
    pub(crate) fn new(region: &Region, fine: usize) -> Self {
        let (low, high) = region.bounds();
        let (low, high) = (spot(low), spot(high));
        let border = Edges(region.rings().iter().flat_map(|ring| edges(ring)).collect());
        let count = u32::try_from(border.0.len()).unwrap_or(u32::MAX);
        let cells = Cells::new(low, high, count, fine, &border);
        Self { low, high, border, cells }
    }

    /// Least and greatest corner of the rectangle outside which nothing overlaps.
    pub(crate) const fn bounds(&self) -> (Spot, Spot) {
        (self.low, self.high)
    }

    /// The least shift that brings `at` to the border, 0 outside.
    #[inline]
    pub(crate) fn at(&self, at: Spot) -> f64 {
        if !self.is_within(at) {
            return 0.0;
        }
        match self.cells.known(at) {
            Known::Outside => 0.0,
            Known::Inside(depth) => depth,
            Known::Ask(near) => match self.border.nearest(near, at) {
                (least, Some(edge)) if FARTHEST_TOUCH < least && edge.has_inside(at) => least.sqrt(),
                _ => 0.0,
            },
        }
    }

    /// The least shift that brings `at` to the border, from inside; `None` outside.
    pub(crate) fn way_out(&self, at: Spot) -> Option<Spot> {
        if !self.is_within(at) {
            return None;
        }
        let edge = match self.cells.known(at) {
            Known::Outside => None,
            Known::Inside(depth) => {
                (0.0 < depth).then(|| self.border.nearest(self.cells.near(at), at)).and_then(|(_, edge)| edge)
            }
            Known::Ask(near) => match self.border.nearest(near, at) {
                (least, Some(edge)) if FARTHEST_TOUCH < least && edge.has_inside(at) => Some(edge),
                _ => None,
            },
        };
        edge.map(|edge| nearest_on(edge, at) - at)
    }

    /// True in the rectangle outside which nothing overlaps. Without `&&` there is one branch to guess, not four.
    #[inline]
    fn is_within(&self, at: Spot) -> bool {
        (self.low.x < at.x) & (at.x < self.high.x) & (self.low.y < at.y) & (at.y < self.high.y)
    }
}

/// Squared distance up to which a spot counts as touching.
const FARTHEST_TOUCH: f64 = TOUCHING_STEPS * TOUCHING_STEPS;

impl Edges {
    /// Squared distance to the border, and its nearest edge, the first of equals.
    #[inline]
    fn nearest(&self, near: &[u32], at: Spot) -> (f64, Option<&Edge>) {
        let (mut least, mut nearest) = (f64::INFINITY, 0);
        for &edge in near {
            let (distance, _) = squared(&self.0[edge as usize], at);
            if distance < least {
                (least, nearest) = (distance, edge);
            }
        }
        (least, self.0.get(nearest as usize))
    }
}

impl Edge {
    /// True when a spot to which this edge is the nearest lies inside.
    #[inline]
    fn has_inside(&self, at: Spot) -> bool {
        let (x, y) = (at.x - self.from.x, at.y - self.from.y);
        let share = (x * self.along.x + y * self.along.y) * self.inverse;
        if share <= 0.0 {
            self.inside_at[0]
        } else if 1.0 <= share {
            self.inside_at[1]
        } else {
            0.0 < self.along.x * y - self.along.y * x
        }
    }
}

impl Border for Edges {
    fn distance(&self, edge: u32, at: Spot) -> f64 {
        squared(&self.0[edge as usize], at).0.sqrt()
    }

    fn is_inside(&self, edges: &[u32], at: Spot) -> bool {
        self.nearest(edges, at).1.is_some_and(|edge| edge.has_inside(at))
    }
}

/// Squared distance, and where along the edge the nearest place is, as a share of its length.
#[inline]
fn squared(edge: &Edge, at: Spot) -> (f64, f64) {
    let (x, y) = (at.x - edge.from.x, at.y - edge.from.y);
    let share = (x * edge.along.x + y * edge.along.y) * edge.inverse;
    // Unlike `clamp` this compiles to two instructions.
    let share = if 0.0 < share { share } else { 0.0 };
    let share = if share < 1.0 { share } else { 1.0 };
    let (x, y) = (x - share * edge.along.x, y - share * edge.along.y);
    (x * x + y * y, share)
}

fn nearest_on(edge: &Edge, at: Spot) -> Spot {
    let (_, share) = squared(edge, at);
    Spot::new(edge.from.x + share * edge.along.x, edge.from.y + share * edge.along.y)
}

/// The edges of a ring.
fn edges(ring: &[GridPoint]) -> Vec<Edge> {
    let n = ring.len();
    let turns_right = |corner: usize| {
        let (before, at, after) = (ring[(corner + n - 1) % n], ring[corner % n], ring[(corner + 1) % n]);
        cross(before, at, after) < 0
    };
    let edge = |corner: usize| {
        let along = spot(ring[(corner + 1) % n] - ring[corner]);
        let inverse = 1.0 / (along.x * along.x + along.y * along.y);
        let inside_at = [turns_right(corner), turns_right(corner + 1)];
        Edge { from: spot(ring[corner]), along, inverse, inside_at }
    };
    (0..n).map(edge).collect()
}

const fn spot(p: GridPoint) -> Spot {
    Spot::new(float(p.x), float(p.y))
}
