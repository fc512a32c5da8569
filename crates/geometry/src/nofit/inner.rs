//! Inner-fit: the shifts that keep an outline inside a ring or a rectangle.

use crate::grid::{GridOutline, GridPoint};
use crate::nofit::{Region, convolution, enclosed, mirrored, winding};

/// The shifts that keep `moving` inside `ring` (run in either sense), as a region whose border is allowed.
///
/// The convolution of the ring run clockwise has winding number −1 where `moving` lies inside the ring and more
/// elsewhere, provided it encloses less area than the ring.
#[must_use]
pub fn inner_fit(ring: &[GridPoint], moving: &GridOutline) -> Region {
    Region::new(fits(ring, &mirrored(moving.outer())))
}

/// The shifts, least and greatest, that keep `moving` inside the upright rectangle from `low` to `high`;
/// `None` when it does not fit. Exact fits are kept.
#[must_use]
pub fn inner_fit_upright(
    low: GridPoint,
    high: GridPoint,
    moving: &GridOutline,
) -> Option<(GridPoint, GridPoint)> {
    let (least, greatest) = moving.bounds();
    let (from, to) = (low - least, high - greatest);
    (from.x <= to.x && from.y <= to.y).then_some((from, to))
}

/// Rings of the shifts `t` for which the figure whose mirror image is `mirrored`, shifted by `t`, lies in `ring`.
pub(crate) fn fits(ring: &[GridPoint], mirrored: &[GridPoint]) -> Vec<Vec<GridPoint>> {
    if enclosed(ring) < enclosed(mirrored) {
        return Vec::new();
    }
    let mut clockwise = ring.to_vec();
    if 0 < crate::grid::doubled_area(ring) {
        clockwise.reverse();
    }
    let circuits = convolution::circuits(&clockwise, mirrored);
    winding::resolve(&circuits, winding::Rule::Negative)
        .into_iter()
        .flatten()
        .filter(|ring| !winding::is_sliver(ring))
        .collect()
}
