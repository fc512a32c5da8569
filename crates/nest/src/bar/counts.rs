//! A list of just so many sticks of each length: where lengths have prices of their own, a cheaper list is one of other
//! counts, which cutting a few sticks anew never comes to.
//!
//! All counts that cost less than the best list, and no less than what is proved, are listed. For each the fullest sticks of the best list
//! are kept as far as the counts have them, and what is left over is cut in: a few sticks at a time are filled as closely as can be from
//! their own pieces and those left over, in random order, as long as no more is left over.

use crate::random::Chance;

use super::knapsack::{Item, filling_within};
use super::model::{Model, Pattern};

/// Counts tried at most, those with the most room first.
const MOST_TRIED: usize = 40;
/// Beginnings of counts looked at.
const MOST_LOOKS: usize = 200_000;
/// Partial fillings looked at to fill one stick.
const STATES: usize = 5_000;
/// Sticks cut anew together at most.
const TOGETHER: usize = 4;

/// How many sticks of each length, and what they cost.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Counts {
    sticks: Vec<i64>,
    cost: i64,
    room: i64,
}

/// The cheapest list found of counts that cost less than `list`; `rounds` for each of the counts.
pub(super) fn of_cheaper_counts(
    model: &Model,
    list: Vec<Pattern>,
    floor: i64,
    rounds: u32,
    seed: u64,
) -> Vec<Pattern> {
    let mut best = list;
    let mut tried = cheaper(model, floor, model.cost(&best));
    tried.sort_by_key(|counts| (std::cmp::Reverse(counts.room), counts.cost));
    for (way, counts) in tried.into_iter().take(MOST_TRIED).enumerate() {
        if counts.cost < model.cost(&best) {
            let mut chance = Chance::new(seed, way as u64);
            let found = Cutting::new(model, &best, &counts.sticks).cut(rounds, &mut chance);
            best = found.unwrap_or(best);
        }
    }
    best
}

/// All counts within the limits that have room enough and cost at least `floor` and less than `cost`.
fn cheaper(model: &Model, floor: i64, cost: i64) -> Vec<Counts> {
    let needed = model.kinds.iter().map(|kind| kind.length * kind.demand).sum();
    let mut search = Listing { model, needed, floor, cost, looks: 0, found: Vec::new() };
    search.extend(Counts { sticks: Vec::new(), cost: 0, room: 0 });
    search.found
}

struct Listing<'a> {
    model: &'a Model,
    needed: i64,
    floor: i64,
    cost: i64,
    looks: usize,
    found: Vec<Counts>,
}

impl Listing<'_> {
    fn extend(&mut self, begun: Counts) {
        self.looks += 1;
        let Some(stock) = self.model.stocks.get(begun.sticks.len()) else {
            if self.needed <= begun.room && self.floor <= begun.cost {
                self.found.push(begun);
            }
            return;
        };
        let most = if stock.price == 0 { i64::MAX } else { (self.cost - 1 - begun.cost) / stock.price };
        let most = stock.limit.map_or(most, |limit| limit.min(most));
        // What costs nothing is taken as far as there is; of the last length no fewer than there is room for are of use.
        let is_last = begun.sticks.len() + 1 == self.model.stocks.len();
        let lacking = (self.needed - begun.room).max(0);
        let least = if stock.price == 0 {
            most
        } else if is_last {
            (lacking + stock.room - 1) / stock.room.max(1)
        } else {
            0
        };
        for count in least..=most {
            if MOST_LOOKS <= self.looks {
                return;
            }
            let mut next = begun.clone();
            next.sticks.push(count);
            next.cost += count * stock.price;
            next.room += count * stock.room;
            self.extend(next);
        }
    }
}

/// Sticks of given counts, and what is not cut from them yet.
struct Cutting<'a> {
    model: &'a Model,
    sticks: Vec<Pattern>,
    /// By kind.
    loose: Vec<i64>,
}

impl<'a> Cutting<'a> {
    fn new(model: &'a Model, list: &[Pattern], counts: &[i64]) -> Self {
        let mut left = counts.to_vec();
        let mut fullest: Vec<&Pattern> = list.iter().collect();
        fullest.sort_by_key(|pattern| model.stocks[pattern.stick].room - filled(model, pattern));
        let mut cutting = Self { model, sticks: Vec::new(), loose: vec![0; model.kinds.len()] };
        for pattern in fullest {
            if 0 < left[pattern.stick] {
                left[pattern.stick] -= 1;
                cutting.sticks.push(pattern.clone());
            } else {
                pattern.takes.iter().for_each(|&(kind, taken)| cutting.loose[kind] += taken);
            }
        }
        for (stick, left) in left.into_iter().enumerate() {
            (0..left).for_each(|_| cutting.sticks.push(Pattern { stick, takes: Vec::new() }));
        }
        cutting
    }

    /// Cuts a few sticks anew, `rounds` times at most, until nothing is left over.
    fn cut(mut self, rounds: u32, chance: &mut Chance) -> Option<Vec<Pattern>> {
        for _ in 0..rounds {
            if self.left_over(&self.loose) == 0 {
                self.sticks.retain(|pattern| !pattern.takes.is_empty());
                return Some(self.sticks);
            }
            self.cut_some(chance);
        }
        None
    }

    /// Length of what is left over.
    fn left_over(&self, loose: &[i64]) -> i64 {
        self.model.kinds.iter().zip(loose).map(|(kind, &count)| kind.length * count).sum()
    }

    fn cut_some(&mut self, chance: &mut Chance) {
        let chosen = self.choose(chance);
        let mut loose = self.loose.clone();
        for &at in &chosen {
            self.sticks[at].takes.iter().for_each(|&(kind, taken)| loose[kind] += taken);
        }
        let old: Vec<Pattern> = chosen.iter().map(|&at| self.sticks[at].clone()).collect();
        let new: Vec<Pattern> = old.iter().map(|old| self.fill(old.stick, &mut loose, chance)).collect();
        let squares = |sticks: &[Pattern]| -> i128 {
            sticks.iter().map(|stick| i128::from(filled(self.model, stick)).pow(2)).sum()
        };
        let (before, after) = (self.left_over(&self.loose), self.left_over(&loose));
        if after < before || (after == before && squares(&old) <= squares(&new)) {
            chosen.into_iter().zip(new).for_each(|(at, stick)| self.sticks[at] = stick);
            self.loose = loose;
        }
    }

    /// Some sticks by chance, often with the one that has the most room left.
    fn choose(&self, chance: &mut Chance) -> Vec<usize> {
        let left = |at: &usize| {
            let stick = &self.sticks[*at];
            self.model.stocks[stick.stick].room - filled(self.model, stick)
        };
        let many = (1 + chance.below(TOGETHER)).min(self.sticks.len());
        let emptiest = if chance.below(2) == 0 { (0..self.sticks.len()).max_by_key(left) } else { None };
        let mut chosen: Vec<usize> = emptiest.into_iter().collect();
        while chosen.len() < many {
            let next = chance.below(self.sticks.len());
            if !chosen.contains(&next) {
                chosen.push(next);
            }
        }
        chance.shuffle(&mut chosen);
        chosen
    }

    /// Fills a stick as closely as can be from what is loose, kinds in random order.
    fn fill(&self, stick: usize, loose: &mut [i64], chance: &mut Chance) -> Pattern {
        let mut kinds: Vec<usize> = (0..loose.len()).filter(|&kind| 0 < loose[kind]).collect();
        chance.shuffle(&mut kinds);
        let item = |(at, &kind): (usize, &usize)| {
            let length = self.model.kinds[kind].length;
            Item { kind: at, length, worth: length, most: loose[kind] }
        };
        let items: Vec<Item> = kinds.iter().enumerate().map(item).collect();
        let filling = filling_within(&items, self.model.stocks[stick].room, 0, STATES);
        let mut takes: Vec<(usize, i64)> =
            filling.map_or_else(Vec::new, |(_, takes)| takes).iter().map(|&(at, n)| (kinds[at], n)).collect();
        takes.sort_unstable();
        takes.iter().for_each(|&(kind, taken)| loose[kind] -= taken);
        Pattern { stick, takes }
    }
}

fn filled(model: &Model, pattern: &Pattern) -> i64 {
    pattern.takes.iter().map(|&(kind, taken)| model.kinds[kind].length * taken).sum()
}
