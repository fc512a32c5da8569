//! Rows that whole lists keep and fractional ones break: of three kinds, two together at most half their demand.
//!
//! Source: subset-row inequalities, Jepsen, Petersen, Spoorendonk and Pisinger, "Subset-row inequalities applied to
//! the vehicle-routing problem with time windows", *Operations Research* 56 (2008): Chvátal-Gomory cuts of rank one
//! with multipliers one half.

use std::collections::{BTreeMap, BTreeSet};

use super::model::{Model, Pattern};
use super::simplex::Simplex;

/// By how much a row must be broken to be worth adding.
const BROKEN: f64 = 0.05;
/// Rows added at once.
const AT_ONCE: usize = 10;

/// The sets of three kinds whose row is broken most, with the bound of each.
pub(super) fn violated_halves(model: &Model, simplex: &Simplex, pool: &[Pattern]) -> Vec<(Vec<usize>, i64)> {
    let used: Vec<(&Pattern, f64)> =
        simplex.columns_used().map(|(column, value)| (&pool[column], value)).collect();
    let neighbours = neighbours(model.kinds.len(), &used);
    let carrying = carrying(model.kinds.len(), &used);
    let mut broken: Vec<(f64, [usize; 3], i64)> = Vec::new();
    for (a, near) in neighbours.iter().enumerate() {
        for &b in near.range(a + 1..) {
            for &c in near.range(b + 1..).filter(|c| neighbours[b].contains(c)) {
                let bound = [a, b, c].iter().map(|&kind| model.kinds[kind].demand).sum::<i64>() / 2;
                let over = halves([a, b, c], &carrying) - bound as f64;
                if BROKEN < over {
                    broken.push((over, [a, b, c], bound));
                }
            }
        }
    }
    broken.sort_by(|x, y| y.0.total_cmp(&x.0).then(x.1.cmp(&y.1)));
    broken.into_iter().take(AT_ONCE).map(|(_, kinds, bound)| (kinds.to_vec(), bound)).collect()
}

/// For each kind, the kinds it shares a stick with.
fn neighbours(kinds: usize, used: &[(&Pattern, f64)]) -> Vec<BTreeSet<usize>> {
    let mut neighbours = vec![BTreeSet::new(); kinds];
    for (pattern, _) in used {
        for &(a, _) in &pattern.takes {
            neighbours[a].extend(pattern.takes.iter().map(|take| take.0).filter(|&b| b != a));
        }
    }
    neighbours
}

/// For each kind, the patterns in use that carry it: pattern number, times carried, value.
type Carrying = Vec<Vec<(usize, i64, f64)>>;

fn carrying(kinds: usize, used: &[(&Pattern, f64)]) -> Carrying {
    let mut carrying = vec![Vec::new(); kinds];
    for (at, (pattern, value)) in used.iter().enumerate() {
        pattern.takes.iter().for_each(|&(kind, taken)| carrying[kind].push((at, taken, *value)));
    }
    carrying
}

fn halves(kinds: [usize; 3], carrying: &Carrying) -> f64 {
    let mut taken: BTreeMap<usize, (i64, f64)> = BTreeMap::new();
    for &(at, times, value) in kinds.iter().flat_map(|&kind| &carrying[kind]) {
        let entry = taken.entry(at).or_insert((0, value));
        entry.0 += times;
    }
    taken.values().map(|&(times, value)| (times / 2) as f64 * value).sum()
}
