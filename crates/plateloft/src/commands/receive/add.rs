//! `plateloft receive add`: one sheet as it came.

use std::path::PathBuf;

use clap::Args;
use job::{Message, NewReceived, Received, new_received};

use super::super::{StripLog, job_of};
use super::{RECEIVED, file_of, list};
use crate::speech::{Refusal, say};

/// Enters one sheet. Nothing is written unless all of it goes with the job: its metal, a size that is bought, and a
/// thickness within a twentieth of the one ordered.
#[derive(Debug, Args)]
pub(super) struct Add {
    /// The job file
    job: PathBuf,
    /// What is chalked on the sheet; S1, S2 … when not given
    #[arg(long)]
    mark: Option<String>,
    /// The job's name for its metal
    #[arg(long)]
    metal: String,
    /// The size that was ordered
    #[arg(long, num_args = 2, value_names = ["SIZE", "SIZE"], allow_hyphen_values = true)]
    ordered: Vec<String>,
    /// The size that it has
    #[arg(long, num_args = 2, value_names = ["SIZE", "SIZE"], allow_hyphen_values = true)]
    size: Vec<String>,
    /// Its thickness by caliper, of tread plate between the lugs
    #[arg(long, allow_hyphen_values = true)]
    thickness: String,
    /// Both diagonals
    #[arg(long, num_args = 2, value_names = ["LENGTH", "LENGTH"], allow_hyphen_values = true)]
    diagonals: Option<Vec<String>>,
    /// Day it was measured, like 2026-03-04
    #[arg(long)]
    date: String,
    /// Anything else worth knowing
    #[arg(long)]
    note: Option<String>,
}

/// Two sides or two diagonals, as written.
type Pair = [String; 2];

impl Add {
    /// Runs the command.
    pub(super) fn run(&self) -> Result<(), Refusal> {
        let job = job_of(&self.job, &StripLog { log: None })?;
        let file = file_of(&self.job);
        let (ordered, size, diagonals) = self.pairs()?;
        let line = RECEIVED.change(&file, true, |received| {
            let new = NewReceived {
                mark: self.free_mark(received)?,
                metal: self.metal.clone(),
                ordered,
                size,
                thickness: self.thickness.clone(),
                diagonals,
                date: self.date.clone(),
                note: self.note.clone(),
            };
            let sheet = new_received("receive add", &new, job.unit).map_err(refusal)?;
            let against = sheet.against("receive add", &job);
            if !against.is_empty() {
                return Err(refusal(against));
            }
            let line = list::line(&sheet, &job);
            received.sheets.push(sheet);
            Ok(line)
        })?;
        say(&format!("{}: {line}", file.display()));
        Ok(())
    }

    /// The mark that is given, or the next of S1, S2 ….
    fn free_mark(&self, received: &Received) -> Result<String, Refusal> {
        let taken = |mark: &String| {
            received.sheets.iter().any(|sheet| sheet.mark.to_lowercase() == mark.to_lowercase())
        };
        match &self.mark {
            None => {
                let mark = (1..).map(|number| format!("S{number}")).find(|mark| !taken(mark));
                Ok(mark.unwrap_or_default())
            }
            Some(mark) if taken(mark) => Err(Refusal::bad(format!(
                "receive add: {mark}: a sheet of this mark is entered already\n    \
                 take it out with: plateloft receive remove, or give another mark"
            ))),
            Some(mark) => Ok(mark.clone()),
        }
    }

    /// The size ordered, the real one and the diagonals; an option given twice is no pair.
    fn pairs(&self) -> Result<(Pair, Pair, Option<Pair>), Refusal> {
        let pair = |option: &str, texts: &[String]| match texts {
            [first, second] => Ok([first.clone(), second.clone()]),
            _ => Err(format!("receive add: --{option}: two lengths are needed\n    give both, once")),
        };
        let diagonals = self.diagonals.as_deref().map(|texts| pair("diagonals", texts)).transpose();
        match (pair("ordered", &self.ordered), pair("size", &self.size), diagonals) {
            (Ok(ordered), Ok(size), Ok(diagonals)) => Ok((ordered, size, diagonals)),
            (ordered, size, diagonals) => {
                let wrong = [ordered.err(), size.err(), diagonals.err()];
                Err(Refusal::BadInput(wrong.into_iter().flatten().collect()))
            }
        }
    }
}

/// Messages about fields of a sheet, as messages about the options that gave them.
fn refusal(messages: Vec<Message>) -> Refusal {
    let of_option = |message: Message| {
        let field = message.field.split('[').next().unwrap_or_default();
        Message { field: format!("--{field}"), mark: None, ..message }.to_string()
    };
    Refusal::BadInput(messages.into_iter().map(of_option).collect())
}
