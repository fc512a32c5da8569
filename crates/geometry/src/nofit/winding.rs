//! Resolving closed circuits by winding number, and differences of regions.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay::{Overlay, ShapeType};
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::i_float::int::point::IntPoint;
use i_overlay::i_shape::int::shape::IntShapes;

use crate::grid::{GridPoint, bounds_of, doubled_area};

/// Which winding numbers count as covered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Rule {
    /// Above zero.
    Positive,
    /// Below zero.
    Negative,
}

/// The covered figures, each its outer ring (counter-clockwise) and its hollows (clockwise).
pub(crate) fn resolve(circuits: &[Vec<GridPoint>], rule: Rule) -> Vec<Vec<Vec<GridPoint>>> {
    let mut overlay = Overlay::new(circuits.iter().map(Vec::len).sum());
    for circuit in circuits {
        overlay.add_path_iter(circuit.iter().map(|&p| narrow(p)), ShapeType::Subject);
    }
    let fill = match rule {
        Rule::Positive => FillRule::Positive,
        Rule::Negative => FillRule::Negative,
    };
    widened(overlay.overlay(OverlayRule::Subject, fill))
}

/// Rings of the first region less the second; both are read by the non-zero rule, senses as given by [`resolve`].
pub(crate) fn difference(from: &[Vec<GridPoint>], less: &[Vec<GridPoint>]) -> Vec<Vec<GridPoint>> {
    let mut overlay = Overlay::new(from.iter().chain(less).map(Vec::len).sum());
    for ring in from {
        overlay.add_path_iter(ring.iter().map(|&p| narrow(p)), ShapeType::Subject);
    }
    for ring in less {
        overlay.add_path_iter(ring.iter().map(|&p| narrow(p)), ShapeType::Clip);
    }
    let shapes = overlay.overlay(OverlayRule::Difference, FillRule::NonZero);
    widened(shapes).into_iter().flatten().collect()
}

/// Rings of what lies in both regions, read as by [`difference`].
pub(crate) fn intersection(first: &[Vec<GridPoint>], second: &[Vec<GridPoint>]) -> Vec<Vec<GridPoint>> {
    let mut overlay = Overlay::new(first.iter().chain(second).map(Vec::len).sum());
    for ring in first {
        overlay.add_path_iter(ring.iter().map(|&p| narrow(p)), ShapeType::Subject);
    }
    for ring in second {
        overlay.add_path_iter(ring.iter().map(|&p| narrow(p)), ShapeType::Clip);
    }
    let shapes = overlay.overlay(OverlayRule::Intersect, FillRule::NonZero);
    widened(shapes).into_iter().flatten().collect()
}

#[expect(clippy::cast_possible_truncation, reason = "sums of two grid places stay below 2^30")]
fn narrow(p: GridPoint) -> IntPoint {
    IntPoint::new(p.x as i32, p.y as i32)
}

fn widened(shapes: IntShapes) -> Vec<Vec<Vec<GridPoint>>> {
    let wide = |p: IntPoint| GridPoint::new(i64::from(p.x), i64::from(p.y));
    let ring = |contour: Vec<IntPoint>| contour.into_iter().map(wide).collect();
    shapes.into_iter().map(|shape| shape.into_iter().map(ring).collect()).collect()
}

/// True for a ring no thicker than the rounding of crossings to the grid can make from nothing.
pub(crate) fn is_sliver(ring: &[GridPoint]) -> bool {
    let (low, high) = bounds_of(ring);
    doubled_area(ring).abs() <= SLIVER_STEPS * i128::from((high.x - low.x).max(high.y - low.y))
}

/// Twice the thickness, in steps, below which a ring counts as rounding: crossings move by up to a step each.
const SLIVER_STEPS: i128 = 4;
