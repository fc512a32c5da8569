//! `plateloft pictures`: every part folded and flat, side by side.

use std::path::PathBuf;

use clap::Args;

use crate::output;
use crate::speech::{self, Refusal};

/// Draws every part twice in one small picture, folded and flat, without words: for a quote, a letter or a document.
#[derive(Debug, Args)]
pub(crate) struct Pictures {
    /// The job file
    job: PathBuf,
    #[command(flatten)]
    log: super::StripLog,
    /// Folder for the pictures; it must be new or empty
    #[arg(long)]
    out: PathBuf,
}

impl Pictures {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let flats = super::flats_of(&self.job, &self.log)?;
        output::pictures(&flats).write(&self.out)?;
        speech::tell(&format!("wrote {}", self.out.display()));
        Ok(())
    }
}
