//! `plateloft bend`: one bend worked as a sum.

use clap::{Args, ValueEnum};
use fold::BendNumber;
use fold::bend::{Origin, TestStrip, formula};
use serde_json::json;
use stock::{BendModel, Family, Hardness};
use units::{Angle, Length, LengthStyle, LengthUnit};

use crate::speech::{Refusal, say, say_json};

/// Works one bend as a sum you can redo on a calculator.
///
/// Lengths are read as on a tape: 1/8, .125, 3.2 mm. A turn is measured from flat: a square flange is 90.
#[derive(Debug, Args)]
pub(crate) struct Bend {
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
    #[arg(long, conflicts_with_all = ["strip", "model"])]
    k: Option<f64>,
    /// Length of a test strip bent once by the same turn
    #[arg(long, requires = "legs", conflicts_with = "model")]
    strip: Option<String>,
    /// Both outside legs of the bent test strip
    #[arg(long, num_args = 2, requires = "strip", value_names = ["LEG", "LEG"])]
    legs: Option<Vec<String>>,
    /// A published model instead of a K-factor
    #[arg(long, value_enum)]
    model: Option<Model>,
    /// Two outside legs to lay out with this bend
    #[arg(long, num_args = 2, value_names = ["LEG", "LEG"])]
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

#[derive(Debug, Clone, Copy, ValueEnum)]
enum Unit {
    /// Inches
    Inch,
    /// Millimetres
    Mm,
}

/// All sizes of the sum, in the unit of the answer.
struct Sum {
    number: BendNumber,
    turn: Angle,
    unit: LengthUnit,
    legs: Option<[Length; 2]>,
}

impl Bend {
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

    fn unit(&self) -> LengthUnit {
        match self.units {
            Unit::Inch => LengthUnit::Inch,
            Unit::Mm => LengthUnit::Millimetre,
        }
    }

    const fn style(&self) -> LengthStyle {
        match self.units {
            Unit::Inch => LengthStyle::Inches { places: 4 },
            Unit::Mm => LengthStyle::Millimetres { places: 3 },
        }
    }

    fn length(&self, option: &str, text: &str) -> Result<Length, String> {
        let read = Length::read(text, self.unit())
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
        if !(turn.degrees() > 0.0 && turn.degrees() < 180.0) {
            let remedy = "measure the turn from flat: a square flange is 90";
            problems
                .push(format!("bend: --turn: {}: must lie between 0 and 180 degrees\n  {remedy}", self.turn));
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
            let setback = Length::from_millimetres(setback_mm).print_with_unit(self.style());
            return Err(Refusal::bad(format!(
                "bend: --flat-of: {}: shorter than the setback, {setback}\n  give the legs to the outside",
                leg.print_with_unit(self.style())
            )));
        }
        Ok(Sum { number, turn, unit: self.unit(), legs })
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
        } else if let Some(k) = self.k {
            (BendModel::KFactor(k), Origin::Job)
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

impl Sum {
    fn places(&self) -> usize {
        match self.unit {
            LengthUnit::Inch => 4,
            LengthUnit::Millimetre => 3,
        }
    }

    const fn unit_words(&self) -> &'static str {
        match self.unit {
            LengthUnit::Inch => "inches",
            LengthUnit::Millimetre => "millimetres",
        }
    }

    fn in_unit(&self, millimetres: f64) -> f64 {
        match self.unit {
            LengthUnit::Inch => millimetres / 25.4,
            LengthUnit::Millimetre => millimetres,
        }
    }

    fn print(&self, millimetres: f64) -> String {
        format!("{:.*}", self.places(), self.in_unit(millimetres))
    }

    fn thickness_mm(&self) -> f64 {
        self.number.thickness().millimetres()
    }

    fn radius_mm(&self) -> f64 {
        self.number.inside_radius().millimetres()
    }

    fn allowance_mm(&self) -> f64 {
        self.number.allowance_mm(self.turn.radians())
    }

    /// Setback as legs are measured: capped above a quarter turn.
    fn setback_mm(&self) -> f64 {
        formula::capped_setback(self.turn.radians(), self.radius_mm(), self.thickness_mm())
    }

    fn deduction_mm(&self) -> f64 {
        formula::deduction(self.setback_mm(), self.allowance_mm())
    }

    fn words(&self) -> String {
        let (t, r) = (self.print(self.thickness_mm()), self.print(self.radius_mm()));
        let degrees = self.turn.print(2);
        let (allowance, setback) = (self.print(self.allowance_mm()), self.print(self.setback_mm()));
        let mut lines = vec![
            format!(
                "thickness T {t}, inside radius R {r}, turn {degrees} from flat, lengths in {}",
                self.unit_words()
            ),
            format!("bend number: {}", self.number_words()),
            format!("allowance = {} = {allowance}", self.allowance_sum(&t, &r, &degrees)),
        ];
        if self.turn > Angle::RIGHT {
            lines.push(format!("setback   = R + T = {r} + {t} = {setback}"));
            lines.push(
                "            (above 90° as the handbooks cap it: legs are measured to the outermost metal)"
                    .to_owned(),
            );
        } else {
            let half = Angle::from_degrees(self.turn.degrees() / 2.0).print(2);
            lines.push(format!("setback   = (R + T) × tan(turn/2) = ({r} + {t}) × tan {half} = {setback}"));
        }
        lines.push(format!(
            "deduction = 2 × setback − allowance = 2 × {setback} − {allowance} = {}",
            self.print(self.deduction_mm())
        ));
        if let Some([a, b]) = self.legs {
            let (first, second) = (self.print(a.millimetres()), self.print(b.millimetres()));
            let flat = (a + b).millimetres() - self.deduction_mm();
            lines.push(format!(
                "flat      = legs − deduction = {first} + {second} − {} = {}",
                self.print(self.deduction_mm()),
                self.print(flat)
            ));
        }
        if !matches!(self.number.origin(), Origin::Strip(_)) {
            lines.push(
                "Nobody has bent a strip for this number: bend one before cutting good metal.".to_owned(),
            );
        }
        lines.join("\n")
    }

    fn number_words(&self) -> String {
        let model = match self.number.model() {
            BendModel::KFactor(k) => format!("K-factor {k:.4}"),
            BendModel::FaaHandbook => "FAA-H-8083-31, chapter 4".to_owned(),
            BendModel::EmpiricalByMaterial(_) => "Machinery's Handbook, aluminium".to_owned(),
            BendModel::Din6935 => "DIN 6935".to_owned(),
        };
        match self.number.origin() {
            Origin::Strip(strip) => {
                let [a, b] = strip.legs.map(|leg| self.print(leg.millimetres()));
                let (length, deduction) =
                    (self.print(strip.length.millimetres()), self.print(strip.deduction().millimetres()));
                format!("{model}, from the strip: {a} + {b} − {length} = deduction {deduction}")
            }
            Origin::Job => format!("{model}, as given"),
            Origin::Table(source) => format!("{model}, {source}"),
            Origin::General => {
                format!("{model}, the general figure for aluminium (common practice, no source)")
            }
        }
    }

    fn allowance_sum(&self, t: &str, r: &str, degrees: &str) -> String {
        match self.number.model() {
            BendModel::KFactor(k) => {
                format!("turn × π/180 × (R + K·T) = {degrees} × π/180 × ({r} + {k:.4} × {t})")
            }
            BendModel::FaaHandbook => {
                format!("turn × (.01743·R + .0078·T) = {degrees} × (.01743 × {r} + .0078 × {t})")
            }
            BendModel::EmpiricalByMaterial(_) => {
                format!("turn/90 × (.64·T + 1.57·R) = {degrees}/90 × (.64 × {t} + 1.57 × {r})")
            }
            BendModel::Din6935 => {
                let k = formula::din_factor(self.radius_mm(), self.thickness_mm());
                format!("turn × π/180 × (R + k/2·T) = {degrees} × π/180 × ({r} + {k:.4}/2 × {t})")
            }
        }
    }

    fn json(&self) -> serde_json::Value {
        let round = |millimetres: f64| {
            self.print(millimetres).parse::<f64>().map_or(serde_json::Value::Null, |number| json!(number))
        };
        json!({
            "plateloft": 1,
            "unit": self.unit.name(),
            "thickness": round(self.thickness_mm()),
            "inside_radius": round(self.radius_mm()),
            "turn_degrees": self.turn.degrees(),
            "bend_number": self.number_words(),
            "k_factor": self.number.k_factor(self.turn),
            "allowance": round(self.allowance_mm()),
            "setback": round(self.setback_mm()),
            "setback_capped": self.turn > Angle::RIGHT,
            "deduction": round(self.deduction_mm()),
            "flat": self.legs.map(|[a, b]| round((a + b).millimetres() - self.deduction_mm())),
        })
    }
}
