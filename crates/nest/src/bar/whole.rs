//! The least price of whole sticks.
//!
//! Sticks are bought whole, so a bound is raised to the next sum of prices of so many sticks of each length that may carry all
//! pieces. Pieces have a *worth*, their length or what the first linear program says, and no stick carries more than a certain worth:
//! so for numbers of sticks within bounds there is a least price (a knapsack by its fractions, Dantzig, *Operations Research* 5 (1957)),
//! and where that is not more than the target, the number of a length is split.

use super::knapsack::most_worth;
use super::model::Model;
use super::proof::{Proof, Rule, Weights};
use super::rows::Row;
use super::weights;

/// Splits in all, and within one another, before a target counts as not to be proved.
const MOST_SPLITS: u32 = 4_000;
const DEEPEST: usize = 100;

/// Targets tried one above the other.
const MOST_TARGETS: u32 = 400;

/// A worth of every piece, and the most that a stick of each length carries.
#[derive(Debug)]
struct Worth {
    kinds: Vec<i64>,
    most: Vec<i64>,
    total: i128,
}

/// The highest bound above `floor`, and no more than `cost`, that whole sticks prove, with its proof; none where it is no higher. The weights
/// are those of the first program, and hold.
pub(super) fn raised(
    model: &Model,
    (floor, cost): (i64, i64),
    (rows, weights): (&[Row], &Weights),
) -> Option<(i64, Proof)> {
    let worths = [Worth::by_length(model), Worth::by_weights(model, rows, weights)];
    let mut found = None;
    let mut bound = floor;
    for _ in 0..MOST_TARGETS {
        if cost <= bound {
            break;
        }
        let mut search = Search { model, worths: &worths, target: bound, splits: 0 };
        let Some(proof) = search.prove(&mut Bounds::of(model)) else { break };
        bound += model.cost_step;
        found = Some((bound, proof));
    }
    found
}

impl Worth {
    fn by_length(model: &Model) -> Self {
        let kinds = model.kinds.iter().map(|kind| kind.length).collect();
        Self::new(model, kinds, model.stocks.iter().map(|stock| stock.room).collect())
    }

    fn by_weights(model: &Model, rows: &[Row], weights: &Weights) -> Self {
        let most =
            |stick: usize| carried(model, weights, stick, weights::allowance(model, rows, weights, stick));
        let most = (0..model.stocks.len()).map(most).collect();
        Self::new(model, weights.kinds.clone(), most)
    }

    fn new(model: &Model, kinds: Vec<i64>, most: Vec<i64>) -> Self {
        let each = model.kinds.iter().zip(&kinds);
        let total = each.map(|(kind, &worth)| i128::from(worth) * i128::from(kind.demand)).sum();
        Self { kinds, most, total }
    }
}

/// The most that a stick of a length carries, which is no more than `allowed`. Lower marks take longer: below the last
/// one nothing is looked for.
fn carried(model: &Model, weights: &Weights, stick: usize, allowed: i64) -> i64 {
    let items = weights::items(model, weights);
    let mut most = allowed;
    for mark in MARKS.map(|share| allowed - allowed / share) {
        match most_worth(&items, model.stocks[stick].room, mark, STATES) {
            Some(worth) if worth == mark => most = mark,
            Some(worth) => return worth,
            None => break,
        }
    }
    most
}

/// Partial fillings looked at for a mark.
const STATES: usize = 200_000;

/// By which shares the most that a stick carries is looked for below what it costs.
const MARKS: [i64; 5] = [4096, 512, 128, 64, 32];

/// At least and at most so many sticks of each length, and the splits that say so, outermost first: which length, whether at least.
struct Bounds {
    least: Vec<i64>,
    most: Vec<Option<i64>>,
    splits: Vec<(usize, bool)>,
}

impl Bounds {
    fn of(model: &Model) -> Self {
        let most = model.stocks.iter().map(|stock| stock.limit).collect();
        Self { least: vec![0; model.stocks.len()], most, splits: Vec::new() }
    }
}

struct Search<'a> {
    model: &'a Model,
    worths: &'a [Worth],
    /// The cost that is to be excluded.
    target: i64,
    splits: u32,
}

/// A bound on what sticks cost: over `unit`, by the price of one length for its worth.
struct Least<'a> {
    worth: &'a Worth,
    /// The length whose number is a fraction.
    stick: usize,
    value: i128,
}

impl Search<'_> {
    /// That numbers within the bounds cost more than the target.
    fn prove(&mut self, bounds: &mut Bounds) -> Option<Proof> {
        let stocks = self.model.stocks.iter().zip(&bounds.least);
        let taken: i128 = stocks.map(|(stock, &least)| i128::from(stock.price) * i128::from(least)).sum();
        if i128::from(self.target) < taken {
            return Some(Proof::Weights(self.weights_of_taken(bounds)));
        }
        let worths = self.worths;
        if let Some(weights) = worths.iter().find_map(|worth| self.weights_of_lack(worth, bounds)) {
            return Some(Proof::Weights(weights));
        }
        let mut highest: Option<Least<'_>> = None;
        for worth in worths {
            for stick in 0..self.model.stocks.len() {
                let Some(value) = self.least(worth, stick, bounds) else { continue };
                if i128::from(worth.most[stick]) * i128::from(self.target) < value {
                    return Some(Proof::Weights(self.weights(worth, stick, bounds)?));
                }
                let is_higher = |known: &Least<'_>| {
                    known.value * i128::from(worth.most[stick])
                        < value * i128::from(known.worth.most[known.stick])
                };
                let is_free = bounds.most[stick].is_none_or(|most| bounds.least[stick] < most);
                if is_free && highest.as_ref().is_none_or(is_higher) {
                    highest = Some(Least { worth, stick, value });
                }
            }
        }
        let Least { worth, stick, .. } = highest?;
        self.splits += 1;
        if MOST_SPLITS < self.splits || DEEPEST < bounds.splits.len() {
            return None;
        }
        let number = self.number(worth, stick, bounds)?;
        let least = bounds.least[stick];
        let at_most = number.clamp(least, bounds.most[stick].map_or(number.max(least), |most| most - 1));
        let above = self.side(bounds, stick, (at_most + 1, bounds.most[stick]), true)?;
        let below = self.side(bounds, stick, (least, Some(at_most)), false)?;
        Some(Proof::Split {
            rule: Rule::Sticks(stick),
            at_most,
            below: Box::new(below),
            above: Box::new(above),
        })
    }

    fn side(
        &mut self,
        bounds: &mut Bounds,
        stick: usize,
        (least, most): (i64, Option<i64>),
        at_least: bool,
    ) -> Option<Proof> {
        let before = (bounds.least[stick], bounds.most[stick]);
        (bounds.least[stick], bounds.most[stick]) = (least, most);
        bounds.splits.push((stick, at_least));
        let proof = self.prove(bounds);
        bounds.splits.pop();
        (bounds.least[stick], bounds.most[stick]) = before;
        proof
    }

    /// What a stick of a length is dearer than its worth at the price of `at`, times the worth that one of `at` carries.
    fn dearer(&self, worth: &Worth, at: usize, stick: usize) -> i128 {
        let price = |stick: usize| i128::from(self.model.stocks[stick].price);
        let most = |stick: usize| i128::from(worth.most[stick]);
        most(at) * price(stick) - price(at) * most(stick)
    }

    /// What the sticks cost at least, times the worth that one of `at` carries: all worth at its price, and what others are dearer or
    /// cheaper as few or as many as they are. `None` where there is no end of cheaper ones.
    fn least(&self, worth: &Worth, at: usize, bounds: &Bounds) -> Option<i128> {
        let price = i128::from(self.model.stocks[at].price);
        if price == 0 || worth.most[at] == 0 {
            return None;
        }
        let mut value = price * worth.total;
        for stick in 0..self.model.stocks.len() {
            let dearer = self.dearer(worth, at, stick);
            let count = if dearer < 0 { bounds.most[stick]? } else { bounds.least[stick] };
            value = value.checked_add(dearer.checked_mul(i128::from(count))?)?;
        }
        Some(value)
    }

    /// How many of `at` carry, rounded down, what the others do not.
    fn number(&self, worth: &Worth, at: usize, bounds: &Bounds) -> Option<i64> {
        let mut left = worth.total;
        for stick in (0..self.model.stocks.len()).filter(|&stick| stick != at) {
            let count =
                if self.dearer(worth, at, stick) < 0 { bounds.most[stick]? } else { bounds.least[stick] };
            left -= i128::from(count) * i128::from(worth.most[stick]);
        }
        i64::try_from(left.div_euclid(i128::from(worth.most[at]))).ok()
    }

    /// The weights where what is taken at least costs too much by itself.
    fn weights_of_taken(&self, bounds: &Bounds) -> Weights {
        let stocks = &self.model.stocks;
        let mut rules = vec![0; bounds.splits.len()];
        for (stick, stock) in stocks.iter().enumerate() {
            if let Some(split) = bounds.splits.iter().rposition(|&split| split == (stick, true)) {
                rules[split] = stock.price;
            }
        }
        Weights { unit: 1, kinds: vec![0; self.model.kinds.len()], sticks: vec![0; stocks.len()], rules }
    }

    /// The weights where as many sticks as there may be do not carry all: so much is lacking that at a price high enough for it, above all
    /// prices of sticks for what they carry, it costs more than the target by itself.
    fn weights_of_lack(&self, worth: &Worth, bounds: &Bounds) -> Option<Weights> {
        let most: Vec<i64> = bounds.most.iter().copied().collect::<Option<_>>()?;
        let carried: i128 =
            worth.most.iter().zip(&most).map(|(&worth, &most)| i128::from(worth) * i128::from(most)).sum();
        let lacking = worth.total - carried;
        if lacking <= 0 {
            return None;
        }
        let enough = i64::try_from(i128::from(self.target) / lacking + 1).ok()?;
        let high = enough.max(self.model.top_price());
        let kinds = worth.kinds.iter().map(|&worth| worth.checked_mul(high)).collect::<Option<_>>()?;
        let mut weights = Weights {
            unit: 1,
            kinds,
            sticks: vec![0; self.model.stocks.len()],
            rules: vec![0; bounds.splits.len()],
        };
        for (stick, stock) in self.model.stocks.iter().enumerate() {
            let cheaper = (stock.price - worth.most[stick].checked_mul(high)?).min(0);
            match bounds.splits.iter().rposition(|&split| split == (stick, false)) {
                Some(split) => weights.rules[split] = cheaper,
                None => weights.sticks[stick] = cheaper,
            }
        }
        Some(weights)
    }

    /// The weights behind [`Search::least`]; none where they are beyond 64 bits.
    fn weights(&self, worth: &Worth, at: usize, bounds: &Bounds) -> Option<Weights> {
        let price = self.model.stocks[at].price;
        let kinds = worth.kinds.iter().map(|&worth| worth.checked_mul(price)).collect::<Option<_>>()?;
        let mut weights = Weights {
            unit: worth.most[at],
            kinds,
            sticks: vec![0; self.model.stocks.len()],
            rules: vec![0; bounds.splits.len()],
        };
        for stick in 0..self.model.stocks.len() {
            let dearer = i64::try_from(self.dearer(worth, at, stick)).ok()?;
            weights.unit.checked_mul(self.model.stocks[stick].price)?;
            // The innermost split on that side is the closest; where there is none, the limit is.
            let at_least = 0 < dearer;
            let split = bounds.splits.iter().rposition(|&split| split == (stick, at_least));
            match split {
                Some(split) => weights.rules[split] = dearer,
                None if dearer < 0 => weights.sticks[stick] = dearer,
                None => {}
            }
        }
        Some(weights)
    }
}
