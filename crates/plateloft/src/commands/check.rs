//! `plateloft check`: is the job sound?

use std::path::PathBuf;

use clap::Args;
use serde_json::json;

use crate::output;
use crate::plan::Plan;
use crate::speech::{Refusal, say, say_json};

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
        let outcome = super::flats_of(&self.job, &self.log).and_then(super::plan_of);
        match outcome {
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

fn worst_deviation_mm(plan: &Plan) -> f64 {
    plan.flats.parts.iter().fold(0.0, |worst: f64, part| worst.max(part.proof.worst_mm))
}
