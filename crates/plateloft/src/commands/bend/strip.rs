//! `plateloft bend strip`: the shop's log of test strips.

use clap::{Args, Subcommand};
use fold::bend::{ShopStrip, formula};
use job::LoggedStrip;
use serde_json::{Value, json};
use units::{Length, LengthStyle, LengthUnit};

use super::{strip_add, strip_list};
use crate::speech::Refusal;

/// Keeps the shop's own log of test strips: one line a strip, beside the jobs that use it.
///
/// Cut a strip, note its length, bend it once across, and measure both legs over the outside. A job takes its bend
/// numbers from the strips nearest in metal, die, radius, thickness and turn.
#[derive(Debug, Args)]
pub(crate) struct Strip {
    #[command(subcommand)]
    command: StripCommand,
}

#[derive(Debug, Subcommand)]
enum StripCommand {
    /// Adds a strip to the log and prints the bend number it gives
    Add(Box<strip_add::Add>),
    /// Prints every strip of the log with its bend number
    List(strip_list::List),
}

impl Strip {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        match &self.command {
            StripCommand::Add(add) => add.run(),
            StripCommand::List(list) => list.run(),
        }
    }
}

/// "2026-03-04  5052-H32 .126, R .125, V 1.000, bent 90°".
pub(super) fn strip_words(strip: &ShopStrip, style: LengthStyle) -> String {
    let test = strip.strip();
    let die = strip.v_opening.map(|v| format!(", V {}", v.print(style))).unwrap_or_default();
    format!(
        "{}  {} {}, R {}{die}, bent {}°{}",
        strip.date.as_deref().unwrap_or_default(),
        strip.metal.words(),
        test.thickness.print(style),
        test.inside_radius.print(style),
        test.turn.print(1),
        strip.turn_in_die.map(|turn| format!(" ({}° in the die)", turn.print(1))).unwrap_or_default(),
    )
}

/// The numbers of a strip, lengths in `unit`.
pub(super) fn strip_json(logged: &LoggedStrip, unit: LengthUnit) -> Value {
    let strip = &logged.strip;
    let test = strip.strip();
    let number = |length: Length| match unit {
        LengthUnit::Inch => rounded(length.inches(), 4),
        LengthUnit::Millimetre => rounded(length.millimetres(), 3),
    };
    json!({
        "line": logged.number,
        "date": strip.date,
        "metal": strip.metal.words(),
        "thickness": number(test.thickness),
        "inside_radius": number(test.inside_radius),
        "v_opening": strip.v_opening.map(number),
        "turn": test.turn.degrees(),
        "turn_in_die": strip.turn_in_die.map(units::Angle::degrees),
        "length": number(test.length),
        "legs": test.legs.map(number),
        "deduction": number(test.deduction()),
        "allowance": number(Length::from_millimetres(formula::allowance(
            test.turn.radians(),
            test.inside_radius.millimetres(),
            test.thickness.millimetres(),
            strip.k_factor(),
        ))),
        "k_factor": rounded(strip.k_factor(), 4),
        "springback": strip.springback_ratio().map(|ratio| rounded(ratio, 4)),
        "note": logged.note,
    })
}

fn rounded(number: f64, places: usize) -> Value {
    format!("{number:.places$}").parse::<f64>().map_or(Value::Null, Value::from)
}
