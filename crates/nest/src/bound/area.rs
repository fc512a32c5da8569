//! The area argument.
//!
//! Parts apart by the gap stay disjoint when each is grown by half the gap, and then lie in the trimmed sheet grown
//! likewise. The grown area is taken from below: a convex part grows by half the gap along its whole girth
//! (corners left out); of any other only the net area is counted. A part with cut-outs counts without them, since
//! others may lie there.

use geometry::grid::{GridOutline, cross, ring_edges};

use crate::bound::Needed;
use crate::problem::Problem;

/// Parts' area over the area of the largest of the sizes `stock`, all grown by half the `gap` (0 for plain).
pub(crate) fn needed(problem: &Problem, stock: &[usize], gap: i64) -> Needed {
    let parts = problem.parts().iter();
    let top = parts.map(|part| i128::from(part.quantity) * doubled_area(&part.outline, gap)).sum();
    let doubled_room = |&size: &usize| {
        let (length, width) = problem.stock()[size].trimmed(problem.rules());
        let around = 2 * i128::from(length + gap) * i128::from(width + gap);
        let offcut =
            problem.stock()[size].offcut().map(|outline| outline.grown(gap.div_euclid(2) + 1).doubled_area());
        offcut.map_or(around, |offcut| offcut.min(around))
    };
    Needed { top, bottom: stock.iter().map(doubled_room).max().unwrap_or(2) }
}

/// Twice the area, grown by half the gap along a convex outline without cut-outs.
fn doubled_area(outline: &GridOutline, gap: i64) -> i128 {
    let plain = outline.doubled_area();
    if gap == 0 || !outline.holes().is_empty() || !is_convex(outline) {
        return plain;
    }
    let girth: i128 = ring_edges(outline.outer()).map(|(a, b)| whole_length(b.x - a.x, b.y - a.y)).sum();
    plain + girth * i128::from(gap)
}

fn is_convex(outline: &GridOutline) -> bool {
    let ring = outline.outer();
    let n = ring.len();
    (0..n).all(|i| 0 <= cross(ring[i], ring[(i + 1) % n], ring[(i + 2) % n]))
}

/// Length of an edge, rounded down.
fn whole_length(x: i64, y: i64) -> i128 {
    let (x, y) = (i128::from(x), i128::from(y));
    (x * x + y * y).isqrt()
}
