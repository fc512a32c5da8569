//! Cutting lists straight away: sticks filled one after the other.

use super::knapsack::{Item, filling_within};
use super::model::{Model, Pattern};

/// Partial fillings looked at to fill one stick closely.
const STATES: usize = 20_000;

/// How one stick is filled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Filling {
    /// The longest piece that still fits, again and again.
    LongestFirst,
    /// The longest piece, and whatever fills the rest most closely.
    Closest,
}

/// The cheaper of several quick lists for this demand and these limits; `None` if the limits were not enough.
pub(super) fn quick_list(model: &Model, demand: &[i64], limits: &[Option<i64>]) -> Option<Vec<Pattern>> {
    let lists = [Filling::LongestFirst, Filling::Closest];
    let lists = lists.into_iter().filter_map(|filling| fill_all(model, demand, limits, filling));
    lists.min_by_key(|list| model.cost(list))
}

fn fill_all(model: &Model, demand: &[i64], limits: &[Option<i64>], filling: Filling) -> Option<Vec<Pattern>> {
    let (mut demand, mut limits) = (demand.to_vec(), limits.to_vec());
    let mut list = Vec::new();
    while let Some(longest) = demand.iter().position(|&left| 0 < left) {
        let fillings = (0..limits.len()).filter(|&stick| limits[stick] != Some(0));
        let fillings = fillings.filter_map(|stick| fill_one(model, &demand, longest, stick, filling));
        let best = fillings.min_by(|a, b| dearer(model, a, b))?;
        best.takes.iter().for_each(|&(kind, taken)| demand[kind] -= taken);
        if let Some(left) = limits[best.stick].as_mut() {
            *left -= 1;
        }
        list.push(best);
    }
    for pattern in &mut list {
        cheapen(model, pattern, &mut limits);
    }
    Some(list)
}

/// Compares price per length cut, then by more length cut.
fn dearer(model: &Model, a: &Pattern, b: &Pattern) -> std::cmp::Ordering {
    let (cut_a, cut_b) = (i128::from(cut_length(model, a)), i128::from(cut_length(model, b)));
    let price = |pattern: &Pattern| i128::from(model.stocks[pattern.stick].price);
    (price(a) * cut_b).cmp(&(price(b) * cut_a)).then(cut_b.cmp(&cut_a))
}

fn cut_length(model: &Model, pattern: &Pattern) -> i64 {
    pattern.takes.iter().map(|&(kind, taken)| model.kinds[kind].length * taken).sum()
}

fn fill_one(
    model: &Model,
    demand: &[i64],
    longest: usize,
    stick: usize,
    filling: Filling,
) -> Option<Pattern> {
    let mut room = model.stocks[stick].room;
    if room < model.kinds[longest].length {
        return None;
    }
    let mut takes = Vec::new();
    if filling == Filling::Closest {
        room -= model.kinds[longest].length;
        let item = |(kind, &left): (usize, &i64)| {
            let length = model.kinds[kind].length;
            Item { kind, length, worth: length, most: left - i64::from(kind == longest) }
        };
        let items: Vec<Item> = demand.iter().enumerate().map(item).collect();
        takes = filling_within(&items, room, 0, STATES).map_or(Vec::new(), |(_, takes)| takes);
        match takes.iter_mut().find(|take| take.0 == longest) {
            Some(take) => take.1 += 1,
            None => takes.push((longest, 1)),
        }
        takes.sort_unstable();
    } else {
        for (kind, &left) in demand.iter().enumerate().skip(longest) {
            let taken = left.min(room / model.kinds[kind].length);
            if 0 < taken {
                room -= taken * model.kinds[kind].length;
                takes.push((kind, taken));
            }
        }
    }
    Some(Pattern { stick, takes })
}

/// Cuts the same from a cheaper stick where one is left that is long enough.
fn cheapen(model: &Model, pattern: &mut Pattern, limits: &mut [Option<i64>]) {
    let cut = cut_length(model, pattern);
    let fits = |stick: &usize| limits[*stick] != Some(0) && cut <= model.stocks[*stick].room;
    let Some(best) = (0..limits.len()).filter(fits).min_by_key(|&stick| (model.stocks[stick].price, stick))
    else {
        return;
    };
    if model.stocks[best].price < model.stocks[pattern.stick].price {
        for (stick, change) in [(pattern.stick, 1), (best, -1)] {
            if let Some(left) = limits[stick].as_mut() {
                *left += change;
            }
        }
        pattern.stick = best;
    }
}
