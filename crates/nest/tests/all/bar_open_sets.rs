//! Open one-dimensional sets: counts against the best known, every proof checked independently.

#![allow(clippy::unwrap_used, reason = "a bad fixture must stop the test")]

use crate::bar_checks::{instances, problem, proof::check};
use nest::bar::{Effort, Proof, Saw, solve};

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

/// Lengths in sixteenths of an inch, and how many.
const PIPES: &str = "579*9 390*8 1261*2 1226*8 616*4 497*8 1112*9 998*3 568*3 1688*9 846*1 1342*2 441*1 690*1 1609*5 \
    992*7 1417*7 855*8 1857*3 1707*2 223*8 542*7 1531*5 901*7 1170*9 1190*4 1751*1 1667*3 1390*6 1858*2 \
    1416*4 1274*5 662*2 1008*8 316*2 882*3 195*7 1513*2 238*1 825*6 1129*5 1050*1 705*2 350*9 215*4 \
    1870*5 1234*3 1374*6 712*3 1738*7 823*9 840*9 341*9 637*4 1808*7 1881*9 693*6 180*7 1898*6 195*3";

/// 60 lengths of a made-up job, 306 pieces; pipe of 240, 252 and, seven of them, 144 in at 90, 97 and 52. The
/// linear program proves 7190; of the numbers of whole sticks that cost from there to 7196 none is long enough in all, which the program that
/// checks proofs goes over, and below so does this test.
#[test]
fn whole_sticks_of_several_prices_close_the_gap() {
    let pieces: Vec<(i64, usize)> = PIPES
        .split_whitespace()
        .map(|piece| piece.split_once('*').unwrap())
        .map(|(length, count)| (length.parse().unwrap(), count.parse().unwrap()))
        .collect();
    let saw = Saw { kerf: 2, end_trim: 8, least_drop: 0 };
    let sticks = [(240 * 16, 90, None), (252 * 16, 97, None), (144 * 16, 52, Some(7))];
    let problem = problem(&pieces, &sticks, saw);
    let solution = solve(&problem, &Effort::default()).unwrap();
    let needed: i64 =
        pieces.iter().map(|&(length, count)| (length + 2) * i64::try_from(count).unwrap()).sum();
    let is_enough = |a: i64, b: i64, c: i64| needed <= (3840 - 14) * a + (4032 - 14) * b + (2304 - 14) * c;
    let all = (0..=80).flat_map(|a| (0..=75).flat_map(move |b| (0..=7).map(move |c| (a, b, c))));
    let least = all.filter(|&(a, b, c)| is_enough(a, b, c)).map(|(a, b, c)| 90 * a + 97 * b + 52 * c).min();
    assert_eq!((least, solution.cost, solution.proved), (Some(7197), 7197, true));
    assert_eq!(check(&problem, &solution.proof, 7197), Ok(()));
    assert!(check(&problem, &solution.proof, 7198).is_err(), "proves too much");
}
