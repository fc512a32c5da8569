//! A search that is ended early keeps the best it has told of.

#![allow(clippy::unwrap_used, reason = "a job without a nest must stop the test")]

use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

use geometry::grid::{GridOutline, GridPoint};
use nest::{
    Choice, Effort, Mirror, Pace, Part, Problem, Rules, Stock, StockShape, Turns, Watch, compare,
    compare_paced, compare_watched,
};

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

/// Two sizes and their mix are three looks, counted down. A look whose share is over keeps the best of the first looks, and takes
/// nothing from the next: the second size is nested as it is without a clock.
#[test]
fn a_look_that_has_had_its_share_takes_none_of_the_others() {
    let problem = braces();
    let effort = Effort { evaluations: 20_000, starts: 2, seed: 1 };
    let (stop, is_over) = (AtomicBool::new(false), AtomicBool::new(false));
    let begun = Mutex::new(Vec::new());
    let begin = |left: usize| {
        begun.lock().unwrap().push(left);
        // The first look has no time at all.
        is_over.store(left == 3, Ordering::SeqCst);
    };
    let watch = Watch { progress: &|_| {}, stop: &stop };
    let pace = Pace { begin: &begin, is_over: &is_over };
    let paced = compare_paced(&problem, &effort, &watch, Some(pace)).unwrap();
    assert_eq!(*begun.lock().unwrap(), [3, 2, 1, 0]);
    let free = compare(&problem, &effort).unwrap();
    assert!(paced.rows.iter().all(|row| row.outcome.is_ok()));
    assert_eq!(paced.rows[1], free.rows[1]);
    // What ends all of it ends every look, and none is begun.
    stop.store(true, Ordering::SeqCst);
    begun.lock().unwrap().clear();
    let ended = compare_paced(&problem, &effort, &watch, Some(pace)).unwrap();
    assert!(ended.rows.iter().all(|row| row.outcome.is_ok()));
    assert_eq!(*begun.lock().unwrap(), [0]);
}

/// Whatever a sheet of 960 × 480 holds lies on one of 1,200 × 600 too, so that size never takes more of them, however little it was
/// looked at.
#[test]
fn a_larger_sheet_never_takes_more_than_a_smaller_one() {
    let problem = braces();
    let effort = Effort { evaluations: 20_000, starts: 2, seed: 1 };
    let (stop, is_over) = (AtomicBool::new(false), AtomicBool::new(false));
    // Only the first look, that of the smaller size, has time.
    let begin = |left: usize| is_over.store(left != 3, Ordering::SeqCst);
    let watch = Watch { progress: &|_| {}, stop: &stop };
    let paced =
        compare_paced(&problem, &effort, &watch, Some(Pace { begin: &begin, is_over: &is_over })).unwrap();
    let counts: Vec<u32> =
        paced.rows[..2].iter().map(|row| row.outcome.as_ref().unwrap().take.count()).collect();
    assert!(counts[1] <= counts[0], "{counts:?}");
    let larger = paced.rows[1].outcome.as_ref().unwrap();
    assert!(larger.nest.sheets.iter().all(|sheet| sheet.stock == 1));
    assert_eq!(nest::verify(&problem, &larger.nest), Ok(()));
}
