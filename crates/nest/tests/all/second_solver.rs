//! Small sets against an independent exact solver: `microlp`, a mixed integer program solver from crates.io, used by
//! this test alone. It gets the plain textbook programs and knows nothing of this crate.

#![allow(clippy::unwrap_used, reason = "a program without a solution must stop the test")]

use std::sync::atomic::AtomicBool;

use microlp::{ComparisonOp, LinearExpr, OptimizationDirection, Variable};
use nest::bar::{Saw, solve};
use nest::rect::{Cutting, Piece, Problem, Watch, bound, pack};
use proptest::prelude::*;

use crate::bar_checks;

/// Sum of variables with their factors.
fn sum(terms: impl IntoIterator<Item = (Variable, f64)>) -> LinearExpr {
    let mut expression = LinearExpr::empty();
    terms.into_iter().for_each(|(variable, factor)| expression.add(variable, factor));
    expression
}

/// The least value of a program whose answer is a small whole number.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small count")]
fn objective(program: &microlp::Problem) -> usize {
    program.solve().unwrap().into_solution().unwrap().objective().round() as usize
}

/// Fewest sticks: every piece on one stick, every stick used within its length.
fn fewest_sticks(pieces: &[i64], length: i64) -> usize {
    let mut program = microlp::Problem::new(OptimizationDirection::Minimize);
    let used: Vec<Variable> = pieces.iter().map(|_| program.add_binary_var(1.0)).collect();
    let on: Vec<Vec<Variable>> =
        pieces.iter().map(|_| used.iter().map(|_| program.add_binary_var(0.0)).collect()).collect();
    for row in &on {
        program.add_constraint(sum(row.iter().map(|&v| (v, 1.0))), ComparisonOp::Eq, 1.0);
    }
    for (stick, &used) in used.iter().enumerate() {
        let load = on.iter().zip(pieces).map(|(row, &piece)| (row[stick], piece as f64));
        program.add_constraint(sum(load.chain([(used, -(length as f64))])), ComparisonOp::Le, 0.0);
    }
    objective(&program)
}

/// Fewest sheets: every piece at one place of one sheet, every square of a sheet covered once at most.
fn fewest_sheets(pieces: &[(i64, i64)], side: i64) -> usize {
    let mut program = microlp::Problem::new(OptimizationDirection::Minimize);
    let used: Vec<Variable> = pieces.iter().map(|_| program.add_binary_var(1.0)).collect();
    let mut covering = vec![vec![Vec::new(); usize::try_from(side * side).unwrap()]; used.len()];
    for &(length, width) in pieces {
        let mut places = Vec::new();
        for squares in &mut covering {
            for (x, y) in (0..=side - length).flat_map(|x| (0..=side - width).map(move |y| (x, y))) {
                let here = program.add_binary_var(0.0);
                places.push((here, 1.0));
                for (i, j) in (x..x + length).flat_map(|i| (y..y + width).map(move |j| (i, j))) {
                    squares[usize::try_from(i * side + j).unwrap()].push((here, 1.0));
                }
            }
        }
        program.add_constraint(sum(places), ComparisonOp::Eq, 1.0);
    }
    for (squares, &used) in covering.iter().zip(&used) {
        for square in squares {
            let cover = square.iter().copied().chain([(used, -1.0)]);
            program.add_constraint(sum(cover), ComparisonOp::Le, 0.0);
        }
    }
    objective(&program)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 16, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn bars_need_as_many_sticks_as_the_other_solver_says(pieces in prop::collection::vec(20_i64..90, 2..8)) {
        let list: Vec<(i64, usize)> = pieces.iter().map(|&length| (length, 1)).collect();
        let saw = Saw { kerf: 0, end_trim: 0, least_drop: 0 };
        let problem = bar_checks::problem(&list, &[(100, 1, None)], saw);
        let ours = solve(&problem, &nest::bar::Effort::default()).unwrap();
        prop_assert!(ours.proved);
        prop_assert_eq!(ours.count, fewest_sticks(&pieces, 100));
    }

    #[test]
    fn rectangles_need_as_many_sheets_as_the_other_solver_says(
        sizes in prop::collection::vec((1_i64..=4, 1_i64..=4), 2..5),
    ) {
        let piece = |&(length, width): &(i64, i64)|
            Piece { mark: "part".into(), length, width, quantity: 1, may_turn: false };
        let problem = Problem::new(sizes.iter().map(piece).collect(), (4, 4), 0, Cutting::Free).unwrap();
        let stop = AtomicBool::new(false);
        let effort = nest::Effort { evaluations: 2_000, starts: 1, seed: 1 };
        let ours = pack(&problem, &effort, Watch { stop: &stop }).unwrap();
        let fewest = fewest_sheets(&sizes, 4);
        prop_assert!(bound(&problem).sheets as usize <= fewest);
        prop_assert_eq!(ours.sheets.len(), fewest);
    }
}
