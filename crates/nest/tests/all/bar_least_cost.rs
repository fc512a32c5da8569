//! Small cutting problems against the least cost by trying everything, with every proof checked.

use crate::bar_checks::{least_cost, problem, proof::check};
use nest::bar::{Effort, Saw, SolveError, solve, verify};
use proptest::prelude::*;

fn saws() -> impl Strategy<Value = Saw> {
    (0_i64..4, 0_i64..4).prop_map(|(kerf, end_trim)| Saw { kerf, end_trim, least_drop: 0 })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn one_stick_length_is_cut_at_least_cost(
        pieces in prop::collection::vec((5_i64..40, 1_usize..4), 1..5),
        room in 40_i64..80,
        saw in saws(),
    ) {
        let problem = problem(&pieces, &[(room + 2 * saw.end_trim, 1, None)], saw);
        let solution = solve(&problem, &Effort::default()).unwrap();
        prop_assert_eq!(Some(solution.cost), least_cost(&problem));
        prop_assert!(solution.proved);
        prop_assert_eq!(solution.lower_bound, solution.cost);
        prop_assert_eq!(check(&problem, &solution.proof, solution.lower_bound), Ok(()));
        prop_assert!(verify(&problem, &solution.sticks).is_ok());
    }

    #[test]
    fn several_stick_lengths_with_prices_and_limits_are_cut_at_least_cost(
        pieces in prop::collection::vec((5_i64..30, 1_usize..3), 1..5),
        sticks in prop::collection::vec((30_i64..80, 1_i64..60, prop::option::of(0_usize..4)), 1..4),
        rack in prop::option::of((20_i64..50, 1_usize..3)),
        saw in saws(),
    ) {
        let mut sticks = sticks;
        sticks.push((40 + 2 * saw.end_trim, 45, Some(1)));
        sticks.extend(rack.map(|(length, limit)| (length, 0, Some(limit))));
        let problem = problem(&pieces, &sticks, saw);
        match (solve(&problem, &Effort::default()), least_cost(&problem)) {
            (Ok(solution), Some(least)) => {
                prop_assert_eq!(solution.cost, least);
                prop_assert!(solution.proved, "{:?}", solution);
                prop_assert_eq!(check(&problem, &solution.proof, solution.lower_bound), Ok(()));
            }
            (Err(SolveError::NotEnough { proved }), None) => prop_assert!(proved),
            (found, least) => prop_assert!(false, "found {:?}, least {:?}", found, least),
        }
    }
}
