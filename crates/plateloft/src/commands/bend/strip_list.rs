//! `plateloft bend strip list`: the log with every strip's bend number.

use std::path::PathBuf;

use clap::Args;
use job::LoggedStrip;
use serde_json::json;
use units::LengthStyle;

use super::strip::{strip_json, strip_words};
use super::{Unit, log_file};
use crate::speech::{Refusal, say, say_json};

/// Prints every strip of the log with its deduction and K, in the order in which they were written.
#[derive(Debug, Args)]
pub(crate) struct List {
    /// Only strips of this alloy and temper
    #[arg(long)]
    metal: Option<String>,
    /// The log
    #[arg(long, default_value = log_file::NAME)]
    log: PathBuf,
    /// Unit of the lengths printed
    #[arg(long, value_enum, default_value = "inch")]
    units: Unit,
    /// Print the strips as JSON
    #[arg(long)]
    json: bool,
}

impl List {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let mut strips = log_file::strips(&self.log)?;
        if let Some(metal) = &self.metal {
            strips.retain(|logged| is_of(logged, metal));
        }
        if self.json {
            let unit = self.units.unit();
            let strips: Vec<_> = strips.iter().map(|strip| strip_json(strip, unit)).collect();
            say_json(&json!({ "plateloft": 1, "unit": unit.name(), "log": self.log, "strips": strips }));
        } else if strips.is_empty() {
            say(&format!("{}: no strip of this metal", self.log.display()));
        } else {
            let style = self.units.style();
            strips.iter().for_each(|strip| say(&words(strip, style)));
        }
        Ok(())
    }
}

/// True for a strip of the alloy and temper that are named, however they are written.
fn is_of(logged: &LoggedStrip, metal: &str) -> bool {
    let own = &logged.strip.metal;
    match stock::find_alloy(metal) {
        Ok(found) => {
            own.alloy == found.alloy.name
                && found.temper.is_none_or(|temper| own.temper.as_deref() == Some(temper))
        }
        Err(_) => own.alloy.eq_ignore_ascii_case(metal.trim()),
    }
}

fn words(logged: &LoggedStrip, style: LengthStyle) -> String {
    let strip = &logged.strip;
    let test = strip.strip();
    let [a, b] = test.legs.map(|leg| leg.print(style));
    let note = logged.note.as_ref().map(|note| format!("; {note}")).unwrap_or_default();
    format!(
        "line {}: {}: {a} + {b} − {} = deduction {}, K {:.4}{note}",
        logged.number,
        strip_words(strip, style),
        test.length.print(style),
        test.deduction().print(style),
        strip.k_factor()
    )
}
