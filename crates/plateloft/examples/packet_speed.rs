//! How long the packet of 60 different parts, 200 pieces, takes beside its nest, how much memory, and how many leaves its
//! PDF has. Build the program and this with `--release`, then run it; it looks for the program beside itself.
#![expect(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a benchmark runs the program, writes its job, looks at the clock and prints"
)]

use std::error::Error;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use serde_json::{Value, json};

fn main() -> Result<(), Box<dyn Error>> {
    let program = program()?;
    let folder = std::env::temp_dir().join(format!("plateloft-speed-{}", std::process::id()));
    fs::create_dir_all(&folder)?;
    let job = folder.join("job.json");
    fs::write(&job, job_of_sixty().to_string())?;
    let out = folder.join("packet");
    let flats = run(&program, &["flats", path(&job)])?;
    let nest = run(&program, &["nest", path(&job)])?;
    let packet = run(&program, &["packet", path(&job), "--out", path(&out)])?;
    let pdf = fs::read(out.join("packet.pdf"))?;
    let leaves = pdf.windows(11).filter(|window| *window == b"/Type /Page").count() - 1;
    fs::remove_dir_all(&folder)?;
    println!("flats laid and proven: {:.2} s, {} MB", flats.0.as_secs_f64(), flats.1);
    println!("nest, flats included: {:.2} s, {} MB", nest.0.as_secs_f64(), nest.1);
    println!("packet, both included: {:.2} s, {} MB, {leaves} leaves", packet.0.as_secs_f64(), packet.1);
    println!("packet without flats and nest: {:.2} s", packet.0.saturating_sub(nest.0).as_secs_f64());
    Ok(())
}

/// The program beside the folder of examples.
fn program() -> Result<PathBuf, Box<dyn Error>> {
    let own = std::env::current_exe()?;
    let folder = own.ancestors().nth(2).ok_or("no folder above the example")?;
    Ok(folder.join("plateloft"))
}

fn path(path: &Path) -> &str {
    path.to_str().unwrap_or_default()
}

/// Time from start to end, and the most memory in between, MB, where the system tells.
fn run(program: &Path, arguments: &[&str]) -> Result<(Duration, u64), Box<dyn Error>> {
    let begun = Instant::now();
    let mut child =
        Command::new(program).args(arguments).stdout(Stdio::null()).stderr(Stdio::null()).spawn()?;
    let mut most = 0;
    let status = loop {
        most = most.max(memory_mb(child.id()).unwrap_or(0));
        if let Some(status) = child.try_wait()? {
            break status;
        }
        std::thread::sleep(Duration::from_millis(5));
    };
    if status.success() {
        Ok((begun.elapsed(), most))
    } else {
        Err(format!("{arguments:?}: {status}").into())
    }
}

/// The most memory of a running process so far, MB.
fn memory_mb(process: u32) -> Option<u64> {
    let status = fs::read_to_string(format!("/proc/{process}/status")).ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    Some(line.split_whitespace().next()?.parse::<u64>().ok()? / 1024)
}

/// Pans, lids and panels, twenty of each, no two alike.
fn job_of_sixty() -> Value {
    let part = |number: usize| {
        let larger = |inches: usize| (inches + number / 3).to_string();
        let quantity = [3, 3, 4][number % 3];
        let mut part = match number % 3 {
            0 => {
                json!({ "shape": "pan", "outside": [larger(9), larger(7)], "height": "3", "rim": "1/2 out" })
            }
            1 => {
                json!({ "shape": "lid", "over": [larger(8), larger(6)], "clearance": { "coaming": ".125", "gasket": "1/8" }, "skirt": "1 1/2" })
            }
            _ => json!({
                "shape": "panel",
                "outline": [["0", "0"], [larger(20), "0"], [larger(20), "9"], ["11", "12"], ["0", "12"]],
                "flanges": { "AB": "1 1/2 up", "EA": "1 1/2 down" }
            }),
        };
        part["mark"] = json!(format!("P{}", number + 1));
        part["metal"] = json!("skin");
        part["quantity"] = json!(quantity);
        part
    };
    json!({
        "plateloft": 1, "job": "Sixty parts", "units": "inch", "tape": "1/16",
        "shop": { "gap": "1/4", "kerf": "1/8", "edge_trim": "1/2" },
        "metals": { "skin": { "alloy": "5052-H32", "thickness": ".125", "inside_radius": ".125" } },
        "sheets": [ { "metal": "skin", "size": ["48", "96"], "price": 210 }, { "metal": "skin", "size": ["60", "120"], "price": 330 } ],
        "parts": (0..60).map(part).collect::<Vec<Value>>(),
    })
}
