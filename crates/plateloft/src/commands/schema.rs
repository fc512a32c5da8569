//! `plateloft schema`: the JSON Schema of the job file, made from the structs that read it.

use clap::Args;

use crate::speech::{Refusal, say};

/// Prints the JSON Schema of the job file.
#[derive(Debug, Args)]
pub(crate) struct Schema {}

impl Schema {
    /// Runs the command.
    #[expect(clippy::unnecessary_wraps, reason = "all commands run alike")]
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        say(&job::schema());
        Ok(())
    }
}
