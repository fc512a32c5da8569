//! The rows of the linear program: demands, limits, and the rules of the splits above.

use std::rc::Rc;

use super::model::{Model, Pattern};
use super::proof::Rule;

/// What a row counts.
#[derive(Debug, Clone)]
pub(super) enum Count {
    /// Pieces of a kind.
    Kind(usize),
    /// Sticks of a length, within their limit.
    Stick(usize),
    /// A rule, with the columns it counts in rising order and how often.
    Rule(Rule, Rc<Vec<(usize, i64)>>),
}

/// A row: what is counted and how many there must be.
#[derive(Debug, Clone)]
pub(super) struct Row {
    pub(super) count: Count,
    /// At least `bound`, or at most.
    pub(super) at_least: bool,
    pub(super) bound: i64,
}

/// The demand and limit rows of a model, demands first in order of kind.
pub(super) fn base_rows(model: &Model) -> Vec<Row> {
    let demands = model.kinds.iter().enumerate();
    let demands = demands.map(|(kind, k)| Row { count: Count::Kind(kind), at_least: true, bound: k.demand });
    let limits = model.stocks.iter().enumerate().filter_map(|(stick, stock)| Some((stick, stock.limit?)));
    demands
        .chain(limits.map(|(stick, bound)| Row { count: Count::Stick(stick), at_least: false, bound }))
        .collect()
}

/// How often a rule counts a pattern.
pub(super) fn counts(rule: &Rule, pattern: &Pattern) -> i64 {
    let taken = |kind: usize| pattern.takes.iter().find(|take| take.0 == kind).map_or(0, |take| take.1);
    match rule {
        Rule::Together(a, b) if a == b => i64::from(1 < taken(*a)),
        Rule::Together(a, b) => i64::from(0 < taken(*a) && 0 < taken(*b)),
        Rule::Sticks(stick) => i64::from(pattern.stick == *stick),
        Rule::Halves(kinds) => kinds.iter().map(|&kind| taken(kind)).sum::<i64>() / 2,
        Rule::Cut(stick, takes) => i64::from(pattern.stick == *stick && pattern.takes == *takes),
    }
}

/// A row for a rule over these columns.
pub(super) fn rule_row(rule: Rule, columns: &[Pattern], at_least: bool, bound: i64) -> Row {
    let counted = columns.iter().map(|pattern| counts(&rule, pattern)).enumerate();
    let members = counted.filter(|(_, times)| 0 < *times).collect();
    Row { count: Count::Rule(rule, Rc::new(members)), at_least, bound }
}

/// The entries of a column in all rows.
pub(super) fn entries(rows: &[Row], model: &Model, column: usize, pattern: &Pattern) -> Vec<(usize, f64)> {
    let mut entries: Vec<(usize, f64)> =
        pattern.takes.iter().map(|&(kind, taken)| (kind, taken as f64)).collect();
    for (at, row) in rows.iter().enumerate().skip(model.kinds.len()) {
        let counted = match &row.count {
            Count::Kind(_) => 0,
            Count::Stick(stick) | Count::Rule(Rule::Sticks(stick), _) => i64::from(pattern.stick == *stick),
            Count::Rule(_, members) => times(members, column),
        };
        if 0 < counted {
            entries.push((at, counted as f64));
        }
    }
    entries
}

/// How often a column is counted.
pub(super) fn times(members: &[(usize, i64)], column: usize) -> i64 {
    members.binary_search_by_key(&column, |member| member.0).map_or(0, |at| members[at].1)
}
