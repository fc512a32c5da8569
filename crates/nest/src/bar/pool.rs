//! All fillings that a list cheap enough could use, once weights have ruled out the others.

use super::model::{Model, Pattern};
use super::proof::Weights;
use super::rows::Row;
use super::weights;

/// Steps of the enumeration allowed for each filling kept at most.
const STEPS_PER_PATTERN: usize = 20;
/// Most pieces of a filling in a pool of few.
const MOST_FEW: i64 = 8;

/// Every filling whose worth falls short of its price by no more than lists of cost `target` can bear.
///
/// `None` if there are more than `most`, or if finding them takes too long.
pub(super) fn pool(
    model: &Model,
    rows: &[Row],
    weights: &Weights,
    target: i64,
    most: usize,
) -> Option<Vec<Pattern>> {
    enumerate(model, rows, weights, target, (most, i64::MAX))
}

/// As [`pool`], but only the fillings of fewest pieces, as long as they are no more than `most`.
pub(super) fn pool_of_few(
    model: &Model,
    rows: &[Row],
    weights: &Weights,
    target: i64,
    most: usize,
) -> Vec<Pattern> {
    let mut pool = Vec::new();
    for pieces in 1..=MOST_FEW {
        match enumerate(model, rows, weights, target, (most, pieces)) {
            Some(more) => pool = more,
            None => break,
        }
    }
    pool
}

/// The fillings of up to `pieces` pieces, if they are no more than `most`.
fn enumerate(
    model: &Model,
    rows: &[Row],
    weights: &Weights,
    target: i64,
    (most, pieces): (usize, i64),
) -> Option<Vec<Pattern>> {
    let slack = i128::from(weights.unit) * i128::from(target) - weights::total(rows, weights);
    let slack = i64::try_from(slack).ok().filter(|&slack| 0 <= slack)?;
    let mut order: Vec<usize> = (0..model.kinds.len()).collect();
    order.sort_by(|&a, &b| {
        let (worth_a, worth_b) = (i128::from(weights.kinds[a]), i128::from(weights.kinds[b]));
        let (long_a, long_b) = (i128::from(model.kinds[a].length), i128::from(model.kinds[b].length));
        (worth_b * long_a).cmp(&(worth_a * long_b)).then(a.cmp(&b))
    });
    let steps = STEPS_PER_PATTERN * most;
    let mut search = Enumeration { model, weights, order, steps, most, takes: Vec::new(), found: Vec::new() };
    for stick in 0..model.stocks.len() {
        let need = weights::allowance(model, rows, weights, stick) - slack;
        if !search.extend(stick, 0, (model.stocks[stick].room, pieces), need) {
            return None;
        }
    }
    Some(search.found)
}

struct Enumeration<'a> {
    model: &'a Model,
    weights: &'a Weights,
    order: Vec<usize>,
    steps: usize,
    most: usize,
    takes: Vec<(usize, i64)>,
    found: Vec<Pattern>,
}

impl Enumeration<'_> {
    /// Keeps the filling so far if it is worth enough, and tries every next kind. False if there are too many.
    fn extend(&mut self, stick: usize, from: usize, (room, pieces): (i64, i64), need: i64) -> bool {
        if self.steps == 0 || self.most < self.found.len() {
            return false;
        }
        self.steps -= 1;
        if need <= 0 && !self.takes.is_empty() {
            let mut takes = self.takes.clone();
            takes.sort_unstable();
            self.found.push(Pattern { stick, takes });
        }
        for place in from..self.order.len() {
            let kind = self.order[place];
            let (length, worth) = (self.model.kinds[kind].length, self.weights.kinds[kind]);
            if i128::from(room) * i128::from(worth) < i128::from(need) * i128::from(length) {
                break;
            }
            for taken in 1..=self.model.kinds[kind].demand.min(room / length).min(pieces) {
                self.takes.push((kind, taken));
                let fine = self.extend(
                    stick,
                    place + 1,
                    (room - taken * length, pieces - taken),
                    need - taken * worth,
                );
                self.takes.pop();
                if !fine {
                    return false;
                }
            }
        }
        true
    }
}
