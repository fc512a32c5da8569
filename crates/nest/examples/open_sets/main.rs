//! Measures the nest on open packing sets.
//!
//! `cargo run --release -p nest --example open_sets -- FILE… --seconds S --threads T --seed N [--placements DIR] --json`
//!
//! `--evaluations N` bounds the search itself, which makes the rows repeatable.
//!
//! Prints one row an instance. Seconds are an outer wish: the search itself counts evaluations.

mod options;
mod row;
mod strip;

use options::Options;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let options = Options::read(std::env::args().skip(1))?;
    rayon::ThreadPoolBuilder::new().num_threads(options.threads).build_global()?;
    for file in &options.files {
        #[expect(clippy::disallowed_methods, reason = "a benchmark reads files")]
        let text = std::fs::read_to_string(file)?;
        let data: serde_json::Value = serde_json::from_str(&text)?;
        if data["strip_width"].is_null() {
            return Err(format!("{file}: only strips are measured yet").into());
        }
        let row = strip::measure(&data, &options)?;
        row.print(options.json);
    }
    Ok(())
}
