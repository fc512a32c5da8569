//! Branch and price: the exact search between the bound of the linear program and the best list found.
//!
//! Splits first on how many sticks of a length are taken, with fillings still found by knapsack. Then the weights
//! rule out all but a pool of fillings, and the search goes on over that pool, split on pairs of pieces that share
//! a stick. Source: Ryan and Foster, "An integer programming approach to scheduling" (1981); Vance and others,
//! "Solving binary cutting stock problems by column generation and branch-and-bound" (1994).

use super::face::mean_weights;
use super::generate::generate;
use super::model::{Model, Pattern};
use super::pool::pool;
use super::proof::{Proof, Weights};
use super::round::{dive, round};
use super::rows::{Count, Row, base_rows, rule_row};
use super::simplex::Simplex;
use super::solve::Effort;
use super::split::{Split, stick_split};
use super::weights;

/// Corners of the face of best weights whose mean rules out fillings.
const CORNERS: u64 = 16;

/// The state of one exact search.
pub(super) struct Tree<'a> {
    pub(super) model: &'a Model,
    pub(super) effort: Effort,
    /// The best list so far.
    pub(super) best: Option<Vec<Pattern>>,
    /// Exchanges made so far.
    pub(super) exchanges: u64,
    pub(super) nodes: u64,
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

    /// Takes a higher bound.
    pub(super) const fn raise(&mut self, floor: i64) {
        self.floor = floor;
    }

    /// The highest cost that would be an improvement; 0, for a search without prices, while there is no list.
    pub(super) fn target(&self) -> i64 {
        self.best.as_ref().map_or(0, |best| self.model.cost(best) - self.model.cost_step)
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

    /// Rounds programs stick by stick in several ways.
    pub(super) fn dive(&mut self, columns: &mut Vec<Pattern>, ways: std::ops::Range<u64>) {
        for way in ways {
            if !self.ended() {
                let left = self.effort.exchanges - self.exchanges;
                let (list, exchanges) = dive(self.model, columns, self.floor, left, way);
                self.exchanges += exchanges;
                self.offer(list);
            }
        }
    }

    /// Solves one program within the effort left, and counts it.
    pub(super) fn solve(
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

    pub(super) fn closes(&self, rows: &[Row], weights: &Weights) -> bool {
        self.target() < weights::least_cost(self.model, rows, weights)
    }
}

/// The same rows over other columns, from the start.
pub(super) fn restart(model: &Model, simplex: &Simplex, columns: &[Pattern]) -> Simplex {
    let mut rows = base_rows(model);
    for row in &simplex.rows {
        if let Count::Rule(rule, _) = &row.count {
            rows.push(rule_row(rule.clone(), columns, row.at_least, row.bound));
        }
    }
    Simplex::new(rows)
}

impl Split {
    /// The programs of both sides, at least first.
    pub(super) fn sides(&self, simplex: &Simplex, columns: &[Pattern]) -> [Simplex; 2] {
        [(true, self.at_most + 1), (false, self.at_most)].map(|(at_least, bound)| {
            let mut side = simplex.clone();
            side.append(rule_row(self.rule.clone(), columns, at_least, bound));
            side
        })
    }

    pub(super) fn proof(self, below: Proof, above: Proof) -> Proof {
        Proof::Split {
            rule: self.rule,
            at_most: self.at_most,
            below: Box::new(below),
            above: Box::new(above),
        }
    }
}
