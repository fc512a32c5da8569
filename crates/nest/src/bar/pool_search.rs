//! The exact search over a pool of fillings: rows of halves, filters and splits on pairs.

use super::cuts::violated_halves;
use super::model::Pattern;
use super::pool::pool_of_few;
use super::proof::{Proof, Rule, Weights};
use super::round::round;
use super::rows::rule_row;
use super::simplex::Simplex;
use super::split::pair_split;
use super::tree::{Tree, restart};
use super::weights;

/// Rows of halves and filters added in one node at most.
const MOST_STEPS: usize = 40;
/// Fillings searched when there are too many to search all, one attempt after the other.
const FEW: [usize; 3] = [4_000, 16_000, 64_000];
/// Ways of rounding tried before that.
const LATER_DIVES: std::ops::Range<u64> = 2..8;
/// Programs solved in each attempt.
const FEW_NODES: u64 = 1_500;

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

/// A solved program: its weights, by how much each filling falls short, and whether the weights hold.
struct Solved {
    weights: Weights,
    shortfalls: Vec<i64>,
    hold: bool,
}

impl Tree<'_> {
    /// Searches over the fillings of fewest pieces where all are too many. Nothing is proved, but a list may be found.
    pub(super) fn search_few(&mut self, simplex: &Simplex, weights: &Weights, columns: &mut Vec<Pattern>) {
        self.dive(columns, LATER_DIVES);
        for most in FEW {
            if !self.ended() {
                self.search_up_to(simplex, weights, columns, most);
            }
        }
    }

    fn search_up_to(&mut self, simplex: &Simplex, weights: &Weights, columns: &[Pattern], most: usize) {
        let mut few = pool_of_few(self.model, &simplex.rows, weights, self.target(), most);
        few.extend_from_slice(columns);
        few.sort_unstable();
        few.dedup();
        let all = self.effort.nodes;
        self.effort.nodes = all.min(self.nodes + FEW_NODES);
        self.search_pool(restart(self.model, simplex, &few), &few);
        self.effort.nodes = all;
    }

    /// Searches below a program over a pool of fillings; `None` if something was left open.
    pub(super) fn search_pool(&mut self, mut simplex: Simplex, pool: &[Pattern]) -> Option<Proof> {
        let mut steps = Vec::new();
        let inner = loop {
            let solved = self.solve_pool(&mut simplex, pool)?;
            if solved.hold && self.closes(&simplex.rows, &solved.weights) {
                break Proof::Weights(solved.weights);
            }
            if solved.hold && self.ban(&mut simplex, &solved) {
                steps.push(Step::Filter(solved.weights));
            }
            let more = steps.len() < MOST_STEPS;
            let cuts = if more { violated_halves(self.model, &simplex, pool) } else { Vec::new() };
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

    /// Solves a program and offers its rounding; once more from a fresh inverse if its weights do not hold.
    fn solve_pool(&mut self, simplex: &mut Simplex, pool: &[Pattern]) -> Option<Solved> {
        let mut solved = self.solve_once(simplex, pool)?;
        if !solved.hold {
            simplex.renew(self.model, pool);
            solved = self.solve_once(simplex, pool)?;
        }
        self.offer(round(self.model, simplex, pool));
        Some(solved)
    }

    fn solve_once(&mut self, simplex: &mut Simplex, pool: &[Pattern]) -> Option<Solved> {
        let worth = self.solve(simplex, |model, simplex, limit| simplex.optimise(model, pool, limit))?;
        let weights = weights::from_worth(self.model, &simplex.rows, &worth);
        let shortfalls = weights::shortfalls(self.model, &simplex.rows, &weights, pool);
        let hold =
            shortfalls.iter().enumerate().all(|(column, &short)| 0 <= short || simplex.is_banned(column));
        Some(Solved { weights, shortfalls, hold })
    }

    /// Bans the fillings that no list of cost up to the target can bear. False if there are none.
    fn ban(&self, simplex: &mut Simplex, solved: &Solved) -> bool {
        let slack = i128::from(solved.weights.unit) * i128::from(self.target())
            - weights::total(&simplex.rows, &solved.weights);
        simplex.banned.resize(solved.shortfalls.len(), false);
        let mut any = false;
        for (banned, &short) in simplex.banned.iter_mut().zip(&solved.shortfalls) {
            if !*banned && slack < i128::from(short) {
                *banned = true;
                any = true;
            }
        }
        any
    }

    /// Splits, and searches both sides.
    fn search_sides(&mut self, mut simplex: Simplex, pool: &[Pattern]) -> Option<Proof> {
        let mut split = pair_split(self.model, &simplex, pool);
        if split.is_none() {
            simplex.renew(self.model, pool);
            self.solve_pool(&mut simplex, pool)?;
            split = pair_split(self.model, &simplex, pool);
        }
        let split = split?;
        let [first, second] = split.sides(&simplex, pool);
        drop(simplex);
        let above = self.search_pool(first, pool)?;
        let below = self.search_pool(second, pool)?;
        Some(split.proof(below, above))
    }
}
