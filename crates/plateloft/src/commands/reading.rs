//! What commands read: the job, the shop's log of strips, its rack, and the sheets received.

use std::path::{Path, PathBuf};

use clap::Args;
use job::{Job, JobOption};

use super::{bend, interrupt, rack, receive};
use crate::plan::{Flats, Plan};
use crate::speech::{Patience, Refusal, tell};
use crate::{costing, delivery, plan};

/// The shop's log of test strips, for every command that reads a job.
#[derive(Debug, Args)]
pub(super) struct StripLog {
    /// The shop's log of test strips, instead of the one that the job names or the one beside it
    #[arg(long)]
    pub(super) log: Option<PathBuf>,
}

/// The shop's rack, for commands that may take offcuts first.
#[derive(Debug, Args)]
pub(super) struct RackFirst {
    /// Take suitable pieces of this rack first
    #[arg(long, value_name = "RACK")]
    pub(super) rack: Option<PathBuf>,
}

/// The sheets received, for commands whose numbers go to the bench.
#[derive(Debug, Args)]
pub(super) struct AsReceived {
    /// Work from the sheets as they were received: their real sizes, and their thickness by caliper
    #[arg(long)]
    pub(super) received: bool,
}

/// Reads a job file and the shop's log of strips, and lays all its parts flat.
pub(super) fn flats_of(path: &Path, log: &StripLog) -> Result<Flats, Refusal> {
    plan::flats(&path.display().to_string(), job_of(path, log)?)
}

/// As [`flats_of`], for the sheets as received where that is asked for. Sheets that are entered and not asked for are
/// pointed out.
pub(super) fn flats_as_received(
    path: &Path,
    log: &StripLog,
    received: &AsReceived,
) -> Result<Flats, Refusal> {
    let (job, told) = job_as_received(path, log, received)?;
    told.iter().for_each(|sentence| tell(sentence));
    let flats = plan::flats(&path.display().to_string(), job);
    if received.received { flats.map_err(delivery::no_longer) } else { flats }
}

/// Reads a job file and the shop's log of strips.
pub(super) fn job_of(path: &Path, log: &StripLog) -> Result<Job, Refusal> {
    read(path, log, &[])
}

/// Reads a job file and its options, each as the job that it comes to.
pub(super) fn job_and_options(path: &Path, log: &StripLog) -> Result<(Job, Vec<(JobOption, Job)>), Refusal> {
    let file = path.display().to_string();
    let bytes = read_bytes(path)?;
    let find_log = |named: Option<&str>| bend::find_log(path, log.log.as_deref(), named);
    let read = |file: &str, bytes: &[u8]| {
        job::read_with_log(file, bytes, &find_log).map_err(|messages| Refusal::of(&messages))
    };
    let job = read(&file, &bytes)?;
    let options = job::options(&file, &bytes).map_err(|messages| Refusal::of(&messages))?;
    let options = options.into_iter().map(|option| {
        let job = read(&option_name(&option, &file), &option.bytes)?;
        Ok((option, job))
    });
    Ok((job, options.collect::<Result<_, Refusal>>()?))
}

/// What an option is called in messages.
pub(super) fn option_name(option: &JobOption, file: &str) -> String {
    format!("option \"{}\" of {file}", option.name)
}

/// Offers a job the rack where one is named, and says what there is to say about it.
pub(super) fn offer_rack(job: &mut Job, first: &RackFirst) -> Result<Vec<String>, Refusal> {
    match &first.rack {
        Some(file) => Ok(costing::offer(job, &rack::read(file)?)),
        None => Ok(Vec::new()),
    }
}

/// Reads a job for other thicknesses than those of its file.
pub(super) fn read(path: &Path, log: &StripLog, thicknesses: &[delivery::Thickness]) -> Result<Job, Refusal> {
    let file = path.display().to_string();
    let bytes = read_bytes(path)?;
    let find_log = |named: Option<&str>| bend::find_log(path, log.log.as_deref(), named);
    job::read_as_received(&file, &bytes, &find_log, thicknesses).map_err(|messages| Refusal::of(&messages))
}

/// Reads a job, for the sheets as received where that is asked for, and what there is to say of them.
pub(super) fn job_as_received(
    path: &Path,
    log: &StripLog,
    as_received: &AsReceived,
) -> Result<(Job, Vec<String>), Refusal> {
    let ordered = job_of(path, log)?;
    let entered = receive::file_of(path);
    if !as_received.received {
        let told = entered.exists().then(|| {
            format!(
                "{}: sheets were received, and this is worked for what was ordered\n    \
                 add --received to work from the sheets as they are",
                entered.display()
            )
        });
        return Ok((ordered, told.into_iter().collect()));
    }
    let received = receive::read(path, &ordered)?;
    let mut job = read(path, log, &delivery::worked_thicknesses(&received))?;
    let told = delivery::take_sheets(&mut job, &received);
    Ok((job, told))
}

/// The bytes of a file.
#[expect(clippy::disallowed_methods, reason = "the program is where files are touched")]
fn read_bytes(path: &Path) -> Result<Vec<u8>, Refusal> {
    std::fs::read(path).map_err(|error| Refusal::cannot(path, "read", &error))
}

/// Reads a job, offers it the rack where one is named, and nests it. What there is to say about the rack comes second.
pub(super) fn plan_with_rack(
    path: &Path,
    log: &StripLog,
    first: &RackFirst,
) -> Result<(Plan, Vec<String>), Refusal> {
    let job = job_of(path, log)?;
    plan_with(path, job, first)
}

/// As [`plan_with_rack`], for the sheets as received where that is asked for. What there is to say is told.
pub(super) fn plan_for_bench(
    path: &Path,
    log: &StripLog,
    first: &RackFirst,
    received: &AsReceived,
) -> Result<Plan, Refusal> {
    let (mut job, told) = job_as_received(path, log, received)?;
    if received.received {
        job.cautions.extend(told.iter().map(|sentence| format!("{sentence}.")));
    }
    let planned = plan_with(path, job, first);
    let (plan, more) = if received.received { planned.map_err(delivery::no_longer)? } else { planned? };
    told.iter().chain(&more).for_each(|sentence| tell(sentence));
    Ok(plan)
}

fn plan_with(path: &Path, mut job: Job, first: &RackFirst) -> Result<(Plan, Vec<String>), Refusal> {
    let told = offer_rack(&mut job, first)?;
    // What is cut from the rack is looked at first: it stands with the cautions of the packet.
    job.cautions.extend(told.iter().map(|sentence| format!("{sentence}.")));
    let flats = plan::flats(&path.display().to_string(), job)?;
    Ok((plan_of(flats)?, told))
}

/// Nests the flats of a job, with a word now and then for the person waiting, who may end the search.
pub(super) fn plan_of(flats: Flats) -> Result<Plan, Refusal> {
    let patience = Patience::new();
    let plan = interrupt::ended_by(|ending| {
        if let Some(evaluations) = flats.job.shop.nesting.evaluations {
            let words = "evaluations for every choice of sheets; Ctrl-C ends with the best so far";
            tell(&format!("looking for nests: {evaluations} {words}"));
        }
        plan::plan(flats, &|news| patience.tell(news), ending)
    })?;
    if plan.ended_early {
        tell(
            "the search was ended early: these are the best nests so far, and the same job need not give them again",
        );
    }
    Ok(plan)
}
