//! Whole lists from a fractional program: keep what is whole, fill in the rest, or solve the rest again.

use geometry::tolerance;

use super::generate::generate;
use super::greedy::quick_list;
use super::model::{Model, Pattern};
use super::rows::base_rows;
use super::simplex::Simplex;

/// Share of a stick that counts as a whole one when rounding.
const NEARLY: f64 = 0.999;

/// Demands and limits left, and the patterns taken so far.
#[derive(Debug, Clone)]
struct Rest {
    demand: Vec<i64>,
    limits: Vec<Option<i64>>,
    taken: Vec<Pattern>,
}

impl Rest {
    fn new(model: &Model) -> Self {
        let limits = model.stocks.iter().map(|stock| stock.limit).collect();
        Self { demand: model.demand(), limits, taken: Vec::new() }
    }

    /// Takes a pattern if its pieces are all still wanted and its stick is there.
    fn take(&mut self, pattern: &Pattern) -> bool {
        let wanted = pattern.takes.iter().all(|&(kind, taken)| taken <= self.demand[kind]);
        if !wanted || self.limits[pattern.stick] == Some(0) {
            return false;
        }
        pattern.takes.iter().for_each(|&(kind, taken)| self.demand[kind] -= taken);
        if let Some(left) = self.limits[pattern.stick].as_mut() {
            *left -= 1;
        }
        self.taken.push(pattern.clone());
        true
    }

    /// Takes what is still wanted of a pattern.
    fn take_wanted(&mut self, pattern: &Pattern) -> bool {
        let wanted = pattern.takes.iter().map(|&(kind, taken)| (kind, taken.min(self.demand[kind])));
        let takes: Vec<(usize, i64)> = wanted.filter(|take| 0 < take.1).collect();
        !takes.is_empty() && self.take(&Pattern { stick: pattern.stick, takes })
    }

    /// Takes every column as often as it is whole.
    fn take_whole(&mut self, used: &[(usize, f64)], columns: &[Pattern]) -> bool {
        let mut any = false;
        for &(column, value) in used {
            let mut left = value + 1.0 - NEARLY;
            while 1.0 <= left && self.take_wanted(&columns[column]) {
                left -= 1.0;
                any = true;
            }
        }
        any
    }

    /// The list completed quickly.
    fn complete(&self, model: &Model) -> Option<Vec<Pattern>> {
        let mut list = quick_list(model, &self.demand, &self.limits)?;
        list.extend(self.taken.iter().cloned());
        Some(list)
    }
}

/// The columns in use, most used first.
fn by_value(simplex: &Simplex) -> Vec<(usize, f64)> {
    let mut used: Vec<(usize, f64)> = simplex.columns_used().collect();
    used.sort_by(|a, b| fraction(b.1).total_cmp(&fraction(a.1)).then(a.0.cmp(&b.0)));
    used
}

fn fraction(value: f64) -> f64 {
    value - value.floor()
}

/// The whole part of a program, then the columns in order of their fractions, then a quick list for the rest.
pub(super) fn round(model: &Model, simplex: &Simplex, columns: &[Pattern]) -> Option<Vec<Pattern>> {
    let used = by_value(simplex);
    let mut rest = Rest::new(model);
    rest.take_whole(&used, columns);
    let whole = rest.complete(model);
    for &(column, value) in &used {
        if 0.5 < fraction(value) {
            rest.take(&columns[column]);
        }
    }
    let nearly = rest.complete(model);
    for &(column, _) in &used {
        rest.take(&columns[column]);
    }
    [whole, nearly, rest.complete(model)].into_iter().flatten().min_by_key(|list| model.cost(list))
}

/// Fixes the whole part and the nearest column, solves the rest again, and so on to the end.
///
/// Ends early at a list that costs no more than `target`. Each `way` is another order of ties.
pub(super) fn dive(
    model: &Model,
    columns: &mut Vec<Pattern>,
    target: i64,
    limit: u64,
    way: u64,
) -> (Option<Vec<Pattern>>, u64) {
    let mut rest = Rest::new(model);
    let mut best: Option<Vec<Pattern>> = None;
    let mut exchanges = 0;
    while rest.demand.iter().any(|&left| 0 < left) && exchanges < limit {
        let part = left_over(model, &rest);
        let rows = base_rows(&part);
        let mut simplex = if way == 0 {
            Simplex::new(rows)
        } else {
            Simplex::spread(rows, tolerance::OTHER_CORNER_PIECES, way)
        };
        let wanted =
            |pattern: &&Pattern| pattern.takes.iter().all(|&(kind, taken)| taken <= rest.demand[kind]);
        let mut proper: Vec<Pattern> = columns.iter().filter(wanted).cloned().collect();
        let known = proper.len();
        let solved = generate(&part, &mut simplex, &mut proper, limit - exchanges);
        exchanges += simplex.exchanges;
        columns.extend_from_slice(&proper[known..]);
        let used = by_value(&simplex);
        let any = rest.take_whole(&used, &proper);
        let any = any || used.iter().any(|&(column, _)| rest.take(&proper[column]));
        if let Some(list) = rest.complete(model)
            && best.as_ref().is_none_or(|best| model.cost(&list) < model.cost(best))
        {
            best = Some(list);
        }
        if !any || !solved || best.as_ref().is_some_and(|best| model.cost(best) <= target) {
            break;
        }
    }
    (best, exchanges)
}

/// The model with what is left of demands and limits.
fn left_over(model: &Model, rest: &Rest) -> Model {
    let mut part = model.clone();
    part.kinds.iter_mut().zip(&rest.demand).for_each(|(kind, &left)| kind.demand = left);
    part.stocks.iter_mut().zip(&rest.limits).for_each(|(stock, &left)| stock.limit = left);
    part
}
