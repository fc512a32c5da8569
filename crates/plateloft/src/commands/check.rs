//! `plateloft check`: is the job sound?

use std::path::PathBuf;

use clap::Args;
use serde_json::json;

use super::reading::{job_and_options, option_name};
use crate::output::weights;
use crate::plan::{self, Others, Plan, balance};
use crate::speech::{Refusal, say, say_json};
use crate::{kit, output};

/// Reads a job, lays every part flat, folds it again to prove it, nests it, and says what is wrong or worth a look.
#[derive(Debug, Args)]
pub(crate) struct Check {
    /// The job file
    job: PathBuf,
    #[command(flatten)]
    log: super::StripLog,
    /// Print the findings as JSON
    #[arg(long)]
    json: bool,
}

impl Check {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        match self.plan() {
            Ok(plan) => {
                let (assumptions, cautions) = output::assumptions_and_cautions(&plan, &[]);
                let parts = plan.flats.parts.len();
                if self.json {
                    say_json(&json!({
                        "plateloft": 1,
                        "job": plan.flats.job.name,
                        "sound": true,
                        "parts": parts,
                        "worst_refold_deviation_mm": worst_deviation_mm(&plan),
                        "problems": [],
                        "fits": output::fits_json(&plan.flats),
                        "assumptions": assumptions,
                        "cautions": cautions,
                    }));
                } else {
                    let name = &plan.flats.job.name;
                    let noun = if parts == 1 { "part" } else { "parts" };
                    say(&format!("{name}: {parts} {noun}, every flat folded again and every nest verified"));
                    let fits = output::fit_sentences(&plan.flats);
                    for (title, sentences) in
                        [("fits", fits), ("assumed", assumptions), ("look at", cautions)]
                    {
                        sentences.iter().for_each(|sentence| say(&format!("{title}: {sentence}")));
                    }
                }
                match output::fit_refusals(&plan.flats).len() {
                    0 => Ok(()),
                    1 => Err(Refusal::No("one part does not go where it must".to_owned())),
                    count => Err(Refusal::No(format!("{count} of the fit checks say no"))),
                }
            }
            Err(Refusal::No(problems)) if self.json => {
                say_json(&json!({ "plateloft": 1, "sound": false, "problems": problems }));
                Err(Refusal::No(problems))
            }
            Err(Refusal::CannotBeMade { reasons, parts }) if self.json => {
                say_json(&json!({ "plateloft": 1, "sound": false, "problems": reasons }));
                Err(Refusal::CannotBeMade { reasons, parts })
            }
            Err(Refusal::BadInput(problems)) if self.json => {
                say_json(&json!({ "plateloft": 1, "sound": false, "problems": problems }));
                Err(Refusal::BadInput(problems))
            }
            Err(refusal) => Err(refusal),
        }
    }
}

impl Check {
    /// The plan of the job, when all that other commands would work out of it is sound as well: bars, coverings, the kit, and
    /// the flats of its options.
    fn plan(&self) -> Result<Plan, Refusal> {
        let file = self.job.display().to_string();
        let (job, options) = job_and_options(&self.job, &self.log)?;
        let plan = plan::flats(&file, job.clone()).and_then(super::plan_of);
        let mut more = vec![Others::of(&file, &job).map(drop)];
        if let Ok(plan) = &plan {
            more.push(plan::cut_bars(&plan.flats).map(drop));
            more.push(weights::lids(&plan.flats).map(drop));
            let weighed = balance::weighed(&plan.flats);
            more.push(weighed.and_then(|parts| balance::assemblies(&plan.flats, &parts).map(drop)));
            if job.kit.is_some() {
                let packed = kit::for_buyer(&file, job);
                let packed = packed.and_then(|(flats, asked)| kit::packed(super::plan_of(flats)?, asked));
                // What only the buyer's machine does not bend is an answer of the kit's, and no fault of the job.
                more.push(packed.map(drop).or_else(|refusal| match refusal {
                    Refusal::CannotBeMade { .. } | Refusal::No(_) => Ok(()),
                    fault => Err(fault),
                }));
            }
            more.extend(
                options
                    .into_iter()
                    .map(|(option, job)| plan::flats(&option_name(&option, &file), job).map(drop)),
            );
        }
        together(plan, more)
    }
}

/// The plan, where nothing else is refused; else what is wrong with the job, all at once, and only then what cannot be made.
fn together(plan: Result<Plan, Refusal>, more: Vec<Result<(), Refusal>>) -> Result<Plan, Refusal> {
    let (plan, own) = match plan {
        Ok(plan) => (Some(plan), None),
        Err(refusal) => (None, Some(refusal)),
    };
    let (mut wrong, mut first) = (Vec::new(), None);
    for refusal in own.into_iter().chain(more.into_iter().filter_map(Result::err)) {
        match refusal {
            Refusal::BadInput(messages) => wrong.extend(messages),
            fault @ Refusal::ProofFailed(_) => return Err(fault),
            other => first = first.or(Some(other)),
        }
    }
    match (plan, first) {
        _ if !wrong.is_empty() => Err(Refusal::BadInput(wrong)),
        (_, Some(refusal)) => Err(refusal),
        (Some(plan), None) => Ok(plan),
        (None, None) => Err(Refusal::bad("nothing was planned")),
    }
}

fn worst_deviation_mm(plan: &Plan) -> f64 {
    plan.flats.parts.iter().fold(0.0, |worst: f64, part| worst.max(part.proof.worst_mm))
}
