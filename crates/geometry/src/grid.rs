//! Outlines on a grid of whole steps of [`tolerance::GRID_STEP_MM`], for exact placing and exact checking.
//!
//! Going onto the grid always rounds *outward*: metal grows, holes shrink (see [`GridOutline::from_polygon`]).
//! Coordinates stay below [`GRID_LIMIT`], so products of two fit `i64` and longer sums are taken in `i128`.

mod clip;
mod cover;
mod exact;
mod outward;
mod turn;
mod valid;

use thiserror::Error;

use crate::{Polygon, tolerance};

pub use cover::filled_union;
pub use exact::bounds as bounds_of;
pub use exact::{Place, cross, doubled_area, place_in_ring, ring_edges};
pub use turn::Turn;

/// Largest coordinate, in steps, that the grid holds: some 134 m. The cross product of two shifts between such places
/// stays below 2^63.
pub const GRID_LIMIT: i64 = 1 << 30;

/// A place on the grid, or a shift, in steps of [`tolerance::GRID_STEP_MM`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct GridPoint {
    /// Steps along x.
    pub x: i64,
    /// Steps along y.
    pub y: i64,
}

/// A straight-sided figure on the grid: outer corners counter-clockwise, holes clockwise, nothing crossing.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct GridOutline {
    outer: Vec<GridPoint>,
    holes: Vec<Vec<GridPoint>>,
}

/// A ring of an outline, for messages.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ring {
    /// The outer ring.
    Outer,
    /// A hole, counted from 0.
    Hole(usize),
}

impl std::fmt::Display for Ring {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Outer => write!(f, "the outer edge"),
            Self::Hole(index) => write!(f, "hole {}", index + 1),
        }
    }
}

/// Why a figure cannot be put on the grid.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum GridError {
    /// Fewer than three different corners, or no area.
    #[error("{ring} encloses no area")]
    NoArea {
        /// Which ring.
        ring: Ring,
    },
    /// A coordinate that is not a number or lies beyond [`GRID_LIMIT`].
    #[error("{ring}: corner {corner} lies beyond {limit_m} m")]
    BeyondGrid {
        /// Which ring.
        ring: Ring,
        /// Which corner, from 0.
        corner: usize,
        /// The limit in metres.
        limit_m: i64,
    },
    /// Two edges of the figure cross or touch.
    #[error("{first} edge {first_edge} meets {second} edge {second_edge}")]
    Crossing {
        /// Ring of the first edge.
        first: Ring,
        /// Number of the first edge, from 0.
        first_edge: usize,
        /// Ring of the second edge.
        second: Ring,
        /// Number of the second edge, from 0.
        second_edge: usize,
    },
    /// A hole outside the outer edge or inside another hole.
    #[error("{ring} does not lie in the metal")]
    StrayHole {
        /// Which hole.
        ring: Ring,
    },
}

impl GridPoint {
    /// The place or shift (`x`, `y`) in steps.
    #[must_use]
    pub const fn new(x: i64, y: i64) -> Self {
        Self { x, y }
    }
}

impl std::ops::Add for GridPoint {
    type Output = Self;
    fn add(self, by: Self) -> Self {
        Self::new(self.x + by.x, self.y + by.y)
    }
}

impl std::ops::Sub for GridPoint {
    type Output = Self;
    fn sub(self, by: Self) -> Self {
        Self::new(self.x - by.x, self.y - by.y)
    }
}

impl std::ops::Neg for GridPoint {
    type Output = Self;
    fn neg(self) -> Self {
        Self::new(-self.x, -self.y)
    }
}

impl GridOutline {
    /// An outline from its corners in either sense; rings are turned the right way round, corners on a straight
    /// edge are dropped.
    ///
    /// # Errors
    /// [`GridError`] when a ring has no area, a corner lies beyond the grid, edges cross or touch, or a hole does
    /// not lie in the metal.
    pub fn new(outer: Vec<GridPoint>, holes: Vec<Vec<GridPoint>>) -> Result<Self, GridError> {
        valid::checked(outer, holes)
    }

    /// A rectangle with its lower left corner at the origin.
    ///
    /// # Errors
    /// [`GridError`] when a side is not positive or lies beyond the grid.
    pub fn rectangle(length: i64, width: i64) -> Result<Self, GridError> {
        let corners = [(0, 0), (length, 0), (length, width), (0, width)];
        Self::new(corners.map(|(x, y)| GridPoint::new(x, y)).to_vec(), Vec::new())
    }

    /// A polygon in millimetres rounded outward: every point of its metal lies in the result. One whose corners all lie on
    /// the grid stays as it is. Else corners between upright and level edges move by less than a step; slanted edges move out
    /// by up to [`tolerance::OUTWARD_STEPS`], but nowhere beyond the upright rectangle around the polygon by a step or more. A
    /// hole too small to survive is closed.
    ///
    /// # Errors
    /// As for [`GridOutline::new`].
    pub fn from_polygon(polygon: &Polygon) -> Result<Self, GridError> {
        Self::from_polygon_within(polygon, crate::polygon::bounds(&polygon.outer))
    }

    /// The same for a polygon that stands for metal whose own bounds are given, such as one of chords outside the arcs of an
    /// outline: nothing of it reaches beyond them by a step or more.
    ///
    /// # Errors
    /// As for [`GridOutline::new`].
    pub fn from_polygon_within(
        polygon: &Polygon,
        (low, high): (crate::Point, crate::Point),
    ) -> Result<Self, GridError> {
        let steps = |corner: &crate::Point| {
            crate::Point::new(corner.x / tolerance::GRID_STEP_MM, corner.y / tolerance::GRID_STEP_MM)
        };
        let outer: Vec<_> = polygon.outer.iter().map(steps).collect();
        let holes: Vec<Vec<_>> = polygon.holes.iter().map(|hole| hole.iter().map(steps).collect()).collect();
        valid::on_grid(&outer, Ring::Outer)?;
        for (index, hole) in holes.iter().enumerate() {
            valid::on_grid(hole, Ring::Hole(index))?;
        }
        // Rings that touch are no outline, but grown ones may be.
        if let Some((outer, holes)) = outward::as_they_are(&outer, &holes)
            && let Ok(outline) = Self::new(outer, holes)
        {
            return Ok(outline);
        }
        let (outer, holes) = outward::grown(&outer, &holes, 0.0);
        let (low, high) = outward::bounds_of([low, high].map(|corner| steps(&corner)));
        // A figure of which nothing is left so, or that touches itself, stays as it was rounded.
        let clipped = Self::new(clip::within(&outer, low, high), holes.clone());
        clipped.or_else(|_| Self::new(outer, holes))
    }

    /// The outer ring, counter-clockwise.
    #[must_use]
    pub fn outer(&self) -> &[GridPoint] {
        &self.outer
    }

    /// The holes, each clockwise.
    #[must_use]
    pub fn holes(&self) -> &[Vec<GridPoint>] {
        &self.holes
    }

    /// All rings, the outer one first.
    pub fn rings(&self) -> impl Iterator<Item = &[GridPoint]> {
        std::iter::once(self.outer.as_slice()).chain(self.holes.iter().map(Vec::as_slice))
    }

    /// Twice the net area, in square steps.
    #[must_use]
    pub fn doubled_area(&self) -> i128 {
        self.rings().map(doubled_area).sum()
    }

    /// Least and greatest corner of the smallest upright rectangle around the outline.
    #[must_use]
    pub fn bounds(&self) -> (GridPoint, GridPoint) {
        exact::bounds(&self.outer)
    }

    /// The outline moved by `by`.
    #[must_use]
    pub fn shifted(&self, by: GridPoint) -> Self {
        let shift = |ring: &[GridPoint]| ring.iter().map(|&corner| corner + by).collect();
        Self { outer: shift(&self.outer), holes: self.holes.iter().map(|hole| shift(hole)).collect() }
    }

    /// The outline with its holes filled.
    #[must_use]
    pub fn filled(&self) -> Self {
        Self { outer: self.outer.clone(), holes: Vec::new() }
    }

    /// The outline turned counter-clockwise about the origin. Quarter turns are exact; any other turn is rounded
    /// outward as in [`GridOutline::from_polygon`].
    #[must_use]
    pub fn turned(&self, turn: Turn) -> Self {
        if let Some(quarters) = turn.quarters() {
            let quarter =
                |ring: &[GridPoint]| ring.iter().map(|&p| turn::quarter_turned(p, quarters)).collect();
            return Self {
                outer: quarter(&self.outer),
                holes: self.holes.iter().map(|h| quarter(h)).collect(),
            };
        }
        let float = |ring: &[GridPoint]| ring.iter().map(|&p| turn::turned(p, turn)).collect::<Vec<_>>();
        let holes: Vec<Vec<_>> = self.holes.iter().map(|hole| float(hole)).collect();
        let (outer, holes) = outward::grown(&float(&self.outer), &holes, 0.0);
        Self { outer, holes }
    }

    /// The outline turned over about the x axis: what lies above it comes to lie below. Exact.
    #[must_use]
    pub fn turned_over(&self) -> Self {
        let over = |ring: &[GridPoint]| ring.iter().rev().map(|p| GridPoint::new(p.x, -p.y)).collect();
        Self { outer: over(&self.outer), holes: self.holes.iter().map(|hole| over(hole)).collect() }
    }

    /// The outline grown by `steps` all round: everything within that distance of the metal lies in the result.
    /// Corners turning up to 100° are carried out to a point, sharper ones are blunted.
    #[must_use]
    pub fn grown(&self, steps: i64) -> Self {
        if steps == 0 {
            return self.clone();
        }
        let holes: Vec<Vec<_>> = self.holes.iter().map(|hole| exact::to_float(hole)).collect();
        let (outer, holes) = outward::grown(&exact::to_float(&self.outer), &holes, exact::float(steps));
        Self { outer, holes }
    }
}
