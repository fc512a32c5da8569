//! Offcuts of any outline: the metal that is missing from their enclosing rectangle.

use geometry::grid::{GridOutline, GridPoint};
use geometry::nofit::Region;

use crate::problem::{Stock, StockShape};

/// Width of the frame that stands for what lies around an offcut, in steps. Pieces are kept in the enclosing
/// rectangle anyway.
const FRAME_STEPS: i64 = 1_000;

impl Stock {
    /// Length and width of the upright rectangle around it, in steps.
    #[must_use]
    pub fn size(&self) -> (i64, i64) {
        match &self.shape {
            StockShape::Rectangle { length, width } => (*length, *width),
            StockShape::Offcut(outline) | StockShape::Torn { outline, .. } => {
                let (_, high) = outline.bounds();
                (high.x, high.y)
            }
        }
    }

    /// The outline, where it is not a plain rectangle.
    #[must_use]
    pub const fn offcut(&self) -> Option<&GridOutline> {
        match &self.shape {
            StockShape::Rectangle { .. } => None,
            StockShape::Offcut(outline) | StockShape::Torn { outline, .. } => Some(outline),
        }
    }

    /// What lies within its outer edge and is of no use: holes and zones that may not be used, each as a solid outline.
    pub(crate) fn blemishes(&self) -> Vec<GridOutline> {
        let holes = self.offcut().into_iter().flat_map(GridOutline::holes);
        let solid = holes.filter_map(|hole| GridOutline::new(hole.clone(), Vec::new()).ok());
        let zones = match &self.shape {
            StockShape::Torn { zones, .. } => zones.as_slice(),
            StockShape::Rectangle { .. } | StockShape::Offcut(_) => &[],
        };
        solid.chain(zones.iter().map(GridOutline::filled)).collect()
    }

    /// What pieces must stay clear of by the edge trim, as solid outlines: a frame with the offcut as its opening, every
    /// hole of the offcut, and every zone of it that may not be used. Nothing for a rectangle.
    pub(crate) fn missing(&self) -> Vec<GridOutline> {
        let Some(outline) = self.offcut() else { return Vec::new() };
        let (length, width) = self.size();
        let (low, high) = (-FRAME_STEPS, GridPoint::new(length + FRAME_STEPS, width + FRAME_STEPS));
        let corners = [(low, low), (high.x, low), (high.x, high.y), (low, high.y)];
        let outer = corners.map(|(x, y)| GridPoint::new(x, y)).to_vec();
        let frame = GridOutline::new(outer, vec![outline.outer().to_vec()]);
        frame.into_iter().chain(self.blemishes()).collect()
    }

    /// The pockets of air between the offcut and the rectangle around it, none with a hole in it; `None` when they cannot be
    /// told.
    pub(crate) fn pockets(&self) -> Option<Vec<GridOutline>> {
        let Some(outline) = self.offcut() else { return Some(Vec::new()) };
        let (length, width) = self.size();
        let all = Region::upright(GridPoint::default(), GridPoint::new(length, width));
        let metal = Region::of_outline(&outline.filled());
        let around = all.without(std::iter::once((&metal, GridPoint::default())));
        let mut pockets = Vec::new();
        for piece in around.pieces() {
            let [ring] = piece.rings() else { return None };
            pockets.push(GridOutline::new(ring.clone(), Vec::new()).ok()?);
        }
        Some(pockets)
    }
}
