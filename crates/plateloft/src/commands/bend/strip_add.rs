//! `plateloft bend strip add`: one more strip in the log.

use std::path::PathBuf;

use clap::Args;
use fold::bend::formula;
use job::{LoggedStrip, Message, NewStrip, new_strip_line};
use serde_json::json;
use units::{Angle, Length};

use super::strip::{strip_json, strip_words};
use super::{Unit, log_file};
use crate::speech::{Refusal, say, say_json};

/// Adds a strip to the log, and prints its deduction and K as a sum. Nothing is written unless all of it is right.
#[derive(Debug, Args)]
pub(crate) struct Add {
    /// Day it was bent, like 2026-03-04
    #[arg(long)]
    date: String,
    /// Alloy and temper as ordered, like 5052-H32
    #[arg(long)]
    metal: String,
    /// Cut from tread plate
    #[arg(long)]
    tread: bool,
    /// The alloy is not in the tables
    #[arg(long)]
    unlisted: bool,
    /// Thickness by caliper (of the flat base, for tread plate)
    #[arg(long, allow_hyphen_values = true)]
    thickness: String,
    /// Inside radius that the bend came out with
    #[arg(long, allow_hyphen_values = true)]
    radius: String,
    /// Opening of the V die
    #[arg(long, allow_hyphen_values = true)]
    v_opening: Option<String>,
    /// Turn from flat as it lies on the bench, degrees
    #[arg(long, default_value = "90", allow_hyphen_values = true)]
    turn: String,
    /// Turn from flat in the die, before it sprang back, degrees
    #[arg(long, allow_hyphen_values = true)]
    turn_in_die: Option<String>,
    /// Length of the strip before bending
    #[arg(long, allow_hyphen_values = true)]
    length: String,
    /// Both legs after bending, over the outside
    #[arg(long, num_args = 2, value_names = ["LEG", "LEG"], allow_hyphen_values = true)]
    legs: Vec<String>,
    /// Anything else worth keeping
    #[arg(long)]
    note: Option<String>,
    /// The log
    #[arg(long, default_value = log_file::NAME)]
    log: PathBuf,
    /// Unit of lengths given without one
    #[arg(long, value_enum, default_value = "inch")]
    units: Unit,
    /// Print the strip as JSON
    #[arg(long)]
    json: bool,
}

impl Add {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let (line, strip) = new_strip_line(&self.strip()?, self.units.unit()).map_err(refusal)?;
        let number = log_file::append(&self.log, &line)?;
        let strip = LoggedStrip { number, ..strip };
        if self.json {
            let unit = self.units.unit();
            say_json(
                &json!({ "plateloft": 1, "unit": unit.name(), "log": self.log, "strip": strip_json(&strip, unit) }),
            );
        } else {
            say(&self.words(&strip));
        }
        Ok(())
    }

    fn strip(&self) -> Result<NewStrip, Refusal> {
        let degrees = |option: &str, text: &str| {
            Angle::read(text).map(Angle::degrees).map_err(|error| {
                Refusal::bad(format!("bend strip add: --{option}: {text}: {error}\n    {}", error.remedy()))
            })
        };
        let [first, second] = &self.legs[..] else {
            return Err(Refusal::bad("bend strip add: --legs: two are needed\n    give both legs"));
        };
        Ok(NewStrip {
            date: self.date.clone(),
            metal: self.metal.clone(),
            tread: self.tread,
            unlisted: self.unlisted,
            thickness: self.thickness.clone(),
            inside_radius: self.radius.clone(),
            v_opening: self.v_opening.clone(),
            turn: degrees("turn", &self.turn)?,
            turn_in_die: self.turn_in_die.as_ref().map(|text| degrees("turn-in-die", text)).transpose()?,
            length: self.length.clone(),
            legs: [first.clone(), second.clone()],
            note: self.note.clone(),
        })
    }

    fn words(&self, logged: &LoggedStrip) -> String {
        let strip = &logged.strip;
        let (test, style) = (strip.strip(), self.units.style());
        let print = |length: Length| length.print(style);
        let [a, b] = test.legs.map(print);
        let (radius, thickness) = (print(test.inside_radius), print(test.thickness));
        let setback = formula::capped_setback(
            test.turn.radians(),
            test.inside_radius.millimetres(),
            test.thickness.millimetres(),
        );
        let (setback, deduction) = (print(Length::from_millimetres(setback)), print(test.deduction()));
        let mut lines = vec![
            format!("{}: line {}: {}", self.log.display(), logged.number, strip_words(strip, style)),
            format!("deduction = legs − strip = {a} + {b} − {} = {deduction}", print(test.length)),
            format!(
                "K         = ((2 × setback − deduction)/turn − R)/T = ((2 × {setback} − {deduction})/({} × π/180) − {radius})/{thickness} = {:.4}",
                test.turn.print(2),
                strip.k_factor()
            ),
        ];
        if test.turn > Angle::RIGHT {
            lines.push(format!(
                "setback   = R + T = {setback}, above 90° as the handbooks cap it: legs are measured to the outermost metal"
            ));
        }
        if let (Some(in_die), Some(ratio)) = (strip.turn_in_die, strip.springback_ratio()) {
            lines.push(format!(
                "springback: keeps {}/{} = {ratio:.4} of its turn in the die",
                test.turn.print(2),
                in_die.print(2)
            ));
        }
        lines.join("\n")
    }
}

/// Messages about the fields of a line, as messages about the options that gave them.
fn refusal(messages: Vec<Message>) -> Refusal {
    let of_option = |message: Message| {
        let field = match message.field.as_str() {
            "inside_radius" => "radius".to_owned(),
            field => field.replace('_', "-"),
        };
        Message { file: "bend strip add".to_owned(), field: format!("--{field}"), ..message }.to_string()
    };
    Refusal::BadInput(messages.into_iter().map(of_option).collect())
}
