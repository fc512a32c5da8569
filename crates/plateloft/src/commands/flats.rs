//! `plateloft flats`: every flat in numbers.
#![expect(clippy::print_stdout, reason = "the flats are this command's data")]

use std::path::PathBuf;

use clap::Args;

use crate::output;
use crate::speech::Refusal;

/// Prints every flat: blank, bend lines from the datum corner, turns, weight, and whose bend number was used.
#[derive(Debug, Args)]
pub(crate) struct Flats {
    /// The job file
    job: PathBuf,
    /// Print all numbers as JSON
    #[arg(long)]
    json: bool,
}

impl Flats {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let flats = super::flats_of(&self.job)?;
        if self.json {
            println!("{:#}", output::flats_json(&flats));
        } else {
            println!("{}", output::flats_text(&flats));
        }
        Ok(())
    }
}
