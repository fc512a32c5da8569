//! `plateloft receive list`: what is entered.

use std::path::PathBuf;

use clap::Args;
use job::{Job, ReceivedSheet};
use units::Length;

use super::super::{StripLog, job_of};
use super::{RECEIVED, file_of};
use crate::plan::caliper;
use crate::speech::{Refusal, say};

/// Prints every sheet that is entered for a job.
#[derive(Debug, Args)]
pub(super) struct List {
    /// The job file
    job: PathBuf,
}

impl List {
    /// Runs the command.
    pub(super) fn run(&self) -> Result<(), Refusal> {
        let job = job_of(&self.job, &StripLog { log: None })?;
        let received = RECEIVED.read(&file_of(&self.job))?;
        let lines: Vec<String> = received.sheets.iter().map(|sheet| line(sheet, &job)).collect();
        say(if lines.is_empty() { "no sheet is entered".to_owned() } else { lines.join("\n") }.as_str());
        Ok(())
    }
}

/// "S1  skin  48 × 96 measures 47 15/16 × 96, .1240 thick  2026-03-04".
pub(super) fn line(sheet: &ReceivedSheet, job: &Job) -> String {
    let pair = |[a, b]: [Length; 2]| format!("{} × {}", a.print(job.style), b.print(job.style));
    let diagonals =
        sheet.diagonals.map(|pair_of| format!(", diagonals {}", pair(pair_of).replace(" × ", " and ")));
    let note = sheet.note.as_ref().map(|note| format!("; {note}")).unwrap_or_default();
    format!(
        "{}  {}  {} measures {}, {} thick{}  {}{note}",
        sheet.mark,
        sheet.metal,
        pair(sheet.ordered),
        pair(sheet.size),
        sheet.thickness.print(caliper(job.unit)),
        diagonals.unwrap_or_default(),
        sheet.date
    )
}
