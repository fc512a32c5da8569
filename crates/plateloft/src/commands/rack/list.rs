//! `plateloft rack list`: what stands in the rack, and what of it suits a job.

use std::path::PathBuf;

use clap::Args;
use job::{Job, Mismatch, Offcut, Standing, Wanted, suits};
use serde_json::json;
use units::{Length, LengthStyle};

use super::super::{StripLog, Unit, job_of};
use super::{RackPath, rack_file, words};
use crate::speech::{Refusal, say};

/// Prints every piece in the rack that passes the filters, in the order in which they came.
#[derive(Debug, Args)]
pub(super) struct List {
    #[command(flatten)]
    rack: RackPath,
    /// Only pieces of this alloy and temper
    #[arg(long)]
    metal: Option<String>,
    /// Only tread plate
    #[arg(long, conflicts_with = "plain")]
    tread: bool,
    /// Only plain sheet
    #[arg(long)]
    plain: bool,
    /// Only pieces of this thickness, to a twentieth of it
    #[arg(long, allow_hyphen_values = true)]
    thickness: Option<String>,
    /// Only pieces that hold a rectangle of these sizes, either way round
    #[arg(long, num_args = 2, value_names = ["SIZE", "SIZE"], allow_hyphen_values = true)]
    holds: Option<Vec<String>>,
    /// Only pieces that nobody has reserved
    #[arg(long)]
    free: bool,
    /// Pieces that were taken, too
    #[arg(long)]
    taken: bool,
    /// For each metal of this job, the pieces that suit it, and why the others do not
    #[arg(long, value_name = "JOB")]
    suits: Option<PathBuf>,
    /// Unit of the lengths printed, and of those given without one
    #[arg(long, value_enum, default_value = "inch")]
    units: Unit,
    /// Print the pieces as JSON
    #[arg(long)]
    json: bool,
}

impl List {
    /// Runs the command.
    pub(super) fn run(&self) -> Result<(), Refusal> {
        let rack = rack_file::read(&self.rack.rack)?;
        let style = self.units.style();
        let filter = self.filter()?;
        let found: Vec<&Offcut> = rack.offcuts.iter().filter(|offcut| filter.passes(offcut)).collect();
        if let Some(path) = &self.suits {
            let job = job_of(path, &StripLog { log: None })?;
            say(&suited(&job, &found, style));
            return Ok(());
        }
        if self.json {
            // Thousands of pieces: a line each, none held as a tree.
            let pieces: Vec<String> =
                found.iter().map(|offcut| format!("\n    {}", words::json(offcut))).collect();
            let rack = json!(self.rack.rack);
            say(&format!(
                "{{\n  \"plateloft\": 1,\n  \"rack\": {rack},\n  \"offcuts\": [{}]\n}}",
                pieces.join(",")
            ));
            return Ok(());
        }
        let mut lines: Vec<String> = found.iter().map(|offcut| words::line(offcut, style)).collect();
        if let Some(least) = rack.least {
            let [a, b] = least.map(|size| size.print(words::by_tape(style)));
            lines.push(format!("kept are pieces that hold {a} × {b}"));
        }
        if found.is_empty() {
            lines.insert(0, "no such piece".to_owned());
        }
        say(&lines.join("\n"));
        Ok(())
    }

    fn filter(&self) -> Result<Filter, Refusal> {
        let read = |option: &str, text: &str| match Length::read(text, self.units.unit()) {
            Ok(length) if Length::ZERO < length => Ok(length),
            Ok(_) => Err(format!(
                "rack list: --{option}: {text}: must be above zero\n    give the size as measured, or leave it out"
            )),
            Err(error) => Err(format!("rack list: --{option}: {text}: {error}\n    {}", error.remedy())),
        };
        let mut wrong = Vec::new();
        let mut keep = |read: Result<Length, String>| read.map_err(|message| wrong.push(message)).ok();
        let thickness = self.thickness.as_ref().and_then(|text| keep(read("thickness", text)));
        let holds = self.holds.iter().flatten().map(|text| keep(read("holds", text))).collect::<Vec<_>>();
        let metal = self.metal.as_deref().map(stock::find_alloy).transpose();
        let metal = metal
            .map_err(|error| wrong.push(format!("rack list: --metal: {error}\n    give alloy and temper")));
        match (wrong.is_empty(), metal) {
            (true, Ok(metal)) => Ok(Filter {
                metal: metal.map(|found| (found.alloy.name.as_str(), found.temper)),
                pattern: match (self.tread, self.plain) {
                    (true, _) => Some(stock::Pattern::Tread),
                    (_, true) => Some(stock::Pattern::Plain),
                    _ => None,
                },
                thickness,
                holds: match holds[..] {
                    [Some(a), Some(b)] => Some([a, b]),
                    _ => None,
                },
                free: self.free,
                taken: self.taken,
            }),
            _ => Err(Refusal::BadInput(wrong)),
        }
    }
}

/// What a piece must be to be listed.
struct Filter {
    metal: Option<(&'static str, Option<&'static str>)>,
    pattern: Option<stock::Pattern>,
    thickness: Option<Length>,
    holds: Option<[Length; 2]>,
    free: bool,
    taken: bool,
}

impl Filter {
    fn passes(&self, offcut: &Offcut) -> bool {
        let standing = match offcut.standing {
            Standing::Free => true,
            Standing::Reserved(_) => !self.free,
            Standing::Taken(_) => self.taken,
        };
        let of_metal = |(alloy, temper): (&str, Option<&str>)| {
            offcut.metal.alloy == alloy
                && temper.is_none_or(|temper| offcut.metal.temper.as_deref() == Some(temper))
        };
        standing
            && self.metal.is_none_or(of_metal)
            && self.pattern.is_none_or(|pattern| offcut.metal.pattern == pattern)
            && self.thickness.is_none_or(|wanted| job::is_thickness(offcut.thickness, wanted))
            && self.holds.is_none_or(|sizes| offcut.holds(sizes))
    }
}

/// For each metal that parts use: what suits, then what does not and why.
fn suited(job: &Job, found: &[&Offcut], style: LengthStyle) -> String {
    let mut lines = Vec::new();
    for (number, metal) in job.metals.iter().enumerate() {
        if job.parts.iter().all(|part| part.metal != number) {
            continue;
        }
        let wanted = Wanted { metal: &metal.metal, face_shows: metal.face_shows, job: &job.name };
        lines.push(format!(
            "{}: {} {}",
            metal.metal.name,
            metal.metal.alloy_and_temper(),
            metal.metal.thickness.print(style)
        ));
        let judged: Vec<(&Offcut, Vec<Mismatch>)> =
            found.iter().map(|offcut| (*offcut, suits(offcut, &wanted))).collect();
        for (offcut, _) in judged.iter().filter(|(_, against)| against.is_empty()) {
            lines.push(format!("  suits: {}", words::line(offcut, style)));
        }
        for (offcut, against) in judged.iter().filter(|(_, against)| !against.is_empty()) {
            let why: Vec<String> = against.iter().map(ToString::to_string).collect();
            lines.push(format!("  not {}: {}", offcut.mark, why.join("; ")));
        }
    }
    lines.join("\n")
}
