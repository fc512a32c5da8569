//! A search that is ended early keeps the best it has told of.

#![allow(clippy::unwrap_used, reason = "a job without a nest must stop the test")]

use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

use geometry::grid::{GridOutline, GridPoint};
use nest::{Choice, Effort, Mirror, Part, Problem, Rules, Stock, StockShape, Turns, Watch, compare_watched};

/// Braces on two sizes of sheet, of which no bound proves the least number. Invented.
fn braces() -> Problem {
    let brace = |(length, at, rise, quantity): (i64, i64, i64, u32)| Part {
        mark: format!("K{length}"),
        outline: GridOutline::new(
            [(0, 0), (length, 0), (at, rise)].map(|(x, y)| GridPoint::new(x, y)).to_vec(),
            Vec::new(),
        )
        .unwrap(),
        quantity,
        turns: Turns::Quarter,
        mirror: Mirror::Never,
    };
    let parts = [(310, 70, 170, 14), (230, 60, 210, 18), (400, 70, 110, 12), (290, 120, 150, 15)].map(brace);
    let stock = [(960, 480), (1_200, 600)].map(|(length, width)| Stock {
        name: format!("{width} x {length}"),
        shape: StockShape::Rectangle { length, width },
        price: None,
        limit: None,
    });
    let rules = Rules { gap: 3, edge_trim: 5, least_drop: 120 };
    Problem::new(parts.to_vec(), stock.to_vec(), rules).unwrap()
}

/// The search of the first size is ended at its first news of fewer sheets than it began with.
#[test]
fn what_was_told_of_is_what_is_given() {
    let problem = braces();
    let effort = Effort { evaluations: 1_000_000_000, starts: 2, seed: 1 };
    let (stop, first, fewest) = (AtomicBool::new(false), AtomicUsize::new(0), AtomicUsize::new(usize::MAX));
    let progress = |news: &nest::Progress| {
        if stop.load(Ordering::SeqCst) {
            return;
        }
        let _ = first.compare_exchange(0, news.sheets, Ordering::SeqCst, Ordering::SeqCst);
        if fewest.fetch_min(news.sheets, Ordering::SeqCst).min(news.sheets) < first.load(Ordering::SeqCst) {
            stop.store(true, Ordering::SeqCst);
        }
    };
    let table = compare_watched(&problem, &effort, &Watch { progress: &progress, stop: &stop }).unwrap();
    assert!(fewest.load(Ordering::SeqCst) < first.load(Ordering::SeqCst), "nothing better was told of");
    let row = table.rows.iter().find(|row| row.choice == Choice::Alone(0)).unwrap();
    assert_eq!(row.outcome.as_ref().unwrap().nest.sheets.len(), fewest.load(Ordering::SeqCst));
}
