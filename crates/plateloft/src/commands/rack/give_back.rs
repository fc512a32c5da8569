//! `plateloft rack return`: pieces back as they were, or the kept drops of a finished job.

use std::path::PathBuf;

use clap::Args;
use job::{Offcut, Rack, Standing};

use super::super::{AsReceived, StripLog, job_as_received, plan_of};
use super::{RackPath, add, drops, rack_file, take, words};
use crate::plan::Plan;
use crate::speech::{Refusal, listed, say, tell};
use crate::{costing, plan};

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
    #[command(flatten)]
    log: StripLog,
    #[command(flatten)]
    received: AsReceived,
    /// The job was cut with pieces of this rack first, and they were taken for it
    #[arg(long, requires = "drops_of")]
    rack_first: bool,
}

impl Return {
    /// Runs the command.
    pub(super) fn run(&self) -> Result<(), Refusal> {
        let (Some(path), Some(place), Some(date)) = (&self.drops_of, &self.place, &self.date) else {
            self.refuse_how_it_was_cut()?;
            rack_file::change(&self.rack.rack, false, |rack| self.free(rack))?;
            say(&format!("{}: free", self.marks.join(", ")));
            return Ok(());
        };
        let (mut job, told) = job_as_received(path, &self.log, &self.received)?;
        told.iter().for_each(|sentence| tell(sentence));
        let rack = if self.rack_first { rack_file::read(&self.rack.rack)? } else { Rack::default() };
        let before = before_taking(&rack, &job.name);
        costing::offer(&mut job, &before);
        let plan = plan_of(plan::flats(&path.display().to_string(), job)?)?;
        if self.rack_first {
            same_pieces(&plan, &rack)?;
        }
        let style = plan.flats.job.style;
        let found = drops::kept(&plan, &rack, place, date)?;
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

    /// How a job was cut, and where and when its drops came, says nothing of pieces that go back as they were.
    fn refuse_how_it_was_cut(&self) -> Result<(), Refusal> {
        let given = [
            (self.log.log.is_some(), "--log"),
            (self.received.received, "--received"),
            (self.place.is_some(), "--place"),
            (self.date.is_some(), "--date"),
        ];
        match given.iter().find(|(given, _)| *given) {
            Some((_, option)) => Err(Refusal::bad(format!(
                "rack return: {option}: goes with --drops-of\n    leave it out, or name the job with --drops-of"
            ))),
            None => Ok(()),
        }
    }

    fn free(&self, rack: &mut Rack) -> Result<(), Refusal> {
        let mut wrong = Vec::new();
        for mark in &self.marks {
            let left = left_of(rack, mark);
            let of_job = of_its_job(rack, mark);
            match take::find(rack, mark) {
                None => wrong.push(take::unknown("rack return", mark)),
                Some(_) if !left.is_empty() => wrong.push(format!(
                    "rack return: {mark}: was cut up: what was left of it is in the rack as {}\n    leave it taken; \
                     anything more that is left of it comes with: plateloft rack add --cut-from {mark}",
                    listed(&left)
                )),
                Some(Offcut { standing: Standing::Taken(job), .. }) if !of_job.is_empty() => wrong.push(format!(
                    "rack return: {mark}: was taken for {job}, and drops of that job are in the rack since: {}\n    leave it \
                     taken, as cut; if it was left whole, put it in anew under another mark with: plateloft rack add",
                    listed(&of_job)
                )),
                Some(offcut) if offcut.standing == Standing::Free => {
                    wrong.push(format!("rack return: {mark}: is in the rack and free\n    check the mark"));
                }
                Some(offcut) => offcut.standing = Standing::Free,
            }
        }
        if wrong.is_empty() { Ok(()) } else { Err(Refusal::BadInput(wrong)) }
    }
}

/// What came to the rack of the job that the piece of this mark was taken for: the job is cut, and so is the piece, though
/// nothing of it may be left.
fn of_its_job(rack: &Rack, mark: &str) -> Vec<String> {
    let mut taken = rack.offcuts.iter().filter(|offcut| offcut.mark.to_lowercase() == mark.to_lowercase());
    let Some(Standing::Taken(job)) = taken.next().map(|offcut| &offcut.standing) else { return Vec::new() };
    let of_job = |offcut: &&Offcut| offcut.from_job.as_ref() == Some(job);
    rack.offcuts.iter().filter(of_job).map(|offcut| offcut.mark.clone()).collect()
}

/// What came to the rack of the piece of this mark.
fn left_of(rack: &Rack, mark: &str) -> Vec<String> {
    let of_it = |offcut: &&Offcut| {
        offcut.cut_from.as_ref().is_some_and(|from| from.to_lowercase() == mark.to_lowercase())
    };
    rack.offcuts.iter().filter(of_it).map(|offcut| offcut.mark.clone()).collect()
}

/// The rack as it was when the job was planned: what was taken for the job was there for it.
fn before_taking(rack: &Rack, job: &str) -> Rack {
    let mut before = rack.clone();
    for offcut in &mut before.offcuts {
        if offcut.standing == Standing::Taken(job.to_owned()) {
            offcut.standing = Standing::Reserved(job.to_owned());
        }
    }
    before
}

/// Refuses where the plan does not use exactly the pieces that were taken for the job: its drops would not be those that
/// were cut.
fn same_pieces(plan: &Plan, rack: &Rack) -> Result<(), Refusal> {
    let name = &plan.flats.job.name;
    let sheets = plan.nests.iter().flat_map(|nest| &nest.sheets);
    let mut used: Vec<&str> = sheets.filter_map(|sheet| sheet.laid.from_rack.as_deref()).collect();
    let of_job = |offcut: &&Offcut| offcut.standing == Standing::Taken(name.clone());
    let mut taken: Vec<&str> =
        rack.offcuts.iter().filter(of_job).map(|offcut| offcut.mark.as_str()).collect();
    used.sort_unstable();
    taken.sort_unstable();
    let listed = |marks: &[&str]| if marks.is_empty() { "none".to_owned() } else { marks.join(", ") };
    if used == taken {
        return Ok(());
    }
    Err(Refusal::bad(format!(
        "rack return: {}: the plan cuts from {} of the rack, and taken for {name} are {}\n    take with: plateloft rack \
         take, or bring the drops one by one with: plateloft rack add --cut-from MARK",
        plan.flats.file,
        listed(&used),
        listed(&taken)
    )))
}
