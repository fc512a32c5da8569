//! Open one-dimensional sets: counts against the best known, every proof checked independently.

#![allow(clippy::unwrap_used, reason = "a bad fixture must stop the test")]

use crate::bar_checks::{instances, proof::check};
use nest::bar::{Effort, Proof, solve};

const OPEN_SETS: &str = include_str!("../../../../fixtures/packing/bars.json");

fn prove_all(names: &[&str]) -> Vec<Proof> {
    let mut proofs = Vec::new();
    let asked = instances(OPEN_SETS).into_iter().filter(|(name, ..)| names.contains(&name.as_str()));
    for (name, problem, best_known) in asked {
        let solution = solve(&problem, &Effort::default()).unwrap();
        assert!(solution.proved, "{name}: {} sticks, bound {}", solution.count, solution.lower_bound);
        assert!(best_known.is_none_or(|best| best == solution.cost), "{name}: {} sticks", solution.count);
        assert_eq!(check(&problem, &solution.proof, solution.lower_bound), Ok(()), "{name}");
        // A filter for one stick more would leave too many fillings to list; plain weights are tried.
        if matches!(solution.proof, Proof::Weights(_)) {
            let more = check(&problem, &solution.proof, solution.lower_bound + 1);
            assert!(more.is_err(), "{name}: proves too much");
        }
        proofs.push(solution.proof);
    }
    assert_eq!(proofs.len(), names.len());
    proofs
}

#[test]
fn uniform_lengths_are_proved() {
    prove_all(&["u250_00", "u250_01", "u1000_02"]);
}

#[test]
fn triplets_without_any_waste_are_proved() {
    prove_all(&["t60_00", "t120_00"]);
}

#[test]
fn a_count_above_the_rounded_linear_bound_is_proved_by_search() {
    let proofs = prove_all(&["hard28-BPP175"]);
    assert!(proofs.iter().all(|proof| matches!(proof, Proof::Filter { .. })));
}

#[test]
fn a_spoilt_proof_is_refused() {
    let triplets = instances(OPEN_SETS).into_iter().find(|(name, ..)| name == "t60_00");
    let (_, problem, _) = triplets.unwrap();
    let solution = solve(&problem, &Effort::default()).unwrap();
    let Proof::Weights(weights) = solution.proof else { panic!("the linear bound is enough for triplets") };
    let mut heavier = weights.clone();
    heavier.kinds.iter_mut().for_each(|weight| *weight += *weight / 50);
    assert!(check(&problem, &Proof::Weights(heavier), solution.lower_bound).is_err());
    let mut lighter = weights;
    lighter.kinds.iter_mut().for_each(|weight| *weight -= *weight / 10);
    assert!(check(&problem, &Proof::Weights(lighter), solution.lower_bound).is_err());
}
