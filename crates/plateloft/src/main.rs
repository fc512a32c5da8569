//! From a job file to flat patterns, nested sheets and shop paper.
//!
//! `plan` turns a job into a plan without touching a file; `output` writes it; each subcommand has its own file under
//! `commands`. Data goes to stdout, talk to stderr.

mod commands;
mod costing;
mod delivery;
mod kit;
mod output;
mod plan;
mod speech;

use std::process::ExitCode;

use clap::Parser;

fn main() -> ExitCode {
    let line = commands::CommandLine::parse();
    match commands::run(line) {
        Ok(()) => ExitCode::SUCCESS,
        Err(refusal) => refusal.report(),
    }
}
