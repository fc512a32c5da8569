//! A folded part with the view it is drawn in: the same on its layout sheet and on its folded sheet.

use fold::FlatPattern;
use fold::facets::{self, Facets};
use geometry::{Point, Vector, polygon};

use super::{Standing, View, ViewLine, choose, visible};

/// A folded part as it is looked at.
#[derive(Debug, Clone, PartialEq)]
pub struct Folded {
    /// Its surface.
    pub(crate) facets: Facets,
    /// From where it is looked at.
    pub(crate) view: View,
    /// What is seen of it, in millimetres of the part.
    pub(crate) lines: Vec<ViewLine>,
}

impl Folded {
    /// Folds a flat and looks at it from where most of it is seen.
    #[must_use]
    pub fn of(flat: &FlatPattern, standing: Standing) -> Self {
        let facets = facets::of(flat);
        let view = choose(&facets, standing);
        let lines = visible(&facets, view);
        Self { facets, view, lines }
    }

    /// Least and greatest corner of all that is seen.
    pub(crate) fn bounds(&self) -> (Point, Point) {
        let ends: Vec<Point> = self.lines.iter().flat_map(|line| line.ends).collect();
        let (low, high) = polygon::bounds(&ends);
        // A part without lines would have no extent; a millimetre keeps the page drawable.
        if ends.is_empty() { (low, low + Vector::new(1.0, 1.0)) } else { (low, high) }
    }
}
