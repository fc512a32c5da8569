//! Straight cuts on an offcut run through its metal only, and not across a bay or a hole.

use geometry::grid::{GridOutline, GridPoint, ring_edges};

use super::Step;
use crate::rect::Axis;

/// A straight cut as far as it runs through the metal of an offcut: one cut for every stretch of metal, the far one last.
/// That one frees what the whole cut does; where no metal is left to cut, a drop is cut out by its outline.
pub(super) fn through_metal(step: Step, offcut: &GridOutline) -> Vec<Step> {
    let Step::Across { axis, within, from: begin, to: end, finishes_both, frees: freed } = step else {
        return vec![step];
    };
    let [near, far] = within;
    let metal = stretches(offcut, axis, near + (far - near) / 2).into_iter();
    let metal: Vec<[i64; 2]> =
        metal.map(|[first, last]| [begin.max(first), end.min(last)]).filter(|[from, to]| from < to).collect();
    let cut = |(number, &[from, to]): (usize, &[i64; 2])| {
        let frees = if number + 1 == metal.len() { freed } else { [None; 2] };
        Step::Across { axis, within, from, to, finishes_both, frees }
    };
    if metal.is_empty() {
        return freed.into_iter().flatten().map(Step::Drop).collect();
    }
    metal.iter().enumerate().map(cut).collect()
}

/// Where an edge crosses the line: exactly `whole` + `over` / `run` along it.
#[derive(Clone, Copy)]
struct Crossing {
    whole: i64,
    over: i128,
    run: i128,
}

/// The stretches of metal along a line across `axis`, rounded outward. Metal on either side of the line counts.
fn stretches(offcut: &GridOutline, axis: Axis, at: i64) -> Vec<[i64; 2]> {
    let mut all: Vec<[i64; 2]> = [beside(offcut, axis, at, false), beside(offcut, axis, at, true)].concat();
    all.sort_unstable();
    let mut joined: Vec<[i64; 2]> = Vec::new();
    for [from, to] in all {
        match joined.last_mut() {
            Some(last) if from <= last[1] => last[1] = last[1].max(to),
            _ => joined.push([from, to]),
        }
    }
    joined
}

/// The stretches just before the line, or just behind it.
fn beside(offcut: &GridOutline, axis: Axis, at: i64, behind: bool) -> Vec<[i64; 2]> {
    let place = |corner: GridPoint| match axis {
        Axis::X => [corner.x, corner.y],
        Axis::Y => [corner.y, corner.x],
    };
    let rings = std::iter::once(offcut.outer()).chain(offcut.holes().iter().map(Vec::as_slice));
    let mut crossings: Vec<Crossing> = Vec::new();
    for (a, b) in rings.flat_map(ring_edges) {
        let ([a, along_a], [b, along_b]) = (place(a), place(b));
        let (low, high) = (a.min(b), a.max(b));
        let crosses = if behind { low <= at && at < high } else { low < at && at <= high };
        if crosses {
            let run = i128::from(b - a);
            let way = i128::from(along_b - along_a) * i128::from(at - a) * run.signum();
            let whole = along_a + i64::try_from(way.div_euclid(run.abs())).unwrap_or(0);
            crossings.push(Crossing { whole, over: way.rem_euclid(run.abs()), run: run.abs() });
        }
    }
    crossings.sort_by(|one, other| {
        one.whole.cmp(&other.whole).then_with(|| (one.over * other.run).cmp(&(other.over * one.run)))
    });
    let stretch = |pair: &[Crossing]| [pair[0].whole, pair[1].whole + i64::from(pair[1].over != 0)];
    crossings.chunks_exact(2).map(stretch).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn outline(corners: &[(i64, i64)], hole: &[(i64, i64)]) -> GridOutline {
        let ring =
            |corners: &[(i64, i64)]| corners.iter().map(|&(x, y)| GridPoint::new(x, y)).collect::<Vec<_>>();
        let holes = if hole.is_empty() { Vec::new() } else { vec![ring(hole)] };
        GridOutline::new(ring(corners), holes).unwrap()
    }

    #[test]
    fn a_line_across_a_bay_or_a_hole_has_two_stretches_of_metal() {
        let bay = [(0, 0), (100, 0), (100, 40), (60, 40), (60, 10), (40, 10), (40, 40), (0, 40)];
        let u = outline(&bay, &[]);
        assert_eq!(stretches(&u, Axis::Y, 20), [[0, 40], [60, 100]]);
        assert_eq!(stretches(&u, Axis::Y, 5), [[0, 100]]);
        assert_eq!(stretches(&u, Axis::Y, 10), [[0, 100]], "metal on one side of the line");
        assert_eq!(stretches(&u, Axis::X, 50), [[0, 10]]);
        let holed =
            outline(&[(0, 0), (100, 0), (100, 40), (0, 40)], &[(10, 10), (10, 30), (20, 30), (20, 10)]);
        assert_eq!(stretches(&holed, Axis::Y, 15), [[0, 10], [20, 100]]);
        assert_eq!(stretches(&holed, Axis::Y, 50), [[0_i64; 2]; 0]);
        // A slanted edge from (0, 0) to (3, 10) lies 3/2 from the side at 5: rounded outward.
        let slanted = outline(&[(0, 0), (90, 0), (90, 10), (3, 10)], &[]);
        assert_eq!(stretches(&slanted, Axis::Y, 5), [[1, 90]]);
    }
}
