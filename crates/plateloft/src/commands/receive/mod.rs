//! `plateloft receive`: sheets as they came, and the job checked again before it is cut.

mod add;
mod check;
mod list;
mod remove;

use std::path::{Path, PathBuf};

use clap::{Args, Subcommand};
use job::{Job, Received, read_received, received_text};

use super::shop_file::Kind;
use crate::speech::Refusal;

/// Keeps what was measured on the sheets that came for a job, in a file beside it, and checks the job against them.
///
/// JOB.received.json stands beside JOB.json. It is changed under a lock and replaced in one step; the file before the last
/// change stays beside it with `.bak` at its name.
#[derive(Debug, Args)]
pub(crate) struct Receive {
    #[command(subcommand)]
    command: ReceiveCommand,
}

#[derive(Debug, Subcommand)]
enum ReceiveCommand {
    /// Enters one sheet with its real size and its thickness by caliper
    Add(Box<add::Add>),
    /// Prints what is entered
    List(list::List),
    /// Takes a wrong entry out
    Remove(remove::Remove),
    /// Lays out, folds and nests the job anew for the sheets as they are, and says what changed
    Check(check::Check),
}

const RECEIVED: Kind<Received> = Kind {
    name: "the sheets received",
    missing: "enter sheets first with: plateloft receive add",
    read: read_received,
    text: received_text,
};

impl Receive {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        match &self.command {
            ReceiveCommand::Add(command) => command.run(),
            ReceiveCommand::List(command) => command.run(),
            ReceiveCommand::Remove(command) => command.run(),
            ReceiveCommand::Check(command) => command.run(),
        }
    }
}

/// The file with the sheets received for a job: `skiff.received.json` for `skiff.json`.
pub(super) fn file_of(job: &Path) -> PathBuf {
    let stem = job.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    job.with_file_name(format!("{stem}.received.json"))
}

/// The sheets received for a job, held against it.
pub(super) fn read(path: &Path, ordered: &Job) -> Result<Received, Refusal> {
    let file = file_of(path);
    let received = RECEIVED.read(&file)?;
    let against = received.against(&file.display().to_string(), ordered);
    if !against.is_empty() {
        return Err(Refusal::of(&against));
    }
    if received.sheets.is_empty() {
        return Err(Refusal::bad(format!(
            "{}: no sheet is entered\n    {}",
            file.display(),
            RECEIVED.missing
        )));
    }
    Ok(received)
}
