//! Sheets received held against the job: entries that contradict it are refused, whatever the sheets are good for.

use stock::Metal;
use units::Length;

use super::super::rack::is_thickness;
use super::sheet::{Received, ReceivedSheet};
use crate::message::{Message, shown};
use crate::model::Job;

/// How far a side may be from the size that was ordered, mm: further off, it is another size of sheet, or a slip of the
/// tape (common practice, no source).
const ANOTHER_SIZE_MM: f64 = 25.4;

impl Received {
    /// Everything in which the entries contradict the job. `name` is that of the file with the entries.
    #[must_use]
    pub fn against(&self, name: &str, job: &Job) -> Vec<Message> {
        self.sheets.iter().flat_map(|sheet| sheet.against(name, job)).collect()
    }
}

impl ReceivedSheet {
    /// Everything in which this entry contradicts the job.
    #[must_use]
    pub fn against(&self, name: &str, job: &Job) -> Vec<Message> {
        let message = |field: &str, value: String, wrong: String, remedy: String| Message {
            file: name.to_owned(),
            mark: Some(shown(&self.mark)),
            field: field.to_owned(),
            value: shown(&value),
            wrong,
            remedy,
        };
        let names: Vec<&str> = job.metals.iter().map(|metal| metal.metal.name.as_str()).collect();
        let Some(number) = names.iter().position(|known| *known == self.metal) else {
            let remedy = format!("metals of the job are {}", crate::nearest::list(names));
            return vec![message(
                "metal",
                self.metal.clone(),
                "no metal of the job has this name".to_owned(),
                remedy,
            )];
        };
        let mut found = Vec::new();
        let pair = |[a, b]: [Length; 2]| format!("{} × {}", a.print(job.style), b.print(job.style));
        let sizes: Vec<[Length; 2]> = job
            .sheets
            .iter()
            .filter(|sheet| sheet.metal == number && sheet.from_rack.is_none())
            .map(|sheet| [sheet.width, sheet.length])
            .collect();
        if !sizes.contains(&self.ordered) {
            let known: Vec<String> = sizes.into_iter().map(pair).collect();
            let wrong = format!("{} is bought in no such size", self.metal);
            let remedy = format!("sizes of the job are {}; add this one under \"sheets\"", known.join(", "));
            found.push(message("ordered", pair(self.ordered), wrong, remedy));
        }
        let off = |side: usize| (self.size[side] - self.ordered[side]).abs().millimetres();
        if ANOTHER_SIZE_MM < off(0).max(off(1)) {
            let wrong = format!("is another size than the {} that was ordered", pair(self.ordered));
            let remedy = "measure it again, or enter it under the size that it is".to_owned();
            found.push(message("size", pair(self.size), wrong, remedy));
        }
        found.extend(self.thickness_fault(&job.metals[number].metal, job).map(|(wrong, remedy)| {
            message("thickness", self.thickness.print(crate::convert::fine(job.unit)), wrong, remedy)
        }));
        found
    }

    fn thickness_fault(&self, metal: &Metal, job: &Job) -> Option<(String, String)> {
        if is_thickness(self.thickness, metal.thickness) {
            return None;
        }
        let ordered = metal.thickness.print(crate::convert::fine(job.unit));
        let wrong = format!("is off by more than a twentieth from the {ordered} that was ordered");
        let remedy = "measure again on the flat base; if it is so, send the sheet back, or give the job this thickness";
        Some((wrong, remedy.to_owned()))
    }
}
