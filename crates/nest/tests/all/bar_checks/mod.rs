//! Helpers of the bar tests that share nothing with the search: a proof checker, a least cost by trying everything,
//! and a reader of the open sets.

#![allow(dead_code, reason = "each test file uses some of these")]
#![allow(missing_docs, unreachable_pub, reason = "helpers of tests")]
#![allow(clippy::unwrap_used, clippy::cast_possible_truncation, reason = "a bad fixture must stop the test")]

use std::collections::BTreeMap;

use nest::bar::{Piece, Problem, Saw, Stick};
use serde_json::Value;

pub mod proof;

/// A problem from `(length, quantity)` pieces and `(length, price, limit)` sticks.
pub fn problem(pieces: &[(i64, usize)], sticks: &[(i64, i64, Option<usize>)], saw: Saw) -> Problem {
    let pieces =
        pieces.iter().map(|&(length, quantity)| Piece { mark: format!("p{length}"), length, quantity });
    let sticks = sticks.iter().map(|&(length, price, limit)| Stick {
        name: format!("s{length}"),
        length,
        price,
        limit,
    });
    Problem::new(pieces.collect(), sticks.collect(), saw).unwrap()
}

/// The instances of a file of open sets, lengths in thousandths.
pub fn instances(text: &str) -> Vec<(String, Problem, Option<i64>)> {
    let steps = |value: &Value| (value.as_f64().unwrap() * 1000.0).round() as i64;
    let instances: Vec<Value> = serde_json::from_str(text).unwrap();
    let read = |instance: &Value| {
        let lengths = instance["pieces"].as_array().unwrap();
        let pieces: Vec<(i64, usize)> = lengths.iter().map(|length| (steps(length), 1)).collect();
        let sticks = [(steps(&instance["stock"]), 1, None)];
        let name = instance["name"].as_str().unwrap().to_owned();
        (name, problem(&pieces, &sticks, Saw::default()), instance["best_known"].as_i64())
    };
    instances.iter().map(read).collect()
}

/// The least cost by trying every filling of every stick for whatever is left; `None` if the limits forbid it.
///
/// The fit is judged by walking the saw along the stick, not by adding a kerf to everything.
pub fn least_cost(problem: &Problem) -> Option<i64> {
    let left: Vec<usize> = problem.pieces().iter().map(|piece| piece.quantity).collect();
    let limits: Vec<usize> = problem.sticks().iter().map(|stick| stick.limit.unwrap_or(usize::MAX)).collect();
    Exhaustive { problem, known: BTreeMap::new() }.cost(left, limits)
}

struct Exhaustive<'a> {
    problem: &'a Problem,
    known: BTreeMap<(Vec<usize>, Vec<usize>), Option<i64>>,
}

impl Exhaustive<'_> {
    fn cost(&mut self, left: Vec<usize>, limits: Vec<usize>) -> Option<i64> {
        if left.iter().all(|&count| count == 0) {
            return Some(0);
        }
        let key = (left, limits);
        if let Some(&known) = self.known.get(&key) {
            return known;
        }
        let mut best: Option<i64> = None;
        for stick in (0..key.1.len()).filter(|&stick| 0 < key.1[stick]) {
            let mut limits = key.1.clone();
            limits[stick] = limits[stick].saturating_sub(usize::from(limits[stick] != usize::MAX));
            let mut rests = Vec::new();
            self.rests(stick, 0, None, &key.0, &mut rests);
            for rest in rests.into_iter().filter(|rest| *rest != key.0) {
                if let Some(more) = self.cost(rest, limits.clone()) {
                    let cost = more + self.problem.sticks()[stick].price;
                    best = Some(best.map_or(cost, |best| best.min(cost)));
                }
            }
        }
        self.known.insert(key, best);
        best
    }

    /// What is left after every filling of one stick whose last piece ends at `end`.
    fn rests(
        &self,
        stick: usize,
        from: usize,
        end: Option<i64>,
        left: &[usize],
        rests: &mut Vec<Vec<usize>>,
    ) {
        rests.push(left.to_vec());
        let saw = self.problem.saw();
        for piece in (from..left.len()).filter(|&piece| 0 < left[piece]) {
            let start = end.map_or(saw.end_trim, |end| end + saw.kerf);
            let next = start + self.problem.pieces()[piece].length;
            if next <= self.problem.sticks()[stick].length - saw.end_trim {
                let mut fewer = left.to_vec();
                fewer[piece] -= 1;
                self.rests(stick, piece, Some(next), &fewer, rests);
            }
        }
    }
}
