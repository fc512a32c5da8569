//! `plateloft bend --thickness …`: one bend worked as a sum.

use clap::{Args, ValueEnum};
use fold::BendNumber;
use fold::bend::{Origin, TestStrip, formula};
use stock::{BendModel, Family, Hardness};
use units::{Angle, Length};

use super::Unit;
use super::sum::Sum;
use crate::speech::{Refusal, say, say_json};

/// The sizes of one bend.
#[derive(Debug, Args)]
pub(crate) struct OneBend {
    /// Thickness (of the flat base, for tread plate)
    #[arg(long, allow_hyphen_values = true)]
    thickness: String,
    /// Inside radius
    #[arg(long, allow_hyphen_values = true)]
    radius: String,
    /// Turn from flat, degrees
    #[arg(long, default_value = "90", allow_hyphen_values = true)]
    turn: String,
    /// K-factor, share of the thickness from the inside face to the neutral line
    #[arg(long, conflicts_with_all = ["strip", "model"], allow_hyphen_values = true)]
    k: Option<String>,
    /// Length of a test strip bent once by the same turn
    #[arg(long, requires = "legs", conflicts_with = "model", allow_hyphen_values = true)]
    strip: Option<String>,
    /// Both outside legs of the bent test strip
    #[arg(long, num_args = 2, requires = "strip", value_names = ["LEG", "LEG"], allow_hyphen_values = true)]
    legs: Option<Vec<String>>,
    /// A published model instead of a K-factor
    #[arg(long, value_enum)]
    model: Option<Model>,
    /// Two outside legs to lay out with this bend
    #[arg(long, num_args = 2, value_names = ["LEG", "LEG"], allow_hyphen_values = true)]
    flat_of: Option<Vec<String>>,
    /// Unit of lengths given without one, and of the answer
    #[arg(long, value_enum, default_value = "inch")]
    units: Unit,
    /// Print the numbers as JSON
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum Model {
    /// FAA-H-8083-31: (.01743·R + .0078·T) a degree
    Faa,
    /// Machinery's Handbook, aluminium: (.64·T + 1.57·R) for 90°
    Empirical,
    /// DIN 6935
    #[value(name = "din-6935")]
    Din6935,
}

impl OneBend {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let sum = self.read()?;
        if self.json {
            say_json(&sum.json());
        } else {
            say(&sum.words());
        }
        Ok(())
    }

    fn length(&self, option: &str, text: &str) -> Result<Length, String> {
        let read = Length::read(text, self.units.unit())
            .map_err(|error| format!("bend: --{option}: {text}: {error}\n  {}", error.remedy()))?;
        if read > Length::ZERO {
            Ok(read)
        } else {
            Err(format!("bend: --{option}: {text}: must be above zero\n  give the size as measured"))
        }
    }

    fn read(&self) -> Result<Sum, Refusal> {
        let mut problems = Vec::new();
        let mut keep = |option: &str, text: &str| {
            self.length(option, text).map_err(|problem| problems.push(problem)).unwrap_or(Length::ZERO)
        };
        let thickness = keep("thickness", &self.thickness);
        let radius = keep("radius", &self.radius);
        let strip = self.strip.as_ref().map(|text| keep("strip", text));
        let mut pair = |option: &str, legs: &Option<Vec<String>>| {
            legs.as_ref().map(|legs| [keep(option, &legs[0]), keep(option, &legs[1])])
        };
        let strip_legs = pair("legs", &self.legs);
        let legs = pair("flat-of", &self.flat_of);
        let turn = Angle::read(&self.turn).unwrap_or_else(|error| {
            problems.push(format!("bend: --turn: {}: {error}", self.turn));
            Angle::RIGHT
        });
        if !(turn.degrees() > 0.0 && turn.degrees() <= 180.0) {
            let remedy = "measure the turn from flat: a square flange is 90";
            problems.push(format!(
                "bend: --turn: {}: must be above 0 and at most 180 degrees\n  {remedy}",
                self.turn
            ));
        }
        if !problems.is_empty() {
            return Err(Refusal::BadInput(problems));
        }
        let strip = strip.zip(strip_legs).map(|(length, legs)| TestStrip {
            length,
            legs,
            turn,
            thickness,
            inside_radius: radius,
        });
        let number = self.number(thickness, radius, strip)?;
        let setback_mm =
            formula::capped_setback(turn.radians(), radius.millimetres(), thickness.millimetres());
        if let Some(leg) = legs.iter().flatten().find(|leg| leg.millimetres() < setback_mm) {
            let setback = Length::from_millimetres(setback_mm).print_with_unit(self.units.style());
            return Err(Refusal::bad(format!(
                "bend: --flat-of: {}: shorter than the setback, {setback}\n  give the legs to the outside",
                leg.print_with_unit(self.units.style())
            )));
        }
        Ok(Sum { number, turn, unit: self.units.unit(), legs })
    }

    fn number(
        &self,
        thickness: Length,
        radius: Length,
        strip: Option<TestStrip>,
    ) -> Result<BendNumber, Refusal> {
        let (model, origin) = if let Some(strip) = strip {
            let k = strip.k_factor().map_err(|error| {
                Refusal::bad(format!("bend: --strip: {error}\n  measure strip, legs and radius again"))
            })?;
            (BendModel::KFactor(k), Origin::Strip(strip))
        } else if let Some(k) = &self.k {
            (BendModel::KFactor(k_factor(k)?), Origin::Job)
        } else if let Some(model) = self.model {
            let model = match model {
                Model::Faa => BendModel::FaaHandbook,
                Model::Empirical => BendModel::EmpiricalByMaterial(Hardness::HalfHard),
                Model::Din6935 => BendModel::Din6935,
            };
            (model, Origin::Job)
        } else {
            let row = stock::recommended_k_factor(Family::Aluminium)
                .ok_or_else(|| Refusal::bad("bend: no K-factor is known\n  give one with --k"))?;
            (BendModel::KFactor(row.k_factor), Origin::General)
        };
        BendNumber::new(thickness, radius, model, origin)
            .map_err(|error| Refusal::bad(format!("bend: {error}\n  correct the option")))
    }
}

/// A K-factor as written; whether it can be one is judged with the bend.
fn k_factor(written: &str) -> Result<f64, Refusal> {
    let read = written.trim().parse::<f64>().ok().filter(|k| k.is_finite());
    read.ok_or_else(|| {
        Refusal::bad(format!(
            "bend: --k: {written}: is no number\n  give a share of the thickness, like 0.42"
        ))
    })
}
