//! `plateloft receive check`: the job for the sheets as they are.

use std::path::PathBuf;

use clap::Args;
use job::{Job, Received};
use paper::lists::ListUnits;
use paper::lists::received::{ChangeRow, ReceivedRow, text};
use serde_json::{Value, json};

use super::super::{RackFirst, StripLog, flats_of, plan_of, reading};
use crate::delivery::{self, Changes};
use crate::output::Numbers;
use crate::plan::{self, Flats, Plan, caliper};
use crate::speech::{Refusal, say, say_json};

/// Works the job anew from the sheets that are entered: flats for their thickness, weights, and the nest on their real
/// sizes. What changed is said in words; ends with 1 when a part no longer fits or can no longer be made.
#[derive(Debug, Args)]
pub(super) struct Check {
    /// The job file
    job: PathBuf,
    #[command(flatten)]
    log: StripLog,
    #[command(flatten)]
    first: RackFirst,
    /// Print it as JSON
    #[arg(long)]
    json: bool,
}

impl Check {
    /// Runs the command.
    pub(super) fn run(&self) -> Result<(), Refusal> {
        let ordered = flats_of(&self.job, &self.log)?;
        let received = super::read(&self.job, &ordered.job)?;
        let [thickest, thinnest] = [1, 0].map(|end: usize| self.flats(&received, end));
        let (thickest, mut told) = thickest.map_err(delivery::no_longer)?;
        let (thinnest, _) = thinnest.map_err(delivery::no_longer)?;
        let changes = delivery::changes(&ordered, &thickest, &thinnest);
        told.extend(changes.sentences(ordered.job.unit));
        told.push(weight_words(&changes, &ordered.job));
        let planned = plan_of(thickest);
        if let Ok(plan) = &planned {
            told.extend(plan.nests.iter().map(|nest| nest_words(plan, nest)));
        }
        let fits = planned.is_ok();
        if self.json {
            say_json(&check_json(&ordered, &received, &changes, (&told, fits)));
        } else {
            say(check_text(&ordered.job, &received, &changes, &told).trim_end());
        }
        planned.map(|_| ()).map_err(delivery::no_longer)
    }

    /// The flats for the thinnest sheet of each metal, or for the thickest.
    fn flats(&self, received: &Received, end: usize) -> Result<(Flats, Vec<String>), Refusal> {
        let thicknesses: Vec<delivery::Thickness> =
            received.thicknesses().into_iter().map(|(metal, ends)| (metal, ends[end])).collect();
        let mut job = reading::read(&self.job, &self.log, &thicknesses)?;
        let mut told = delivery::take_sheets(&mut job, received);
        told.extend(reading::offer_rack(&mut job, &self.first)?);
        Ok((plan::flats(&self.job.display().to_string(), job)?, told))
    }
}

fn weight_words(changes: &Changes, job: &Job) -> String {
    let units = ListUnits::of(job.style);
    let [was, is] = changes.weight.map(|weight| weight.print_with_unit(units.mass, 2));
    if was == is {
        format!("all parts weigh {is}, as before")
    } else {
        format!("all parts weigh {is}, before {was}")
    }
}

/// "skin: fits, on skin-1 (S1 as received, 47 15/16 × 96)".
fn nest_words(plan: &Plan, nest: &plan::MetalNest) -> String {
    let sheets: Vec<&str> = nest.sheets.iter().map(|sheet| sheet.laid.name.as_str()).collect();
    format!("{}: every part fits, on {}", plan.flats.job.metals[nest.metal].metal.name, sheets.join(", "))
}

fn check_text(job: &Job, received: &Received, changes: &Changes, told: &[String]) -> String {
    let rows: Vec<ReceivedRow> = received.sheets.iter().map(|sheet| received_row(job, sheet)).collect();
    let parts: Vec<ChangeRow> = changes
        .parts
        .iter()
        .map(|part| ChangeRow {
            mark: part.mark.clone(),
            blanks: [part.ordered, part.received],
            weights: part.weight,
        })
        .collect();
    let told: Vec<String> = told.iter().map(|sentence| format!("{sentence}.")).collect();
    text(&job.name, &rows, &parts, &told, (ListUnits::of(job.style), caliper(job.unit)))
}

fn received_row(job: &Job, sheet: &job::ReceivedSheet) -> ReceivedRow {
    let metal = job.metals.iter().find(|metal| metal.metal.name == sheet.metal);
    let ordered = metal.map_or(sheet.thickness, |metal| metal.metal.thickness);
    ReceivedRow {
        mark: sheet.mark.clone(),
        metal: sheet.metal.clone(),
        sizes: [sheet.ordered, sheet.size, sheet.squared()],
        thickness: [ordered, sheet.thickness],
    }
}

fn check_json(
    ordered: &Flats,
    received: &Received,
    changes: &Changes,
    (told, fits): (&[String], bool),
) -> Value {
    let job = &ordered.job;
    let numbers = Numbers::of(job);
    let pair = |pair: [units::Length; 2]| pair.map(|side| numbers.length(side));
    let sheets = received.sheets.iter().map(|sheet| {
        let row = received_row(job, sheet);
        json!({
            "mark": row.mark,
            "metal": row.metal,
            "ordered": pair(row.sizes[0]),
            "is": pair(row.sizes[1]),
            "holds": pair(row.sizes[2]),
            "thickness_ordered": numbers.length(row.thickness[0]),
            "thickness": numbers.length(row.thickness[1]),
        })
    });
    let parts = changes.parts.iter().map(|part| {
        json!({
            "mark": part.mark,
            "blank_ordered": pair(part.ordered),
            "blank": pair(part.received),
            "moves": numbers.length(part.moves()),
            "differs_between_sheets": numbers.length(part.between_sheets),
            "weight_ordered": numbers.mass(part.weight[0]),
            "weight": numbers.mass(part.weight[1]),
        })
    });
    json!({
        "plateloft": 1,
        "job": job.name,
        "units": { "length": numbers.length_unit(), "weight": numbers.other_units().1 },
        "fits": fits,
        "told_from": numbers.length(changes.limit),
        "sheets": sheets.collect::<Vec<_>>(),
        "parts": parts.collect::<Vec<_>>(),
        "changes": told,
    })
}
