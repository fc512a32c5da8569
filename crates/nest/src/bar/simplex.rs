//! The primal simplex method with an explicit inverse, started again from any basis that a new row leaves short.
//!
//! Plain `f64` arithmetic, the same on every machine. Nothing proved rests on it: weights are rounded to whole
//! numbers and checked exactly before they count. Source: Chvátal, *Linear Programming* (1983), chapters 7 and 8.

use geometry::tolerance;

use crate::random::Chance;

use super::model::{Model, Pattern};
use super::proof::Rule;
use super::rows::{self, Count, Row};

/// Exchanges after which the inverse is computed anew.
const RENEW: u32 = 600;
/// Columns looked at together before all are looked at again.
const CANDIDATES: usize = 30;
/// Price of one piece or stick short of a row, of a top price of 1.
const SHORT: f64 = 1000.0;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Basic {
    Column(usize),
    Slack(usize),
    Short(usize),
}

/// A column that may enter, with its entries in the rows.
type Candidate = (Basic, Vec<(usize, f64)>);

/// A linear program with its current basis.
#[derive(Debug, Clone)]
pub(super) struct Simplex {
    pub(super) rows: Vec<Row>,
    basis: Vec<Basic>,
    /// Row-major inverse of the basis.
    inverse: Vec<Vec<f64>>,
    values: Vec<f64>,
    /// What each row is worth at the margin, of a top price of 1.
    pub(super) worth: Vec<f64>,
    since_renewed: u32,
    pub(super) exchanges: u64,
    /// Columns that no list cheap enough uses, by number; shorter than the columns if none is known.
    pub(super) banned: Vec<bool>,
    spread: f64,
    chance: Chance,
    bounds: Vec<f64>,
}

impl Simplex {
    /// A program with these rows, every row short.
    pub(super) fn new(rows: Vec<Row>) -> Self {
        Self::spread(rows, tolerance::TIE_SPREAD_PIECES, 0)
    }

    /// As [`Simplex::new`], with bounds spread by up to `spread` in the way numbered `way`.
    pub(super) fn spread(rows: Vec<Row>, spread: f64, way: u64) -> Self {
        let mut simplex = Self {
            rows: Vec::new(),
            basis: Vec::new(),
            inverse: Vec::new(),
            values: Vec::new(),
            worth: Vec::new(),
            since_renewed: 0,
            exchanges: 0,
            banned: Vec::new(),
            spread,
            chance: Chance::new(0, way),
            bounds: Vec::new(),
        };
        for row in rows {
            simplex.append(row);
        }
        simplex
    }

    /// The value of every column in the basis.
    pub(super) fn columns_used(&self) -> impl Iterator<Item = (usize, f64)> + '_ {
        self.basis.iter().zip(&self.values).filter_map(|(basic, &value)| match basic {
            Basic::Column(column) => Some((*column, value)),
            _ => None,
        })
    }

    /// Whether a column is in no list cheap enough.
    pub(super) fn is_banned(&self, column: usize) -> bool {
        self.banned.get(column).copied().unwrap_or(false)
    }

    /// Adds a row.
    pub(super) fn append(&mut self, row: Row) {
        let size = self.rows.len();
        let members = if let Count::Rule(_, members) = &row.count { members.as_slice() } else { &[] };
        let times =
            |basic: &Basic| if let Basic::Column(column) = basic { rows::times(members, *column) } else { 0 };
        let in_row: Vec<f64> = self.basis.iter().map(|basic| times(basic) as f64).collect();
        let met: f64 = in_row.iter().zip(&self.values).map(|(times, value)| times * value).sum();
        let spread = self.spread * (self.chance.share() + 0.5);
        let bound = row.bound as f64 + if row.at_least { -spread } else { spread };
        self.bounds.push(bound);
        let over = met - bound;
        let (basic, sign) = match (row.at_least, over < 0.0) {
            (true, true) => (Basic::Short(size), 1.0),
            (true, false) => (Basic::Slack(size), -1.0),
            (false, true) => (Basic::Slack(size), 1.0),
            (false, false) => (Basic::Short(size), -1.0),
        };
        let mut last: Vec<f64> = vec![0.0; size + 1];
        for (line, times) in self.inverse.iter().zip(&in_row).filter(|(_, times)| 0.0 < **times) {
            line.iter().zip(&mut last).for_each(|(entry, last)| *last -= sign * times * entry);
        }
        last[size] = sign;
        self.inverse.iter_mut().for_each(|line| line.push(0.0));
        self.inverse.push(last);
        self.basis.push(basic);
        self.values.push(over.abs());
        self.rows.push(row);
        self.worth.push(0.0);
    }

    /// Exchanges columns until none of `columns` improves the program, or `limit` exchanges are made.
    pub(super) fn optimise(&mut self, model: &Model, columns: &[Pattern], limit: u64) -> bool {
        self.price_rows(model, columns);
        loop {
            let candidates = self.candidates(model, columns);
            if candidates.is_empty() {
                return true;
            }
            let before = self.exchanges;
            while let Some(((basic, entries), gain)) = self.best_candidate(model, columns, &candidates) {
                if limit <= self.exchanges || !self.exchange(basic, &entries, gain) {
                    return false;
                }
                if RENEW <= self.since_renewed {
                    self.renew(model, columns);
                }
            }
            if self.exchanges == before {
                return true;
            }
        }
    }

    /// The columns with the most negative reduced costs.
    fn candidates(&self, model: &Model, columns: &[Pattern]) -> Vec<Candidate> {
        let mut costs: Vec<(f64, usize)> = self.reduced_costs(model, columns).into_iter().zip(0..).collect();
        costs.retain(|&(cost, at)| cost < -tolerance::EXCHANGE_GAIN_SHARE && !self.is_banned(at));
        costs.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        costs.truncate(CANDIDATES);
        let found = costs
            .into_iter()
            .map(|(_, at)| (Basic::Column(at), rows::entries(&self.rows, model, at, &columns[at])));
        let slack = |(at, row): (usize, &Row)| {
            let sign = if row.at_least { -1.0 } else { 1.0 };
            (0.0 < sign * self.worth[at] - tolerance::EXCHANGE_GAIN_SHARE)
                .then(|| (Basic::Slack(at), vec![(at, sign)]))
        };
        found.chain(self.rows.iter().enumerate().filter_map(slack)).collect()
    }

    fn best_candidate(
        &self,
        model: &Model,
        columns: &[Pattern],
        candidates: &[Candidate],
    ) -> Option<(Candidate, f64)> {
        let mut best: Option<(&Candidate, f64)> = None;
        for candidate in candidates {
            let worth: f64 = candidate.1.iter().map(|&(row, entry)| self.worth[row] * entry).sum();
            let cost = price(candidate.0, model, columns) - worth;
            if cost < best.map_or(-tolerance::EXCHANGE_GAIN_SHARE, |best| best.1) {
                best = Some((candidate, cost));
            }
        }
        best.map(|(candidate, cost)| (candidate.clone(), cost))
    }

    /// Price less worth of every column.
    fn reduced_costs(&self, model: &Model, columns: &[Pattern]) -> Vec<f64> {
        let top = model.top_price() as f64;
        let mut by_stick: Vec<f64> = model.stocks.iter().map(|stock| stock.price as f64 / top).collect();
        for (row, worth) in self.rows.iter().zip(&self.worth) {
            if let Count::Stick(stick) | Count::Rule(Rule::Sticks(stick), _) = row.count {
                by_stick[stick] -= worth;
            }
        }
        let cost = |column: &Pattern| {
            let worth: f64 = column.takes.iter().map(|&(kind, taken)| self.worth[kind] * taken as f64).sum();
            by_stick[column.stick] - worth
        };
        let mut costs: Vec<f64> = columns.iter().map(cost).collect();
        for (row, worth) in self.rows.iter().zip(&self.worth) {
            match &row.count {
                Count::Rule(Rule::Sticks(_), _) | Count::Kind(_) | Count::Stick(_) => {}
                Count::Rule(_, members) => {
                    members.iter().for_each(|&(column, times)| costs[column] -= worth * times as f64);
                }
            }
        }
        costs
    }

    /// Brings a column into the basis. False if nothing limits it, which no cutting problem allows.
    fn exchange(&mut self, basic: Basic, entries: &[(usize, f64)], gain: f64) -> bool {
        let step = |line: &Vec<f64>| entries.iter().map(|&(row, entry)| line[row] * entry).sum::<f64>();
        let steps: Vec<f64> = self.inverse.iter().map(step).collect();
        let mut leaving: Option<(usize, f64)> = None;
        for (at, &step) in steps.iter().enumerate().filter(|(_, step)| tolerance::PIVOT_ENTRY < **step) {
            let ratio = self.values[at].max(0.0) / step;
            let better =
                leaving.is_none_or(|(old, best)| ratio < best || (ratio <= best && steps[old] < step));
            if better {
                leaving = Some((at, ratio));
            }
        }
        let Some((out, ratio)) = leaving else { return false };
        let mut pivot_line = std::mem::take(&mut self.inverse[out]);
        pivot_line.iter_mut().for_each(|entry| *entry /= steps[out]);
        let filled: Vec<(usize, f64)> = pivot_line
            .iter()
            .copied()
            .enumerate()
            .filter(|(_, entry)| tolerance::INVERSE_ROUNDING < entry.abs())
            .collect();
        let sparse = 3 * filled.len() < pivot_line.len();
        for (at, line) in self.inverse.iter_mut().enumerate() {
            let step = steps[at];
            if at == out || step.abs() < tolerance::INVERSE_ROUNDING {
                continue;
            }
            if sparse {
                filled.iter().for_each(|&(entry, pivot)| line[entry] -= step * pivot);
            } else {
                line.iter_mut().zip(&pivot_line).for_each(|(entry, pivot)| *entry -= step * pivot);
            }
            self.values[at] -= step * ratio;
        }
        self.worth.iter_mut().zip(&pivot_line).for_each(|(worth, pivot)| *worth += gain * pivot);
        self.inverse[out] = pivot_line;
        self.values[out] = ratio;
        self.basis[out] = basic;
        self.since_renewed += 1;
        self.exchanges += 1;
        true
    }

    /// What the rows are worth under the current basis.
    fn price_rows(&mut self, model: &Model, columns: &[Pattern]) {
        self.worth = vec![0.0; self.rows.len()];
        for (line, &basic) in self.inverse.iter().zip(&self.basis) {
            let price = price(basic, model, columns);
            if price > 0.0 {
                self.worth.iter_mut().zip(line).for_each(|(worth, entry)| *worth += price * entry);
            }
        }
    }

    /// Computes the inverse anew by elimination with the largest pivot of each column, to shed rounding.
    pub(super) fn renew(&mut self, model: &Model, columns: &[Pattern]) {
        let size = self.rows.len();
        let mut lines: Vec<Vec<f64>> = vec![vec![0.0; 2 * size]; size];
        for (at, &basic) in self.basis.iter().enumerate() {
            for (row, entry) in self.basic_entries(basic, model, columns) {
                lines[row][at] = entry;
            }
        }
        for (at, line) in lines.iter_mut().enumerate() {
            line[size + at] = 1.0;
        }
        self.since_renewed = 0;
        if !eliminate(&mut lines) {
            return;
        }
        self.inverse = lines.into_iter().map(|line| line[size..].to_vec()).collect();
        let value =
            |line: &Vec<f64>| line.iter().zip(&self.bounds).map(|(entry, bound)| entry * bound).sum::<f64>();
        self.values = self.inverse.iter().map(value).collect();
        self.price_rows(model, columns);
    }

    fn basic_entries(&self, basic: Basic, model: &Model, columns: &[Pattern]) -> Vec<(usize, f64)> {
        let sign = |row: usize| if self.rows[row].at_least { 1.0 } else { -1.0 };
        match basic {
            Basic::Column(column) => rows::entries(&self.rows, model, column, &columns[column]),
            Basic::Slack(row) => vec![(row, -sign(row))],
            Basic::Short(row) => vec![(row, sign(row))],
        }
    }
}

fn price(basic: Basic, model: &Model, columns: &[Pattern]) -> f64 {
    match basic {
        Basic::Column(column) => model.stocks[columns[column].stick].price as f64 / model.top_price() as f64,
        Basic::Slack(_) => 0.0,
        Basic::Short(_) => SHORT,
    }
}

/// Gauss-Jordan elimination of the left half in place. False if it is singular.
fn eliminate(lines: &mut [Vec<f64>]) -> bool {
    let size = lines.len();
    for at in 0..size {
        let best = (at..size).max_by(|&a, &b| lines[a][at].abs().total_cmp(&lines[b][at].abs()));
        let Some(best) = best.filter(|&best| tolerance::PIVOT_ENTRY < lines[best][at].abs()) else {
            return false;
        };
        lines.swap(at, best);
        let pivot = lines[at][at];
        lines[at].iter_mut().for_each(|entry| *entry /= pivot);
        let pivot_line = lines[at].clone();
        for (other, line) in lines.iter_mut().enumerate().filter(|(other, _)| *other != at) {
            debug_assert_ne!(other, at);
            let factor = line[at];
            if factor.abs() > f64::EPSILON {
                line[at..]
                    .iter_mut()
                    .zip(&pivot_line[at..])
                    .for_each(|(entry, pivot)| *entry -= factor * pivot);
            }
        }
    }
    true
}
