//! Kerf, trim, limits, rack pieces, drops and faults of bars, each both ways.

#![allow(clippy::unwrap_used, reason = "a problem without a list must stop the test")]

use crate::bar_checks::problem;
use nest::bar::{
    CutStick, Effort, Fault, Piece, Problem, ProblemFault, Saw, Solution, SolveError, Stick, solve, verify,
};

const NO_SAW: Saw = Saw { kerf: 0, end_trim: 0, least_drop: 0 };

fn solved(pieces: &[(i64, usize)], sticks: &[(i64, i64, Option<usize>)], saw: Saw) -> Solution {
    solve(&problem(pieces, sticks, saw), &Effort::default()).unwrap()
}

#[test]
fn the_last_cut_may_fall_on_the_end_of_the_stick() {
    // Three pieces of 100 need two cuts of 3 between them: 306, whether or not a third cut would fit.
    let saw = Saw { kerf: 3, ..NO_SAW };
    for (length, count) in [(305, 2), (306, 1), (307, 1), (309, 1), (310, 1)] {
        assert_eq!(solved(&[(100, 3)], &[(length, 1, None)], saw).count, count, "stick {length}");
    }
}

#[test]
fn both_ends_are_trimmed() {
    let saw = Saw { kerf: 3, end_trim: 10, ..NO_SAW };
    for (length, count) in [(325, 2), (326, 1)] {
        assert_eq!(solved(&[(100, 3)], &[(length, 1, None)], saw).count, count, "stick {length}");
    }
}

#[test]
fn a_rest_is_measured_after_the_last_cut_and_keeps_its_untrimmed_end() {
    // From the start: trim 10, piece 100, cut 3, piece 100, cut 3. Left of 400: 184.
    let saw = Saw { kerf: 3, end_trim: 10, least_drop: 184 };
    let solution = solved(&[(100, 2)], &[(400, 1, None)], saw);
    assert_eq!(solution.sticks[0].rest, 184);
    assert_eq!(solution.drops.len(), 1);
    assert_eq!((solution.drops[0].from, solution.drops[0].length), (0, 184));
    let shorter = solved(&[(100, 2)], &[(400, 1, None)], Saw { least_drop: 185, ..saw });
    assert!(shorter.drops.is_empty());
}

#[test]
fn a_last_cut_that_runs_off_the_end_leaves_nothing() {
    let solution = solved(&[(100, 2)], &[(204, 1, None)], Saw { kerf: 3, ..NO_SAW });
    assert_eq!(solution.sticks[0].rest, 0);
    assert!(solution.drops.is_empty());
}

#[test]
fn the_rack_is_used_before_anything_is_bought_when_it_costs_nothing() {
    let sticks = [(600, 50, None), (250, 0, Some(2))];
    let solution = solved(&[(120, 4)], &sticks, NO_SAW);
    assert_eq!((solution.cost, solution.count, solution.proved), (0, 2, true));
    let more = solved(&[(120, 5)], &sticks, NO_SAW);
    assert_eq!((more.cost, more.proved), (50, true));
}

#[test]
fn money_decides_between_lengths() {
    // Two of 90 fit 180; 6 pieces: three at 10 each, or one of 540 at 29.
    let pieces = [(90, 6)];
    assert_eq!(solved(&pieces, &[(180, 10, None), (540, 29, None)], NO_SAW).cost, 29);
    assert_eq!(solved(&pieces, &[(180, 10, None), (540, 31, None)], NO_SAW).cost, 30);
}

#[test]
fn too_few_sticks_is_said_with_proof() {
    let short = problem(&[(100, 5)], &[(250, 1, Some(2))], NO_SAW);
    assert_eq!(solve(&short, &Effort::default()), Err(SolveError::NotEnough { proved: true }));
    assert_eq!(solved(&[(100, 4)], &[(250, 1, Some(2))], NO_SAW).count, 2);
}

#[test]
fn limits_that_quick_filling_overruns_are_still_met() {
    // Longest first puts 6 + 4 + ... on the sticks and runs out; 6+2+2, 5+5, 4+3+3 fill three sticks of 10.
    let solution = solved(&[(6, 1), (5, 2), (4, 1), (3, 2), (2, 2)], &[(10, 1, Some(3))], NO_SAW);
    assert_eq!((solution.count, solution.proved), (3, true));
}

#[test]
fn the_same_job_gives_the_same_list() {
    let pieces: Vec<(i64, usize)> =
        (0..30).map(|n| (1_000 + 137 * n % 2_900, 1 + usize::from(n % 3 == 0))).collect();
    let sticks = [(6_000, 40, None), (4_000, 30, Some(7)), (2_500, 0, Some(2))];
    let saw = Saw { kerf: 3, end_trim: 5, least_drop: 400 };
    assert_eq!(solved(&pieces, &sticks, saw), solved(&pieces, &sticks, saw));
}

#[test]
fn no_effort_still_gives_a_valid_list() {
    let none = Effort { exchanges: 0, nodes: 0, fillings: 0, repacks: 0, seed: 1 };
    let problem = problem(&[(36, 20), (27, 30), (21, 10)], &[(100, 1, None)], NO_SAW);
    let solution = solve(&problem, &none).unwrap();
    assert_eq!(verify(&problem, &solution.sticks), Ok(()));
    assert!(!solution.proved && solution.lower_bound <= solution.cost);
}

#[test]
fn micrometre_lengths_of_a_real_job_are_proved() {
    let mm = |length: i64| length * 1_000;
    let pieces: Vec<(i64, usize)> = [
        (1840, 6),
        (1225, 9),
        (960, 14),
        (742, 8),
        (618, 22),
        (455, 17),
        (380, 12),
        (291, 31),
        (206, 24),
        (149, 40),
    ]
    .map(|(length, quantity)| (mm(length), quantity))
    .to_vec();
    let saw = Saw { kerf: 2_400, end_trim: mm(10), least_drop: mm(300) };
    let solution = solved(&pieces, &[(mm(6_000), 1, None)], saw);
    assert!(solution.proved);
}

#[test]
fn damage_of_a_list_is_found() {
    let problem = problem(&[(100, 3), (60, 2)], &[(306, 1, Some(2))], Saw { kerf: 3, ..NO_SAW });
    let solution = solve(&problem, &Effort::default()).unwrap();
    let faults = |change: fn(&mut Vec<CutStick>)| {
        let mut sticks = solution.sticks.clone();
        change(&mut sticks);
        verify(&problem, &sticks).unwrap_err()
    };
    assert!(
        faults(|sticks| {
            sticks[0].pieces.pop();
        })
        .iter()
        .any(|f| matches!(f, Fault::Count { .. }))
    );
    assert!(
        faults(|sticks| {
            sticks[0].rest += 1;
        })
        .iter()
        .any(|f| matches!(f, Fault::Rest { .. }))
    );
    assert!(
        faults(|sticks| {
            sticks[0].pieces[0] = 9;
        })
        .iter()
        .any(|f| matches!(f, Fault::Unknown { .. }))
    );
    assert!(faults(|sticks| sticks[0].pieces.clear()).iter().any(|f| matches!(f, Fault::Empty { .. })));
    assert!(faults(|sticks| sticks.extend(sticks.clone())).iter().any(|f| matches!(f, Fault::Limit { .. })));
    let together = |sticks: &mut Vec<CutStick>| {
        let more = sticks[1].pieces.clone();
        sticks[0].pieces.extend(more);
    };
    assert!(faults(together).iter().any(|f| matches!(f, Fault::TooFull { .. })));
}

#[test]
fn every_fault_of_a_problem_is_told() {
    let piece = |length, quantity| Piece { mark: "a".into(), length, quantity };
    let stick = |length, price, limit| Stick { name: "s".into(), length, price, limit };
    let faults = |pieces, sticks, saw| Problem::new(pieces, sticks, saw).unwrap_err();
    let found =
        faults(vec![piece(0, 0)], vec![stick(0, -1, None), stick(9, 0, None)], Saw { kerf: -1, ..NO_SAW });
    assert_eq!(found.len(), 6, "{found:?}");
    assert_eq!(faults(vec![], vec![], NO_SAW), [ProblemFault::NoPieces, ProblemFault::NoSticks]);
    let trimmed = Saw { end_trim: 5, ..NO_SAW };
    let long = faults(vec![piece(91, 1)], vec![stick(100, 1, None)], trimmed);
    assert_eq!(long, [ProblemFault::TooLong { mark: "a".into(), length: 91, longest: 90 }]);
    assert!(Problem::new(vec![piece(90, 1)], vec![stick(100, 1, None)], trimmed).is_ok());
    let many = faults(vec![piece(5, 1_000_000_000)], vec![stick(10, 1, None)], NO_SAW);
    assert_eq!(many, [ProblemFault::Quantity { mark: "a".into(), quantity: 1_000_000_000 }]);
}
