//! `plateloft strut`: hinged lids balanced by gas struts.

mod as_json;
mod words;

use std::path::PathBuf;

use clap::Args;
use estimate::{GasStrut, Lid, SwingStep, gas_share};
use job::{HingedLid, Struts};
use paper::lists::weights::wrapped;
use paper::page::Pen;
use paper::strut_plot::{self, Curve, Plot};
use serde_json::{Value, json};
use units::{Angle, Force, Length, LengthUnit, Temperature, TemperatureUnit, Torque};

use super::weights::{NO_CERTIFICATE, length_words, lids};
use super::{StripLog, flats_of};
use crate::output::Numbers;
use crate::plan::Flats;
use crate::plan::balance::{PlannedLid, TORQUE_PLACES, units};
use crate::speech::{Refusal, say, say_json, tell};

/// Balances every lid that has "struts" under "weights": lengths and lever arms over the swing, the force that each
/// strut needs, and, for a strut by its maker's data, what is left over at the coldest and the hottest. Ends with 1 when
/// the chosen struts do not hold the open lid.
#[derive(Debug, Args)]
pub(crate) struct Strut {
    /// The job file
    job: PathBuf,
    #[command(flatten)]
    log: StripLog,
    /// Mark of the one lid that is meant
    #[arg(long)]
    part: Option<String>,
    /// Draw the moments over the swing of one lid into this SVG file; it must not be there yet
    #[arg(long, value_name = "FILE")]
    plot: Option<PathBuf>,
    /// Print everything as JSON
    #[arg(long)]
    json: bool,
}

/// A lid with its struts, worked out.
struct Balanced<'a> {
    flats: &'a Flats,
    mark: &'a str,
    lid: &'a Lid,
    struts: &'a Struts,
    /// Where they must push hardest.
    hardest: SwingStep,
    /// What each needs there by its gas at the coldest, rated at 20 °C, with the margin.
    rating: Force,
}

impl Strut {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let flats = flats_of(&self.job, &self.log)?;
        let lids = lids(&flats)?;
        let meant = |mark: &str| self.part.as_ref().is_none_or(|part| part == mark);
        let with = lids.iter().filter(|(_, lid)| meant(&lid.mark));
        let balanced =
            with.filter_map(|(asked, lid)| balanced(&flats, asked, lid)).collect::<Result<Vec<_>, _>>()?;
        let file = &flats.file;
        if balanced.is_empty() {
            let wrong = match &self.part {
                Some(part) => format!("{file}: weights.lids: {part}: no lid of this mark has struts"),
                None => format!("{file}: weights.lids: no lid has struts"),
            };
            return Err(Refusal::bad(format!("{wrong}\n    give \"struts\" to a lid under \"weights\"")));
        }
        if let Some(path) = &self.plot {
            write_plot(path, &balanced)?;
        }
        if self.json {
            let lids: Vec<Value> = balanced.iter().map(Balanced::json).collect();
            say_json(&json!({
                "plateloft": 1,
                "job": flats.job.name,
                "units": {
                    "length": Numbers::of(&flats.job).length_unit(),
                    "force": force_unit_name(&flats),
                    "moment": units(&flats).1.name(),
                    "angle": "degree"
                },
                "lids": lids,
                "note": NO_CERTIFICATE,
            }));
        } else {
            let blocks: Vec<String> = balanced.iter().map(Balanced::text).collect();
            say(&wrapped(&format!("{}\n{NO_CERTIFICATE}", blocks.join("\n"))));
        }
        let falls: Vec<String> = balanced.iter().filter_map(Balanced::falls).collect();
        if falls.is_empty() { Ok(()) } else { Err(Refusal::No(falls.join("\n"))) }
    }
}

fn write_plot(path: &std::path::Path, balanced: &[Balanced<'_>]) -> Result<(), Refusal> {
    let [only] = balanced else {
        return Err(Refusal::bad(
            "strut: --plot draws one lid, and several have struts\n    name it with --part",
        ));
    };
    let svg = paper::svg::write(&strut_plot::draw(&only.plot()));
    let cannot = |error: std::io::Error| {
        Refusal::bad(format!("{}: cannot be written: {error}\n    name another file", path.display()))
    };
    let file = std::fs::OpenOptions::new().write(true).create_new(true).open(path);
    file.and_then(|mut file| std::io::Write::write_all(&mut file, svg.as_bytes())).map_err(cannot)?;
    tell(&format!("wrote {}", path.display()));
    Ok(())
}

fn balanced<'a>(
    flats: &'a Flats,
    asked: &'a HingedLid,
    planned: &'a PlannedLid,
) -> Option<Result<Balanced<'a>, Refusal>> {
    let struts = asked.struts.as_ref()?;
    let lid = &planned.lid;
    Some(match struts.mounts.hardest(lid) {
        Ok(hardest) => {
            let needed = hardest.needed.unwrap_or_default().newtons();
            let margin = 1.0 + struts.margin.hundredths() as f64 / 10_000.0;
            let rating = Force::from_newtons(needed / gas_share(struts.temperatures[0]) * margin);
            Ok(Balanced { flats, mark: &planned.mark, lid, struts, hardest, rating })
        }
        Err(fault) => Err(Refusal::bad(format!(
            "{}: weights.lids: {}: struts: {fault}\n    move their ends, so that they push the lid open all the way",
            flats.file, planned.mark
        ))),
    })
}

fn force_unit_name(flats: &Flats) -> &'static str {
    match flats.job.unit {
        LengthUnit::Inch => "lbf",
        LengthUnit::Millimetre => "N",
    }
}

fn temperature_words(at: Temperature) -> String {
    format!(
        "{} ({})",
        at.print_with_unit(TemperatureUnit::Celsius, 0),
        at.print_with_unit(TemperatureUnit::Fahrenheit, 0)
    )
}

fn degrees(angle: Angle) -> String {
    format!("{}°", angle.print(1))
}

impl Balanced<'_> {
    fn torque(&self, torque: Torque) -> String {
        torque.print(units(self.flats).1, TORQUE_PLACES)
    }

    fn torque_words(&self, torque: Torque) -> String {
        torque.print_with_unit(units(self.flats).1, TORQUE_PLACES)
    }

    fn length(&self, millimetres: f64) -> String {
        length_words(self.flats, Length::from_millimetres(millimetres))
    }

    fn left_over(&self, strut: &GasStrut, angle: Angle, at: Temperature) -> Torque {
        let unit = units(self.flats).1;
        let printed = |torque: Torque| torque.as_printed(unit, TORQUE_PLACES);
        printed(self.struts.mounts.push(strut, angle, at)) - printed(self.lid.moment(angle))
    }

    /// The answer "no": a chosen strut does not hold the open lid.
    fn falls(&self) -> Option<String> {
        let (name, strut) = self.struts.chosen.as_ref()?;
        let open = self.struts.mounts.opens;
        let falls = |at: &&Temperature| self.left_over(strut, open, **at) < Torque::ZERO;
        let at = self.struts.temperatures.iter().find(falls)?;
        Some(format!(
            "no: {} does not stay open at {} with {name}: {} are left over",
            self.mark,
            temperature_words(*at),
            self.torque_words(self.left_over(strut, open, *at))
        ))
    }

    fn plot(&self) -> Plot {
        let unit = units(self.flats).1;
        let mounts = &self.struts.mounts;
        let swing = mounts.swing(self.lid);
        let curve = |name: String, pen: Pen, moment: &dyn Fn(&SwingStep) -> Torque| {
            let point = |step: &SwingStep| [step.angle.degrees(), moment(step).number(unit)];
            Curve { name, points: swing.iter().map(point).collect(), pen }
        };
        let mut curves = vec![curve("lid closes with".to_owned(), Pen::CutEdge, &|step| step.lid)];
        if let Some((_, strut)) = &self.struts.chosen {
            for (at, pen) in self.struts.temperatures.into_iter().zip([Pen::BendDown, Pen::BendUp]) {
                let name = format!("struts at {}", at.print_with_unit(TemperatureUnit::Celsius, 0));
                curves.push(curve(name, pen, &|step| mounts.push(strut, step.angle, at)));
            }
        }
        Plot { title: format!("{}: lid against struts", self.mark), unit: unit.name(), curves }
    }
}
