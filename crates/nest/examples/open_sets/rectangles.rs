//! Rectangles on sheets of one size.

use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

use nest::Effort;
use nest::rect::{Cutting, Packing, Piece, Problem, Shear, Watch, pack, verify};
use serde_json::{Value, json};

use crate::options::Options;
use crate::row::Row;

type Failure = Box<dyn std::error::Error>;

/// Packs one instance and measures.
pub(crate) fn measure(data: &Value, options: &Options) -> Result<Row, Failure> {
    let problem = read(data, options)?;
    #[expect(clippy::disallowed_methods, reason = "a benchmark reads the clock")]
    let begin = Instant::now();
    let (stop, done) = (AtomicBool::new(false), AtomicBool::new(false));
    let effort = Effort { evaluations: options.evaluations, starts: options.starts, seed: options.seed };
    let packing = std::thread::scope(|scope| {
        scope.spawn(|| {
            while !done.load(Ordering::Relaxed) {
                std::thread::sleep(Duration::from_millis(1));
                stop.store(options.seconds <= begin.elapsed().as_secs_f64(), Ordering::Relaxed);
            }
        });
        let packing = pack(&problem, &effort, Watch { stop: &stop });
        done.store(true, Ordering::Relaxed);
        packing
    })?;
    if let Some(folder) = &options.placements {
        write(data, &packing, folder)?;
    }
    let count = u32::try_from(packing.sheets.len())?;
    Ok(Row {
        name: data["name"].as_str().unwrap_or("?").into(),
        kind: "bins",
        used_length: None,
        density_pct: density(&problem, count),
        count,
        lower_bound: f64::from(if packing.proved { count } else { packing.bound.sheets }),
        proved: packing.proved,
        seconds: begin.elapsed().as_secs_f64(),
        evaluations: packing.evaluations,
        seed: options.seed,
        verified: verify(&problem, &packing.sheets).is_ok(),
        history: Vec::new(),
    })
}

#[expect(clippy::cast_precision_loss, reason = "sizes of the sets are small")]
fn density(problem: &Problem, count: u32) -> f64 {
    let area = |(l, w): (i64, i64)| l as f64 * w as f64;
    let pieces = problem.pieces().iter();
    let cut: f64 = pieces.map(|p| f64::from(p.quantity) * area((p.length, p.width))).sum();
    100.0 * cut / (f64::from(count) * area(problem.sheet()))
}

fn read(data: &Value, options: &Options) -> Result<Problem, Failure> {
    let number = |value: &Value| value.as_i64().ok_or("a size is no whole number");
    let pieces = data["pieces"].as_array().ok_or("pieces is no list")?;
    let piece = |(at, piece): (usize, &Value)| {
        let quantity = u32::try_from(number(&piece[2])?)?;
        let (length, width) = (number(&piece[0])?, number(&piece[1])?);
        Ok::<_, Failure>(Piece { mark: at.to_string(), length, width, quantity, may_turn: options.turns })
    };
    let pieces = pieces.iter().enumerate().map(piece).collect::<Result<_, _>>()?;
    let sheet = (number(&data["sheet"][0])?, number(&data["sheet"][1])?);
    let cutting = if options.shear { Cutting::Shear(Shear::default()) } else { Cutting::Free };
    Problem::new(pieces, sheet, 0, cutting).map_err(|faults| format!("{faults:?}").into())
}

fn write(data: &Value, packing: &Packing, folder: &str) -> Result<(), Failure> {
    let sheet = |sheet: &nest::rect::Sheet| -> Vec<Value> {
        let placed = sheet.iter();
        placed
            .map(|p| json!({"part": p.piece, "turn_deg": if p.turned { 90 } else { 0 }, "x": p.x, "y": p.y}))
            .collect()
    };
    let name = data["name"].as_str().unwrap_or("rectangles");
    let sheets: Vec<Vec<Value>> = packing.sheets.iter().map(sheet).collect();
    let text = json!({"name": name, "sheet": data["sheet"], "sheets": sheets});
    #[expect(clippy::disallowed_methods, reason = "a benchmark writes files")]
    {
        std::fs::create_dir_all(folder)?;
        std::fs::write(format!("{folder}/{name}.json"), text.to_string())?;
    }
    Ok(())
}
