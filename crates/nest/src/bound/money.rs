//! The least that sheets can cost, where some are given away or few.
//!
//! Sheets that are there already cost nothing, but hold only so much: what they do not hold by area is bought, and so is every
//! part that none of them holds, for which all arguments count anew as if there were no others.

use geometry::grid::GridPoint;

use crate::bound::area::Metal;
use crate::bound::pairs::SLACK_STEPS;
use crate::bound::{Bounds, Needed, whole};
use crate::problem::{Part, Problem, Turns};

/// The largest of: so many of the cheapest sheets; the parts' area on those that hold it most cheaply; whole sheets for what those
/// given away do not hold by area; what the parts cost that fit none of these; and the cheapest set of whole sheets that is not
/// known to be too little.
pub(super) fn least_cost(bounds: &Bounds<'_>, stock: &[usize], sheets: u32) -> i128 {
    let problem = bounds.problem;
    let (free, bought): (Vec<usize>, Vec<usize>) = stock.iter().partition(|&&size| problem.is_free(size));
    let by_area =
        |metal: &Metal| by_area(problem, *metal, stock).max(by_rest(problem, *metal, (&free, &bought)));
    let least = bounds.metal.iter().map(by_area).fold(by_count(problem, stock, sheets), i128::max);
    least.max(of_bought(bounds, (&free, &bought))).max(whole::least_cost(bounds, stock, sheets))
}

/// The cheapest sheets, as many as there are of each.
fn by_count(problem: &Problem, stock: &[usize], sheets: u32) -> i128 {
    let mut sizes = stock.to_vec();
    sizes.sort_by_key(|&size| problem.price(size));
    let (mut left, mut cost) = (sheets, 0);
    for size in sizes {
        let taken = left.min(problem.stock()[size].limit.unwrap_or(u32::MAX));
        cost += i128::from(taken) * problem.price(size);
        left -= taken;
    }
    cost
}

/// The area at the lowest prices for area, as much as there is at each; the last sheet may be a part of one.
fn by_area(problem: &Problem, metal: Metal, stock: &[usize]) -> i128 {
    let mut offers: Vec<(i128, i128, i128)> = Vec::new();
    let mut left = metal.doubled();
    for &size in stock {
        let Needed { bottom: room, .. } = metal.needed(problem, &[size]);
        let there = problem.stock()[size].limit.map_or(i128::MAX / room.max(1), i128::from);
        offers.push((problem.price(size), room.max(1), there));
    }
    // Price for area as fractions.
    offers.sort_by(|one, other| (one.0 * other.1).cmp(&(other.0 * one.1)));
    let mut cost = 0;
    for (price, room, there) in offers {
        if left <= room.saturating_mul(there) {
            return cost + (price * left.max(0) + room - 1).div_euclid(room);
        }
        left -= room * there;
        cost += price * there;
    }
    cost
}

/// Whole sheets, the cheapest of those that cost something, for the area that those given away do not hold.
fn by_rest(problem: &Problem, metal: Metal, (free, bought): (&[usize], &[usize])) -> i128 {
    let held = |&size: &usize| {
        let there = problem.stock()[size].limit.map(i128::from)?;
        there.checked_mul(metal.needed(problem, &[size]).bottom)
    };
    let Some(held) = free.iter().map(held).sum::<Option<i128>>() else { return 0 };
    let Some(price) = bought.iter().map(|&size| problem.price(size)).min() else { return 0 };
    let left = metal.doubled() - held;
    let needed = Needed { top: left, ..metal.needed(problem, bought) };
    if left <= 0 { 0 } else { price * i128::from(needed.sheets()) }
}

/// What the parts cost at least that fit none of the sheets given away.
fn of_bought(bounds: &Bounds<'_>, (free, bought): (&[usize], &[usize])) -> i128 {
    let problem = bounds.problem;
    if free.is_empty() || bought.is_empty() {
        return 0;
    }
    let is_bought = |part: &&Part| !free.iter().any(|&size| may_hold(problem, size, part));
    let parts: Vec<Part> = problem.parts().iter().filter(is_bought).cloned().collect();
    if parts.len() == problem.parts().len() {
        return bounds.on(bought).cost;
    }
    alone(problem, parts).map_or(0, |alone| Bounds::of(&alone).on(bought).cost)
}

/// The problem of some of the parts.
pub(super) fn alone(problem: &Problem, parts: Vec<Part>) -> Option<Problem> {
    let alone = Problem::new(parts, problem.stock().to_vec(), *problem.rules()).ok()?;
    Some(match problem.shared_kerf() {
        Some(kerf) => alone.sharing_cuts(kerf),
        None => alone,
    })
}

/// Whether a sheet may hold a part, as far as their boxes and areas tell; true where that is not known.
pub(super) fn may_hold(problem: &Problem, size: usize, part: &Part) -> bool {
    let (length, width) = problem.stock()[size].trimmed(problem.rules());
    if 2 * problem.stock()[size].area() + 1 < part.outline.doubled_area() {
        return false;
    }
    if part.turns == Turns::Any {
        // However it is turned, no two places of it are farther apart than the corners of the sheet.
        let squared = |x: i64, y: i64| i128::from(x) * i128::from(x) + i128::from(y) * i128::from(y);
        let corners = part.outline.outer();
        let far = |one: &GridPoint, other: &GridPoint| squared(one.x - other.x, one.y - other.y);
        let reach = corners.iter().flat_map(|one| corners.iter().map(move |other| far(one, other))).max();
        return reach.unwrap_or(0) <= squared(length, width);
    }
    part.poses().into_iter().any(|pose| {
        let (low, high) = pose.of(&part.outline).bounds();
        // Outlines at other turns are rounded outward.
        let slack = if pose.turn.quarters().is_some() { 0 } else { SLACK_STEPS };
        high.x - low.x - slack <= length && high.y - low.y - slack <= width
    })
}
