//! The least price of whole sheets.
//!
//! Sheets are bought whole, so what counts is the cheapest set of them, so many of each size, that is not known to be too little:
//! it has room for the parts by area, and as many sheets as the arguments for sheets of just its sizes ask for; and so
//! have those of its sheets that may hold the larger parts, for these parts alone. Sets are looked at in the order of what
//! they cost at least, so whatever is not looked at costs no less.

use std::cell::RefCell;
use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

use crate::bound::area::Metal;
use crate::bound::{Bounds, money};
use crate::problem::{PIECE_LIMIT, Part, Problem};

/// Sets and beginnings of sets looked at before the limit is what was reached: in shops there are a few hundred.
const MOST_LOOKS: u32 = 20_000;

/// Kinds of parts that only some of the sizes may hold, for which the arguments are made anew: those of the largest parts.
const MOST_KINDS: usize = 6;

/// Sizes, and the parts that none but these may hold.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Kind {
    holders: Vec<usize>,
    parts: Vec<usize>,
}

/// What was worked out of kinds: their metal, and the fewest sheets of their sizes.
pub(crate) type Kinds = RefCell<BTreeMap<Kind, ([Metal; 2], u32)>>;

/// So much room at least in all: a sheet of each size has so much of it.
#[derive(Debug)]
struct Rule {
    room: Vec<i128>,
    needed: i128,
}

/// Sets that begin alike: what they cost at least, then, so that whole sets are come to soon, how far they are given.
type Begun = (Reverse<i128>, usize, Reverse<Vec<u32>>);

/// What the cheapest set costs at least, of which so many sheets are known to be needed; 0 where no set is enough.
pub(super) fn least_cost(bounds: &Bounds<'_>, stock: &[usize], sheets: u32) -> i128 {
    let problem = bounds.problem;
    let mut sizes = stock.to_vec();
    // What holds area most cheaply comes last, so that what the rest costs at least is close until then.
    let dearness = |&size: &usize| {
        let area = problem.stock()[size].area().max(1);
        (Reverse(1_000_000 * problem.price(size) / area), size)
    };
    sizes.sort_by_key(dearness);
    let search = Search { bounds, rules: rules(bounds, &sizes, sheets), sizes };
    search.run()
}

/// By area and by number, of all parts and of each kind of parts that only some of the sizes may hold.
fn rules(bounds: &Bounds<'_>, sizes: &[usize], sheets: u32) -> Vec<Rule> {
    let mut rules = of_parts(bounds.problem, sizes, sizes, (bounds.metal, sheets));
    for kind in kinds(bounds.problem, sizes) {
        let known = bounds.kinds.borrow().get(&kind).copied();
        let needed = known.or_else(|| needed(bounds.problem, &kind));
        if let Some(needed) = needed {
            rules.extend(of_parts(bounds.problem, sizes, &kind.holders, needed));
            bounds.kinds.borrow_mut().insert(kind, needed);
        }
    }
    rules
}

/// What a kind of parts takes.
fn needed(problem: &Problem, kind: &Kind) -> Option<([Metal; 2], u32)> {
    let parts = kind.parts.iter().map(|&part| problem.parts()[part].clone()).collect();
    let alone = money::alone(problem, parts)?;
    let bounds = Bounds::of(&alone);
    Some((bounds.metal, bounds.fewest_on(&kind.holders).sheets))
}

/// The rules that parts make, so much metal and so many sheets at least, which only `holders` among the sizes may hold.
fn of_parts(
    problem: &Problem,
    sizes: &[usize],
    holders: &[usize],
    (metal, sheets): ([Metal; 2], u32),
) -> Vec<Rule> {
    let of_holders = |room: i128, size: &usize| if holders.contains(size) { room } else { 0 };
    let by_area = metal.iter().map(|metal| {
        let room = |size: &usize| of_holders(metal.needed(problem, &[*size]).bottom, size);
        Rule { room: sizes.iter().map(room).collect(), needed: metal.doubled() }
    });
    let by_number =
        Rule { room: sizes.iter().map(|size| of_holders(1, size)).collect(), needed: i128::from(sheets) };
    by_area.chain([by_number]).collect()
}

/// Sizes that alone may hold some part, and all parts that none but these may hold; the largest parts first.
fn kinds(problem: &Problem, sizes: &[usize]) -> Vec<Kind> {
    let holders = |part: &Part| -> Vec<usize> {
        let mut holders: Vec<usize> =
            sizes.iter().copied().filter(|&size| money::may_hold(problem, size, part)).collect();
        holders.sort_unstable();
        holders
    };
    let of_parts: Vec<Vec<usize>> = problem.parts().iter().map(holders).collect();
    let mut largest: BTreeMap<&Vec<usize>, i128> = BTreeMap::new();
    for (part, holders) in problem.parts().iter().zip(&of_parts) {
        if !holders.is_empty() && holders.len() < sizes.len() {
            let area = part.outline.doubled_area();
            largest.entry(holders).and_modify(|known| *known = area.max(*known)).or_insert(area);
        }
    }
    let mut kinds: Vec<(i128, &Vec<usize>)> =
        largest.into_iter().map(|(holders, area)| (area, holders)).collect();
    kinds.sort_by(|one, other| other.cmp(one));
    kinds.truncate(MOST_KINDS);
    let kind = |(_, holders): (i128, &Vec<usize>)| {
        let is_within = |part: &usize| {
            !of_parts[*part].is_empty() && of_parts[*part].iter().all(|size| holders.contains(size))
        };
        Kind { holders: holders.clone(), parts: (0..of_parts.len()).filter(is_within).collect() }
    };
    kinds.into_iter().map(kind).collect()
}

struct Search<'a> {
    bounds: &'a Bounds<'a>,
    sizes: Vec<usize>,
    rules: Vec<Rule>,
}

impl Search<'_> {
    fn run(&self) -> i128 {
        let mut begun: BinaryHeap<Begun> = BinaryHeap::new();
        begun.extend(self.begun(0, vec![0; self.sizes.len()]));
        let mut reached = 0;
        for _ in 0..MOST_LOOKS {
            let Some((Reverse(cost), at, Reverse(counts))) = begun.pop() else { return 0 };
            reached = cost;
            let Some(&size) = self.sizes.get(at) else {
                if self.has_enough(&counts) {
                    return cost;
                }
                continue;
            };
            if self.bounds.problem.is_free(size) {
                // What costs nothing is taken, all of it: no rule has less room for it.
                let mut all = counts;
                all[at] = self.there(size).min(PIECE_LIMIT);
                begun.extend(self.begun(at + 1, all));
                continue;
            }
            begun.extend(self.begun(at + 1, counts.clone()));
            if counts[at] < self.there(size) {
                let mut more = counts;
                more[at] += 1;
                begun.extend(self.begun(at, more));
            }
        }
        reached
    }

    fn there(&self, size: usize) -> u32 {
        self.bounds.problem.stock()[size].limit.unwrap_or(u32::MAX)
    }

    /// Sets with so many sheets of the sizes before `at`, and of that one at least so many; none where no sheets of the sizes from
    /// there on have the room that they lack.
    fn begun(&self, at: usize, counts: Vec<u32>) -> Option<Begun> {
        let price = |number: usize| self.bounds.problem.price(self.sizes[number]);
        let sum: i128 =
            counts.iter().enumerate().map(|(number, &count)| i128::from(count) * price(number)).sum();
        let mut most = 0;
        for rule in &self.rules {
            let there: i128 =
                counts.iter().zip(&rule.room).map(|(&count, room)| i128::from(count) * room).sum();
            let lacking = rule.needed - there;
            if 0 < lacking {
                let rest = (at..self.sizes.len()).filter(|&number| 0 < rule.room[number]);
                let up = |number: usize| {
                    (lacking * price(number) + rule.room[number] - 1).div_euclid(rule.room[number])
                };
                most = most.max(rest.map(up).min()?);
            }
        }
        Some((Reverse(sum + most), at, Reverse(counts)))
    }

    /// Whether sheets of just these sizes need no more than there are in the set, which has the room it takes.
    fn has_enough(&self, counts: &[u32]) -> bool {
        let used = self.sizes.iter().zip(counts).filter(|(_, count)| 0 < **count).map(|(&size, _)| size);
        let used: Vec<usize> = used.collect();
        let count = counts.iter().fold(0_u32, |sum, &count| sum.saturating_add(count));
        self.bounds.fewest_on(&used).sheets <= count
    }
}
