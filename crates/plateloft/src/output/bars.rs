//! Cutting lists of bars, for the bench and as JSON.

use job::{Job, JobBar};
use nest::bar::CutStick;
use paper::lists::passages::{Column, Passage, in_text, sheet};
use serde_json::{Value, json};
use units::Money;

use super::numbers::Numbers;
use crate::plan::{CutBar, length_of};
use crate::speech::counted;

/// Said once with the lists.
const CAUTION: &str =
    "Lengths are finished lengths, the saw cut lies beyond each. Deburr every end: pipe edges cut.";

/// All bars of a job, as text.
pub(crate) fn bars_text(job: &Job, cut: &[CutBar]) -> String {
    if cut.is_empty() {
        return "The job names no bars.".to_owned();
    }
    in_text(&bars_passages(job, cut))
}

/// All bars of a job: for each what to take, and a table of its sticks.
pub(crate) fn bars_passages(job: &Job, cut: &[CutBar]) -> Vec<Passage> {
    let mut passages: Vec<Passage> = cut.iter().flat_map(|cut| bar_passages(job, cut)).collect();
    passages.push(Passage::Words(CAUTION.to_owned()));
    passages
}

fn bar_passages(job: &Job, cut: &CutBar) -> [Passage; 4] {
    let bar = &job.bars[cut.bar];
    let row = |(number, stick): (usize, &CutStick)| {
        let pieces = runs(&stick.pieces).into_iter().map(|(piece, count)| {
            let (mark, length, _) = &cut.pieces[piece];
            format!("{count} of {mark} at {}", length.print(job.style))
        });
        let (rest, kept) = rest_words(job, bar, stick);
        let pieces = pieces.collect::<Vec<_>>().join(", ");
        vec![(number + 1).to_string(), stick_words(job, bar, stick.stick), pieces, rest, kept.to_owned()]
    };
    let field = |name: &str| format!("{name} of {} (bars)", bar.name);
    let columns = vec![
        Column::numbers("stick", "counted in the order of cutting").as_words(),
        Column::numbers("from", field("sticks")).as_words(),
        Column::numbers(
            "cut",
            format!("{}; how many from which stick by an exact search for the least cost", field("pieces")),
        )
        .as_words(),
        Column::numbers("rest", "the stick, less its end trim, its pieces and a kerf for every cut"),
        Column::words(""),
    ];
    let rows = cut.solution.sticks.iter().enumerate().map(row).collect();
    [
        Passage::Heading(format!("Bar: {}\n", bar.name)),
        Passage::Words(format!("{}\n\n", sum_words(job, bar, cut))),
        sheet(columns, rows, None),
        Passage::Words("\n".to_owned()),
    ]
}

/// "3 sticks: 2 of 240, 1 of 96 from the rack; 168.00, proved least".
fn sum_words(job: &Job, bar: &JobBar, cut: &CutBar) -> String {
    let used = |stick: usize| cut.solution.sticks.iter().filter(|cut| cut.stick == stick).count();
    let kinds: Vec<String> = (0..bar.sticks.len())
        .filter(|&stick| 0 < used(stick))
        .map(|stick| format!("{} of {}", used(stick), stick_words(job, bar, stick)))
        .collect();
    let sticks = counted(cut.solution.count, "stick");
    let cost = if cut.by_money {
        Money::from_cents(cut.solution.cost).print()
    } else {
        format!("{} bought", length_of(cut.solution.cost).print_with_unit(job.style))
    };
    let proof = if cut.solution.proved {
        "proved least".to_owned()
    } else if cut.by_money {
        format!("less than {} is excluded", Money::from_cents(cut.solution.lower_bound).print())
    } else {
        format!("less than {} is excluded", length_of(cut.solution.lower_bound).print(job.style))
    };
    format!("{sticks}: {}; {cost}, {proof}", kinds.join(", "))
}

fn stick_words(job: &Job, bar: &JobBar, stick: usize) -> String {
    let stick = &bar.sticks[stick];
    let rack = if stick.on_rack { " from the rack" } else { "" };
    format!("{}{rack}", stick.length.print(job.style))
}

/// What is left of a stick, and whether it is kept.
fn rest_words(job: &Job, bar: &JobBar, stick: &CutStick) -> (String, &'static str) {
    let rest = length_of(stick.rest);
    let kept = bar.keep_rest.is_some_and(|least| least <= rest);
    (rest.print(job.style), if kept { "keep it" } else { "" })
}

/// Equal pieces in a row, counted.
fn runs(pieces: &[usize]) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for &piece in pieces {
        match runs.last_mut() {
            Some((last, count)) if *last == piece => *count += 1,
            _ => runs.push((piece, 1)),
        }
    }
    runs
}

/// All bars of a job, as JSON.
pub(crate) fn bars_json(job: &Job, cut: &[CutBar]) -> Value {
    let numbers = Numbers::of(job);
    let bar = |cut: &CutBar| {
        let bar = &job.bars[cut.bar];
        let stick = |stick: &CutStick| {
            let marks: Vec<&str> = stick.pieces.iter().map(|&piece| cut.pieces[piece].0.as_str()).collect();
            json!({
                "length": numbers.length(bar.sticks[stick.stick].length),
                "on_rack": bar.sticks[stick.stick].on_rack,
                "pieces": marks,
                "rest": numbers.length(length_of(stick.rest)),
            })
        };
        let cost = |cost: i64| if cut.by_money { json!(cost) } else { numbers.length(length_of(cost)) };
        json!({
            "bar": bar.name,
            "least": if cut.by_money { "money" } else { "length" },
            "cost": cost(cut.solution.cost),
            "least_possible": cost(cut.solution.lower_bound),
            "proved_least": cut.solution.proved,
            "pieces": cut.pieces.iter().map(|(mark, length, quantity)| json!({
                "mark": mark, "length": numbers.length(*length), "quantity": quantity,
            })).collect::<Vec<_>>(),
            "sticks": cut.solution.sticks.iter().map(stick).collect::<Vec<_>>(),
        })
    };
    json!({
        "plateloft": 1,
        "job": job.name,
        "units": { "length": numbers.length_unit(), "money": "cent" },
        "bars": cut.iter().map(bar).collect::<Vec<_>>(),
    })
}
