//! `plateloft bars`: cutting lists of bars, pipe and section.

use std::path::PathBuf;

use clap::Args;

use crate::speech::{Refusal, say, say_json};
use crate::{output, plan};

/// Cuts the job's bars, pipe and section from sticks at least cost, and says what is proved.
#[derive(Debug, Args)]
pub(crate) struct Bars {
    /// The job file
    job: PathBuf,
    #[command(flatten)]
    log: super::StripLog,
    /// Print the lists as JSON
    #[arg(long)]
    json: bool,
}

impl Bars {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let flats = super::flats_of(&self.job, &self.log)?;
        let cut = plan::cut_bars(&flats)?;
        if self.json {
            say_json(&output::bars_json(&flats.job, &cut));
        } else {
            say(&output::bars_text(&flats.job, &cut));
        }
        Ok(())
    }
}
