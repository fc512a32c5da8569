//! `plateloft coverings`: roll goods and wear liner.

use std::path::PathBuf;

use clap::Args;

use crate::output;
use crate::plan::Others;
use crate::speech::{Refusal, say, say_json};

/// Lays matting, carpet and liner of the job on as little roll as is found, nap and pattern kept, and divides wear liner into
/// panels with room to grow.
#[derive(Debug, Args)]
pub(crate) struct Coverings {
    /// The job file
    job: PathBuf,
    #[command(flatten)]
    log: super::StripLog,
    /// Print the lists as JSON
    #[arg(long)]
    json: bool,
}

impl Coverings {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let job = super::job_of(&self.job, &self.log)?;
        let file = self.job.display().to_string();
        let others = Others::of(&file, &job)?;
        if self.json {
            say_json(&output::coverings_json(&job, &others));
        } else {
            say(output::coverings_text(&job, &others).trim_end());
        }
        Ok(())
    }
}
