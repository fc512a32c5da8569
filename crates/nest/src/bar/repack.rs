//! A list made better a few sticks at a time: the emptiest and some others are cut anew, each filled as closely as
//! can be from pieces in random order. What fills some sticks more and others less frees a stick in the end.

use crate::random::Chance;

use super::knapsack::{Item, filling_within};
use super::model::{Model, Pattern};

/// Partial fillings looked at to fill one stick.
const STATES: usize = 5_000;
/// Sticks cut anew together, the emptiest included: at least, and how many more at most.
const TOGETHER: (usize, usize) = (2, 4);

/// Cuts a few sticks anew, `rounds` times; ends early at a list that costs no more than `target`.
pub(super) fn repack(
    model: &Model,
    mut list: Vec<Pattern>,
    target: i64,
    rounds: u32,
    (seed, way): (u64, u64),
) -> Vec<Pattern> {
    let mut chance = Chance::new(seed, way);
    for _ in 0..rounds {
        if model.cost(&list) <= target || list.len() < 2 {
            break;
        }
        let chosen = choose(model, &list, &mut chance);
        let old: Vec<Pattern> = chosen.iter().map(|&at| list[at].clone()).collect();
        let same: Vec<usize> = old.iter().map(|pattern| pattern.stick).collect();
        let new = cut_anew(model, &old, &same, &mut chance)
            .filter(|new| fullness(model, &old) <= fullness(model, new));
        if let Some(new) = new {
            for (&at, pattern) in chosen.iter().zip(new) {
                list[at] = pattern;
            }
            list.retain(|pattern| !pattern.takes.is_empty());
        }
    }
    list
}

/// The stick with most room left and a few others.
fn choose(model: &Model, list: &[Pattern], chance: &mut Chance) -> Vec<usize> {
    let left = |pattern: &Pattern| model.stocks[pattern.stick].room - filled(model, pattern);
    let emptiest = (0..list.len()).max_by_key(|&at| left(&list[at])).unwrap_or(0);
    let many = (TOGETHER.0 + chance.below(TOGETHER.1 + 1)).min(list.len());
    let mut chosen = if chance.below(3) == 0 { Vec::new() } else { vec![emptiest] };
    while chosen.len() < many {
        let next = chance.below(list.len());
        if !chosen.contains(&next) {
            chosen.push(next);
        }
    }
    chosen
}

fn filled(model: &Model, pattern: &Pattern) -> i64 {
    pattern.takes.iter().map(|&(kind, taken)| model.kinds[kind].length * taken).sum()
}

/// The sum of squares of what is cut from each stick: the more unlike, the nearer to a stick saved.
fn fullness(model: &Model, list: &[Pattern]) -> i128 {
    list.iter().map(|pattern| i128::from(filled(model, pattern)).pow(2)).sum()
}

/// Sticks filled one after the other from all pieces of the old ones in random order, if all fit.
fn cut_anew(model: &Model, old: &[Pattern], sticks: &[usize], chance: &mut Chance) -> Option<Vec<Pattern>> {
    let mut loose: Vec<(usize, i64)> = Vec::new();
    for &(kind, taken) in old.iter().flat_map(|pattern| &pattern.takes) {
        match loose.iter_mut().find(|have| have.0 == kind) {
            Some(have) => have.1 += taken,
            None => loose.push((kind, taken)),
        }
    }
    chance.shuffle(&mut loose);
    let mut new: Vec<Pattern> = Vec::with_capacity(old.len());
    for &stick in sticks {
        let item = |(at, &(kind, most)): (usize, &(usize, i64))| {
            let length = model.kinds[kind].length;
            Item { kind: at, length, worth: length, most }
        };
        let items: Vec<Item> = loose.iter().enumerate().map(item).collect();
        let takes = filling_within(&items, model.stocks[stick].room, 0, STATES).map_or(Vec::new(), |f| f.1);
        let mut named: Vec<(usize, i64)> = takes.iter().map(|&(at, taken)| (loose[at].0, taken)).collect();
        named.sort_unstable();
        takes.iter().for_each(|&(at, taken)| loose[at].1 -= taken);
        new.push(Pattern { stick, takes: named });
    }
    loose.iter().all(|have| have.1 == 0).then_some(new)
}
