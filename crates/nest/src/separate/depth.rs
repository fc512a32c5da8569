//! How deep a shift lies in a no-fit polygon.

use geometry::grid::{GridPoint, ring_edges};
use geometry::nofit::Region;

use crate::separate::cells::{Cells, Side};
use crate::separate::{Spot, TOUCHING_STEPS, float};

/// An edge of a no-fit polygon.
#[derive(Debug, Clone, Copy)]
struct Edge {
    from: Spot,
    along: Spot,
    /// One over the squared length.
    inverse: f64,
}

/// A no-fit polygon in `f64` for fast questions.
#[derive(Debug)]
pub(crate) struct Depth {
    low: Spot,
    high: Spot,
    edges: Vec<Edge>,
    cells: Cells,
}

impl Depth {
    pub(crate) fn new(region: &Region) -> Self {
        let (low, high) = region.bounds();
        let (low, high) = (spot(low), spot(high));
        let rings = region.rings().iter();
        let edges: Vec<Edge> = rings.flat_map(|ring| ring_edges(ring)).map(|(a, b)| edge(a, b)).collect();
        let cells = Cells::new(low, high, edges.len(), |at, distances| {
            distances.extend(edges.iter().map(|edge| squared(edge, at).sqrt()));
            holds(&edges, at)
        });
        Self { low, high, edges, cells }
    }

    /// The least shift that brings `at` to the border, 0 outside.
    #[inline]
    pub(crate) fn at(&self, at: Spot) -> f64 {
        let beside = at.x <= self.low.x || self.high.x <= at.x || at.y <= self.low.y || self.high.y <= at.y;
        if beside {
            return 0.0;
        }
        let (side, centre, near) = self.cells.at(at);
        let inside = match side {
            Side::Inside => true,
            Side::Outside => false,
            Side::FromInside => self.same_side(near, centre, at),
            Side::FromOutside => !self.same_side(near, centre, at),
        };
        if !inside {
            return 0.0;
        }
        let least = near
            .iter()
            .fold(f64::INFINITY, |least, &edge| least.min(squared(&self.edges[edge as usize], at)));
        if least <= TOUCHING_STEPS * TOUCHING_STEPS { 0.0 } else { least.sqrt() }
    }

    /// True when the straight way from a cell's centre to `at` crosses the edges near it an even number of times.
    fn same_side(&self, near: &[u32], centre: Spot, at: Spot) -> bool {
        let way = at - centre;
        let left = |along: Spot, to: Spot| 0.0 <= along.x * to.y - along.y * to.x;
        let crosses = |index: &&u32| {
            let edge = &self.edges[**index as usize];
            let end = edge.from + edge.along;
            left(way, edge.from - centre) != left(way, end - centre)
                && left(edge.along, centre - edge.from) != left(edge.along, at - edge.from)
        };
        near.iter().filter(crosses).count() % 2 == 0
    }

    /// The least shift itself, from inside; `None` outside.
    pub(crate) fn way_out(&self, at: Spot) -> Option<Spot> {
        if self.at(at) <= 0.0 {
            return None;
        }
        let (_, _, near) = self.cells.at(at);
        let edges = near.iter().map(|&edge| &self.edges[edge as usize]);
        let nearest = edges.min_by(|a, b| squared(a, at).total_cmp(&squared(b, at)))?;
        Some(nearest_on(nearest, at) - at)
    }
}

fn holds(edges: &[Edge], at: Spot) -> bool {
    let mut inside = false;
    for edge in edges {
        let (from, to) = (edge.from.y, edge.from.y + edge.along.y);
        if (from <= at.y) != (to <= at.y) {
            let side = edge.along.x * (at.y - from) - edge.along.y * (at.x - edge.from.x);
            inside ^= (0.0 < edge.along.y) == (0.0 < side);
        }
    }
    inside
}

#[inline]
fn squared(edge: &Edge, at: Spot) -> f64 {
    let (x, y) = (at.x - edge.from.x, at.y - edge.from.y);
    let share = ((x * edge.along.x + y * edge.along.y) * edge.inverse).clamp(0.0, 1.0);
    let (x, y) = (x - share * edge.along.x, y - share * edge.along.y);
    x * x + y * y
}

fn nearest_on(edge: &Edge, at: Spot) -> Spot {
    let (x, y) = (at.x - edge.from.x, at.y - edge.from.y);
    let share = ((x * edge.along.x + y * edge.along.y) * edge.inverse).clamp(0.0, 1.0);
    Spot::new(edge.from.x + share * edge.along.x, edge.from.y + share * edge.along.y)
}

fn edge(a: GridPoint, b: GridPoint) -> Edge {
    let along = spot(b - a);
    Edge { from: spot(a), along, inverse: 1.0 / (along.x * along.x + along.y * along.y) }
}

const fn spot(p: GridPoint) -> Spot {
    Spot::new(float(p.x), float(p.y))
}
