//! 2,000 pieces of 40 made-up shapes on two sheet sizes: seconds to the first nest and to the answer, and the most memory.
//!
//! `cargo run --release -p nest --example many_pieces -- [EVALUATIONS] [--json]`; `--json` prints a row for each choice of sheets.

use std::sync::Mutex;
use std::sync::atomic::AtomicBool;
use std::time::{Duration, Instant};

use geometry::grid::{GridOutline, GridPoint};
use nest::{Effort, Mirror, Part, Problem, Rules, Stock, StockShape, Turns, Watch, compare_watched, verify};

const SHAPES: i64 = 40;
const COPIES: u32 = 50;

/// Repeatable sizes without a random source: the fractional parts of multiples of the golden ratio.
fn size(index: i64, low: i64, high: i64) -> i64 {
    low + (index * 618_034 % 1_000_000) * (high - low) / 1_000_000
}

/// Brackets, tapers, gussets, notched blanks, rings and rounded plates.
fn outline(index: i64) -> Result<GridOutline, Box<dyn std::error::Error>> {
    let (a, b) = (size(5 * index + 1, 60_000, 420_000), size(7 * index + 3, 50_000, 260_000));
    let (c, d) = (a / 3, a.min(b) / 5);
    let corners: Vec<(i64, i64)> = match index % 8 {
        0 => vec![(0, 0), (a, 0), (a, b), (0, b)],
        1 => vec![(0, 0), (a, 0), (a - c / 2, b), (c / 3, b)],
        2 => vec![(0, 0), (a, 0), (a, d), (c, d), (c, b), (0, b)],
        3 => vec![(0, 0), (a, 0), (0, b)],
        4 => vec![(0, 0), (a, 0), (a, b), (a - c, b), (a - c, d), (c, d), (c, b), (0, b)],
        5 => (0..24).map(|k| round_corner(a / 2, k)).collect(),
        6 => vec![(d, 0), (a - d, 0), (a, d), (a, b - d), (a - d, b), (d, b), (0, b - d), (0, d)],
        _ => vec![(0, 0), (a, 0), (a, b), (0, b)],
    };
    let place = |(x, y)| GridPoint::new(x, y);
    let hole: Vec<GridPoint> = [(d, d), (a - d, d), (a - d, b - d), (d, b - d)].map(place).to_vec();
    let holes = if index % 8 == 7 { vec![hole] } else { Vec::new() };
    Ok(GridOutline::new(corners.into_iter().map(place).collect(), holes)?)
}

/// One of 24 corners of a round plate.
#[expect(clippy::cast_possible_truncation, reason = "corners of a plate are small numbers of steps")]
fn round_corner(radius: i64, number: i32) -> (i64, i64) {
    let angle = f64::from(number) * std::f64::consts::TAU / 24.0;
    let at = |value: f64| (value * radius as f64).round() as i64 + radius;
    (at(geometry::trig::cos(angle)), at(geometry::trig::sin(angle)))
}

fn problem() -> Result<Problem, Box<dyn std::error::Error>> {
    let part = |index: i64| -> Result<Part, Box<dyn std::error::Error>> {
        let turns = if index % 4 == 0 { Turns::Half } else { Turns::Quarter };
        Ok(Part {
            mark: format!("P{index}"),
            outline: outline(index)?,
            quantity: COPIES,
            turns,
            mirror: Mirror::Never,
        })
    };
    let parts = (0..SHAPES).map(part).collect::<Result<Vec<_>, _>>()?;
    let stock = |name: &str, length, width, price| {
        let shape = StockShape::Rectangle { length, width };
        Stock { name: name.into(), shape, price: Some(price), limit: None }
    };
    let stock =
        vec![stock("48 x 96", 2_438_400, 1_219_200, 21_000), stock("60 x 120", 3_048_000, 1_524_000, 33_000)];
    let rules = Rules { gap: 6350, edge_trim: 12_700, least_drop: 150_000 };
    Problem::new(parts, stock, rules).map_err(|faults| format!("{faults:?}").into())
}

/// The most memory this program has held, as the operating system counts it; none where it does not say.
#[expect(clippy::disallowed_methods, reason = "a benchmark asks the operating system")]
fn most_memory() -> Option<String> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    Some(status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?.trim().to_owned())
}

#[expect(clippy::print_stdout, reason = "a benchmark talks on standard output")]
#[expect(clippy::disallowed_methods, reason = "a benchmark reads the clock")]
fn main() -> Result<(), Box<dyn std::error::Error>> {
    let problem = problem()?;
    let pieces: u32 = problem.parts().iter().map(|part| part.quantity).sum();
    let (flags, words): (Vec<String>, Vec<String>) =
        std::env::args().skip(1).partition(|word| word.starts_with("--"));
    let json = flags.iter().any(|word| word == "--json");
    let evaluations = words.first().map_or(Ok(10_000), |text| text.parse())?;
    if !json {
        println!("{} shapes, {pieces} pieces, {evaluations} evaluations a choice", problem.parts().len());
    }
    let begin = Instant::now();
    let first = Mutex::new(None);
    let progress = |_: &nest::Progress| {
        if let Ok(mut first) = first.lock() {
            first.get_or_insert_with(|| begin.elapsed());
        }
    };
    let stop = AtomicBool::new(false);
    let effort = Effort { evaluations, ..Effort::default() };
    let table = compare_watched(&problem, &effort, &Watch { progress: &progress, stop: &stop })?;
    let seconds = begin.elapsed().as_secs_f64();
    let first = first.lock().ok().and_then(|first| *first).map(|first: Duration| first.as_secs_f64());
    if !json {
        println!("{seconds:.2} s in all, first nest after {:.2} s", first.unwrap_or(seconds));
    }
    for row in &table.rows {
        let Ok(nested) = &row.outcome else { continue };
        let judged = Instant::now();
        verify(&problem, &nested.nest).map_err(|faults| format!("{faults:?}"))?;
        let judged = judged.elapsed().as_secs_f64();
        let (count, money) = (nested.take.count(), nested.take.money.unwrap_or(0));
        if json {
            let row = serde_json::json!({
                "name": "many pieces", "kind": "many pieces", "choice": format!("{:?}", row.choice),
                "evaluations_a_choice": evaluations, "seconds_in_all": seconds, "first_nest_seconds": first,
                "count": count, "lower_bound": nested.bound.sheets, "money": money,
                "least_money": i64::try_from(nested.bound.cost)?, "yield_permille": nested.take.yield_permille(),
                "judged_seconds": judged, "most_memory": most_memory(), "seed": effort.seed, "verified": true,
            });
            println!("{row}");
            continue;
        }
        println!(
            "{:?}: {count} sheets, {} proved, money {money}, less than {} excluded, yield {} thousandths, judged again in \
             {judged:.2} s",
            row.choice,
            nested.bound.sheets,
            nested.bound.cost,
            nested.take.yield_permille(),
        );
    }
    if !json {
        println!("most memory: {}", most_memory().unwrap_or_else(|| "not told".to_owned()));
    }
    Ok(())
}
