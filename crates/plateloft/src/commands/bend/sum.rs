//! One bend as words and as JSON.

use fold::BendNumber;
use fold::bend::{Origin, formula};
use geometry::tolerance;
use serde_json::json;
use stock::BendModel;
use units::{Angle, Length, LengthUnit};

/// All sizes of the sum, in the unit of the answer.
pub(super) struct Sum {
    pub(super) number: BendNumber,
    pub(super) turn: Angle,
    pub(super) unit: LengthUnit,
    pub(super) legs: Option<[Length; 2]>,
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
        self.number.single_allowance_at_mm(self.turn.radians(), self.radius_mm())
    }

    /// The K-factor behind the allowance; none where DIN 6935 takes the deduction for nothing.
    fn k_factor(&self) -> Option<f64> {
        let neglected =
            self.number.model() == BendModel::Din6935 && formula::din_neglects(self.turn.radians());
        (!neglected).then(|| self.number.k_factor(self.turn))
    }

    /// Setback as legs are measured: capped above a quarter turn.
    fn setback_mm(&self) -> f64 {
        formula::capped_setback(self.turn.radians(), self.radius_mm(), self.thickness_mm())
    }

    fn deduction_mm(&self) -> f64 {
        formula::deduction(self.setback_mm(), self.allowance_mm())
    }

    /// The sum, a line a step.
    pub(super) fn words(&self) -> String {
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
        lines.extend(self.wide_words());
        if !matches!(self.number.origin(), Origin::Strip(_)) {
            lines.push(
                "Nobody has bent a strip for this number: bend one before cutting good metal.".to_owned(),
            );
        }
        lines.join("\n")
    }

    /// What DIN 6935 takes at a radius above five thicknesses, beside the K that was used.
    fn wide_words(&self) -> Option<String> {
        let BendModel::KFactor(k_factor) = self.number.model() else { return None };
        let off_mm = (0.5 - k_factor) * self.turn.radians() * self.thickness_mm();
        let is_wide = self.number.is_wide(self.radius_mm()) && tolerance::REFOLD_MM < off_mm;
        is_wide.then(|| {
            format!(
                "R is above 5 T: DIN 6935 takes the middle of the sheet there, K-factor 0.5000, and the flat were {} longer; \
                 so goes what is rolled or bumped to such a radius.",
                self.print(off_mm)
            )
        })
    }

    fn number_words(&self) -> String {
        let model = self.number.model();
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
            BendModel::Din6935 if formula::din_neglects(self.turn.radians()) => {
                format!(
                    "2 × setback = 2 × {} (below 15° DIN 6935 takes the deduction of a single bend for nothing)",
                    self.print(self.setback_mm())
                )
            }
            BendModel::Din6935 => {
                let k = formula::din_factor(self.radius_mm(), self.thickness_mm());
                format!("turn × π/180 × (R + k/2·T) = {degrees} × π/180 × ({r} + {k:.4}/2 × {t})")
            }
        }
    }

    /// The numbers.
    pub(super) fn json(&self) -> serde_json::Value {
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
            "k_factor": self.k_factor(),
            "allowance": round(self.allowance_mm()),
            "setback": round(self.setback_mm()),
            "setback_capped": self.turn > Angle::RIGHT,
            "deduction": round(self.deduction_mm()),
            "flat": self.legs.map(|[a, b]| round((a + b).millimetres() - self.deduction_mm())),
        })
    }
}
