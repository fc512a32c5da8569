//! `plateloft rack take`: pieces go to a job, or are kept for one.

use clap::Args;
use job::{Rack, Standing};

use super::{RackPath, rack_file};
use crate::speech::{Refusal, say};

/// Takes pieces out of the rack for a job, or reserves them. A piece that is reserved for another job is not taken.
#[derive(Debug, Args)]
pub(super) struct Take {
    #[command(flatten)]
    rack: RackPath,
    /// Marks of the pieces
    #[arg(required = true)]
    marks: Vec<String>,
    /// The job they are for
    #[arg(long)]
    job: String,
    /// Only reserve them: they stay in the rack
    #[arg(long)]
    reserve: bool,
}

impl Take {
    /// Runs the command.
    pub(super) fn run(&self) -> Result<(), Refusal> {
        if self.job.trim().is_empty() {
            return Err(Refusal::bad("rack take: --job: is empty\n    name the job that the pieces are for"));
        }
        rack_file::change(&self.rack.rack, false, |rack| self.take(rack))?;
        let what = if self.reserve { "reserved" } else { "taken" };
        say(&format!("{}: {what} for {}", self.marks.join(", "), self.job));
        Ok(())
    }

    fn take(&self, rack: &mut Rack) -> Result<(), Refusal> {
        let mut wrong = Vec::new();
        for (number, mark) in self.marks.iter().enumerate() {
            if self.marks[..number].iter().any(|other| other.to_lowercase() == mark.to_lowercase()) {
                wrong.push(format!("rack take: {mark}: is named twice\n    name each piece once"));
                continue;
            }
            let Some(offcut) = find(rack, mark) else {
                wrong.push(unknown("rack take", mark));
                continue;
            };
            match &offcut.standing {
                Standing::Taken(job) => wrong.push(format!(
                    "rack take: {mark}: was taken for {job}\n    take another, or put it back with: plateloft rack return {mark}"
                )),
                Standing::Reserved(job) if *job != self.job => wrong.push(format!(
                    "rack take: {mark}: is reserved for {job}\n    take another, or free it with: plateloft rack return {mark}"
                )),
                Standing::Free | Standing::Reserved(_) => {
                    let job = self.job.clone();
                    offcut.standing = if self.reserve { Standing::Reserved(job) } else { Standing::Taken(job) };
                }
            }
        }
        if wrong.is_empty() { Ok(()) } else { Err(Refusal::BadInput(wrong)) }
    }
}

/// The piece of this mark.
pub(super) fn find<'a>(rack: &'a mut Rack, mark: &str) -> Option<&'a mut job::Offcut> {
    rack.offcuts.iter_mut().find(|offcut| offcut.mark.to_lowercase() == mark.to_lowercase())
}

pub(super) fn unknown(told_by: &str, mark: &str) -> String {
    format!("{told_by}: {mark}: no piece of this mark is in the rack\n    see plateloft rack list --taken")
}
