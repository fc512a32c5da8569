//! `plateloft receive remove`: a wrong entry taken out.

use std::path::PathBuf;

use clap::Args;

use super::{RECEIVED, file_of};
use crate::speech::{Refusal, say};

/// Takes entries out by their marks.
#[derive(Debug, Args)]
pub(super) struct Remove {
    /// The job file
    job: PathBuf,
    /// Marks of the sheets
    #[arg(required = true)]
    marks: Vec<String>,
}

impl Remove {
    /// Runs the command.
    pub(super) fn run(&self) -> Result<(), Refusal> {
        RECEIVED.change(&file_of(&self.job), false, |received| {
            let mut wrong = Vec::new();
            for mark in &self.marks {
                let before = received.sheets.len();
                received.sheets.retain(|sheet| sheet.mark.to_lowercase() != mark.to_lowercase());
                if received.sheets.len() == before {
                    wrong.push(format!(
                        "receive remove: {mark}: no sheet of this mark is entered\n    see plateloft receive list"
                    ));
                }
            }
            if wrong.is_empty() { Ok(()) } else { Err(Refusal::BadInput(wrong)) }
        })?;
        say(&format!("{}: taken out", self.marks.join(", ")));
        Ok(())
    }
}
