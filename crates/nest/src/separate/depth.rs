//! How deep a shift lies in a no-fit polygon.

use geometry::grid::{GridPoint, cross, ring_edges};
use geometry::nofit::Region;

use crate::separate::{Spot, TOUCHING_STEPS, float};

/// An edge of a no-fit polygon.
#[derive(Debug, Clone, Copy)]
struct Edge {
    from: Spot,
    along: Spot,
    /// One over the squared length.
    inverse: f64,
    /// Unit vector square to the edge, out of the region.
    out: Spot,
}

/// A no-fit polygon in `f64` for fast questions.
#[derive(Debug)]
pub(crate) struct Depth {
    low: Spot,
    high: Spot,
    edges: Vec<Edge>,
    convex: bool,
}

impl Depth {
    pub(crate) fn new(region: &Region) -> Self {
        let (low, high) = region.bounds();
        let edges =
            region.rings().iter().flat_map(|ring| ring_edges(ring)).map(|(a, b)| edge(a, b)).collect();
        let convex = region.rings().len() == 1 && is_convex(&region.rings()[0]);
        Self { low: spot(low), high: spot(high), edges, convex }
    }

    /// The least shift that brings `at` to the border, 0 outside.
    #[inline]
    pub(crate) fn at(&self, at: Spot) -> f64 {
        let beside = at.x <= self.low.x || self.high.x <= at.x || at.y <= self.low.y || self.high.y <= at.y;
        if beside {
            return 0.0;
        }
        let depth = if self.convex {
            self.convex_depth(at)
        } else if self.holds(at) {
            self.squared(at).sqrt()
        } else {
            0.0
        };
        if depth <= TOUCHING_STEPS { 0.0 } else { depth }
    }

    /// The least shift itself, from inside; `None` outside.
    pub(crate) fn way_out(&self, at: Spot) -> Option<Spot> {
        if self.at(at) <= 0.0 {
            return None;
        }
        let offset = |edge: &Edge| {
            let to = nearest(edge, at);
            Spot::new(to.x - at.x, to.y - at.y)
        };
        let length = |shift: &Spot| shift.x * shift.x + shift.y * shift.y;
        self.edges.iter().map(offset).min_by(|a, b| length(a).total_cmp(&length(b)))
    }

    fn convex_depth(&self, at: Spot) -> f64 {
        let mut least = f64::INFINITY;
        for edge in &self.edges {
            let depth = (edge.from.x - at.x) * edge.out.x + (edge.from.y - at.y) * edge.out.y;
            if depth <= 0.0 {
                return 0.0;
            }
            least = least.min(depth);
        }
        least
    }

    fn holds(&self, at: Spot) -> bool {
        let mut inside = false;
        for edge in &self.edges {
            let (from, to) = (edge.from.y, edge.from.y + edge.along.y);
            if (from <= at.y) != (to <= at.y) {
                let side = edge.along.x * (at.y - from) - edge.along.y * (at.x - edge.from.x);
                inside ^= (0.0 < edge.along.y) == (0.0 < side);
            }
        }
        inside
    }

    fn squared(&self, at: Spot) -> f64 {
        self.edges.iter().fold(f64::INFINITY, |least, edge| {
            let (x, y) = (at.x - edge.from.x, at.y - edge.from.y);
            let share = ((x * edge.along.x + y * edge.along.y) * edge.inverse).clamp(0.0, 1.0);
            let (x, y) = (x - share * edge.along.x, y - share * edge.along.y);
            least.min(x * x + y * y)
        })
    }
}

fn nearest(edge: &Edge, at: Spot) -> Spot {
    let (x, y) = (at.x - edge.from.x, at.y - edge.from.y);
    let share = ((x * edge.along.x + y * edge.along.y) * edge.inverse).clamp(0.0, 1.0);
    Spot::new(edge.from.x + share * edge.along.x, edge.from.y + share * edge.along.y)
}

fn edge(a: GridPoint, b: GridPoint) -> Edge {
    let along = spot(b - a);
    let squared = along.x * along.x + along.y * along.y;
    let length = squared.sqrt();
    Edge { from: spot(a), along, inverse: 1.0 / squared, out: Spot::new(along.y / length, -along.x / length) }
}

fn is_convex(ring: &[GridPoint]) -> bool {
    let n = ring.len();
    (0..n).all(|i| 0 <= cross(ring[i], ring[(i + 1) % n], ring[(i + 2) % n]))
}

const fn spot(p: GridPoint) -> Spot {
    Spot::new(float(p.x), float(p.y))
}
