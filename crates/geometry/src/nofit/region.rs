//! A set of shifts bounded by rings.

use crate::grid::{GridOutline, GridPoint, Place, doubled_area, place_in_ring};
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

    /// The region covered by an outline's metal.
    #[must_use]
    pub fn of_outline(outline: &GridOutline) -> Self {
        Self::new(outline.rings().map(<[GridPoint]>::to_vec).collect())
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

    /// What lies in both regions.
    #[must_use]
    pub fn meeting(&self, other: &Self) -> Self {
        if self.apart_from(other, GridPoint::default()) {
            return Self::default();
        }
        Self::new(winding::intersection(&self.rings, &other.rings))
    }

    /// The pieces of the region that do not hang together, each with its hollows.
    #[must_use]
    pub fn pieces(&self) -> Vec<Self> {
        let is_outer = |ring: &&Vec<GridPoint>| 0 < doubled_area(ring);
        let outers: Vec<&Vec<GridPoint>> = self.rings.iter().filter(is_outer).collect();
        let mut pieces: Vec<Vec<Vec<GridPoint>>> = outers.iter().map(|&ring| vec![ring.clone()]).collect();
        for hollow in self.rings.iter().filter(|ring| !is_outer(ring)) {
            // The smallest ring round a corner of the hollow that is not on it holds it.
            let holds =
                |outer: &Vec<GridPoint>| hollow.iter().all(|&p| place_in_ring(outer, p) != Place::Outside);
            let around = (0..outers.len()).filter(|&at| holds(outers[at]));
            if let Some(at) = around.min_by_key(|&at| doubled_area(outers[at])) {
                pieces[at].push(hollow.clone());
            }
        }
        pieces.into_iter().map(Self::new).collect()
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
