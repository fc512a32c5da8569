//! May two pieces lie nearer than the gap, because one cut serves both?

use geometry::grid::{GridOutline, GridPoint};

/// True when one cut serves both pieces, or when they lie corner to corner where two such cuts cross: one kerf apart both
/// ways, with a third piece of `all` that shares a cut with either.
pub(crate) fn may_be_near(first: &GridOutline, second: &GridOutline, all: &[GridOutline], kerf: i64) -> bool {
    let corner_to_corner = || {
        let ((low, high), (other_low, other_high)) = (first.bounds(), second.bounds());
        let apart = |low: i64, high: i64, other_low: i64, other_high: i64| {
            (other_low - high).max(low - other_high) == kerf
        };
        apart(low.x, high.x, other_low.x, other_high.x) && apart(low.y, high.y, other_low.y, other_high.y)
    };
    let share_with =
        |third: &GridOutline| one_cut_serves(first, third, kerf) && one_cut_serves(third, second, kerf);
    one_cut_serves(first, second, kerf) || (corner_to_corner() && all.iter().any(share_with))
}

/// True when a straight cut of the kerf's width, level or upright, parts the two pieces along a full side of both: every
/// corner of one lies on or behind one border of the cut, every corner of the other on or behind the other border, both sides
/// run from the same place to the same place, and neither piece reaches past their ends.
fn one_cut_serves(first: &GridOutline, second: &GridOutline, kerf: i64) -> bool {
    let x = |point: GridPoint| (point.x, point.y);
    let y = |point: GridPoint| (point.y, point.x);
    [(first, second), (second, first)]
        .into_iter()
        .any(|(before, behind)| parted(before, behind, kerf, x) || parted(before, behind, kerf, y))
}

fn parted(before: &GridOutline, behind: &GridOutline, kerf: i64, view: fn(GridPoint) -> (i64, i64)) -> bool {
    let seen = |outline: &GridOutline| -> Vec<(i64, i64)> {
        outline.outer().iter().map(|&corner| view(corner)).collect()
    };
    let (before, behind) = (seen(before), seen(behind));
    let (Some(near), Some(far)) =
        (before.iter().map(|corner| corner.0).max(), behind.iter().map(|corner| corner.0).min())
    else {
        return false;
    };
    let side = |corners: &[(i64, i64)], at: i64| {
        let next = corners.iter().cycle().skip(1);
        let edges = corners.iter().zip(next).filter(|(a, b)| a.0 == at && b.0 == at);
        let mut spans = edges.map(|(a, b)| (a.1.min(b.1), a.1.max(b.1)));
        // Two edges on the border would leave a gap between them.
        spans.next().filter(|_| spans.next().is_none())
    };
    let (one, other) = (side(&before, near), side(&behind, far));
    let within = |(from, to): (i64, i64)| {
        before.iter().chain(&behind).all(|corner| from <= corner.1 && corner.1 <= to)
    };
    far - near == kerf && one.is_some() && one == other && one.is_some_and(within)
}
