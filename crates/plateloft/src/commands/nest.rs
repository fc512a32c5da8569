//! `plateloft nest`: how many sheets of which size.

use std::path::PathBuf;

use clap::Args;

use crate::output;
use crate::speech::{Refusal, say, say_json};

/// Nests the flats, compares every sheet size with the best mix, and says what is proved.
#[derive(Debug, Args)]
pub(crate) struct Nest {
    /// The job file
    job: PathBuf,
    #[command(flatten)]
    log: super::StripLog,
    #[command(flatten)]
    first: super::RackFirst,
    #[command(flatten)]
    received: super::AsReceived,
    #[command(flatten)]
    wait: super::Wait,
    /// Print the nest as JSON
    #[arg(long)]
    json: bool,
}

impl Nest {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        self.wait.begin("nest")?;
        let plan = super::plan_for_bench(&self.job, &self.log, &self.first, &self.received)?;
        if self.json {
            say_json(&output::nest_json(&plan));
        } else {
            say(&output::nest_text(&plan));
        }
        Ok(())
    }
}
