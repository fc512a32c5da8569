//! An independent check of a proof that no cutting list costs less: exact whole-number knapsacks, its own
//! enumeration of fillings, and nothing of the search.

use std::collections::BTreeMap;

use nest::bar::{Problem, Proof, Rule, Weights};

/// How often each kind is cut from a stick of this number.
#[derive(Clone)]
struct Filling {
    stick: usize,
    counts: Vec<i64>,
}

/// A rule in force: at least, or at most, so many.
type InForce = (Rule, bool, i64);

struct Checker {
    lengths: Vec<i64>,
    demand: Vec<i64>,
    rooms: Vec<i64>,
    prices: Vec<i64>,
    limits: Vec<Option<i64>>,
    target: i64,
}

/// Checks that `proof` excludes every cutting list that costs less than `bound`.
pub fn check(problem: &Problem, proof: &Proof, bound: i64) -> Result<(), String> {
    let saw = problem.saw();
    let mut kinds: BTreeMap<i64, i64> = BTreeMap::new();
    for piece in problem.pieces() {
        *kinds.entry(piece.length + saw.kerf).or_default() += piece.quantity as i64;
    }
    let sticks = problem.sticks();
    let step = sticks.iter().fold(0, |step, stick| divisor(step, stick.price)).max(1);
    let checker = Checker {
        lengths: kinds.keys().rev().copied().collect(),
        demand: kinds.values().rev().copied().collect(),
        rooms: sticks.iter().map(|stick| stick.length - 2 * saw.end_trim + saw.kerf).collect(),
        prices: sticks.iter().map(|stick| stick.price).collect(),
        limits: sticks.iter().map(|stick| stick.limit.map(|limit| limit as i64)).collect(),
        target: bound - step,
    };
    checker.check(proof, &mut Vec::new(), None)
}

fn divisor(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { divisor(b, a % b) }
}

impl Checker {
    fn check(&self, proof: &Proof, rules: &mut Vec<InForce>, left: Option<&[Filling]>) -> Result<(), String> {
        match proof {
            Proof::None if self.target < 0 => Ok(()),
            Proof::None => Err("nothing is proved".into()),
            Proof::Weights(weights) => {
                self.signs(weights, rules)?;
                if self.total(weights, rules) <= i128::from(weights.unit) * i128::from(self.target) {
                    return Err("what must be cut is not worth enough".into());
                }
                self.none_worth_more(weights, rules, left)
            }
            Proof::Filter { weights, then } => {
                self.signs(weights, rules)?;
                let slack = i128::from(weights.unit) * i128::from(self.target) - self.total(weights, rules);
                self.none_worth_more(weights, rules, left)?;
                let kept = self.filtered(weights, rules, left, slack);
                self.check(then, rules, Some(&kept))
            }
            Proof::Split { rule, at_most, below, above } => {
                for (side, at_least, bound) in [(below, false, *at_most), (above, true, at_most + 1)] {
                    rules.push((rule.clone(), at_least, bound));
                    self.check(side, rules, left)?;
                    rules.pop();
                }
                Ok(())
            }
            Proof::Halves { kinds, then } => {
                let bound = kinds.iter().map(|&kind| self.demand[kind]).sum::<i64>() / 2;
                rules.push((Rule::Halves(kinds.clone()), false, bound));
                self.check(then, rules, left)?;
                rules.pop();
                Ok(())
            }
        }
    }

    fn signs(&self, weights: &Weights, rules: &[InForce]) -> Result<(), String> {
        let sizes = [
            (weights.kinds.len(), self.lengths.len()),
            (weights.sticks.len(), self.rooms.len()),
            (weights.rules.len(), rules.len()),
        ];
        let rule_signs = rules.iter().zip(&weights.rules);
        let fine = 0 < weights.unit
            && sizes.iter().all(|(have, need)| have == need)
            && weights.kinds.iter().all(|&weight| 0 <= weight)
            && weights
                .sticks
                .iter()
                .zip(&self.limits)
                .all(|(&w, limit)| w <= 0 && (w == 0 || limit.is_some()))
            && rule_signs.into_iter().all(|(rule, &w)| if rule.1 { 0 <= w } else { w <= 0 });
        if fine { Ok(()) } else { Err("weights of the wrong number or sign".into()) }
    }

    fn total(&self, weights: &Weights, rules: &[InForce]) -> i128 {
        let times = |weight: &i64, count: i64| i128::from(*weight) * i128::from(count);
        let kinds: i128 = weights.kinds.iter().zip(&self.demand).map(|(w, &d)| times(w, d)).sum();
        let limits = weights.sticks.iter().zip(&self.limits).map(|(w, limit)| times(w, limit.unwrap_or(0)));
        let rules = weights.rules.iter().zip(rules).map(|(w, rule)| times(w, rule.2));
        kinds + limits.sum::<i128>() + rules.sum::<i128>()
    }

    /// What the pieces on a stick of this number may be worth, before rules that look at the pieces.
    fn allowed(&self, weights: &Weights, rules: &[InForce], stick: usize) -> i64 {
        let counted = |rule: &Rule| matches!(rule, Rule::Sticks(number) if *number == stick);
        let of_rules =
            rules.iter().zip(&weights.rules).filter(|((rule, ..), _)| counted(rule)).map(|(_, w)| w);
        weights.unit * self.prices[stick] - weights.sticks[stick] - of_rules.sum::<i64>()
    }

    fn none_worth_more(
        &self,
        weights: &Weights,
        rules: &[InForce],
        left: Option<&[Filling]>,
    ) -> Result<(), String> {
        let fine = if let Some(fillings) = left {
            fillings.iter().all(|filling| 0 <= self.shortfall(weights, rules, filling))
        } else {
            if rules.iter().any(|(rule, ..)| !matches!(rule, Rule::Sticks(_))) {
                return Err("a rule on pieces before the fillings are known".into());
            }
            (0..self.rooms.len())
                .all(|stick| self.knapsack(weights, self.rooms[stick]) <= self.allowed(weights, rules, stick))
        };
        if fine { Ok(()) } else { Err("a filling is worth more than its price".into()) }
    }

    fn shortfall(&self, weights: &Weights, rules: &[InForce], filling: &Filling) -> i64 {
        let pieces: i64 =
            filling.counts.iter().zip(&weights.kinds).map(|(count, weight)| count * weight).sum();
        let on_pieces = rules.iter().zip(&weights.rules);
        let of_rules: i64 = on_pieces.map(|((rule, ..), weight)| weight * counted(rule, filling)).sum();
        self.allowed(weights, rules, filling.stick) - pieces - of_rules
    }

    /// The most that pieces in this room can be worth: every reachable length with its best worth.
    fn knapsack(&self, weights: &Weights, room: i64) -> i64 {
        let mut reached: BTreeMap<i64, i64> = BTreeMap::from([(0, 0)]);
        for (kind, &length) in self.lengths.iter().enumerate() {
            let before: Vec<(i64, i64)> = reached.iter().map(|(&length, &worth)| (length, worth)).collect();
            for (at, worth) in before {
                for count in 1..=self.demand[kind].min((room - at) / length) {
                    let entry = reached.entry(at + count * length).or_insert(0);
                    *entry = (*entry).max(worth + count * weights.kinds[kind]);
                }
            }
        }
        reached.values().copied().max().unwrap_or(0)
    }

    /// The fillings left whose worth falls short by no more than `slack`.
    fn filtered(
        &self,
        weights: &Weights,
        rules: &[InForce],
        left: Option<&[Filling]>,
        slack: i128,
    ) -> Vec<Filling> {
        let bearable = |filling: &Filling| i128::from(self.shortfall(weights, rules, filling)) <= slack;
        if let Some(fillings) = left {
            return fillings.iter().filter(|filling| bearable(filling)).cloned().collect();
        }
        let mut found = Vec::new();
        for stick in 0..self.rooms.len() {
            let need = i128::from(self.allowed(weights, rules, stick)) - slack;
            let mut filling = Filling { stick, counts: vec![0; self.lengths.len()] };
            self.enumerate(weights, 0, self.rooms[stick], need, &mut filling, &mut found);
        }
        found
    }

    /// Counts of one kind after the other, longest first, given up when no later kind is worth enough for its length.
    fn enumerate(
        &self,
        weights: &Weights,
        kind: usize,
        room: i64,
        need: i128,
        filling: &mut Filling,
        found: &mut Vec<Filling>,
    ) {
        let worth_enough = |(length, worth): (&i64, &i64)| {
            need * i128::from(*length) <= i128::from(room) * i128::from(*worth)
        };
        if 0 < need && !self.lengths[kind..].iter().zip(&weights.kinds[kind..]).any(worth_enough) {
            return;
        }
        if kind == self.lengths.len() {
            found.push(filling.clone());
            return;
        }
        for count in 0..=self.demand[kind].min(room / self.lengths[kind]) {
            filling.counts[kind] = count;
            let worth = i128::from(count * weights.kinds[kind]);
            self.enumerate(
                weights,
                kind + 1,
                room - count * self.lengths[kind],
                need - worth,
                filling,
                found,
            );
        }
        filling.counts[kind] = 0;
    }
}

/// How often a rule that looks at the pieces counts a filling.
fn counted(rule: &Rule, filling: &Filling) -> i64 {
    let counts = &filling.counts;
    match rule {
        Rule::Sticks(_) => 0,
        Rule::Together(a, b) if a == b => i64::from(2 <= counts[*a]),
        Rule::Together(a, b) => counts[*a].min(counts[*b]).min(1),
        Rule::Halves(kinds) => kinds.iter().map(|&kind| counts[kind]).sum::<i64>().div_euclid(2),
        Rule::Cut(stick, takes) => {
            let mut exactly = vec![0; counts.len()];
            takes.iter().for_each(|&(kind, count)| exactly[kind] = count);
            i64::from(filling.stick == *stick && *counts == exactly)
        }
    }
}
