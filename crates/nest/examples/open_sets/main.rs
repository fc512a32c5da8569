//! Measures the nest on open packing sets.
//!
//! `cargo run --release -p nest --example open_sets -- FILE… --seconds S --threads T --seed N [--placements DIR] [--pictures DIR] --json`
//!
//! A file holds one instance or a list of them: strips (`strip_width`), rectangles (`sheet`) or bars (`stock`).
//! `--check` has every proof of bars checked by the independent checker of the tests, `--shear` cuts rectangles edge to
//! edge, `--turns` lets them turn a quarter; `--evaluations N` bounds the search itself instead of the clock: the same file,
//! evaluations, seed and starts (`--starts K`, two when not given) then give the same row on any number of threads.
//! `--pictures DIR` draws every strip.
//!
//! Prints one row an instance; with `--totals` further rows at the end, of kind `bins totals` or `bars totals`, that add up
//! rectangles or bars by class, and over all. Seconds are an outer wish: the search itself counts evaluations.

#[path = "../../tests/all/bar_checks/mod.rs"]
mod bar_checks;
mod bars;
mod options;
mod picture;
mod rectangles;
mod row;
mod strip;
mod totals;

use options::Options;
use row::Row;
use serde_json::Value;
use totals::Totals;

type Failure = Box<dyn std::error::Error>;

fn main() -> Result<(), Failure> {
    let options = Options::read(std::env::args().skip(1))?;
    rayon::ThreadPoolBuilder::new().num_threads(options.threads).build_global()?;
    let mut totals = Totals::default();
    for file in &options.files {
        #[expect(clippy::disallowed_methods, reason = "a benchmark reads files")]
        let text = std::fs::read_to_string(file)?;
        let instances = match serde_json::from_str(&text)? {
            Value::Array(list) => list,
            single => vec![single],
        };
        for instance in instances {
            let row = measure(file, &instance, &options)?;
            row.print(options.json);
            totals.add(&row);
        }
    }
    if options.totals {
        totals.print(options.json);
    }
    Ok(())
}

fn measure(file: &str, instance: &Value, options: &Options) -> Result<Row, Failure> {
    let has = |field: &str| instance.get(field).is_some();
    if has("strip_width") {
        strip::measure(instance, options)
    } else if has("sheet") {
        rectangles::measure(instance, options)
    } else if has("stock") {
        bars::measure(instance, options)
    } else {
        Err(format!("{file}: an instance is neither strip, sheet nor stock").into())
    }
}
