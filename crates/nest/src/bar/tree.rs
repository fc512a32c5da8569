//! Branch and price: the exact search between the bound of the linear program and the best list found.
//!
//! Splits first on how many sticks of a length are taken, with fillings still found by knapsack. Then the weights
//! rule out all but a pool of fillings, and the search goes on over that pool, split on pairs of pieces that share
//! a stick. Source: Ryan and Foster, "An integer programming approach to scheduling" (1981); Vance and others,
//! "Solving binary cutting stock problems by column generation and branch-and-bound" (1994).

use super::cuts::violated_halves;
use super::face::mean_weights;
use super::generate::generate;
use super::model::{Model, Pattern};
use super::pool::{pool, pool_of_few};
use super::proof::{Proof, Rule, Weights};
use super::round::round;
use super::rows::{Count, Row, base_rows, rule_row};
use super::simplex::Simplex;
use super::solve::Effort;
use super::split::{Split, pair_split, stick_split};
use super::weights;

/// Corners of the face of best weights whose mean rules out fillings.
const CORNERS: u64 = 16;

/// Rows of halves and filters added in one node at most.
const MOST_STEPS: usize = 40;

/// Fillings searched when there are too many to search all.
const FEW: usize = 4_000;
/// Programs solved over them.
const FEW_NODES: u64 = 400;

/// The state of one exact search.
pub(super) struct Tree<'a> {
    model: &'a Model,
    effort: Effort,
    /// The best list so far.
    pub(super) best: Option<Vec<Pattern>>,
    /// Exchanges made so far.
    pub(super) exchanges: u64,
    nodes: u64,
    /// No list costs less than this; a list of this cost ends the search.
    floor: i64,
}

impl<'a> Tree<'a> {
    pub(super) const fn new(
        model: &'a Model,
        effort: Effort,
        best: Option<Vec<Pattern>>,
        floor: i64,
    ) -> Self {
        Self { model, effort, best, exchanges: 0, nodes: 0, floor }
    }

    /// The highest cost that would be an improvement.
    pub(super) fn target(&self) -> i64 {
        self.best.as_ref().map_or(i64::MAX >> 24, |best| self.model.cost(best) - self.model.cost_step)
    }

    /// Keeps a list if it is cheaper.
    pub(super) fn offer(&mut self, list: Option<Vec<Pattern>>) {
        if let Some(list) = list.filter(|list| self.model.cost(list) <= self.target()) {
            self.best = Some(list);
        }
    }

    /// Whether nothing is left to gain, or nothing left to spend.
    pub(super) fn ended(&self) -> bool {
        self.target() < self.floor
            || self.effort.exchanges <= self.exchanges
            || self.effort.nodes <= self.nodes
    }

    /// Searches below a program whose columns are still to be found; `None` if something was left open.
    pub(super) fn search(&mut self, mut simplex: Simplex, columns: &mut Vec<Pattern>) -> Option<Proof> {
        let solved =
            self.solve(&mut simplex, |model, simplex, limit| generate(model, simplex, columns, limit))?;
        let weights = weights::from_worth(self.model, &simplex.rows, &solved);
        if !weights::hold_everywhere(self.model, &simplex.rows, &weights) {
            return None;
        }
        self.offer(round(self.model, &simplex, columns));
        if self.closes(&simplex.rows, &weights) {
            return Some(Proof::Weights(weights));
        }
        if let Some(split) = stick_split(self.model, &simplex, columns) {
            let [first, second] = split.sides(&simplex, columns);
            let above = self.search(first, columns)?;
            let below = self.search(second, columns)?;
            return Some(split.proof(below, above));
        }
        let (weights, exchanges) = mean_weights(self.model, &simplex.rows, weights, columns, CORNERS);
        self.exchanges += exchanges;
        let target = self.target();
        let Some(mut found) = pool(self.model, &simplex.rows, &weights, target, self.effort.fillings) else {
            self.search_few(&simplex, &weights, columns);
            return None;
        };
        found.sort_unstable();
        let below = self.search_pool(restart(self.model, &simplex, &found), &found)?;
        Some(Proof::Filter { weights, then: Box::new(below) })
    }

    /// Searches over the fillings of fewest pieces where all are too many. Nothing is proved, but a list may be found.
    fn search_few(&mut self, simplex: &Simplex, weights: &Weights, columns: &[Pattern]) {
        let mut few = pool_of_few(self.model, &simplex.rows, weights, self.target(), FEW);
        few.extend_from_slice(columns);
        few.sort_unstable();
        few.dedup();
        let all = std::mem::replace(&mut self.effort.nodes, self.nodes + FEW_NODES);
        self.effort.nodes = self.effort.nodes.min(all);
        self.search_pool(restart(self.model, simplex, &few), &few);
        self.effort.nodes = all;
    }

    /// Searches below a program over a pool of fillings.
    fn search_pool(&mut self, mut simplex: Simplex, pool: &[Pattern]) -> Option<Proof> {
        let mut steps = Vec::new();
        let inner = loop {
            let worth =
                self.solve(&mut simplex, |model, simplex, limit| simplex.optimise(model, pool, limit))?;
            let weights = weights::from_worth(self.model, &simplex.rows, &worth);
            self.offer(round(self.model, &simplex, pool));
            let shortfalls = weights::shortfalls(self.model, &simplex.rows, &weights, pool);
            let hold =
                shortfalls.iter().enumerate().all(|(column, &short)| 0 <= short || simplex.is_banned(column));
            if hold && self.closes(&simplex.rows, &weights) {
                break Proof::Weights(weights);
            }
            if hold && self.ban(&mut simplex, &weights, &shortfalls) {
                steps.push(Step::Filter(weights));
            }
            let cuts = if steps.len() < MOST_STEPS {
                violated_halves(self.model, &simplex, pool)
            } else {
                Vec::new()
            };
            if cuts.is_empty() {
                break self.search_sides(simplex, pool)?;
            }
            for (kinds, bound) in cuts {
                simplex.append(rule_row(Rule::Halves(kinds.clone()), pool, false, bound));
                steps.push(Step::Halves(kinds));
            }
        };
        Some(steps.into_iter().rev().fold(inner, Step::before))
    }

    /// Bans the columns that no list of cost up to the target can bear. False if there are none.
    fn ban(&self, simplex: &mut Simplex, weights: &Weights, shortfalls: &[i64]) -> bool {
        let slack = i128::from(weights.unit) * i128::from(self.target())
            - weights::total(self.model, &simplex.rows, weights);
        simplex.banned.resize(shortfalls.len(), false);
        let mut any = false;
        for (banned, &short) in simplex.banned.iter_mut().zip(shortfalls) {
            if !*banned && slack < i128::from(short) {
                *banned = true;
                any = true;
            }
        }
        any
    }

    fn search_sides(&mut self, simplex: Simplex, pool: &[Pattern]) -> Option<Proof> {
        let split = pair_split(self.model, &simplex, pool)?;
        let [first, second] = split.sides(&simplex, pool);
        drop(simplex);
        let above = self.search_pool(first, pool)?;
        let below = self.search_pool(second, pool)?;
        Some(split.proof(below, above))
    }

    /// Solves one program within the effort left, and counts it.
    fn solve(
        &mut self,
        simplex: &mut Simplex,
        by: impl FnOnce(&Model, &mut Simplex, u64) -> bool,
    ) -> Option<Vec<f64>> {
        if self.ended() {
            return None;
        }
        self.nodes += 1;
        let before = simplex.exchanges;
        let solved = by(self.model, simplex, before + self.effort.exchanges - self.exchanges);
        self.exchanges += simplex.exchanges - before;
        solved.then(|| simplex.worth.clone())
    }

    fn closes(&self, rows: &[Row], weights: &Weights) -> bool {
        self.target() < weights::least_cost(self.model, rows, weights)
    }
}

/// The same rows over other columns, from the start.
fn restart(model: &Model, simplex: &Simplex, columns: &[Pattern]) -> Simplex {
    let mut rows = base_rows(model);
    for row in &simplex.rows {
        if let Count::Rule(rule, _) = &row.count {
            rows.push(rule_row(rule.clone(), columns, row.at_least, row.bound));
        }
    }
    Simplex::new(rows)
}

/// What a node adds to a proof before it closes or splits.
enum Step {
    Filter(Weights),
    Halves(Vec<usize>),
}

impl Step {
    fn before(then: Proof, step: Self) -> Proof {
        let then = Box::new(then);
        match step {
            Self::Filter(weights) => Proof::Filter { weights, then },
            Self::Halves(kinds) => Proof::Halves { kinds, then },
        }
    }
}

impl Split {
    /// The programs of both sides, at least first.
    fn sides(&self, simplex: &Simplex, columns: &[Pattern]) -> [Simplex; 2] {
        [(true, self.at_most + 1), (false, self.at_most)].map(|(at_least, bound)| {
            let mut side = simplex.clone();
            side.append(rule_row(self.rule.clone(), columns, at_least, bound));
            side
        })
    }

    fn proof(self, below: Proof, above: Proof) -> Proof {
        Proof::Split {
            rule: self.rule,
            at_most: self.at_most,
            below: Box::new(below),
            above: Box::new(above),
        }
    }
}
