//! `plateloft rack return`: pieces back as they were, or the kept drops of a finished job.

use std::path::PathBuf;

use clap::Args;
use job::{Rack, Standing};

use super::super::{StripLog, flats_of, plan_of};
use super::{RackPath, add, drops, rack_file, take, words};
use crate::speech::{Refusal, say};

/// Puts pieces back that were taken and not cut, frees reserved ones, or brings the kept drops of a finished job.
#[derive(Debug, Args)]
pub(super) struct Return {
    #[command(flatten)]
    rack: RackPath,
    /// Marks of pieces that go back as they were
    #[arg(required_unless_present = "drops_of", conflicts_with = "drops_of")]
    marks: Vec<String>,
    /// The job whose kept drops come to the rack
    #[arg(long, value_name = "JOB", requires = "place", requires = "date")]
    drops_of: Option<PathBuf>,
    /// Where the drops stand
    #[arg(long)]
    place: Option<String>,
    /// Day they came, like 2026-03-04
    #[arg(long)]
    date: Option<String>,
}

impl Return {
    /// Runs the command.
    pub(super) fn run(&self) -> Result<(), Refusal> {
        let (Some(path), Some(place), Some(date)) = (&self.drops_of, &self.place, &self.date) else {
            rack_file::change(&self.rack.rack, false, |rack| self.free(rack))?;
            say(&format!("{}: free", self.marks.join(", ")));
            return Ok(());
        };
        let plan = plan_of(flats_of(path, &StripLog { log: None })?)?;
        let style = plan.flats.job.style;
        let found = drops::kept(&plan, place, date)?;
        if found.is_empty() {
            return Err(Refusal::No(format!(
                "{}: no drop of this job is kept\n    give \"keep_drop\" under \"shop\"",
                path.display()
            )));
        }
        let mut lines = Vec::new();
        rack_file::change(&self.rack.rack, true, |rack| {
            for offcut in found {
                let line = words::line(&offcut, style);
                match add::put(rack, offcut, false, "rack return", style) {
                    Ok(()) => lines.push(line),
                    Err(Refusal::No(message)) => lines.push(message),
                    Err(refusal) => return Err(refusal),
                }
            }
            Ok(())
        })?;
        say(&lines.join("\n"));
        Ok(())
    }

    fn free(&self, rack: &mut Rack) -> Result<(), Refusal> {
        let mut wrong = Vec::new();
        for mark in &self.marks {
            match take::find(rack, mark) {
                None => wrong.push(take::unknown("rack return", mark)),
                Some(offcut) if offcut.standing == Standing::Free => {
                    wrong.push(format!("rack return: {mark}: is in the rack and free\n    check the mark"));
                }
                Some(offcut) => offcut.standing = Standing::Free,
            }
        }
        if wrong.is_empty() { Ok(()) } else { Err(Refusal::BadInput(wrong)) }
    }
}
