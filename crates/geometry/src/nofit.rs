//! No-fit and inner-fit polygons on the grid.
//!
//! Shifting an outline `b` by `t` makes it overlap a fixed outline `a` exactly when `t` lies strictly inside the
//! no-fit polygon of the pair. It is the Minkowski sum of `a` and `b` mirrored through the origin.
//!
//! Source: convolution of edge cycles, Guibas, Ramshaw, Stolfi, "A kinetic framework for computational geometry",
//! FOCS 1983; its winding number at `t` is the number of pieces less the number of holes of `a` ∩ (`b` + `t`)
//! (from memory, checked against sampling in the tests). For figures without holes that is positive exactly when
//! they overlap, so resolving the cycles with the positive winding rule gives the polygon with its true hollows
//! and no false ones. Holes of either figure are dealt with by inner-fit polygons.
//!
//! A hollow without area (a slot exactly as wide as the part) is lost: callers that want such fits give a little slack.
//! Crossings are rounded to the grid, so the border is good to a step or so: exact tests have the last word.

mod convolution;
mod inner;
mod region;
pub(crate) mod winding;

use crate::grid::{GridOutline, GridPoint, doubled_area};

pub use inner::{inner_fit, inner_fit_upright};
pub use region::Region;

/// All shifts that make `moving` overlap `fixed`, as a region whose border is allowed.
#[must_use]
pub fn no_fit(fixed: &GridOutline, moving: &GridOutline) -> Region {
    let mirrored = mirrored(moving.outer());
    let mut rings = filled_no_fit(fixed.outer(), &mirrored);
    let reflected = mirrored_holes(moving);
    let mut hollows: Vec<Vec<GridPoint>> = Vec::new();
    for hole in fixed.holes() {
        hollows.extend(inner::fits(hole, &mirrored));
    }
    for hole in &reflected {
        // `fixed` lies in a hole of `moving` shifted by t exactly when it, shifted by −t, lies in the hole.
        hollows.extend(inner::fits(hole, fixed.outer()));
    }
    if !hollows.is_empty() {
        rings = winding::difference(&rings, &hollows);
    }
    Region::new(rings)
}

fn filled_no_fit(fixed: &[GridPoint], mirrored: &[GridPoint]) -> Vec<Vec<GridPoint>> {
    let circuits = convolution::circuits(fixed, mirrored);
    if circuits.len() == 1 && is_convex(fixed) && is_convex(mirrored) {
        return circuits;
    }
    let rings = winding::resolve(&circuits, winding::Rule::Positive).into_iter().flatten();
    rings.filter(|ring| !winding::is_sliver(ring)).collect()
}

fn is_convex(ring: &[GridPoint]) -> bool {
    let n = ring.len();
    (0..n).all(|i| 0 < crate::grid::cross(ring[i], ring[(i + 1) % n], ring[(i + 2) % n]))
}

/// The ring mirrored through the origin; its sense stays.
fn mirrored(ring: &[GridPoint]) -> Vec<GridPoint> {
    ring.iter().map(|&corner| -corner).collect()
}

fn mirrored_holes(outline: &GridOutline) -> Vec<Vec<GridPoint>> {
    outline.holes().iter().map(|hole| mirrored(hole)).collect()
}

/// Twice the area a ring encloses, whatever its sense.
fn enclosed(ring: &[GridPoint]) -> i128 {
    doubled_area(ring).abs()
}
