//! `plateloft rack`: the shop's rack of offcuts.

mod add;
mod drops;
mod give_back;
mod keep;
mod label;
mod list;
mod rack_file;
mod take;
mod words;

use std::path::PathBuf;

use clap::{Args, Subcommand};

pub(super) use rack_file::read;

use crate::speech::Refusal;

/// Keeps the shop's rack of offcuts in a file of its own: what is there, of what metal, where it stands, for whom.
///
/// The file is changed under a lock and replaced in one step; the rack before the last change stays beside it with
/// `.bak` at its name.
#[derive(Debug, Args)]
pub(crate) struct Rack {
    #[command(subcommand)]
    command: RackCommand,
}

#[derive(Debug, Subcommand)]
enum RackCommand {
    /// Prints what stands in the rack, or what of it suits a job
    List(list::List),
    /// Puts a piece in the rack
    Add(Box<add::Add>),
    /// Takes pieces out for a job, or reserves them
    Take(take::Take),
    /// Draws labels to stick on the pieces
    Label(label::Label),
    /// Puts pieces back, or the kept drops of a finished job
    Return(give_back::Return),
    /// Says what size of piece is worth keeping
    Keep(keep::Keep),
}

/// Which rack.
#[derive(Debug, Args)]
struct RackPath {
    /// The rack
    #[arg(long, default_value = rack_file::NAME)]
    rack: PathBuf,
}

impl Rack {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        match &self.command {
            RackCommand::List(command) => command.run(),
            RackCommand::Add(command) => command.run(),
            RackCommand::Take(command) => command.run(),
            RackCommand::Label(command) => command.run(),
            RackCommand::Return(command) => command.run(),
            RackCommand::Keep(command) => command.run(),
        }
    }
}
