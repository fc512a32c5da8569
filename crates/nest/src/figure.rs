//! Turned outlines ready for placing, and the no-fit polygons between them.

use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock, PoisonError, RwLock};

use geometry::grid::{GridOutline, GridPoint, doubled_area};
use geometry::nofit::{Region, no_fit};

use crate::clear::apart;
use crate::problem::{Pose, Problem};

/// Steps by which free places are sought a little too near, so that fits exact to the step are not lost to
/// rounding; every place is then tested exactly and moved back by as much.
pub(crate) const SLACK: i64 = 2;

/// A part in one of its poses, moved so that its bounds start at the origin.
#[derive(Debug)]
pub(crate) struct Figure {
    /// Turned over or not, and the turn.
    pub(crate) pose: Pose,
    /// What was taken off to bring the bounds to the origin.
    pub(crate) origin: GridPoint,
    /// The outline.
    pub(crate) outline: GridOutline,
    /// The outline grown by the gap, less the slack.
    pub(crate) grown: GridOutline,
    /// The same with its corners cut nearly round, once it is asked for.
    round: OnceLock<GridOutline>,
    /// Size along x and y.
    pub(crate) size: GridPoint,
    /// Twice the net area.
    pub(crate) doubled_area: i128,
    /// Distance to be kept from it: the gap for a part, the edge trim for what is missing of an offcut.
    pub(crate) keep: i64,
}

/// How an outline is grown by the distance to be kept. Places beside round corners are more, and take longer to find.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Corners {
    /// Corners up to 100° are carried out to a point: two of them are kept apart by the distance along x or along y.
    Pointed,
    /// Corners are cut by a figure of sixteen sides around the true round.
    Round,
}

/// Something missing from the rectangle around an offcut; `at` counts from the trimmed rectangle's corner.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Missing {
    pub(crate) figure: usize,
    pub(crate) at: GridPoint,
}

/// All figures of a problem.
#[derive(Debug)]
pub(crate) struct Figures {
    list: Vec<Figure>,
    of_part: Vec<Vec<usize>>,
    /// The first so many are parts; the others stand for what is missing of stock.
    of_parts: usize,
    /// What is missing of every size of stock.
    missing: Vec<Vec<Missing>>,
    regions: RwLock<BTreeMap<(usize, usize, Corners), Arc<Region>>>,
}

impl Figures {
    /// Turns and grows every part; equal figures are kept once.
    pub(crate) fn new(problem: &Problem) -> Self {
        let (list, of_part, missing) = (Vec::new(), Vec::new(), Vec::new());
        let mut figures = Self { list, of_part, of_parts: 0, missing, regions: RwLock::default() };
        let mut known: BTreeMap<GridOutline, usize> = BTreeMap::new();
        for (number, part) in problem.parts().iter().enumerate() {
            let mut own = Vec::new();
            for pose in problem.poses(number) {
                let figure = figure(&part.outline, pose, problem.rules().gap);
                let next = figures.list.len();
                let index = *known.entry(from_least_corner(&figure.outline)).or_insert(next);
                // Another part may share the outline in another pose, so a figure is told apart by both.
                let index = if index != next && figures.list[index].differs(&figure) { next } else { index };
                if index == next {
                    figures.list.push(figure);
                }
                if !own.iter().any(|&other| figures.alike(other, index)) {
                    own.push(index);
                }
            }
            figures.of_part.push(own);
        }
        figures.of_parts = figures.list.len();
        for stock in problem.stock() {
            let missing =
                stock.missing().iter().map(|outline| figures.add_missing(outline, problem)).collect();
            figures.missing.push(missing);
        }
        figures
    }

    /// True when some figure grows otherwise with round corners than with pointed ones.
    pub(crate) fn are_rounded(&self) -> bool {
        self.list.iter().any(|figure| LEAST_REACH <= figure.keep - SLACK)
    }

    fn add_missing(&mut self, outline: &GridOutline, problem: &Problem) -> Missing {
        let trim = problem.rules().edge_trim;
        let figure = figure(outline, Pose::default(), trim);
        let at = figure.origin - GridPoint::new(trim, trim);
        self.list.push(figure);
        Missing { figure: self.list.len() - 1, at }
    }

    /// What is missing of the rectangle around a size of stock.
    pub(crate) fn missing(&self, stock: usize) -> &[Missing] {
        &self.missing[stock]
    }

    /// True when the figure at a place stays off what is missing by as much as is to be kept.
    pub(crate) fn is_clear_of_missing(&self, missing: &[Missing], figure: &Figure, at: GridPoint) -> bool {
        let clear = |missing: &Missing| {
            let other = self.get(missing.figure);
            apart(&other.outline.shifted(missing.at), &figure.outline.shifted(at), other.keep)
        };
        missing.iter().all(clear)
    }

    /// The distance to be kept between two figures.
    pub(crate) fn distance(&self, first: usize, second: usize) -> i64 {
        let of_missing = [first, second].into_iter().find(|&figure| self.of_parts <= figure);
        self.list[of_missing.unwrap_or(first)].keep
    }

    /// The figure with this number.
    pub(crate) fn get(&self, figure: usize) -> &Figure {
        &self.list[figure]
    }

    /// Number of figures.
    pub(crate) fn count(&self) -> usize {
        self.list.len()
    }

    /// The figures a part may take.
    pub(crate) fn of_part(&self, part: usize) -> &[usize] {
        &self.of_part[part]
    }

    /// The no-fit polygon of `moving` about `fixed` with the gap, less the slack.
    pub(crate) fn no_fit(&self, fixed: usize, moving: usize, corners: Corners) -> Arc<Region> {
        let key = (fixed, moving, corners);
        let known = self.regions.read().unwrap_or_else(PoisonError::into_inner).get(&key).cloned();
        known.unwrap_or_else(|| {
            let fixed = &self.list[fixed];
            let grown = match corners {
                Corners::Pointed => &fixed.grown,
                Corners::Round => fixed.round.get_or_init(|| fixed.rounded()),
            };
            let region = Arc::new(no_fit(grown, &self.list[moving].outline));
            let mut regions = self.regions.write().unwrap_or_else(PoisonError::into_inner);
            Arc::clone(regions.entry(key).or_insert(region))
        })
    }

    fn alike(&self, first: usize, second: usize) -> bool {
        first == second
            || from_least_corner(&self.list[first].outline) == from_least_corner(&self.list[second].outline)
    }
}

impl Figure {
    /// Grown with corners nearly round, nowhere inside the true round; as with pointed corners where that cannot be.
    fn rounded(&self) -> GridOutline {
        let Some(disc) = around_round(self.keep - SLACK) else { return self.grown.clone() };
        // The figure of sixteen sides reaches too far off slanted edges, the pointed corners too far off corners.
        let both = no_fit(&self.outline, &disc).meeting(&Region::of_outline(&self.grown));
        let (outer, holes): (Vec<_>, Vec<_>) =
            both.rings().iter().cloned().partition(|ring| 0 < doubled_area(ring));
        let outer = outer.into_iter().max_by_key(|ring| doubled_area(ring));
        let rounded = outer.and_then(|outer| GridOutline::new(outer, holes).ok());
        rounded.unwrap_or_else(|| self.grown.clone())
    }

    fn differs(&self, other: &Self) -> bool {
        (self.pose, self.origin) != (other.pose, other.origin)
    }
}

fn figure(outline: &GridOutline, pose: Pose, keep: i64) -> Figure {
    let turned = pose.of(outline);
    let (origin, high) = turned.bounds();
    let outline = turned.shifted(-origin);
    let grown = outline.grown((keep - SLACK).max(0));
    let doubled_area = outline.doubled_area();
    let size = high - origin;
    Figure { pose, origin, outline, grown, round: OnceLock::new(), size, doubled_area, keep }
}

/// The least reach, in steps, at which a round differs from a square.
const LEAST_REACH: i64 = 100;

/// A figure of sixteen sides around the round of `reach` steps, four of them upright and level at just that distance; none
/// where it is too small to differ from a square.
fn around_round(reach: i64) -> Option<GridOutline> {
    // The sides touch the round: corners lie at (1, tan 11.25°) and at (cos 33.75°, sin 33.75°) / cos 11.25°, rounded up.
    let up = |millionths: i64| reach * millionths / 1_000_000 + 1;
    let (a, b, c) = (up(198_913), up(847_760), up(566_455));
    let eighth = [(reach, a), (b, c), (c, b), (a, reach)];
    let quarter = |k: usize| {
        eighth.map(|(x, y)| match k {
            0 => GridPoint::new(x, y),
            1 => GridPoint::new(-y, x),
            2 => GridPoint::new(-x, -y),
            _ => GridPoint::new(y, -x),
        })
    };
    if reach < LEAST_REACH {
        return None;
    }
    GridOutline::new((0..4).flat_map(quarter).collect(), Vec::new()).ok()
}

/// The outline with every ring started at its least corner, for comparing.
pub(crate) fn from_least_corner(outline: &GridOutline) -> GridOutline {
    let started = |ring: &[GridPoint]| {
        let mut ring = ring.to_vec();
        let least = ring.iter().enumerate().min_by_key(|(_, corner)| **corner).map_or(0, |(index, _)| index);
        ring.rotate_left(least);
        ring
    };
    let mut holes: Vec<Vec<GridPoint>> = outline.holes().iter().map(|hole| started(hole)).collect();
    holes.sort_unstable();
    GridOutline::new(started(outline.outer()), holes).unwrap_or_else(|_| outline.clone())
}
