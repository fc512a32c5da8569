//! Whole-number weights from the worth of rows, and what they prove.

use geometry::tolerance;

use super::knapsack::{Item, best_filling};
use super::model::{Model, Pattern};
use super::proof::{Rule, Weights};
use super::rows::{Count, Row};

/// What the top price is worth in whole-number weights; all sums stay far inside 64 bits.
const SCALE: i64 = 1 << 40;

/// The worth of one unit of cost.
pub(super) fn unit(model: &Model) -> i64 {
    (SCALE / model.top_price()).max(1)
}

/// Whole-number weights a margin below the worth of the rows.
pub(super) fn from_worth(model: &Model, rows: &[Row], worth: &[f64]) -> Weights {
    let whole = |worth: f64| {
        let margin = if worth < 0.0 {
            1.0 + tolerance::WEIGHT_MARGIN_SHARE
        } else {
            1.0 - tolerance::WEIGHT_MARGIN_SHARE
        };
        floor(worth * margin * (model.top_price() * unit(model)) as f64)
    };
    let mut weights = Weights {
        unit: unit(model),
        kinds: vec![0; model.kinds.len()],
        sticks: vec![0; model.stocks.len()],
        rules: Vec::new(),
    };
    for (row, &worth) in rows.iter().zip(worth) {
        let signed = if row.at_least { worth.max(0.0) } else { worth.min(0.0) };
        match row.count {
            Count::Kind(kind) => weights.kinds[kind] = whole(signed),
            Count::Stick(stick) => weights.sticks[stick] = whole(signed),
            Count::Rule(..) => weights.rules.push(whole(signed)),
        }
    }
    weights
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "far inside 53 bits; a cast saturates and is checked after"
)]
fn floor(value: f64) -> i64 {
    value.floor() as i64
}

/// What all that must be cut is worth.
pub(super) fn total(rows: &[Row], weights: &Weights) -> i128 {
    let mut rule = weights.rules.iter();
    let worth = |row: &Row| {
        let weight = match row.count {
            Count::Kind(kind) => weights.kinds[kind],
            Count::Stick(stick) => weights.sticks[stick],
            Count::Rule(..) => rule.next().copied().unwrap_or(0),
        };
        i128::from(weight) * i128::from(row.bound)
    };
    rows.iter().map(worth).sum()
}

/// The items of the knapsack for these weights.
pub(super) fn items(model: &Model, weights: &Weights) -> Vec<Item> {
    let kinds = model.kinds.iter().zip(&weights.kinds).enumerate();
    kinds.map(|(kind, (k, &worth))| Item { kind, length: k.length, worth, most: k.demand }).collect()
}

/// What the pieces on one stick of a length may be worth together, stick and stick-count rules included.
pub(super) fn allowance(model: &Model, rows: &[Row], weights: &Weights, stick: usize) -> i64 {
    let mut allowance = weights.unit * model.stocks[stick].price - weights.sticks[stick];
    let rules =
        rows.iter().filter_map(|row| if let Count::Rule(rule, _) = &row.count { Some(rule) } else { None });
    for (rule, weight) in rules.zip(&weights.rules) {
        if *rule == Rule::Sticks(stick) {
            allowance -= weight;
        }
    }
    allowance
}

/// Whether no filling of any stick is worth more than its price; rules other than stick counts must weigh nothing.
pub(super) fn hold_everywhere(model: &Model, rows: &[Row], weights: &Weights) -> bool {
    let items = items(model, weights);
    (0..model.stocks.len()).all(|stick| {
        let allowed = allowance(model, rows, weights, stick);
        0 <= allowed && best_filling(&items, model.stocks[stick].room, allowed).is_none()
    })
}

/// By how much each column's worth falls short of its price; below zero if it is worth more.
pub(super) fn shortfalls(model: &Model, rows: &[Row], weights: &Weights, columns: &[Pattern]) -> Vec<i64> {
    let allowed: Vec<i64> =
        (0..model.stocks.len()).map(|stick| allowance(model, rows, weights, stick)).collect();
    let short = |column: &Pattern| allowed[column.stick] - pieces_worth(weights, column);
    let mut shortfalls: Vec<i64> = columns.iter().map(short).collect();
    let rules = rows
        .iter()
        .filter_map(|row| if let Count::Rule(rule, on) = &row.count { Some((rule, on)) } else { None });
    for ((rule, members), weight) in rules.zip(&weights.rules) {
        if !matches!(rule, Rule::Sticks(_)) {
            members.iter().for_each(|&(column, times)| shortfalls[column] -= weight * times);
        }
    }
    shortfalls
}

fn pieces_worth(weights: &Weights, column: &Pattern) -> i64 {
    column.takes.iter().map(|&(kind, taken)| weights.kinds[kind] * taken).sum()
}

/// The least cost that these weights leave possible, in steps of the prices.
pub(super) fn least_cost(model: &Model, rows: &[Row], weights: &Weights) -> i64 {
    let total = total(rows, weights).max(0);
    let step = i128::from(weights.unit) * i128::from(model.cost_step);
    i64::try_from((total + step - 1) / step * i128::from(model.cost_step)).unwrap_or(i64::MAX)
}
