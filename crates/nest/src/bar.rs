//! Bars: cutting pieces from sticks at least cost, proved least.
//!
//! Lengths are whole grid steps, costs whole units of money (or 1 a stick). A [`Problem`] is checked, [`solve`]
//! finds a cutting list and a [`Proof`] that none costs less, and [`verify()`] passes the list before it is handed
//! out. Kerf and end trim are taken exactly: pieces and the cuts between them fit the trimmed stick.
//! Modules in reading order.

mod problem;
mod solution;

mod solve;

mod greedy;
mod model;

mod counts;
mod cuts;
mod face;
mod generate;
mod knapsack;
mod pool;
mod pool_search;
mod repack;
mod round;
mod rows;
mod simplex;
mod split;
mod tree;
mod weights;
mod whole;

mod proof;
mod verify;

pub use problem::{
    KIND_LIMIT, LENGTH_LIMIT, PIECE_LIMIT, PRICE_LIMIT, Piece, Problem, ProblemFault, Saw, Stick,
};
pub use proof::{Proof, Rule, Weights};
pub use solution::{CutStick, Drop, Solution};
pub use solve::{Effort, SolveError, solve};
pub use verify::{Fault, verify};
