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
    /// A rule, with the columns it counts in rising order.
    Rule(Rule, Rc<Vec<usize>>),
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

/// Whether a rule counts a pattern.
pub(super) fn counts(rule: &Rule, pattern: &Pattern) -> bool {
    let taken = |kind: usize| pattern.takes.iter().find(|take| take.0 == kind).map_or(0, |take| take.1);
    match rule {
        Rule::Together(a, b) if a == b => 1 < taken(*a),
        Rule::Together(a, b) => 0 < taken(*a) && 0 < taken(*b),
        Rule::Sticks(stick) => pattern.stick == *stick,
        Rule::Cut(stick, takes) => pattern.stick == *stick && pattern.takes == *takes,
    }
}

/// A row for one side of a split over these columns.
pub(super) fn rule_row(rule: Rule, columns: &[Pattern], at_least: bool, bound: i64) -> Row {
    let members =
        columns.iter().enumerate().filter(|(_, pattern)| counts(&rule, pattern)).map(|(at, _)| at).collect();
    Row { count: Count::Rule(rule, Rc::new(members)), at_least, bound }
}

/// The entries of a column in all rows.
pub(super) fn entries(rows: &[Row], model: &Model, column: usize, pattern: &Pattern) -> Vec<(usize, f64)> {
    let mut entries: Vec<(usize, f64)> =
        pattern.takes.iter().map(|&(kind, taken)| (kind, taken as f64)).collect();
    for (at, row) in rows.iter().enumerate().skip(model.kinds.len()) {
        let counted = match &row.count {
            Count::Kind(_) => false,
            Count::Stick(stick) | Count::Rule(Rule::Sticks(stick), _) => pattern.stick == *stick,
            Count::Rule(_, members) => members.binary_search(&column).is_ok(),
        };
        if counted {
            entries.push((at, 1.0));
        }
    }
    entries
}
