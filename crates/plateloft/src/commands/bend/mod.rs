//! `plateloft bend`: one bend worked as a sum, and the shop's log of test strips.

mod log_file;
mod number;
mod strip;
mod strip_add;
mod strip_list;
mod sum;

use clap::{Args, Subcommand, ValueEnum};
use units::{LengthStyle, LengthUnit};

pub(crate) use log_file::find_log;

use crate::speech::Refusal;

/// Works one bend as a sum you can redo on a calculator, or keeps the shop's log of test strips.
///
/// Lengths are read as on a tape: 1/8, .125, 3.2 mm. A turn is measured from flat: a square flange is 90.
#[derive(Debug, Args)]
#[command(args_conflicts_with_subcommands = true, subcommand_negates_reqs = true)]
pub(crate) struct Bend {
    #[command(subcommand)]
    command: Option<BendCommand>,
    #[command(flatten)]
    one: Option<number::OneBend>,
}

#[derive(Debug, Subcommand)]
enum BendCommand {
    /// Keeps the shop's own log of test strips
    Strip(strip::Strip),
}

/// Unit of lengths that are given without one.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum Unit {
    /// Inches
    Inch,
    /// Millimetres
    Mm,
}

impl Bend {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        match (&self.command, &self.one) {
            (Some(BendCommand::Strip(strip)), _) => strip.run(),
            (None, Some(one)) => one.run(),
            (None, None) => Err(Refusal::bad(
                "bend: neither a bend nor a strip is given\n    give --thickness and --radius, or see plateloft bend --help",
            )),
        }
    }
}

impl Unit {
    pub(crate) const fn unit(self) -> LengthUnit {
        match self {
            Self::Inch => LengthUnit::Inch,
            Self::Mm => LengthUnit::Millimetre,
        }
    }

    pub(crate) const fn style(self) -> LengthStyle {
        match self {
            Self::Inch => LengthStyle::Inches { places: 4 },
            Self::Mm => LengthStyle::Millimetres { places: 3 },
        }
    }
}
