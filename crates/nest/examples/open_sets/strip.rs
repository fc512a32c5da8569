//! Irregular strips.

use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

use geometry::grid::{GridOutline, GridPoint, Turn};
use nest::{
    Effort, Mirror, Part, RollNest, RollReason, RollWatch, Rules, Turns, least_roll_length, nest_on_roll,
};
use serde_json::{Value, json};

use crate::options::Options;
use crate::picture;
use crate::row::Row;

type Failure = Box<dyn std::error::Error>;

/// Share of the seconds spent exploring.
const EXPLORING: f64 = 0.9;

/// A strip as the file gives it, on the grid.
struct Strip {
    /// Steps in a unit of the file.
    steps: f64,
    width: i64,
    parts: Vec<Part>,
}

/// Nests one strip and measures.
pub(crate) fn measure(data: &Value, options: &Options) -> Result<Row, Failure> {
    let strip = read(data)?;
    #[expect(clippy::disallowed_methods, reason = "a benchmark reads the clock")]
    let begin = Instant::now();
    let history = Mutex::new(Vec::new());
    let (compact_now, stop) = (AtomicBool::new(false), AtomicBool::new(false));
    let progress = |length: i64| {
        if let Ok(mut history) = history.lock() {
            history.push((begin.elapsed().as_secs_f64(), length));
        }
    };
    let watch = RollWatch { progress: &progress, compact_now: &compact_now, stop: &stop };
    let effort = Effort { evaluations: options.evaluations, starts: options.starts, seed: options.seed };
    let rules = Rules { gap: 0, edge_trim: 0, least_drop: 0 };
    let done = AtomicBool::new(false);
    let nest = std::thread::scope(|scope| {
        scope.spawn(|| ring_bells(options.seconds, begin, &compact_now, &stop, &done));
        let nest = nest_on_roll(&strip.parts, strip.width, rules, &effort, &watch);
        done.store(true, Ordering::Relaxed);
        nest
    })?;
    let seconds = begin.elapsed().as_secs_f64();
    if let Some(folder) = &options.placements {
        write(data, &strip, &nest, folder)?;
    }
    let history = history.into_inner().unwrap_or_default();
    let row = row(data, &strip, &nest, seconds, options.seed, &history);
    if let Some(folder) = &options.pictures {
        let drawn = picture::drawn(&strip.parts, strip.width, &nest, &row, strip.steps);
        written(folder, &format!("{}.svg", row.name), &drawn)?;
    }
    Ok(row)
}

/// Ends the phases when their time has come.
fn ring_bells(seconds: f64, begin: Instant, compact_now: &AtomicBool, stop: &AtomicBool, done: &AtomicBool) {
    while !done.load(Ordering::Relaxed) {
        std::thread::sleep(Duration::from_millis(10));
        let passed = begin.elapsed().as_secs_f64();
        compact_now.store(EXPLORING * seconds <= passed, Ordering::Relaxed);
        stop.store(seconds <= passed, Ordering::Relaxed);
    }
}

fn row(data: &Value, strip: &Strip, nest: &RollNest, seconds: f64, seed: u64, history: &[(f64, i64)]) -> Row {
    let area = data["total_area"].as_f64().unwrap_or(0.0);
    let width = data["strip_width"].as_f64().unwrap_or(1.0);
    let units = |length: i64| number(length) / strip.steps;
    let density = |length: i64| 100.0 * area / (width * units(length));
    // The area is as the file gives it, without rounding to the grid.
    let rules = Rules { gap: 0, edge_trim: 0, least_drop: 0 };
    let proved = least_roll_length(&strip.parts, strip.width, rules);
    let proved = proved.ok().filter(|(_, reason)| *reason != RollReason::Area);
    let longest_need = (area / width).max(proved.map_or(0.0, |(least, _)| units(least)));
    Row {
        name: data["name"].as_str().unwrap_or("?").into(),
        kind: "strip",
        used_length: Some(units(nest.used_length)),
        density_pct: density(nest.used_length),
        count: 1,
        lower_bound: longest_need,
        proved: units(nest.used_length) <= longest_need,
        seconds,
        evaluations: nest.evaluations,
        seed,
        // A nest that fails the verifier is an error, so every row printed has passed it.
        verified: true,
        history: history.iter().map(|&(at, length)| (at, density(length))).collect(),
    }
}

#[expect(clippy::cast_precision_loss, reason = "grid numbers are exact in f64")]
fn number(steps: i64) -> f64 {
    steps as f64
}

fn read(data: &Value) -> Result<Strip, Failure> {
    let width = data["strip_width"].as_f64().ok_or("strip_width is no number")?;
    let mut steps = 1.0;
    while width * steps < 1.0e6 {
        steps *= 10.0;
    }
    let parts = data["parts"].as_array().ok_or("parts is no list")?;
    let parts: Result<Vec<Part>, Failure> =
        parts.iter().enumerate().map(|(index, part)| read_part(index, part, steps)).collect();
    Ok(Strip { steps, width: whole((width * steps).floor())?, parts: parts? })
}

/// Outlines whose corners are whole on the grid are taken as they are, all others rounded outward.
fn read_part(index: usize, part: &Value, steps: f64) -> Result<Part, Failure> {
    let corners = part["outline"].as_array().ok_or("outline is no list")?;
    let corner = |corner: &Value| {
        let number = |value: &Value| value.as_f64().ok_or("a coordinate is no number");
        let scale = steps * geometry::tolerance::GRID_STEP_MM;
        Ok::<_, Failure>(geometry::Point::new(number(&corner[0])? * scale, number(&corner[1])? * scale))
    };
    let outer: Vec<geometry::Point> = corners.iter().map(corner).collect::<Result<_, _>>()?;
    let outline = match whole_corners(&outer) {
        Some(ring) => GridOutline::new(ring, Vec::new())?,
        None => GridOutline::from_polygon(&geometry::Polygon { outer, holes: Vec::new() })?,
    };
    let turns = match part["turns_deg"].as_array() {
        None => Turns::Any,
        Some(list) => {
            let turn =
                |value: &Value| Ok::<_, Failure>(value.as_f64().ok_or("a turn is no number")? * 1000.0);
            let turns: Vec<f64> = list.iter().map(turn).collect::<Result<_, _>>()?;
            let turns: Result<Vec<Turn>, Failure> =
                turns.into_iter().map(|t| Ok(Turn::from_millidegrees(u32::try_from(whole(t)?)?))).collect();
            Turns::Listed(turns?)
        }
    };
    let quantity = u32::try_from(part["count"].as_u64().ok_or("count is no number")?)?;
    Ok(Part { mark: index.to_string(), outline, quantity, turns, mirror: Mirror::Never })
}

fn whole_corners(corners: &[geometry::Point]) -> Option<Vec<GridPoint>> {
    let steps = |mm: f64| {
        let steps = mm / geometry::tolerance::GRID_STEP_MM;
        let near = (steps - steps.round()).abs() * geometry::tolerance::GRID_STEP_MM;
        if near <= geometry::tolerance::SAME_POINT_MM { whole(steps.round()).ok() } else { None }
    };
    corners.iter().map(|corner| Some(GridPoint::new(steps(corner.x)?, steps(corner.y)?))).collect()
}

#[expect(clippy::cast_possible_truncation, reason = "checked against the grid's limit first")]
fn whole(steps: f64) -> Result<i64, Failure> {
    if steps.abs() < 1.0e9 { Ok(steps.round() as i64) } else { Err("a number is beyond the grid".into()) }
}

fn write(data: &Value, strip: &Strip, nest: &RollNest, folder: &str) -> Result<(), Failure> {
    let mut copies = vec![0_u32; strip.parts.len()];
    let placements: Vec<Value> = nest
        .placements
        .iter()
        .map(|placed| {
            let copy = copies[placed.part];
            copies[placed.part] += 1;
            json!({
                "part": placed.part, "copy": copy,
                "turn_deg": f64::from(placed.pose.turn.millidegrees()) / 1000.0,
                "x": number(placed.shift.x) / strip.steps, "y": number(placed.shift.y) / strip.steps,
            })
        })
        .collect();
    let name = data["name"].as_str().unwrap_or("strip");
    let text = json!({
        "name": name, "strip_width": data["strip_width"],
        "used_length": number(nest.used_length) / strip.steps, "placements": placements,
    });
    written(folder, &format!("{name}.json"), &text.to_string())
}

#[expect(clippy::disallowed_methods, reason = "a benchmark writes files")]
fn written(folder: &str, name: &str, text: &str) -> Result<(), Failure> {
    std::fs::create_dir_all(folder)?;
    Ok(std::fs::write(format!("{folder}/{name}"), text)?)
}
