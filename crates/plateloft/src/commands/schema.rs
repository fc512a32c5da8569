//! `plateloft schema`: the JSON Schema of the job file, or of a line of the strip log, made from the structs that read
//! them.

use clap::Args;

use crate::speech::{Refusal, say};

/// Prints the JSON Schema of the job file.
#[derive(Debug, Args)]
pub(crate) struct Schema {
    /// That of one line of the shop's log of test strips instead.
    #[arg(long)]
    strip_log: bool,
}

impl Schema {
    /// Runs the command.
    #[expect(clippy::unnecessary_wraps, reason = "all commands run alike")]
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        say(&if self.strip_log { job::strip_line_schema() } else { job::schema() });
        Ok(())
    }
}
