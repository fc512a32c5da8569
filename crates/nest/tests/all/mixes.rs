//! Mixes of sizes: what sheets were cut into goes on sheets that cost hardly more.

#![allow(clippy::unwrap_used, reason = "a job without a nest must stop the test")]

use std::sync::Mutex;
use std::sync::atomic::AtomicBool;

use geometry::grid::{GridOutline, GridPoint};
use nest::{
    Choice, Effort, Mirror, Part, Problem, Rules, Stock, StockShape, Turns, Watch, compare, compare_watched,
    verify,
};
use proptest::prelude::*;

/// Length, width and price; the price does not go by the area.
const SIZES: [(i64, i64, u64); 4] =
    [(960, 480, 21_000), (1_200, 480, 26_500), (1_200, 600, 33_000), (1_440, 600, 36_000)];

/// Cuts a sheet across and across again, each time the largest piece, at shares drawn from a third to two thirds.
fn cut(sheet: (i64, i64), shares: &[i64]) -> Vec<(i64, i64)> {
    let mut pieces = vec![sheet];
    for share in shares {
        let largest = (0..pieces.len()).max_by_key(|&piece| pieces[piece].0 * pieces[piece].1).unwrap();
        let (length, width) = pieces.swap_remove(largest);
        if length < width {
            let at = width * share / 100;
            pieces.extend([(length, at), (length, width - at)]);
        } else {
            let at = length * share / 100;
            pieces.extend([(at, width), (length - at, width)]);
        }
    }
    pieces
}

/// Every piece a little smaller than it was cut, or it could hardly ever be laid again.
fn job(sheets: &[(usize, Vec<i64>)], quarter: bool) -> Problem {
    let pieces = sheets.iter().flat_map(|(size, shares)| cut((SIZES[*size].0, SIZES[*size].1), shares));
    let part = |(number, (length, width)): (usize, (i64, i64))| {
        let (length, width) = (length - length / 20, width - width / 20);
        let corners = [(0, 0), (length, 0), (length, width), (0, width)];
        let ring = corners.map(|(x, y)| GridPoint::new(x, y)).to_vec();
        Part {
            mark: format!("P{number}"),
            outline: GridOutline::new(ring, Vec::new()).unwrap(),
            quantity: 1,
            turns: if quarter { Turns::Quarter } else { Turns::Half },
            mirror: Mirror::Never,
        }
    };
    let stock = SIZES.map(|(length, width, price)| Stock {
        name: format!("{width} x {length}"),
        shape: StockShape::Rectangle { length, width },
        price: Some(price),
        limit: None,
    });
    let rules = Rules { gap: 0, edge_trim: 0, least_drop: 100 };
    Problem::new(pieces.enumerate().map(part).collect(), stock.to_vec(), rules).unwrap()
}

/// Length, width and price, and how many there are.
fn stock((length, width): (i64, i64), price: u64, limit: Option<u32>) -> Stock {
    let shape = StockShape::Rectangle { length, width };
    Stock { name: format!("{width} x {length}"), shape, price: Some(price), limit }
}

/// How many sheets of each size are taken for plates of these sizes: of 1000 x 1000, 700 x 500, 600 x 500 and 500 x 400 one is there,
/// and 2000 x 1000 are bought.
fn taken(plates: &[(i64, i64, u32)]) -> Vec<u32> {
    let there = [(1000, 1000), (700, 500), (600, 500), (500, 400)].map(|size| stock(size, 0, Some(1)));
    let stock = there.into_iter().chain([stock((2000, 1000), 10_000, None)]).collect();
    let part = |&(length, width, quantity): &(i64, i64, u32)| Part {
        mark: format!("{length}"),
        outline: GridOutline::rectangle(length, width).unwrap(),
        quantity,
        turns: Turns::Half,
        mirror: Mirror::Never,
    };
    let rules = Rules { gap: 0, edge_trim: 0, least_drop: 100 };
    let problem = Problem::new(plates.iter().map(part).collect(), stock, rules).unwrap();
    let effort = Effort { evaluations: 4_000, starts: 2, seed: 1 };
    let table = compare(&problem, &effort).unwrap();
    table.rows[table.best].outcome.as_ref().unwrap().take.sheets.clone()
}

#[test]
fn of_the_rack_the_least_area_is_taken_into_use() {
    // Smaller ones before larger ones.
    assert_eq!(taken(&[(450, 350, 1)]), [0, 0, 0, 1, 0]);
    assert_eq!(taken(&[(450, 350, 2)]), [0, 0, 1, 1, 0]);
    assert_eq!(taken(&[(550, 450, 1)]), [0, 0, 1, 0, 0]);
    // Three go on one of 1 m² just as well, but on .85 m² in three.
    assert_eq!(taken(&[(450, 350, 3)]), [0, 1, 1, 1, 0]);
    // One of 1 m² holds four; no other is taken besides.
    assert_eq!(taken(&[(900, 200, 2), (450, 250, 4)]), [1, 0, 0, 0, 0]);
    // Beside a sheet that must be bought the rack is used as far as it goes, and no more of it than that takes.
    assert_eq!(taken(&[(1500, 800, 1), (450, 350, 1)]), [0, 0, 0, 1, 1]);
}

#[test]
fn news_tell_which_sizes_they_are_about() {
    let heard = Mutex::new(Vec::new());
    let stop = AtomicBool::new(false);
    let progress = |news: &nest::Progress| heard.lock().unwrap().push(news.choice);
    let effort = Effort { evaluations: 400, starts: 1, seed: 1 };
    compare_watched(&job(&[(0, vec![40, 50])], false), &effort, &Watch { progress: &progress, stop: &stop })
        .unwrap();
    let heard = heard.into_inner().unwrap();
    for choice in [Choice::Alone(0), Choice::Alone(1), Choice::Alone(2), Choice::Alone(3), Choice::Mix] {
        assert!(heard.contains(&choice), "{choice:?}: {heard:?}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn what_some_sheets_were_cut_into_costs_hardly_more_than_they(
        sheets in prop::collection::vec((0..SIZES.len(), prop::collection::vec(34_i64..67, 3..6)), 2..5),
        quarter in any::<bool>(),
    ) {
        let problem = job(&sheets, quarter);
        let known: u64 = sheets.iter().map(|(size, _)| SIZES[*size].2).sum();
        let effort = Effort { evaluations: 4_000, starts: 2, seed: 1 };
        let stop = AtomicBool::new(false);
        let table = compare_watched(&problem, &effort, &Watch { progress: &|_| {}, stop: &stop }).unwrap();
        let mix = table.rows.iter().find(|row| row.choice == Choice::Mix).unwrap();
        let mix = mix.outcome.as_ref().unwrap();
        verify(&problem, &mix.nest).unwrap();
        // The search is not exact: with some seeds of these tests a mix comes out 1 % dearer.
        prop_assert!(mix.take.money.unwrap() <= known + known / 20, "{:?} for {known}", mix.take);
        prop_assert!(mix.bound.cost <= i128::from(known));
    }
}
