//! Weights from inside the face of best weights: they rule out more fillings than any corner of it.
//!
//! A program with many best weights hands out one corner, where many fillings look as good as needed. Demands
//! spread a little in other ways lead to other corners, and their mean keeps only what is needed at all of them.

use geometry::tolerance;

use super::generate::generate;
use super::model::{Model, Pattern};
use super::proof::Weights;
use super::rows::Row;
use super::simplex::Simplex;
use super::weights;

/// The mean of these weights and those of `corners` other corners; the exchanges made on the way.
pub(super) fn mean_weights(
    model: &Model,
    rows: &[Row],
    start: Weights,
    columns: &mut Vec<Pattern>,
    corners: u64,
) -> (Weights, u64) {
    let (mut mean, mut exchanges) = (start, 0);
    for corner in 1..=corners {
        let mut simplex = Simplex::spread(rows.to_vec(), tolerance::OTHER_CORNER_PIECES, corner);
        let solved = generate(model, &mut simplex, columns, u64::MAX);
        exchanges += simplex.exchanges;
        let other = weights::from_worth(model, rows, &simplex.worth);
        if solved && weights::hold_everywhere(model, rows, &other) {
            add(&mut mean, &other);
        }
    }
    (mean, exchanges)
}

fn add(sum: &mut Weights, other: &Weights) {
    sum.unit += other.unit;
    let pairs =
        [(&mut sum.kinds, &other.kinds), (&mut sum.sticks, &other.sticks), (&mut sum.rules, &other.rules)];
    for (sum, other) in pairs {
        sum.iter_mut().zip(other).for_each(|(sum, other)| *sum += other);
    }
}
