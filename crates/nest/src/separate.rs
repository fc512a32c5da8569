//! Pulling overlapping pieces apart in a rectangle: overlap minimisation with guided local search.
//!
//! Pieces may overlap while the search runs. How much a pair overlaps is its *depth*: the least shift that parts
//! the two, which is the distance from their relative place to the border of their no-fit polygon. Every pair has
//! a weight that rises while it overlaps and sinks slowly when it does not; pieces that overlap are moved, in
//! random order, to places of less weighted depth, found by sampling and then settled into corners between borders.
//!
//! Sources (ideas, from memory): depth by no-fit polygons, Imamichi, Yagiura, Nagamochi, *Discrete Optimization* 6
//! (2009); pair weights, Egeblad, Nielsen, Odgaard, *Eur. J. Oper. Res.* 183 (2007), and Umetani et al., *Int. Trans.
//! Oper. Res.* 16 (2009); sampled places, two phases and the weight rule, Gardeyn, Vanden Berghe, Wauters (2025),
//! DOI 10.48550/arXiv.2509.13329.
//!
//! Places are `f64` steps here. Outlines are grown by a few steps first, so that rounding a solution to the grid
//! keeps it valid; the exact verifier has the last word.

mod cells;
pub(crate) mod depth;
pub(crate) mod ground;
pub(crate) mod look;
pub(crate) mod rounds;
mod settle;
pub(crate) mod sight;
pub(crate) mod state;
pub(crate) mod table;

use geometry::grid::GridPoint;

/// A place in `f64` steps.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Spot {
    pub(crate) x: f64,
    pub(crate) y: f64,
}

impl Spot {
    pub(crate) const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The nearest place on the grid.
    #[expect(clippy::cast_possible_truncation, reason = "places lie on a sheet, far below the range of i64")]
    pub(crate) fn rounded(self) -> GridPoint {
        GridPoint::new(self.x.round() as i64, self.y.round() as i64)
    }
}

impl std::ops::Sub for Spot {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y)
    }
}

impl std::ops::Add for Spot {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y)
    }
}

/// Depths up to this many steps count as none. It is less than the growth of the outlines by the rounding.
pub(crate) const TOUCHING_STEPS: f64 = 1.0;

/// Steps by which outlines are grown beyond the gap: touching, the rounding of two places to the grid and the
/// rounding of no-fit polygons, each a step or so.
pub(crate) const SAFE_STEPS: i64 = 5;

/// A grid number as `f64`; exact, since the grid ends far below 2^53.
#[expect(clippy::cast_precision_loss, reason = "the grid ends far below 2^53")]
pub(crate) const fn float(steps: i64) -> f64 {
    steps as f64
}
