//! From a problem to a verified cutting list with its proof.

use thiserror::Error;

use super::counts::of_cheaper_counts;
use super::generate::generate;
use super::greedy::quick_list;
use super::model::{Model, Pattern};
use super::problem::Problem;
use super::proof::Proof;
use super::repack::repack;
use super::round::round;
use super::rows::base_rows;
use super::simplex::Simplex;
use super::solution::{CutStick, Drop, Solution, rest};
use super::tree::Tree;
use super::verify::{Fault, verify};
use super::weights;
use super::whole;

/// How much to spend, counted so that the answer does not depend on the machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Exchanges of the linear programs.
    pub exchanges: u64,
    /// Programs of the exact search.
    pub nodes: u64,
    /// Different fillings the exact search may hold.
    pub fillings: usize,
    /// Times that a few sticks are cut anew before the exact search, and once more each time it ends with less than a proof.
    pub repacks: u32,
    /// What chance begins with.
    pub seed: u64,
}

/// Ways of rounding and cutting anew tried after a search without a proof.
const LAST_WAYS: std::ops::Range<u64> = 8..12;

impl Effort {
    /// So many times the effort.
    #[must_use]
    pub const fn times(self, times: u32) -> Self {
        Self {
            exchanges: self.exchanges.saturating_mul(times as u64),
            nodes: self.nodes.saturating_mul(times as u64),
            fillings: self.fillings.saturating_mul(times as usize),
            repacks: self.repacks.saturating_mul(times),
            seed: self.seed,
        }
    }
}

/// Programs rounded stick by stick before anything else is tried.
const FIRST_DIVES: u64 = 2;

impl Default for Effort {
    fn default() -> Self {
        Self { exchanges: 1_000_000, nodes: 20_000, fillings: 100_000, repacks: 10_000, seed: 1 }
    }
}

/// Why there is no cutting list.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum SolveError {
    /// The sticks there are cannot carry all pieces: proved, or not found within the effort.
    #[error("the sticks there are do not carry all pieces{}", if *.proved { "" } else { ", as far as was tried" })]
    NotEnough {
        /// Whether it is proved that no list exists.
        proved: bool,
    },
    /// The list found failed its check; nothing is returned. Please report it.
    #[error("the cutting list failed its check: {faults:?}")]
    Unsound {
        /// What the check found.
        faults: Vec<Fault>,
    },
}

/// Finds a cutting list of least cost, and proves it least if the effort allows.
///
/// The same problem and effort give the same list on every machine.
///
/// # Errors
/// [`SolveError`] if the limits leave too few sticks, or if the list found fails [`verify`].
pub fn solve(problem: &Problem, effort: &Effort) -> Result<Solution, SolveError> {
    let model = Model::new(problem);
    let limits: Vec<Option<i64>> = model.stocks.iter().map(|stock| stock.limit).collect();
    let quick = match quick_list(&model, &model.demand(), &limits) {
        Some(quick) => quick,
        None => any_list(&model, effort)?,
    };
    let outcome = least(&model, effort, Some(quick));
    let best = outcome.best.ok_or(SolveError::NotEnough { proved: false })?;
    let cost = model.cost(&best);
    let (lower_bound, proof) = match outcome.proof {
        Some(proof) if outcome.floor < cost => (cost, proof),
        _ => (outcome.floor, outcome.root),
    };
    let mut solution = written(problem, &model, best);
    solution.lower_bound = lower_bound;
    solution.proved = lower_bound == cost;
    solution.proof = proof;
    solution.evaluations = outcome.exchanges;
    verify(problem, &solution.sticks).map_err(|faults| SolveError::Unsound { faults })?;
    Ok(solution)
}

/// Any list that keeps to the limits, when filling stick after stick has run out of them.
fn any_list(model: &Model, effort: &Effort) -> Result<Vec<Pattern>, SolveError> {
    let outcome = least(&model.without_prices(), effort, None);
    outcome.best.ok_or(SolveError::NotEnough { proved: outcome.proof.is_some() || 0 < outcome.floor })
}

/// The best list found, the bound of the first program, and the proof of the whole search.
struct Outcome {
    best: Option<Vec<Pattern>>,
    floor: i64,
    root: Proof,
    proof: Option<Proof>,
    exchanges: u64,
}

/// Searches from a first list, in order of effort: rounding, diving, cutting a few sticks anew, the exact search.
fn least(model: &Model, effort: &Effort, first: Option<Vec<Pattern>>) -> Outcome {
    let mut columns = first.clone().unwrap_or_default();
    columns.sort_unstable();
    columns.dedup();
    let mut simplex = Simplex::new(base_rows(model));
    let solved = generate(model, &mut simplex, &mut columns, effort.exchanges);
    let (mut floor, mut root) = bound(model, &simplex);
    let mut tree = Tree::new(model, *effort, first, floor);
    tree.exchanges = simplex.exchanges;
    let mut proof = None;
    if solved {
        tree.offer(round(model, &simplex, &columns));
        tree.dive(&mut columns, 0..FIRST_DIVES);
        if let Some(list) = tree.best.clone().filter(|_| !tree.ended()) {
            tree.offer(Some(repack(model, list, floor, effort.repacks, (effort.seed, 0))));
        }
        if let Some((raised, proof)) = raised(model, &simplex, &root, (floor, tree.best.as_ref())) {
            (floor, root) = (raised, proof);
            tree.raise(floor);
        }
        if let Some(list) = tree.best.clone().filter(|_| 1 < model.stocks.len() && !tree.ended()) {
            tree.offer(Some(of_cheaper_counts(model, list, floor, effort.repacks, effort.seed)));
        }
        proof = tree.search(simplex, &mut columns);
        if proof.is_none() {
            last_ways(&mut tree, &mut columns, floor);
        }
    }
    Outcome { exchanges: tree.exchanges, best: tree.best, floor, root, proof }
}

/// The bound raised by whole sticks of several lengths, where the best list costs more.
fn raised(
    model: &Model,
    simplex: &Simplex,
    root: &Proof,
    (floor, best): (i64, Option<&Vec<Pattern>>),
) -> Option<(i64, Proof)> {
    let Proof::Weights(weights) = root else { return None };
    let cost = model.cost(best?);
    (1 < model.stocks.len()).then(|| whole::raised(model, (floor, cost), (&simplex.rows, weights)))?
}

/// Rounds and cuts anew in further ways, from the best list each time, where the search has left a gap.
fn last_ways(tree: &mut Tree<'_>, columns: &mut Vec<Pattern>, floor: i64) {
    for way in LAST_WAYS {
        let Some(list) = tree.best.clone().filter(|list| floor < tree.model.cost(list)) else { return };
        let (seed, repacks) = (tree.effort.seed, tree.effort.repacks);
        tree.offer(Some(repack(tree.model, list, floor, repacks, (seed, way))));
        tree.dive(columns, way..way + 1);
    }
}

/// The least cost the weights of a program prove, if they hold.
fn bound(model: &Model, simplex: &Simplex) -> (i64, Proof) {
    let weights = weights::from_worth(model, &simplex.rows, &simplex.worth);
    if weights::hold_everywhere(model, &simplex.rows, &weights) {
        let floor = weights::least_cost(model, &simplex.rows, &weights);
        (floor, Proof::Weights(weights))
    } else {
        (0, Proof::None)
    }
}

/// The patterns as sticks of the problem, in stock order and fullest first.
fn written(problem: &Problem, model: &Model, patterns: Vec<Pattern>) -> Solution {
    let cost = model.cost(&patterns);
    let mut stores: Vec<Vec<(usize, usize)>> = model.kinds.iter().map(|kind| kind.pieces.clone()).collect();
    let mut patterns = patterns;
    patterns.sort_unstable();
    let mut sticks: Vec<CutStick> = patterns
        .iter()
        .map(|pattern| {
            let takes = pattern.takes.iter();
            let pieces: Vec<usize> =
                takes.flat_map(|&(kind, taken)| hand_out(&mut stores[kind], taken)).collect();
            CutStick { stick: pattern.stick, rest: rest(problem, pattern.stick, &pieces), pieces }
        })
        .collect();
    sticks.sort_by(|a, b| (a.stick, a.rest, &a.pieces).cmp(&(b.stick, b.rest, &b.pieces)));
    let least = problem.saw().least_drop;
    let worth_keeping = |(from, stick): (usize, &CutStick)| {
        (0 < stick.rest && least <= stick.rest).then_some(Drop { from, length: stick.rest })
    };
    let drops = sticks.iter().enumerate().filter_map(worth_keeping).collect();
    let count = sticks.len();
    Solution { sticks, count, cost, lower_bound: 0, proved: false, proof: Proof::None, drops, evaluations: 0 }
}

/// So many pieces from a store of pieces of one length.
fn hand_out(store: &mut [(usize, usize)], taken: i64) -> Vec<usize> {
    let mut out = Vec::new();
    for _ in 0..taken {
        if let Some(entry) = store.iter_mut().find(|entry| 0 < entry.1) {
            entry.1 -= 1;
            out.push(entry.0);
        }
    }
    out
}
