//! `plateloft strut`: hinged lids balanced by gas struts.

use std::path::PathBuf;

use clap::Args;
use estimate::{GasStrut, Lid, SwingStep, gas_share};
use job::{HingedLid, Struts};
use paper::lists::weights::{NUMBERS, WORDS, sheet, wrapped};
use paper::page::Pen;
use paper::strut_plot::{self, Curve, Plot};
use serde_json::{Value, json};
use units::{Angle, Force, Length, LengthUnit, Temperature, TemperatureUnit, Torque};

use super::weights::{NO_CERTIFICATE, force_words, length_words, lids, torque_json};
use super::{StripLog, flats_of};
use crate::output::{Numbers, rounded};
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

fn force_json(flats: &Flats, force: Force) -> Value {
    match flats.job.unit {
        LengthUnit::Inch => rounded(force.pounds_force(), 2),
        LengthUnit::Millimetre => rounded(force.newtons(), 1),
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

    fn text(&self) -> String {
        let mounts = &self.struts.mounts;
        let pair = |[out, up]: [Length; 2]| {
            format!("{} out, {} up", length_words(self.flats, out), length_words(self.flats, up))
        };
        let mut text = format!(
            "{}: {} gas struts, lid opens {}\nfrom the pin, lid closed: ends on the frame {}; ends on the lid {}\n\n",
            self.mark,
            mounts.count,
            degrees(mounts.opens),
            pair(mounts.fixed),
            pair(mounts.on_lid)
        );
        text.push_str(&self.swing_table());
        text.push_str(&self.needed_words());
        match &self.struts.chosen {
            Some((name, strut)) => text.push_str(&self.chosen_words(name, strut)),
            None => text.push_str(
                "No strut is chosen: give \"maker\" under \"struts\" with the maker's force, ratio and lengths. The \
                 maker's data decide; none is guessed.\n",
            ),
        }
        text.push_str(
            "Never rely on struts alone: one may lose its gas. Fit a stay or a stop. Mount the rod down when closed, and \
             let nothing push the strut sideways; the maker's own rules go first.\n",
        );
        text
    }

    fn swing_table(&self) -> String {
        let unit = units(self.flats).1.name();
        let moment = format!("lid closes, {unit}");
        let columns = [
            ("open", NUMBERS),
            ("length", NUMBERS),
            ("lever arm", NUMBERS),
            (moment.as_str(), NUMBERS),
            ("each must push", NUMBERS),
        ];
        let row = |step: &SwingStep| {
            vec![
                degrees(step.angle),
                self.length(step.place.length_mm),
                self.length(step.place.arm_mm),
                self.torque(step.lid),
                step.needed.map_or_else(|| "-".to_owned(), |force| force_words(self.flats, force)),
            ]
        };
        sheet(&columns, self.struts.mounts.table(self.lid).iter().map(row).collect(), None)
    }

    fn needed_words(&self) -> String {
        let step = &self.hardest;
        let [cold, _] = self.struts.temperatures;
        let needed = step.needed.unwrap_or_default();
        let [low, high] = self.struts.mounts.length_range_mm();
        format!(
            "each must push = lid / (struts × arm); hardest at {}: {} / ({} × {}) = {}\n\
             gas at {} pushes {:.4} of what it does at 20 °C; margin {} as the job says\n\
             rating at 20 °C, each: {} / {:.4} × {:.4} = {}\n\
             length over the swing {} to {}, so a stroke of {} at least\n",
            degrees(step.angle),
            self.torque_words(step.lid),
            self.struts.mounts.count,
            self.length(step.place.arm_mm),
            force_words(self.flats, needed),
            temperature_words(cold),
            gas_share(cold),
            self.struts.margin.print(),
            force_words(self.flats, needed),
            gas_share(cold),
            1.0 + self.struts.margin.hundredths() as f64 / 10_000.0,
            force_words(self.flats, self.rating),
            self.length(low),
            self.length(high),
            self.length(high - low),
        )
    }

    fn chosen_words(&self, name: &str, strut: &GasStrut) -> String {
        let mut text = format!(
            "\nchosen by its maker's data: {name}, {} at 20 °C near full extension, ratio {}, {} compressed, {} extended\n",
            force_words(self.flats, strut.force),
            strut.ratio,
            length_words(self.flats, strut.compressed),
            length_words(self.flats, strut.extended)
        );
        for at in self.struts.temperatures {
            text.push('\n');
            text.push_str(&self.push_table(strut, at));
        }
        text.push_str(
            "push of all = struts × force × arm; left over = push of all - lid: above zero it opens by itself.\n",
        );
        for at in self.struts.temperatures {
            text.push_str(&format!("at {}: {}\n", temperature_words(at), self.verdict(strut, at)));
        }
        if strut.force < self.rating {
            text.push_str(&format!(
                "CAUTION: rated {}, below the {} that it needs with the margin.\n",
                force_words(self.flats, strut.force),
                force_words(self.flats, self.rating)
            ));
        }
        text
    }

    fn push_table(&self, strut: &GasStrut, at: Temperature) -> String {
        let unit = units(self.flats).1.name();
        let (push, lid, left) =
            (format!("push of all, {unit}"), format!("lid, {unit}"), format!("left over, {unit}"));
        let heading = format!("at {}", temperature_words(at));
        let columns = [
            (heading.as_str(), WORDS),
            ("each pushes", NUMBERS),
            (push.as_str(), NUMBERS),
            (lid.as_str(), NUMBERS),
            (left.as_str(), NUMBERS),
        ];
        let row = |step: &SwingStep| {
            vec![
                degrees(step.angle),
                force_words(self.flats, strut.force_at(step.place.length_mm, at)),
                self.torque(self.struts.mounts.push(strut, step.angle, at)),
                self.torque(step.lid),
                self.torque(self.left_over(strut, step.angle, at)),
            ]
        };
        sheet(&columns, self.struts.mounts.table(self.lid).iter().map(row).collect(), None)
    }

    fn verdict(&self, strut: &GasStrut, at: Temperature) -> String {
        let closed = self.left_over(strut, Angle::from_degrees(0.0), at);
        let open = self.left_over(strut, self.struts.mounts.opens, at);
        let first = if closed > Torque::ZERO {
            "closed, the lid springs up when unlatched: a latch must hold it"
        } else {
            "closed, the lid stays down by itself"
        };
        let last = if open < Torque::ZERO { "open, it FALLS" } else { "open, it stays up" };
        let balances: Vec<String> =
            self.struts.mounts.balances(strut, self.lid, at).into_iter().map(degrees).collect();
        let between = if balances.is_empty() {
            "it turns over nowhere between".to_owned()
        } else {
            format!("it turns over at {}", balances.join(", "))
        };
        format!("{first}; {between}; {last}")
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

    fn json(&self) -> Value {
        let (flats, numbers) = (self.flats, Numbers::of(&self.flats.job));
        let mounts = &self.struts.mounts;
        let step = |step: &SwingStep| {
            json!({
                "open": rounded(step.angle.degrees(), 2),
                "length": numbers.millimetres(step.place.length_mm),
                "arm": numbers.millimetres(step.place.arm_mm),
                "lid": torque_json(flats, step.lid),
                "each_must_push": step.needed.map(|force| force_json(flats, force)),
            })
        };
        let chosen = self.struts.chosen.as_ref().map(|(name, strut)| {
            let at = |at: &Temperature| self.at_json(strut, *at);
            json!({
                "name": name,
                "force": force_json(flats, strut.force),
                "enough_with_margin": self.rating <= strut.force,
                "at": self.struts.temperatures.iter().map(at).collect::<Vec<_>>(),
            })
        });
        let [low, high] = mounts.length_range_mm();
        json!({
            "part": self.mark,
            "count": mounts.count,
            "swing": mounts.table(self.lid).iter().map(step).collect::<Vec<_>>(),
            "hardest": step(&self.hardest),
            "rating_at_20_c": force_json(flats, self.rating),
            "least_length": numbers.millimetres(low),
            "greatest_length": numbers.millimetres(high),
            "chosen": chosen,
        })
    }

    fn at_json(&self, strut: &GasStrut, at: Temperature) -> Value {
        let mounts = &self.struts.mounts;
        let row = |step: &SwingStep| {
            json!({
                "open": rounded(step.angle.degrees(), 2),
                "each_pushes": force_json(self.flats, strut.force_at(step.place.length_mm, at)),
                "push_of_all": torque_json(self.flats, mounts.push(strut, step.angle, at)),
                "left_over": torque_json(self.flats, self.left_over(strut, step.angle, at)),
            })
        };
        let turns_over = mounts.balances(strut, self.lid, at);
        json!({
            "celsius": rounded(at.kelvins() - 273.15, 1),
            "swing": mounts.table(self.lid).iter().map(row).collect::<Vec<_>>(),
            "turns_over_at": turns_over.iter().map(|angle| rounded(angle.degrees(), 1)).collect::<Vec<_>>(),
            "stays_open": self.left_over(strut, mounts.opens, at) >= Torque::ZERO,
        })
    }
}
