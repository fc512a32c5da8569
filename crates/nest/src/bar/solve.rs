//! From a problem to a verified cutting list with its proof.

use thiserror::Error;

use super::generate::generate;
use super::greedy::quick_list;
use super::model::{Model, Pattern};
use super::problem::Problem;
use super::proof::Proof;
use super::repack::repack;
use super::round::{dive, round};
use super::rows::base_rows;
use super::simplex::Simplex;
use super::solution::{CutStick, Drop, Solution, rest};
use super::tree::Tree;
use super::verify::{Fault, verify};
use super::weights;

/// How much to spend, counted so that the answer does not depend on the machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Exchanges of the linear programs.
    pub exchanges: u64,
    /// Programs of the exact search.
    pub nodes: u64,
    /// Different fillings the exact search may hold.
    pub fillings: usize,
    /// Times that a few sticks are cut anew before the exact search.
    pub repacks: u32,
}

impl Default for Effort {
    fn default() -> Self {
        Self { exchanges: 400_000, nodes: 20_000, fillings: 100_000, repacks: 20_000 }
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
    let quick = quick_list(&model, &model.demand(), &limits);
    let mut columns = quick.clone().unwrap_or_default();
    columns.sort_unstable();
    columns.dedup();
    let mut simplex = Simplex::new(base_rows(&model));
    let solved = generate(&model, &mut simplex, &mut columns, effort.exchanges);
    let (floor, root) = bound(&model, &simplex);
    let mut tree = Tree::new(&model, *effort, quick, floor);
    tree.exchanges = simplex.exchanges;
    let mut proof = None;
    if solved {
        tree.offer(round(&model, &simplex, &columns));
        if !tree.ended() {
            let (list, exchanges) = dive(&model, &mut columns, floor, effort.exchanges - tree.exchanges);
            tree.exchanges += exchanges;
            tree.offer(list);
        }
        if let Some(list) = tree.best.clone().filter(|_| !tree.ended()) {
            tree.offer(Some(repack(&model, list, floor, effort.repacks)));
        }
        proof = tree.search(simplex, &mut columns);
    }
    let exchanges = tree.exchanges;
    let Some(best) = tree.best else {
        return Err(SolveError::NotEnough { proved: proof.is_some() });
    };
    let cost = model.cost(&best);
    let (lower_bound, proof) = match proof {
        Some(proof) if floor < cost => (cost, proof),
        _ => (floor, root),
    };
    let mut solution = written(problem, &model, best);
    solution.lower_bound = lower_bound;
    solution.proved = lower_bound == cost;
    solution.proof = proof;
    solution.evaluations = exchanges;
    verify(problem, &solution.sticks).map_err(|faults| SolveError::Unsound { faults })?;
    Ok(solution)
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
