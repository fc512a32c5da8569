//! Upright rectangles that lie within a part.
//!
//! The outline is looked at in level strips. In a strip every edge blocks the stretch that it covers there, rounded outward;
//! between blocked stretches a rectangle as high as the strip lies wholly in the metal or wholly outside.

use geometry::grid::{GridOutline, GridPoint, Place, place_in_ring, ring_edges};

use crate::drop::clipped;

/// The most levels at corners, and how many more are spread evenly: slanted edges have their best strips between corners.
const MOST_AT_CORNERS: usize = 24;
const SPREAD: i64 = 8;

/// The most rectangles kept of one outline.
const MOST_KEPT: usize = 6;

/// Length and width of rectangles in the metal, none as large as another both ways, largest first.
pub(super) fn inscribed(outline: &GridOutline) -> Vec<(i64, i64)> {
    let levels = levels(outline);
    let mut found: Vec<(i64, i64)> = Vec::new();
    for (index, &from) in levels.iter().enumerate() {
        for &to in &levels[index + 1..] {
            let Some(length) = longest(outline, from, to) else { break };
            found.push((length, to - from));
        }
    }
    found.sort_by_key(|&(l, w)| (std::cmp::Reverse(i128::from(l) * i128::from(w)), l));
    let mut kept: Vec<(i64, i64)> = Vec::new();
    for (length, width) in found {
        if kept.len() < MOST_KEPT && !kept.iter().any(|&(l, w)| length <= l && width <= w) {
            kept.push((length, width));
        }
    }
    kept
}

fn levels(outline: &GridOutline) -> Vec<i64> {
    let (low, high) = outline.bounds();
    let mut corners: Vec<i64> = outline.rings().flatten().map(|corner| corner.y).collect();
    corners.sort_unstable();
    corners.dedup();
    let every = corners.len().div_ceil(MOST_AT_CORNERS).max(1);
    let spread = (1..SPREAD).map(|part| low.y + (high.y - low.y) * part / SPREAD);
    let mut levels: Vec<i64> = corners.into_iter().step_by(every).chain(spread).chain([high.y]).collect();
    levels.sort_unstable();
    levels.dedup();
    levels
}

/// The longest stretch that is metal all the way from one height to the other; none where there is none.
fn longest(outline: &GridOutline, from: i64, to: i64) -> Option<i64> {
    let crosses = |&(a, b): &(GridPoint, GridPoint)| from < a.y.max(b.y) && a.y.min(b.y) < to;
    let edges = outline.rings().flat_map(ring_edges).filter(crosses);
    let blocks =
        |(a, b): (GridPoint, GridPoint)| if a.x == b.x { (a.x, a.x) } else { clipped(a, b, from, to) };
    let mut blocked: Vec<(i64, i64)> = edges.map(blocks).collect();
    blocked.sort_unstable();
    let (mut longest, mut reach) = (None, blocked.first()?.1);
    for (start, end) in blocked {
        let length = start - reach;
        if longest.unwrap_or(0) < length && is_metal(outline, reach, start, from, to) {
            longest = Some(length);
        }
        reach = reach.max(end);
    }
    longest
}

/// Whether a rectangle that no edge enters lies in the metal; no for one so small that its middle may lie on its border.
fn is_metal(outline: &GridOutline, left: i64, right: i64, from: i64, to: i64) -> bool {
    let middle = GridPoint::new(left + (right - left) / 2, from + (to - from) / 2);
    1 < (right - left).min(to - from)
        && place_in_ring(outline.outer(), middle) == Place::Inside
        && outline.holes().iter().all(|hole| place_in_ring(hole, middle) == Place::Outside)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn outline(corners: &[(i64, i64)], holes: &[&[(i64, i64)]]) -> GridOutline {
        let ring =
            |corners: &[(i64, i64)]| corners.iter().map(|&(x, y)| GridPoint::new(x, y)).collect::<Vec<_>>();
        GridOutline::new(ring(corners), holes.iter().map(|hole| ring(hole)).collect()).unwrap()
    }

    /// By hand: an L of legs 100 wide has the two legs; a frame of 50 has its sides; half of a triangle is its largest.
    #[test]
    fn the_largest_rectangles_of_plain_shapes_are_found() {
        let l = outline(&[(0, 0), (900, 0), (900, 100), (100, 100), (100, 700), (0, 700)], &[]);
        assert_eq!(inscribed(&l)[..2], [(900, 100), (100, 700)]);
        let square = [(0, 0), (400, 0), (400, 400), (0, 400)];
        let frame = outline(&square, &[&[(50, 50), (50, 350), (350, 350), (350, 50)]]);
        assert_eq!(inscribed(&frame), [(50, 400), (400, 50)]);
        let triangle = outline(&[(0, 0), (800, 0), (0, 400)], &[]);
        assert_eq!(inscribed(&triangle)[0], (400, 200));
    }
}
