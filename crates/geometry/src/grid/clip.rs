//! Cutting a rounded ring back to the rectangle around what it was rounded from.
//!
//! Slanted edges move outward by a few steps when they are rounded, and a corner between two of them by some more. Where that
//! corner is what reaches farthest, the figure would come out larger than it is, and a part as large as its sheet would not fit
//! it. The metal lies in the rectangle around it as well as in the rounded ring, so it lies in what both have in common.

use crate::grid::GridPoint;

/// The counter-clockwise ring within the upright rectangle between two corners; the places where its edges are cut are rounded
/// away from the metal. Nothing that is far outside is looked for: the ring passes the rectangle by a few steps.
pub(super) fn within(ring: &[GridPoint], low: GridPoint, high: GridPoint) -> Vec<GridPoint> {
    let mut ring = ring.to_vec();
    // After a quarter turn to the right what was the upper side is the right one: all four come to be it in turn.
    for side in [high.x, high.y, -low.x, -low.y] {
        ring = up_to(&ring, side);
        ring.iter_mut().for_each(|at| *at = GridPoint::new(at.y, -at.x));
    }
    ring
}

/// The ring as far as it does not pass `most` along x.
fn up_to(ring: &[GridPoint], most: i64) -> Vec<GridPoint> {
    let mut kept = Vec::with_capacity(ring.len());
    for (index, &from) in ring.iter().enumerate() {
        let to = ring[(index + 1) % ring.len()];
        if from.x <= most {
            kept.push(from);
        }
        // Metal lies on the left: above an edge that runs out, below one that runs back.
        if from.x < most && most < to.x {
            kept.push(GridPoint::new(most, crossing(from, to, most, false)));
        } else if to.x < most && most < from.x {
            kept.push(GridPoint::new(most, crossing(to, from, most, true)));
        }
    }
    kept.dedup();
    if 1 < kept.len() && kept.first() == kept.last() {
        kept.pop();
    }
    kept
}

/// The height of an edge, given from left to right, at a place along it; rounded up or down.
fn crossing(left: GridPoint, right: GridPoint, at: i64, up: bool) -> i64 {
    let run = i128::from(right.x - left.x);
    let risen = i128::from(right.y - left.y) * i128::from(at - left.x);
    let whole = risen.div_euclid(run) + i128::from(up && risen.rem_euclid(run) != 0);
    left.y + i64::try_from(whole).unwrap_or(0)
}
