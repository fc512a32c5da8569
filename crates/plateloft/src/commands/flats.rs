//! `plateloft flats`: every flat in numbers.

use std::path::PathBuf;

use clap::Args;

use crate::output;
use crate::speech::{Refusal, say, say_json};

/// Prints every flat: blank, bend lines from the datum corner, turns, weight, and whose bend number was used.
#[derive(Debug, Args)]
pub(crate) struct Flats {
    /// The job file
    job: PathBuf,
    #[command(flatten)]
    log: super::StripLog,
    #[command(flatten)]
    received: super::AsReceived,
    /// Print all numbers as JSON
    #[arg(long)]
    json: bool,
    /// Print what folding every flat again showed: worst deviation, every size, least and largest gap of every seam
    #[arg(long, conflicts_with = "json")]
    refold: bool,
}

impl Flats {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let flats = super::flats_as_received(&self.job, &self.log, &self.received)?;
        if self.json {
            say_json(&output::flats_json(&flats));
        } else if self.refold {
            say(&output::refold_text(&flats));
        } else {
            say(&output::flats_text(&flats));
        }
        Ok(())
    }
}
