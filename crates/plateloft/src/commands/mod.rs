//! The subcommands, one file each.

mod bend;

use clap::{Parser, Subcommand};

use crate::speech::Refusal;

/// Lays out bent sheet-metal parts: true flat patterns, nested sheets, shop paper and a scrap report.
///
/// Exit codes: 0 done; 1 the answer is no; 2 bad input, nothing written; 3 an internal proof failed, nothing written.
#[derive(Debug, Parser)]
#[command(name = "plateloft", version, disable_help_subcommand = true)]
pub(crate) struct CommandLine {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Works one bend as a sum you can redo on a calculator.
    Bend(bend::Bend),
}

/// Runs the command line.
pub(crate) fn run(line: CommandLine) -> Result<(), Refusal> {
    match line.command {
        Command::Bend(bend) => bend.run(),
    }
}
