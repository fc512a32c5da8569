//! Which choice of sheets is taken for every metal: the one with which the whole order is least.
//!
//! The nest compares sheets by their prices alone. What the order adds, freight for long sheets above all, may make the
//! dearer sheets the cheaper order.

use estimate::{OrderLine, Terms, Way, least_order};

use super::nesting::Compared;
use super::ordered::{sheet_lines, stick_lines};
use super::{Flats, bars};

/// For every metal the row of its comparison that is taken.
pub(super) fn choose(flats: &Flats, compared: &[Compared]) -> Vec<usize> {
    let job = &flats.job;
    let ranked: Vec<Vec<usize>> = compared.iter().map(Compared::ranked).collect();
    let lines = |metal: &Compared, row: &usize| {
        let nested = metal.comparison.rows[*row].outcome.as_ref();
        nested.map_or_else(
            |_| Vec::new(),
            |nested| sheet_lines(job, metal.metal, &metal.sizes, &nested.take.sheets),
        )
    };
    let way = |metal: &Compared, row: &usize| Way {
        lines: lines(metal, row),
        takes_of_rack: metal.takes_of_rack(*row),
        largest_drop: metal.largest_drop(job, *row),
    };
    let ways: Vec<Vec<Way>> = compared
        .iter()
        .zip(&ranked)
        .map(|(metal, rows)| rows.iter().map(|row| way(metal, row)).collect())
        .collect();
    let picks = least_order(&job.buying.terms, &sticks(flats), &ways);
    picks.iter().zip(&ranked).map(|(&pick, rows)| rows[pick]).collect()
}

/// Sticks count toward the supplier's minimum, which matters only where something else than the price of sheets decides.
/// Bars that cannot be cut are refused where they are cut.
fn sticks(flats: &Flats) -> Vec<OrderLine> {
    let Terms { minimum_charge, cut_charge, over_length, .. } = flats.job.buying.terms;
    if minimum_charge.is_none() || (cut_charge.is_none() && over_length.is_none()) {
        return Vec::new();
    }
    let bars = bars::cut(&flats.file, &flats.job, &flats.parts).unwrap_or_default();
    stick_lines(&flats.job, &bars)
}
