//! Gas struts as JSON.

use estimate::{GasStrut, SwingStep};
use serde_json::{Value, json};
use units::{Force, LengthUnit, Temperature, Torque};

use super::super::weights::torque_json;
use super::Balanced;
use crate::output::{Numbers, rounded};
use crate::plan::Flats;

fn force_json(flats: &Flats, force: Force) -> Value {
    match flats.job.unit {
        LengthUnit::Inch => rounded(force.pounds_force(), 2),
        LengthUnit::Millimetre => rounded(force.newtons(), 1),
    }
}

impl Balanced<'_> {
    pub(super) fn json(&self) -> Value {
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
