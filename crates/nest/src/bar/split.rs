//! What to split on: a count that must be whole and is not.

use geometry::tolerance;

use std::collections::BTreeMap;

use super::model::{Model, Pattern};
use super::proof::Rule;
use super::simplex::Simplex;

/// A count to split on: at most so many, or at least one more.
pub(super) struct Split {
    pub(super) rule: Rule,
    pub(super) at_most: i64,
}

/// The stick length whose number is furthest from whole.
pub(super) fn stick_split(model: &Model, simplex: &Simplex, columns: &[Pattern]) -> Option<Split> {
    let mut totals = vec![0.0; model.stocks.len()];
    simplex.columns_used().for_each(|(column, value)| totals[columns[column].stick] += value);
    let fractional =
        totals.into_iter().enumerate().filter(|&(_, total)| tolerance::FRACTION_OF_STICK < off_whole(total));
    let (stick, total) = fractional.max_by(|a, b| off_whole(a.1).total_cmp(&off_whole(b.1)))?;
    (1 < model.stocks.len()).then(|| Split { rule: Rule::Sticks(stick), at_most: floor(total) })
}

/// The pair of kinds whose number of shared sticks is furthest from whole, longest first; else one filling.
pub(super) fn pair_split(model: &Model, simplex: &Simplex, columns: &[Pattern]) -> Option<Split> {
    let mut shared: BTreeMap<(usize, usize), f64> = BTreeMap::new();
    for (column, value) in simplex.columns_used() {
        let takes = &columns[column].takes;
        for (at, &(a, taken)) in takes.iter().enumerate() {
            if 1 < taken {
                *shared.entry((a, a)).or_default() += value;
            }
            takes[at + 1..].iter().for_each(|&(b, _)| *shared.entry((a, b)).or_default() += value);
        }
    }
    let mut alive = vec![0_u32; model.kinds.len()];
    for (_, column) in columns.iter().enumerate().filter(|(at, _)| !simplex.is_banned(*at)) {
        column.takes.iter().for_each(|take| alive[take.0] += 1);
    }
    let score = |&(a, b): &(usize, usize), value: f64| value.fract() / f64::from(alive[a].min(alive[b]));
    let fractional = shared.iter().filter(|(_, value)| tolerance::FRACTION_OF_STICK < off_whole(**value));
    let best = fractional.max_by(|x, y| score(x.0, *x.1).total_cmp(&score(y.0, *y.1)));
    if let Some((&(a, b), &value)) = best {
        return Some(Split { rule: Rule::Together(a, b), at_most: floor(value) });
    }
    let (column, value) = simplex.columns_used().max_by(|a, b| off_whole(a.1).total_cmp(&off_whole(b.1)))?;
    let Pattern { stick, takes } = columns[column].clone();
    (tolerance::FRACTION_OF_STICK < off_whole(value))
        .then(|| Split { rule: Rule::Cut(stick, takes), at_most: floor(value) })
}

/// Distance to the nearest whole number.
fn off_whole(value: f64) -> f64 {
    (value - value.round()).abs()
}

#[expect(clippy::cast_possible_truncation, reason = "counts of sticks are small")]
fn floor(value: f64) -> i64 {
    value.floor() as i64
}
