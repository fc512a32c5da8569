//! Made-up jobs with several sizes of sheet whose prices do not go by their area: what the mix found costs beside the best
//! found on any subset of the sizes alone.
//!
//! `cargo run --release -p nest --example mixed_sizes -- [EVALUATIONS [LAST_JOB [subsets [FIRST_JOB]]]] [--json]`; `--json` prints a row
//! for each job.

use std::sync::atomic::AtomicBool;
use std::time::Instant;

use geometry::grid::{GridOutline, GridPoint};
use nest::{Choice, Effort, Mirror, Part, Problem, Rules, Stock, StockShape, Turns, Watch, compare_watched};

type Failure = Box<dyn std::error::Error>;

/// Steps to an inch.
const INCH: i64 = 25_400;

/// A small generator: the same jobs on every machine (Knuth's 64-bit multiplier, The Art of Computer Programming 2, 3.3.4).
struct Draw(u64);

impl Draw {
    fn between(&mut self, low: i64, high: i64) -> i64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let span = u64::try_from(high - low + 1).unwrap_or(1);
        low + i64::try_from((self.0 >> 33) % span).unwrap_or(0)
    }
}

/// Half of the jobs hold rectangles alone, the others tapered and notched blanks too.
fn outline(draw: &mut Draw, plain: bool) -> Result<GridOutline, Failure> {
    let (a, b) = (draw.between(48, 400) * INCH / 8, draw.between(32, 240) * INCH / 8);
    let c = a.min(b) / 4;
    let corners: Vec<(i64, i64)> = match if plain { 0 } else { draw.between(0, 2) } {
        0 => vec![(0, 0), (a, 0), (a, b), (0, b)],
        1 => vec![(0, 0), (a, 0), (a - c, b), (c / 2, b)],
        _ => vec![(0, 0), (a, 0), (a, c), (c, c), (c, b), (0, b)],
    };
    Ok(GridOutline::new(corners.into_iter().map(|(x, y)| GridPoint::new(x, y)).collect(), Vec::new())?)
}

/// Length and width in inches, price in cents.
type Size = (i64, i64, i64);

/// All sizes of a job.
fn sizes(draw: &mut Draw) -> Vec<Size> {
    let all = [(96, 48), (120, 48), (144, 48), (120, 60), (144, 60)];
    all.into_iter()
        .map(|(length, width)| (length, width, length * width * draw.between(370, 480) / 100))
        .collect()
}

fn job(number: u64) -> Result<(Vec<Part>, Vec<Size>), Failure> {
    let mut draw = Draw(number.wrapping_mul(0x9E37_79B9_7F4A_7C15));
    let sizes = sizes(&mut draw);
    let count = draw.between(4, 20);
    let mut parts = Vec::new();
    for index in 0..count {
        let outline = outline(&mut draw, number % 2 == 1)?;
        let quantity = u32::try_from(draw.between(1, 5))?;
        let turns = if draw.between(0, 3) == 0 { Turns::Half } else { Turns::Quarter };
        parts.push(Part { mark: format!("P{index}"), outline, quantity, turns, mirror: Mirror::Never });
    }
    Ok((parts, sizes))
}

/// What the mix of these sizes costs; none where it holds not every part.
fn mix(parts: &[Part], sizes: &[Size], effort: &Effort) -> Result<Option<(u64, i128)>, Failure> {
    let stock = |&(length, width, price): &Size| Stock {
        name: format!("{width} x {length}"),
        shape: StockShape::Rectangle { length: length * INCH, width: width * INCH },
        price: u64::try_from(price).ok(),
        limit: None,
    };
    let rules = Rules { gap: INCH / 4, edge_trim: INCH / 4, least_drop: 6 * INCH };
    let problem = Problem::new(parts.to_vec(), sizes.iter().map(stock).collect(), rules)
        .map_err(|faults| format!("{faults:?}"))?;
    let stop = AtomicBool::new(false);
    let Ok(table) = compare_watched(&problem, effort, &Watch { progress: &|_| {}, stop: &stop }) else {
        return Ok(None);
    };
    let wanted = |choice| choice == Choice::Mix || sizes.len() == 1;
    let row = table.rows.iter().find(|row| wanted(row.choice));
    let nested = row.and_then(|row| row.outcome.as_ref().ok());
    Ok(nested.and_then(|nested| Some((nested.take.money?, nested.bound.cost))))
}

#[expect(clippy::print_stdout, reason = "a benchmark talks on standard output")]
#[expect(clippy::disallowed_methods, reason = "a benchmark reads the clock")]
fn main() -> Result<(), Failure> {
    let (flags, words): (Vec<String>, Vec<String>) =
        std::env::args().skip(1).partition(|word| word.starts_with("--"));
    let json = flags.iter().any(|word| word == "--json");
    let mut words = words.into_iter();
    let evaluations = words.next().map_or(Ok(20_000), |word| word.parse())?;
    let jobs: u64 = words.next().map_or(Ok(12), |word| word.parse())?;
    let with_subsets = words.next().is_some_and(|word| word == "subsets");
    let from: u64 = words.next().map_or(Ok(1), |word| word.parse())?;
    let effort = Effort { evaluations, ..Effort::default() };
    for number in from..=jobs {
        let (parts, sizes) = job(number)?;
        let begin = Instant::now();
        let Some((money, bound)) = mix(&parts, &sizes, &effort)? else { continue };
        let seconds = begin.elapsed().as_secs_f64();
        let mut best = money;
        for set in (1..1_usize << sizes.len()).filter(|_| with_subsets) {
            let some: Vec<Size> =
                (0..sizes.len()).filter(|size| set >> size & 1 == 1).map(|size| sizes[size]).collect();
            best = mix(&parts, &some, &effort)?.map_or(best, |(money, _)| best.min(money));
        }
        if json {
            let row = serde_json::json!({
                "name": format!("mixed sizes {number}"), "kind": "mixed sizes", "evaluations_a_choice": evaluations,
                "seconds": seconds, "money": money, "least_money": i64::try_from(bound)?,
                "best_of_subsets": with_subsets.then_some(best), "seed": effort.seed,
            });
            println!("{row}");
            continue;
        }
        println!("{number}: {seconds:.1} s, {money} money, {bound} proved needed, best of subsets {best}");
    }
    Ok(())
}
