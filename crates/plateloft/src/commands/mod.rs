//! The subcommands, one file each.

mod bars;
mod bend;
mod buy;
mod check;
mod coverings;
mod flats;
mod interrupt;
mod kit;
mod nest;
mod new;
mod order;
mod packet;
mod pictures;
mod quote;
mod rack;
mod reading;
mod receive;
mod schema;
mod scrap;
mod shop_file;
mod strut;
mod take_off;
mod weights;

use clap::{Parser, Subcommand};

use bend::Unit;
use interrupt::Wait;
use reading::{
    AsReceived, RackFirst, StripLog, flats_as_received, flats_of, job_as_received, job_of, plan_for_bench,
    plan_of, plan_with_rack,
};

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
    /// Lays roll goods with their nap and pattern, and wear liner with room to grow
    Coverings(coverings::Coverings),
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
    /// Writes the order to the supplier, with the check of what comes
    Order(order::Order),
    /// Enters sheets as they were received, and checks the job again before it is cut
    Receive(receive::Receive),
    /// Packs the flats of a kit into crates, with lists, cards and a test strip for the buyer
    Kit(kit::Kit),
    /// Says what becomes of the metal that is bought
    Scrap(scrap::Scrap),
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
        Command::Coverings(command) => command.run(),
        Command::Packet(command) => command.run(),
        Command::Pictures(command) => command.run(),
        Command::Bend(command) => command.run(),
        Command::TakeOff(command) => command.run(),
        Command::Buy(command) => command.run(),
        Command::Order(command) => command.run(),
        Command::Receive(command) => command.run(),
        Command::Kit(command) => command.run(),
        Command::Scrap(command) => command.run(),
        Command::Quote(command) => command.run(),
        Command::Weights(command) => command.run(),
        Command::Strut(command) => command.run(),
        Command::Rack(command) => command.run(),
        Command::Schema(command) => command.run(),
    }
}
