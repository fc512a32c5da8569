//! Bars: one-dimensional sets, solved to proven least count.

use std::time::Instant;

use nest::bar::{Effort, Piece, Problem, Saw, Stick, solve, verify};
use serde_json::Value;

use crate::bar_checks;
use crate::options::Options;
use crate::row::Row;

type Failure = Box<dyn std::error::Error>;

/// Cuts one instance and measures; with `--check` an independent checker goes over the proof.
pub(crate) fn measure(data: &Value, options: &Options) -> Result<Row, Failure> {
    let lengths = data["pieces"].as_array().ok_or("pieces is no list")?;
    let piece = |(at, value): (usize, &Value)| {
        Ok::<_, Failure>(Piece { mark: at.to_string(), length: steps(value)?, quantity: 1 })
    };
    let pieces: Vec<Piece> = lengths.iter().enumerate().map(piece).collect::<Result<_, _>>()?;
    let stick = Stick { name: "stick".into(), length: steps(&data["stock"])?, price: 1, limit: None };
    let problem =
        Problem::new(pieces, vec![stick], Saw::default()).map_err(|faults| format!("{faults:?}"))?;
    #[expect(clippy::disallowed_methods, reason = "a benchmark reads the clock")]
    let begin = Instant::now();
    let solution = solve(&problem, &Effort { seed: options.seed, ..Effort::default() })?;
    let seconds = begin.elapsed().as_secs_f64();
    if options.check {
        bar_checks::proof::check(&problem, &solution.proof, solution.lower_bound)?;
    }
    Ok(Row {
        name: data["name"].as_str().unwrap_or("?").into(),
        kind: "bars",
        used_length: None,
        density_pct: density(&problem, solution.sticks.iter().map(|stick| stick.stick)),
        count: u32::try_from(solution.count)?,
        lower_bound: number(solution.lower_bound),
        proved: solution.proved,
        seconds,
        evaluations: solution.evaluations,
        seed: options.seed,
        verified: verify(&problem, &solution.sticks).is_ok(),
        history: Vec::new(),
    })
}

/// Length of all pieces by length of all sticks, in per cent.
fn density(problem: &Problem, sticks: impl Iterator<Item = usize>) -> f64 {
    let cut: f64 = problem.pieces().iter().map(|piece| number(piece.length) * number(piece.quantity)).sum();
    100.0 * cut / sticks.map(|stick| number(problem.sticks()[stick].length)).sum::<f64>()
}

/// A length in thousandths of the file's unit.
#[expect(clippy::cast_possible_truncation, reason = "lengths of the sets are small and checked to be whole")]
fn steps(value: &Value) -> Result<i64, Failure> {
    let thousandths = value.as_f64().ok_or("a length is no number")? * 1000.0;
    let whole = thousandths.round();
    if (thousandths - whole).abs() < geometry::tolerance::SAME_POINT_MM {
        Ok(whole as i64)
    } else {
        Err("a length has more than three decimals".into())
    }
}

#[expect(clippy::cast_precision_loss, reason = "counts and lengths of the sets are exact in f64")]
fn number<T: TryInto<i64>>(value: T) -> f64 {
    value.try_into().unwrap_or(0) as f64
}
