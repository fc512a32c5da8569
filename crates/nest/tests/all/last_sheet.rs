//! Sheets of which there are no more than will do, filled to the last corner.

#![allow(clippy::unwrap_used, reason = "a job without a nest must stop the test")]

use geometry::grid::{GridOutline, GridPoint};
use nest::{Effort, Mirror, Part, Problem, Rules, Stock, StockShape, Turns, compare, verify};

fn part(mark: &str, ring: &[(i64, i64)]) -> Part {
    let ring = ring.iter().map(|&(x, y)| GridPoint::new(x, y)).collect();
    let outline = GridOutline::new(ring, Vec::new()).unwrap();
    Part { mark: mark.to_owned(), outline, quantity: 1, turns: Turns::Half, mirror: Mirror::Never }
}

/// A square of 40 in, cut across and each half along a slant of its own; the sheet is half an inch longer and wider, so that
/// 97.5 % of it is filled. Invented. Thousandths of an inch.
fn jig(limit: Option<u32>) -> Problem {
    let parts = vec![
        part("J1", &[(0, 0), (25_000, 0), (15_000, 20_000), (0, 20_000)]),
        part("J2", &[(25_000, 0), (40_000, 0), (40_000, 20_000), (15_000, 20_000)]),
        part("J3", &[(0, 0), (11_000, 0), (23_000, 20_000), (0, 20_000)]),
        part("J4", &[(11_000, 0), (40_000, 0), (40_000, 20_000), (23_000, 20_000)]),
    ];
    let shape = StockShape::Rectangle { length: 40_500, width: 40_500 };
    let stock = vec![Stock { name: String::new(), shape, price: Some(10), limit }];
    Problem::new(parts, stock, Rules { gap: 0, edge_trim: 0, least_drop: 12_000 }).unwrap()
}

fn sheets(problem: &Problem) -> usize {
    let table = compare(problem, &Effort { evaluations: 40_000, starts: 4, seed: 1 }).unwrap();
    let nested = table.rows[table.best].outcome.as_ref().unwrap();
    verify(problem, &nested.nest).unwrap();
    nested.nest.sheets.len()
}

#[test]
fn a_sheet_is_filled_to_the_last_corner() {
    assert_eq!(sheets(&jig(None)), 1);
}

#[test]
fn a_single_sheet_that_does_is_enough() {
    assert_eq!(sheets(&jig(Some(1))), 1);
}
