//! How long `rack list` takes over 10,000 offcuts, listed whole, filtered, and as JSON. Build the program and this with
//! `--release`, then run it; it looks for the program beside itself. With a path behind it the rack is written there and
//! nothing is timed.
#![expect(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a benchmark runs the program, writes its rack, looks at the clock and prints"
)]

use std::error::Error;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Instant;

use serde_json::{Value, json};

/// Offcuts in the rack.
const COUNT: usize = 10_000;

fn main() -> Result<(), Box<dyn Error>> {
    if let Some(path) = std::env::args_os().nth(1) {
        return Ok(fs::write(path, rack())?);
    }
    let program = program()?;
    let folder = std::env::temp_dir().join(format!("plateloft-rack-{}", std::process::id()));
    fs::create_dir_all(&folder)?;
    let path = folder.join("rack.json");
    fs::write(&path, rack())?;
    let filters: [(&str, &[&str]); 3] = [
        ("whole", &[]),
        ("of one metal, that hold 20 × 30", &["--metal", "5052-H32", "--holds", "20", "30"]),
        ("the same as JSON", &["--metal", "5052-H32", "--holds", "20", "30", "--json"]),
    ];
    for (what, more) in filters {
        let begun = Instant::now();
        let listed = list(&program, &path, more)?;
        println!("{what}: {listed} lines in {:.2} s", begun.elapsed().as_secs_f64());
    }
    Ok(fs::remove_dir_all(&folder)?)
}

/// The program beside the folder of examples.
fn program() -> Result<PathBuf, Box<dyn Error>> {
    let own = std::env::current_exe()?;
    let folder = own.ancestors().nth(2).ok_or("no folder above the example")?;
    Ok(folder.join("plateloft"))
}

fn list(program: &Path, rack: &Path, more: &[&str]) -> Result<usize, Box<dyn Error>> {
    let mut command = Command::new(program);
    command.args(["rack", "list", "--rack"]).arg(rack).args(more).stderr(Stdio::inherit());
    let done = command.output()?;
    if done.status.success() {
        Ok(done.stdout.iter().filter(|byte| **byte == b'\n').count())
    } else {
        Err(format!("rack list {more:?}: {}", done.status).into())
    }
}

/// Rectangles and L-shapes of three metals, no two neighbours alike.
fn rack() -> String {
    let lines: Vec<String> = (0..COUNT).map(|number| format!("    {}", offcut(number))).collect();
    format!("{{\n  \"plateloft_rack\": 1,\n  \"offcuts\": [\n{}\n  ]\n}}\n", lines.join(",\n"))
}

fn offcut(number: usize) -> Value {
    let inches = |count: usize| format!("{count} in");
    let (long, wide) = (12 + number % 41, 10 + number % 37);
    let corner = |x: usize, y: usize| json!([inches(x), inches(y)]);
    let outline = if number.is_multiple_of(3) {
        let (x, y) = (long / 2, wide / 2);
        json!([
            corner(0, 0),
            corner(long, 0),
            corner(long, y),
            corner(x, y),
            corner(x, wide),
            corner(0, wide)
        ])
    } else {
        json!([corner(0, 0), corner(long, 0), corner(long, wide), corner(0, wide)])
    };
    let (metal, thickness) =
        [("5052-H32", "0.125 in"), ("5052-H32", "0.09 in"), ("6061-T6", "0.125 in")][number % 3];
    let face = ["good", "scratched", "unknown"][number % 3];
    json!({
        "mark": format!("R{}", number + 1),
        "metal": metal,
        "thickness": thickness,
        "outline": outline,
        "film": "none",
        "face": face,
        "lay": "unknown",
        "place": format!("wall, slot {}", number % 90),
        "date": "2026-03-04"
    })
}
