//! Cuts every instance of a file of one-dimensional sets and prints one row each.
//!
//! `cargo run --release -p nest --example bar_sets -- FILE... [--json] [--check]`
//!
//! A file is a list of `{"name", "stock", "pieces": [length...]}`; lengths with up to three decimals.
//! `--check` checks every proof by the independent checker of the tests.
#![expect(clippy::print_stdout, reason = "an example prints its rows")]

#[path = "../tests/all/bar_checks/mod.rs"]
mod bar_checks;

use std::time::Instant;

use nest::bar::{Effort, Piece, Problem, Saw, Solution, Stick, solve, verify};
use serde_json::{Value, json};

type Failure = Box<dyn std::error::Error>;

fn main() -> Result<(), Failure> {
    let (options, files): (Vec<String>, Vec<String>) =
        std::env::args().skip(1).partition(|a| a.starts_with("--"));
    let check = options.iter().any(|option| option == "--check");
    let as_json = options.iter().any(|option| option == "--json");
    for file in files {
        #[expect(clippy::disallowed_methods, reason = "the file is named on the command line")]
        let text = std::fs::read_to_string(&file)?;
        for instance in serde_json::from_str::<Vec<Value>>(&text)? {
            let row = run(&instance, check)?;
            println!("{}", if as_json { row.to_string() } else { plain(&row) });
        }
    }
    Ok(())
}

/// Solves one instance and times it.
fn run(instance: &Value, check: bool) -> Result<Value, Failure> {
    let name = instance["name"].as_str().ok_or("an instance has no name")?;
    let problem = read(instance)?;
    #[expect(
        clippy::disallowed_methods,
        reason = "a benchmark measures time; the answer does not depend on it"
    )]
    let start = Instant::now();
    let solution = solve(&problem, &Effort::default())?;
    let seconds = start.elapsed().as_secs_f64();
    let mut row = row(name, &problem, &solution, seconds);
    if check {
        bar_checks::proof::check(&problem, &solution.proof, solution.lower_bound)?;
        row["proof_checked"] = true.into();
    }
    Ok(row)
}

fn row(name: &str, problem: &Problem, solution: &Solution, seconds: f64) -> Value {
    json!({
        "name": name, "kind": "bars", "used_length": null, "density_pct": density(problem, solution),
        "count": solution.count, "lower_bound": solution.lower_bound, "proved": solution.proved,
        "seconds": (seconds * 1e4).round() / 1e4, "evaluations": solution.evaluations, "seed": 0,
        "verified": verify(problem, &solution.sticks).is_ok(),
    })
}

/// Length of all pieces by length of all sticks, in per cent.
fn density(problem: &Problem, solution: &Solution) -> f64 {
    let cut: f64 = problem.pieces().iter().map(|piece| piece.length as f64 * piece.quantity as f64).sum();
    let bought: f64 = solution.sticks.iter().map(|stick| problem.sticks()[stick.stick].length as f64).sum();
    100.0 * cut / bought
}

fn read(instance: &Value) -> Result<Problem, Failure> {
    let lengths = instance["pieces"].as_array().ok_or("an instance has no pieces")?;
    let piece = |(at, value): (usize, &Value)| {
        Ok(Piece { mark: format!("{}", at + 1), length: steps(value)?, quantity: 1 })
    };
    let pieces = lengths.iter().enumerate().map(piece).collect::<Result<Vec<_>, Failure>>()?;
    let stick = Stick { name: "stick".into(), length: steps(&instance["stock"])?, price: 1, limit: None };
    Problem::new(pieces, vec![stick], Saw::default()).map_err(|faults| format!("{faults:?}").into())
}

/// A length in thousandths of the file's unit.
#[expect(clippy::cast_possible_truncation, reason = "lengths of the sets are small and checked to be whole")]
fn steps(value: &Value) -> Result<i64, Failure> {
    let thousandths = value.as_f64().ok_or("a length is not a number")? * 1000.0;
    if (thousandths - thousandths.round()).abs() < 1e-6 {
        Ok(thousandths.round() as i64)
    } else {
        Err("a length has more than three decimals".into())
    }
}

fn plain(row: &Value) -> String {
    format!(
        "{} {} sticks, bound {}, proved {}, {} s",
        row["name"], row["count"], row["lower_bound"], row["proved"], row["seconds"]
    )
}
