//! `plateloft schema`: the JSON Schema of the job file, made from the structs that read it.
#![expect(clippy::print_stdout, reason = "the schema is this command's data")]

use clap::Args;

use crate::speech::Refusal;

/// Prints the JSON Schema of the job file.
#[derive(Debug, Args)]
pub(crate) struct Schema {}

impl Schema {
    /// Runs the command.
    #[expect(clippy::unnecessary_wraps, reason = "all commands run alike")]
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        println!("{}", job::schema());
        Ok(())
    }
}
