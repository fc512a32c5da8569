//! `plateloft rack keep`: the rule by which a piece is kept or scrapped.

use clap::Args;
use units::Length;

use super::super::Unit;
use super::{RackPath, rack_file, words};
use crate::speech::{Refusal, say};

/// Keeps from now on only pieces that hold a rectangle of these sizes, either way round. What is there stays.
#[derive(Debug, Args)]
pub(super) struct Keep {
    #[command(flatten)]
    rack: RackPath,
    /// The least sizes
    #[arg(num_args = 2, value_names = ["SIZE", "SIZE"], allow_negative_numbers = true, required = true)]
    least: Vec<String>,
    /// Unit of lengths given without one
    #[arg(long, value_enum, default_value = "inch")]
    units: Unit,
}

impl Keep {
    /// Runs the command.
    pub(super) fn run(&self) -> Result<(), Refusal> {
        let mut sizes = Vec::new();
        let mut wrong = Vec::new();
        for text in &self.least {
            match Length::read(text, self.units.unit()) {
                Ok(length) if length > Length::ZERO => sizes.push(length),
                Ok(_) => {
                    wrong.push(format!("rack keep: {text}: must be above zero\n    give the least size"));
                }
                Err(error) => wrong.push(format!("rack keep: {text}: {error}\n    {}", error.remedy())),
            }
        }
        let [a, b] = sizes[..] else { return Err(Refusal::BadInput(wrong)) };
        let least = [a.min(b), a.max(b)];
        rack_file::change(&self.rack.rack, true, |rack| {
            rack.least = Some(least);
            Ok(())
        })?;
        let [a, b] = least.map(|size| size.print(words::by_tape(self.units.style())));
        say(&format!("{}: kept are pieces that hold {a} × {b}", self.rack.rack.display()));
        Ok(())
    }
}
