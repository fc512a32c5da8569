//! A shop job of 60 different parts, 200 pieces: how long to a first valid nest, and what a little more time brings.
//!
//! `cargo run --release -p nest --example shop_job -- [--json]`; `--json` prints a row for each choice of sheets.

use std::sync::Mutex;
use std::sync::atomic::AtomicBool;
use std::time::{Duration, Instant};

use geometry::grid::{GridOutline, GridPoint};
use nest::{
    Choice, Effort, Mirror, Nested, Part, Problem, Rules, Stock, StockShape, Turns, Watch, compare_watched,
    verify,
};

/// Repeatable sizes without a random source: the fractional parts of multiples of the golden ratio.
fn size(index: i64, low: i64, high: i64) -> i64 {
    low + (index * 618_034 % 1_000_000) * (high - low) / 1_000_000
}

/// Blanks of the kinds a boat shop cuts: rectangles, tapers, notched pans, brackets, rings.
fn outline(index: i64) -> Result<GridOutline, Box<dyn std::error::Error>> {
    let (a, b) = (size(index + 1, 80_000, 900_000), size(3 * index + 2, 60_000, 450_000));
    let (c, d) = (a / 4, a.min(b) / 4);
    let corners: Vec<(i64, i64)> = match index % 5 {
        0 => vec![(0, 0), (a, 0), (a, b), (0, b)],
        1 => vec![(0, 0), (a, 0), (a - c, b), (c / 2, b)],
        2 => vec![
            (d, 0),
            (a - d, 0),
            (a - d, d),
            (a, d),
            (a, b - d),
            (a - d, b - d),
            (a - d, b),
            (d, b),
            (d, b - d),
            (0, b - d),
            (0, d),
            (d, d),
        ],
        3 => vec![(0, 0), (a, 0), (a, d), (c, d), (c, b), (0, b)],
        _ => vec![(0, 0), (a, 0), (a, b), (0, b)],
    };
    let place = |(x, y)| GridPoint::new(x, y);
    let hole: Vec<GridPoint> = [(d, d), (a - d, d), (a - d, b - d), (d, b - d)].map(place).to_vec();
    let holes = if index % 5 == 4 { vec![hole] } else { Vec::new() };
    Ok(GridOutline::new(corners.into_iter().map(place).collect(), holes)?)
}

fn problem() -> Result<Problem, Box<dyn std::error::Error>> {
    let mut parts = Vec::new();
    for index in 0..60 {
        let quantity = if index % 3 == 0 { 4 } else { 3 };
        let turns = if index % 4 == 0 { Turns::Half } else { Turns::Quarter };
        parts.push(Part {
            mark: format!("P{index}"),
            outline: outline(index)?,
            quantity,
            turns,
            mirror: Mirror::Never,
        });
    }
    let stock = |name: &str, length, width, price| {
        let shape = StockShape::Rectangle { length, width };
        Stock { name: name.into(), shape, price: Some(price), limit: None }
    };
    let stock = vec![
        stock("48 x 96", 2_438_400, 1_219_200, 21_000),
        stock("60 x 120", 3_048_000, 1_524_000, 33_000),
        stock("48 x 120", 3_048_000, 1_219_200, 26_500),
    ];
    let rules = Rules { gap: 6350, edge_trim: 12_700, least_drop: 150_000 };
    Problem::new(parts, stock, rules).map_err(|faults| format!("{faults:?}").into())
}

#[expect(clippy::print_stdout, reason = "a benchmark talks on standard output")]
#[expect(clippy::disallowed_methods, reason = "a benchmark reads the clock")]
fn main() -> Result<(), Box<dyn std::error::Error>> {
    let problem = problem()?;
    let pieces: u32 = problem.parts().iter().map(|part| part.quantity).sum();
    let json = std::env::args().any(|word| word == "--json");
    if !json {
        println!("{} parts, {pieces} pieces", problem.parts().len());
    }
    for evaluations in [0, 20_000, 100_000] {
        let begin = Instant::now();
        let first = Mutex::new(None);
        let progress = |_: &nest::Progress| {
            if let Ok(mut first) = first.lock() {
                first.get_or_insert_with(|| begin.elapsed());
            }
        };
        let stop = AtomicBool::new(evaluations == 0);
        let effort = Effort { evaluations, ..Effort::default() };
        let table = compare_watched(&problem, &effort, &Watch { progress: &progress, stop: &stop })?;
        let seconds = begin.elapsed().as_secs_f64();
        let first = first.lock().ok().and_then(|first| *first).map(|first: Duration| first.as_secs_f64());
        if !json {
            println!("{evaluations} evaluations a choice: {seconds:.3} s in all");
            println!("  first valid nest after {:.3} s", first.unwrap_or(seconds));
        }
        for row in &table.rows {
            let Ok(nested) = &row.outcome else { continue };
            if json {
                let row = serde_json::json!({
                    "name": "shop job", "kind": "shop job", "choice": name(&problem, row.choice),
                    "evaluations_a_choice": evaluations, "seconds_in_all": seconds, "first_nest_seconds": first,
                    "sheets": nested.take.sheets, "count": nested.take.count(), "lower_bound": nested.bound.sheets,
                    "proved_count": nested.bound.proves(nested.take.count()), "money": nested.take.money,
                    "least_money": i64::try_from(nested.bound.cost)?, "yield_permille": nested.take.yield_permille(),
                    "seed": effort.seed, "verified": verify(&problem, &nested.nest).is_ok(),
                });
                println!("{row}");
                continue;
            }
            println!("  {}", words(&problem, row.choice, nested));
        }
    }
    Ok(())
}

/// The size of a choice, or that it is a mix.
fn name(problem: &Problem, choice: Choice) -> String {
    match choice {
        Choice::Alone(stock) => problem.stock()[stock].name.clone(),
        Choice::Mix => "mix".to_owned(),
    }
}

/// A row for people. A mix is chosen by money, so its bound is money first; what is proved of its count stands beside it.
fn words(problem: &Problem, choice: Choice, nested: &Nested) -> String {
    let (count, money) = (nested.take.count(), nested.take.money.unwrap_or(0));
    let proof = if i128::from(money) <= nested.bound.cost { "proved the least" } else { "not proved" };
    format!(
        "{}: {:?}, {count} sheets, at least {} proved; {money} money, {proof}: less than {} is excluded; \
         yield {}",
        name(problem, choice),
        nested.take.sheets,
        nested.bound.sheets,
        nested.bound.cost,
        nested.take.yield_permille()
    )
}
