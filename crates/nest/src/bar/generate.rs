//! Column generation: the linear program over all fillings, each found by a knapsack when it is worth its price.
//!
//! Source: Gilmore and Gomory, "A linear programming approach to the cutting-stock problem", *Operations Research*
//! 9 (1961).

use geometry::tolerance;

use super::knapsack::filling_within;
use super::model::{Model, Pattern};
use super::simplex::Simplex;
use super::weights;

/// Partial fillings looked at in one knapsack; enough for all but absurd mixes.
const STATES: usize = 4_000_000;

/// Solves the linear program over all fillings, adding to `columns` those it needs.
///
/// False if `limit` exchanges did not do.
pub(super) fn generate(model: &Model, simplex: &mut Simplex, columns: &mut Vec<Pattern>, limit: u64) -> bool {
    let mut renewed = false;
    loop {
        if !simplex.optimise(model, columns, limit) {
            return false;
        }
        let more = worthwhile(model, simplex, columns);
        if more.is_empty() && (renewed || holds(model, simplex)) {
            return true;
        }
        if more.is_empty() {
            simplex.renew(model, columns);
            renewed = true;
        }
        columns.extend(more);
    }
}

/// Whether the worth of the rows survives rounding to whole numbers; if not, it has picked up too much rounding.
fn holds(model: &Model, simplex: &Simplex) -> bool {
    let weights = weights::from_worth(model, &simplex.rows, &simplex.worth);
    weights::hold_everywhere(model, &simplex.rows, &weights)
}

/// The best filling of each stick, where it beats its price.
fn worthwhile(model: &Model, simplex: &Simplex, columns: &[Pattern]) -> Vec<Pattern> {
    let weights = weights::from_worth(model, &simplex.rows, &simplex.worth);
    let items = weights::items(model, &weights);
    let beat = tolerance::FILLING_GAIN_SHARE * (weights.unit * model.top_price()) as f64;
    #[expect(clippy::cast_possible_truncation, reason = "a few thousand")]
    let beat = beat as i64;
    let best = |stick: usize| {
        let mark = weights::allowance(model, &simplex.rows, &weights, stick) + beat;
        let room = model.stocks[stick].room;
        let (_, takes) = filling_within(&items, room, mark.max(0), STATES)?;
        Some(Pattern { stick, takes })
    };
    (0..model.stocks.len()).filter_map(best).filter(|pattern| !columns.contains(pattern)).collect()
}
