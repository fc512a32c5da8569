//! Hinged lids balanced by gas struts, in words, tables and a plot.

use estimate::{GasStrut, Lid, SwingStep, gas_share};
use job::{HingedLid, Struts};
use paper::lists::passages::{Column, Passage, sheet};
use paper::page::Pen;
use paper::strut_plot::{Curve, Plot};
use serde_json::{Value, json};
use units::{Angle, Force, ForceUnit, Length, LengthUnit, Temperature, Torque};

use super::weights::{decimal_words, force_words, torque_json};
use super::{Numbers, rounded};
use crate::plan::Flats;
use crate::plan::balance::{PlannedLid, units};
use crate::speech::Refusal;

/// A lid with its struts, worked out.
pub(crate) struct Balanced<'a> {
    flats: &'a Flats,
    /// Mark of the part.
    pub(crate) mark: &'a str,
    lid: &'a Lid,
    struts: &'a Struts,
    /// Where they must push hardest.
    hardest: SwingStep,
    /// What each needs there by its gas at the coldest, rated at 20 °C, with the margin.
    rating: Force,
}

/// The lid with its struts, if it has any.
pub(crate) fn balanced<'a>(
    flats: &'a Flats,
    asked: &'a HingedLid,
    planned: &'a PlannedLid,
) -> Option<Result<Balanced<'a>, Refusal>> {
    let struts = asked.struts.as_ref()?;
    let lid = &planned.lid;
    Some(match struts.mounts.hardest(lid) {
        Ok(hardest) => {
            let needed = hardest.needed.unwrap_or_default().newtons();
            let margin = 1.0 + struts.margin.thousandths() as f64 / 100_000.0;
            let rating = Force::from_newtons(needed / gas_share(struts.temperatures[0]) * margin);
            Ok(Balanced { flats, mark: &planned.mark, lid, struts, hardest, rating })
        }
        Err(fault) => Err(Refusal::bad(format!(
            "{}: weights.lids: {}: struts: {fault}\n    move their ends, so that they push the lid open all the way",
            flats.file, planned.mark
        ))),
    })
}

/// Name of the unit of lengths.
const fn length_unit_name(flats: &Flats) -> &'static str {
    match flats.job.unit {
        LengthUnit::Inch => "inches",
        LengthUnit::Millimetre => "mm",
    }
}

/// Name of the unit of forces.
pub(crate) fn force_unit_name(flats: &Flats) -> &'static str {
    match flats.job.unit {
        LengthUnit::Inch => "lbf",
        LengthUnit::Millimetre => "N",
    }
}

fn force_json(flats: &Flats, force: Force) -> Value {
    match flats.job.unit {
        LengthUnit::Inch => rounded(force.pounds_force(), 1),
        LengthUnit::Millimetre => rounded(force.newtons(), 1),
    }
}

fn degrees(angle: Angle) -> String {
    format!("{}°", angle.print(1))
}

impl Balanced<'_> {
    fn torque(&self, torque: Torque) -> String {
        let unit = units(self.flats).1;
        torque.print(unit, unit.places())
    }

    fn temperature(&self, at: Temperature) -> String {
        Numbers::of(&self.flats.job).temperature_words(at)
    }

    fn torque_words(&self, torque: Torque) -> String {
        let unit = units(self.flats).1;
        torque.print_with_unit(unit, unit.places())
    }

    fn length(&self, millimetres: f64) -> String {
        decimal_words(self.flats, Length::from_millimetres(millimetres))
    }

    fn left_over(&self, strut: &GasStrut, angle: Angle, at: Temperature) -> Torque {
        self.push_of_all(strut, angle, at) - self.printed_torque(self.lid.moment(angle))
    }

    /// Moment of all struts, worked from their force and lever arm as these print, so that it can be redone by hand.
    fn push_of_all(&self, strut: &GasStrut, angle: Angle, at: Temperature) -> Torque {
        let mounts = &self.struts.mounts;
        let place = mounts.place(angle);
        let force = self.printed_force(strut.force_at(place.length_mm, at));
        self.printed_torque(Torque::of(force, f64::from(mounts.count) * self.printed_arm_mm(place.arm_mm)))
    }

    fn printed_torque(&self, torque: Torque) -> Torque {
        let unit = units(self.flats).1;
        torque.as_printed(unit, unit.places())
    }

    fn printed_force(&self, force: Force) -> Force {
        let unit = match self.flats.job.unit {
            LengthUnit::Inch => ForceUnit::PoundForce,
            LengthUnit::Millimetre => ForceUnit::Newton,
        };
        force.as_printed(unit, 1)
    }

    fn printed_arm_mm(&self, arm_mm: f64) -> f64 {
        let step = match self.flats.job.unit {
            LengthUnit::Inch => 25.4 / 1_000.0,
            LengthUnit::Millimetre => 1.0 / 100.0,
        };
        (arm_mm / step).round() * step
    }

    /// What turns force times printed length into the printed moment.
    const fn to_moment_unit(&self) -> &'static str {
        match self.flats.job.unit {
            LengthUnit::Inch => "",
            LengthUnit::Millimetre => " / 1000",
        }
    }

    /// What turns the printed moment into force times printed length: newton-metres are a thousand newton-millimetres.
    const fn to_length_unit(&self) -> &'static str {
        match self.flats.job.unit {
            LengthUnit::Inch => "",
            LengthUnit::Millimetre => " × 1000",
        }
    }

    /// The whole sum.
    pub(crate) fn words(&self) -> Vec<Passage> {
        let mounts = &self.struts.mounts;
        let print = |length: Length| decimal_words(self.flats, length);
        let side = |length: Length, [above, below]: [&str; 2]| {
            if length < Length::ZERO {
                format!("{} {below}", print(-length))
            } else {
                format!("{} {above}", print(length))
            }
        };
        let pair = |[out, up]: [Length; 2]| {
            format!("{}, {}", side(out, ["out", "behind"]), side(up, ["above", "below"]))
        };
        let head =
            format!("{}: {} gas struts, lid opens {}\n", self.mark, mounts.count, degrees(mounts.opens));
        let ends = format!(
            "Lengths in {}. From the pin, lid closed: ends on the frame {}; ends on the lid {}\n\n",
            length_unit_name(self.flats),
            pair(mounts.fixed),
            pair(mounts.on_lid)
        );
        let mut words = vec![
            Passage::Heading(head),
            Passage::Words(ends),
            self.swing_table(),
            Passage::Words(self.needed_words()),
        ];
        match &self.struts.chosen {
            Some((name, strut)) => words.extend(self.chosen_words(name, strut)),
            None => {
                let [_, hot] = self.struts.temperatures;
                words.push(Passage::Words(format!(
                    "No strut is chosen: the maker's force, ratio and lengths are not in the job (\"maker\" under \"struts\"). The \
                     maker's data decide; none is guessed. At {}, the hottest, gas pushes {:.4} of what it does at {}: how hard \
                     that drives the lid on is worked once a strut is chosen.\n",
                    self.temperature(hot),
                    gas_share(hot),
                    Numbers::of(&self.flats.job).rated_at()
                )));
            }
        }
        words.push(Passage::Words(
            "Never rely on struts alone: one may lose its gas. Fit a stay or a stop. Mount the rod down when closed, and \
             let nothing push the strut sideways; the maker's own rules go first.\n"
                .to_owned(),
        ));
        words
    }

    fn swing_table(&self) -> Passage {
        let unit = units(self.flats).1.name();
        let columns = vec![
            Column::numbers(
                "open",
                "turn of the lid from closed, in equal steps to the turn in the job (struts)",
            ),
            Column::numbers(
                "length",
                "distance between the two ends of the strut, the lid's turned about the pin",
            ),
            Column::numbers("lever arm", "distance of the strut's line from the pin"),
            Column::numbers(
                format!("lid closes, {unit}"),
                "weight of lid and hardware × how far its centre is out from the pin",
            ),
            Column::numbers(
                "each must push",
                format!("lid closes{} / (struts × lever arm)", self.to_length_unit()),
            ),
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
        sheet(columns, self.struts.mounts.table(self.lid).iter().map(row).collect(), None)
    }

    fn needed_words(&self) -> String {
        let step = &self.hardest;
        let [cold, _] = self.struts.temperatures;
        let needed = step.needed.unwrap_or_default();
        let [low, high] = self.struts.mounts.length_range_mm();
        let rated_at = Numbers::of(&self.flats.job).rated_at();
        let thousand = self.to_length_unit();
        format!(
            "each must push = lid{thousand} / (struts × arm); hardest at {}: {}{thousand} / ({} × {}) = {}\n\
             gas at {} pushes {:.4} of what it does at {rated_at}; margin {} as the job says\n\
             rating at {rated_at}, each: {} / {:.4} × {:.4} = {}\n\
             What each must push and the rating are worked unrounded: redone from these figures they may be off in the last digit.\n\
             length over the swing {} to {}, so a stroke of {} at least\n",
            degrees(step.angle),
            self.torque_words(step.lid),
            self.struts.mounts.count,
            self.length(step.place.arm_mm),
            force_words(self.flats, needed),
            self.temperature(cold),
            gas_share(cold),
            self.struts.margin.print(),
            force_words(self.flats, needed),
            gas_share(cold),
            1.0 + self.struts.margin.thousandths() as f64 / 100_000.0,
            force_words(self.flats, self.rating),
            self.length(low),
            self.length(high),
            self.length(high - low),
        )
    }

    fn chosen_words(&self, name: &str, strut: &GasStrut) -> Vec<Passage> {
        let rated_at = Numbers::of(&self.flats.job).rated_at();
        let head = format!(
            "\nchosen by its maker's data: {name}, {} at {rated_at} near full extension, ratio {}, {} compressed, {} extended\n",
            force_words(self.flats, strut.force),
            strut.ratio,
            decimal_words(self.flats, strut.compressed),
            decimal_words(self.flats, strut.extended)
        );
        let mut words = vec![Passage::Words(head)];
        for at in self.struts.temperatures {
            words.push(Passage::Words("\n".to_owned()));
            words.push(self.push_table(strut, at));
        }
        let mut text = format!(
            "push of all = struts × force × arm{}, from the figures as printed; left over = push of all - lid: above zero it \
             opens by itself.\n",
            self.to_moment_unit()
        );
        for at in self.struts.temperatures {
            text.push_str(&format!("at {}: {}\n", self.temperature(at), self.verdict(strut, at)));
        }
        let open = self.struts.mounts.opens;
        let pushes_on = self.struts.temperatures.iter().map(|at| self.left_over(strut, open, *at)).max();
        if let Some(most) = pushes_on.filter(|most| Torque::ZERO < *most) {
            text.push_str(&format!(
                "CAUTION: open at {} they still push it on, with up to {}: they do not stop it. A stop or a stay must hold that.\n",
                degrees(open),
                self.torque_words(most)
            ));
        }
        if strut.force < self.rating {
            text.push_str(&format!(
                "CAUTION: rated {}, below the {} that it needs with the margin.\n",
                force_words(self.flats, strut.force),
                force_words(self.flats, self.rating)
            ));
        }
        words.push(Passage::Words(text));
        words
    }

    fn push_table(&self, strut: &GasStrut, at: Temperature) -> Passage {
        let unit = units(self.flats).1.name();
        let columns = vec![
            Column::numbers(format!("at {}", self.temperature(at)), "turn of the lid from closed").as_words(),
            Column::numbers(
                "each pushes",
                "maker's force and ratio at that length, gas at that temperature (weights, lids, struts, maker)",
            ),
            Column::numbers(
                format!("push of all, {unit}"),
                format!("struts × push of each × lever arm{}", self.to_moment_unit()),
            ),
            Column::numbers(
                format!("lid, {unit}"),
                "weight of lid and hardware × how far its centre is out from the pin",
            ),
            Column::numbers(format!("left over, {unit}"), "push of all − lid"),
        ];
        let row = |step: &SwingStep| {
            vec![
                degrees(step.angle),
                force_words(self.flats, strut.force_at(step.place.length_mm, at)),
                self.torque(self.push_of_all(strut, step.angle, at)),
                self.torque(step.lid),
                self.torque(self.left_over(strut, step.angle, at)),
            ]
        };
        sheet(columns, self.struts.mounts.table(self.lid).iter().map(row).collect(), None)
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
    pub(crate) fn falls(&self) -> Option<String> {
        let (name, strut) = self.struts.chosen.as_ref()?;
        let open = self.struts.mounts.opens;
        let falls = |at: &&Temperature| self.left_over(strut, open, **at) < Torque::ZERO;
        let at = self.struts.temperatures.iter().find(falls)?;
        Some(format!(
            "no: {} does not stay open at {} with {name}: {} are left over",
            self.mark,
            self.temperature(*at),
            self.torque_words(self.left_over(strut, open, *at))
        ))
    }

    /// A caution, when the chosen struts push it open as soon as it is unlatched.
    pub(crate) fn springs(&self) -> Option<String> {
        let (name, strut) = self.struts.chosen.as_ref()?;
        let closed = Angle::from_degrees(0.0);
        let springs = |at: &&Temperature| Torque::ZERO < self.left_over(strut, closed, **at);
        self.struts.temperatures.iter().find(springs)?;
        Some(format!("{} springs up when it is unlatched, with {name}: a latch must hold it", self.mark))
    }

    /// Its moments over the swing.
    pub(crate) fn plot(&self) -> Plot {
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
                let name = format!("struts at {}", self.temperature(at));
                curves.push(curve(name, pen, &|step| mounts.push(strut, step.angle, at)));
            }
        }
        Plot { title: format!("{}: lid against struts", self.mark), unit: unit.name(), curves }
    }

    /// The whole sum as JSON.
    pub(crate) fn json(&self) -> Value {
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
                "push_of_all": torque_json(self.flats, self.push_of_all(strut, step.angle, at)),
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
