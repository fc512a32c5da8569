//! A set of shifts bounded by rings.

use crate::grid::{GridPoint, Place, place_in_ring};
use crate::nofit::winding;

/// A set of shifts: rings counter-clockwise around it, clockwise around its hollows.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Region {
    rings: Vec<Vec<GridPoint>>,
    low: GridPoint,
    high: GridPoint,
}

impl Region {
    /// The region within `rings`, each counter-clockwise, or clockwise for a hollow.
    pub(crate) fn new(rings: Vec<Vec<GridPoint>>) -> Self {
        let corners: Vec<GridPoint> = rings.iter().flatten().copied().collect();
        let (low, high) = crate::grid::bounds_of(&corners);
        Self { rings, low, high }
    }

    /// The upright rectangle from `low` to `high`.
    #[must_use]
    pub fn upright(low: GridPoint, high: GridPoint) -> Self {
        let corners = [(low.x, low.y), (high.x, low.y), (high.x, high.y), (low.x, high.y)];
        Self { rings: vec![corners.map(|(x, y)| GridPoint::new(x, y)).to_vec()], low, high }
    }

    /// The bounding rings.
    #[must_use]
    pub fn rings(&self) -> &[Vec<GridPoint>] {
        &self.rings
    }

    /// True when the region holds no shift.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.rings.is_empty()
    }

    /// Least and greatest corner of the upright rectangle around the region.
    #[must_use]
    pub const fn bounds(&self) -> (GridPoint, GridPoint) {
        (self.low, self.high)
    }

    /// Where a shift lies with regard to the region.
    #[must_use]
    pub fn place(&self, shift: GridPoint) -> Place {
        if shift.x < self.low.x || self.high.x < shift.x || shift.y < self.low.y || self.high.y < shift.y {
            return Place::Outside;
        }
        let mut inside = false;
        for ring in &self.rings {
            match place_in_ring(ring, shift) {
                Place::Border => return Place::Border,
                Place::Inside => inside = !inside,
                Place::Outside => {}
            }
        }
        if inside { Place::Inside } else { Place::Outside }
    }

    /// The region moved by `by`.
    #[must_use]
    pub fn shifted(&self, by: GridPoint) -> Self {
        let rings = self.rings.iter().map(|ring| ring.iter().map(|&p| p + by).collect()).collect();
        Self { rings, low: self.low + by, high: self.high + by }
    }

    /// The region without the shifts in any of `others`, each moved by its own shift first.
    #[must_use]
    pub fn without<'a>(&self, others: impl Iterator<Item = (&'a Self, GridPoint)>) -> Self {
        let mut less = Vec::new();
        for (other, by) in others {
            if self.apart_from(other, by) {
                continue;
            }
            less.extend(other.rings.iter().map(|ring| ring.iter().map(|&p| p + by).collect::<Vec<_>>()));
        }
        if less.is_empty() { self.clone() } else { Self::new(winding::difference(&self.rings, &less)) }
    }

    fn apart_from(&self, other: &Self, by: GridPoint) -> bool {
        let (low, high) = (other.low + by, other.high + by);
        high.x <= self.low.x || self.high.x <= low.x || high.y <= self.low.y || self.high.y <= low.y
    }
}
