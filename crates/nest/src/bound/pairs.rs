//! Parts that cannot share a sheet.
//!
//! Two parts lie on one sheet only when, at some turn of each, some shift from the first to the second lies outside their
//! no-fit polygon and within what the sheet leaves. The first is grown for it by a little less than the gap, by an octagon
//! within the round, and the shifts that the sheet leaves are widened by as much, so that rounding only ever finds room.
//! Parts of which no two can share a sheet take a sheet each.

use geometry::grid::{GridOutline, GridPoint};
use geometry::nofit::{Region, inner_fit_upright, no_fit};

use crate::bound::area::octagon;
use crate::bound::{Needed, sets};
use crate::problem::{Mirror, Problem, Turns};

/// Steps by which room is counted larger than it is: rounding of turned outlines, of no-fit polygons and of the grid.
pub(super) const SLACK_STEPS: i64 = 20;

/// Pairs of corners looked at before the rest is taken to fit: the argument is for few large parts.
pub(super) const MOST_CORNERS: usize = 400_000;

/// A part in every pose: as it is, and grown.
pub(super) struct Turned {
    pub(super) quantity: i128,
    /// Twice the area of its metal.
    pub(super) area: i128,
    pub(super) turns: Vec<[GridOutline; 2]>,
    /// Whether half a turn more is allowed at every turn; the second half of the turns are then those.
    pub(super) may_turn_half: bool,
}

impl Turned {
    /// Area of the rectangle around it at the turn at which that is the least.
    pub(super) fn least_around(&self) -> i128 {
        let around = |[outline, _]: &[GridOutline; 2]| {
            let (low, high) = outline.bounds();
            i128::from(high.x - low.x) * i128::from(high.y - low.y)
        };
        self.turns.iter().map(around).min().unwrap_or(0)
    }
}

/// The parts at all their turns, largest first.
pub(crate) struct Pairs {
    pub(super) parts: Vec<Turned>,
    gap: i64,
}

impl Pairs {
    /// Of all parts whose turns are known.
    pub(crate) fn of(problem: &Problem) -> Self {
        let gap = problem.least_apart();
        let mut parts: Vec<Turned> =
            problem.parts().iter().filter_map(|part| turned(part, gap - SLACK_STEPS)).collect();
        parts.sort_by_key(|part| std::cmp::Reverse(part.area));
        Self { parts, gap }
    }

    /// As many sheets as there are parts of which no two can share one of the sizes `stock`.
    pub(crate) fn needed(&self, problem: &Problem, stock: &[usize]) -> Needed {
        let sizes = sizes(problem, stock);
        let (count, mut left) = (self.parts.len(), MOST_CORNERS);
        let alone: Vec<Vec<bool>> = (0..count)
            .map(|first| {
                (0..=first).map(|second| self.are_apart([first, second], &sizes, &mut left)).collect()
            })
            .collect();
        let apart = |a: usize, b: usize| alone[a.max(b)][a.min(b)];
        let sheets = |own: usize| if apart(own, own) { self.parts[own].quantity } else { 1 };
        let of_group = |first: usize| {
            let mut group = vec![first];
            for next in 0..count {
                if !group.contains(&next) && group.iter().all(|&own| apart(own, next)) {
                    group.push(next);
                }
            }
            group.into_iter().map(sheets).sum::<i128>()
        };
        Needed { top: (0..count).map(of_group).max().unwrap_or(1), bottom: 1 }
    }

    /// True when so many sheets of the sizes `stock` are too few for the largest pieces alone.
    pub(crate) fn are_too_few(&self, problem: &Problem, stock: &[usize], sheets: u32) -> bool {
        usize::try_from(sheets).is_ok_and(|sheets| sets::are_too_few(self, &sizes(problem, stock), sheets))
    }

    /// True when no size holds both parts; `left` pairs of corners may still be looked at.
    pub(super) fn are_apart(&self, numbers: [usize; 2], sizes: &[GridPoint], left: &mut usize) -> bool {
        let [first, second] = numbers.map(|number| &self.parts[number].turns);
        let pairs = || first.iter().flat_map(|one| second.iter().map(move |[two, _]| (one, two)));
        sizes.iter().all(|&size| {
            // Boxes beside one another need no no-fit polygon.
            let quickly = pairs().any(|([one, _], two)| fit_in_boxes(one, two, size, self.gap));
            !quickly && pairs().all(|([one, grown], two)| !fit(one, grown, two, size, left))
        })
    }
}

/// Length and width of sizes of sheet, trimmed.
fn sizes(problem: &Problem, stock: &[usize]) -> Vec<GridPoint> {
    let size = |&size: &usize| {
        let (length, width) = problem.stock()[size].trimmed(problem.rules());
        GridPoint::new(length, width)
    };
    stock.iter().map(size).collect()
}

/// `None` for parts of any turn, and where the gap is too small to be told from rounding.
fn turned(part: &crate::problem::Part, reach: i64) -> Option<Turned> {
    let octagon = octagon(reach).filter(|_| part.turns != Turns::Any && SLACK_STEPS < reach)?;
    let turns = part.poses().into_iter().map(|pose| {
        let outline = pose.of(&part.outline);
        let mut rings = no_fit(&outline, &octagon).rings().to_vec();
        let outer = rings.iter().position(|ring| 0 < geometry::grid::doubled_area(ring))?;
        let outer = rings.swap_remove(outer);
        Some([outline, GridOutline::new(outer, rings).ok()?])
    });
    let turns: Vec<[GridOutline; 2]> = turns.collect::<Option<_>>()?;
    // Turned over or not, poses do not come in two such halves where both are allowed.
    let may_turn_half = part.mirror == Mirror::Never && matches!(part.turns, Turns::Half | Turns::Quarter);
    let (quantity, area) = (i128::from(part.quantity), part.outline.doubled_area());
    Some(Turned { quantity, area, turns, may_turn_half })
}

fn fit_in_boxes(one: &GridOutline, two: &GridOutline, sheet: GridPoint, gap: i64) -> bool {
    let [a, b] = [one, two].map(|outline| {
        let (low, high) = outline.bounds();
        high - low
    });
    let across = a.y.max(b.y) <= sheet.y && a.x + gap + b.x <= sheet.x;
    across || (a.x.max(b.x) <= sheet.x && a.y + gap + b.y <= sheet.y)
}

/// Whether there may be room for both on a sheet at these turns.
fn fit(
    one: &GridOutline,
    grown: &GridOutline,
    two: &GridOutline,
    sheet: GridPoint,
    left: &mut usize,
) -> bool {
    let slack = GridPoint::new(SLACK_STEPS, SLACK_STEPS);
    let places =
        [one, two].map(|outline| inner_fit_upright(GridPoint::default() - slack, sheet + slack, outline));
    let [Some((one_low, one_high)), Some((two_low, two_high))] = places else { return false };
    let corners = |outline: &GridOutline| outline.rings().map(<[GridPoint]>::len).sum::<usize>();
    let work = corners(grown) * corners(two);
    if *left < work {
        return true;
    }
    *left -= work;
    let shifts = Region::upright(two_low - one_high - slack, two_high - one_low + slack);
    let taken = no_fit(grown, two);
    !shifts.without(std::iter::once((&taken, GridPoint::default()))).is_empty()
}
