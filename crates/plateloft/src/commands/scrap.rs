//! `plateloft scrap`: what becomes of the metal that is bought.

use std::path::PathBuf;

use clap::Args;

use super::{AsReceived, RackFirst, StripLog, plan_for_bench};
use crate::output;
use crate::speech::{Refusal, say, say_json};

/// Prints what becomes of every sheet: parts, kept drops, kerf, trim and scrap, which add up to what was bought in area,
/// weight and money; and what the dealer pays for the scrap.
#[derive(Debug, Args)]
pub(crate) struct Scrap {
    /// The job file
    job: PathBuf,
    #[command(flatten)]
    log: StripLog,
    #[command(flatten)]
    first: RackFirst,
    #[command(flatten)]
    received: AsReceived,
    /// Print it as JSON
    #[arg(long)]
    json: bool,
}

impl Scrap {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let plan = plan_for_bench(&self.job, &self.log, &self.first, &self.received)?;
        if self.json {
            say_json(&output::scrap_json(&plan.flats.job, &plan.report));
        } else {
            say(output::scrap_text(&plan).trim_end());
        }
        Ok(())
    }
}
