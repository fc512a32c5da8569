//! The subcommands, one file each.

mod bars;
mod bend;
mod buy;
mod check;
mod flats;
mod nest;
mod new;
mod packet;
mod pictures;
mod quote;
mod rack;
mod schema;
mod strut;
mod take_off;
mod weights;

use std::path::{Path, PathBuf};

use clap::{Args, Parser, Subcommand};

use bend::Unit;

use crate::speech::Refusal;

/// Lays out bent sheet-metal parts: true flat patterns, nested sheets, shop paper and a scrap report.
///
/// Exit codes: 0 done; 1 the answer is no (a part that cannot be bent, nothing written; or a fit check of `check`); 2 bad
/// input, nothing written; 3 an internal proof failed, nothing written.
#[derive(Debug, Parser)]
#[command(name = "plateloft", version, disable_help_subcommand = true)]
pub(crate) struct CommandLine {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Starts a job: writes a commented job file to a folder
    New(new::New),
    /// Reads a job, lays every part flat, proves it, and says what is wrong
    Check(check::Check),
    /// Prints every flat: blank, bend lines from the datum corner, weight
    Flats(flats::Flats),
    /// Nests the flats and compares sheet sizes
    Nest(nest::Nest),
    /// Cuts bars, pipe and section from sticks at least cost
    Bars(bars::Bars),
    /// Writes the whole packet: drawings, outlines, cut list, scrap report
    Packet(packet::Packet),
    /// Draws every part folded and flat, side by side
    Pictures(pictures::Pictures),
    /// Works one bend as a sum you can redo on a calculator
    Bend(Box<bend::Bend>),
    /// Lists what one job or several need, before any sheet is chosen
    TakeOff(take_off::TakeOff),
    /// Compares what every choice of sheets costs, and writes the order
    Buy(buy::Buy),
    /// Prices a job by the shop's own rates
    Quote(quote::Quote),
    /// Weighs parts and finds their centres; lids about their hinges, loads on stations, lifts by hand
    Weights(weights::Weights),
    /// Balances hinged lids with gas struts
    Strut(strut::Strut),
    /// Keeps the shop's rack of offcuts
    Rack(rack::Rack),
    /// Prints the JSON Schema of the job file
    Schema(schema::Schema),
}

/// Runs the command line.
pub(crate) fn run(line: CommandLine) -> Result<(), Refusal> {
    match line.command {
        Command::New(command) => command.run(),
        Command::Check(command) => command.run(),
        Command::Flats(command) => command.run(),
        Command::Nest(command) => command.run(),
        Command::Bars(command) => command.run(),
        Command::Packet(command) => command.run(),
        Command::Pictures(command) => command.run(),
        Command::Bend(command) => command.run(),
        Command::TakeOff(command) => command.run(),
        Command::Buy(command) => command.run(),
        Command::Quote(command) => command.run(),
        Command::Weights(command) => command.run(),
        Command::Strut(command) => command.run(),
        Command::Rack(command) => command.run(),
        Command::Schema(command) => command.run(),
    }
}

/// The shop's log of test strips, for every command that reads a job.
#[derive(Debug, Args)]
struct StripLog {
    /// The shop's log of test strips, instead of the one that the job names or the one beside it
    #[arg(long)]
    log: Option<PathBuf>,
}

/// Reads a job file and the shop's log of strips, and lays all its parts flat.
fn flats_of(path: &Path, log: &StripLog) -> Result<crate::plan::Flats, Refusal> {
    crate::plan::flats(&path.display().to_string(), job_of(path, log)?)
}

/// Reads a job file and the shop's log of strips.
fn job_of(path: &Path, log: &StripLog) -> Result<job::Job, Refusal> {
    let file = path.display().to_string();
    let bytes = read_bytes(path)?;
    let find_log = |named: Option<&str>| bend::find_log(path, log.log.as_deref(), named);
    job::read_with_log(&file, &bytes, &find_log)
        .map_err(|messages| Refusal::BadInput(messages.iter().map(ToString::to_string).collect()))
}

/// The bytes of a file, but no more than a job file can have.
#[expect(clippy::disallowed_methods, reason = "the program is where files are touched")]
fn read_bytes(path: &Path) -> Result<Vec<u8>, Refusal> {
    std::fs::read(path).map_err(|error| {
        Refusal::bad(format!(
            "{}: cannot be read: {error}\n    check the path and its permissions",
            path.display()
        ))
    })
}

/// The shop's rack, for commands that may take offcuts first.
#[derive(Debug, Args)]
struct RackFirst {
    /// Take suitable pieces of this rack first
    #[arg(long, value_name = "RACK")]
    rack: Option<PathBuf>,
}

/// Reads a job, offers it the rack where one is named, and nests it. What there is to say about the rack comes second.
fn plan_with_rack(
    path: &Path,
    log: &StripLog,
    first: &RackFirst,
) -> Result<(crate::plan::Plan, Vec<String>), Refusal> {
    let mut job = job_of(path, log)?;
    let told = match &first.rack {
        Some(file) => crate::costing::offer(&mut job, &rack::read(file)?),
        None => Vec::new(),
    };
    let flats = crate::plan::flats(&path.display().to_string(), job)?;
    Ok((plan_of(flats)?, told))
}

/// Nests the flats of a job, with a word now and then for the person waiting.
fn plan_of(flats: crate::plan::Flats) -> Result<crate::plan::Plan, Refusal> {
    let patience = crate::speech::Patience::new();
    crate::plan::plan(flats, &|news| patience.tell(news))
}
