//! `plateloft weights`: what parts weigh and where their weight lies.

use std::path::PathBuf;

use clap::Args;
use paper::lists::passages::{in_text, wrapped};

use super::{AsReceived, StripLog, flats_as_received};
use crate::output::weights;
use crate::plan::balance::weighed;
use crate::speech::{Refusal, say, say_json};

/// Weighs every part and finds its centre of gravity as folded. Under "weights" the job asks for lids about their
/// hinges, loads summed along a trailer or hull, and lifts by hand.
#[derive(Debug, Args)]
pub(crate) struct Weights {
    /// The job file
    job: PathBuf,
    #[command(flatten)]
    log: StripLog,
    #[command(flatten)]
    received: AsReceived,
    /// Print everything as JSON
    #[arg(long)]
    json: bool,
}

impl Weights {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let flats = flats_as_received(&self.job, &self.log, &self.received)?;
        let parts = weighed(&flats)?;
        let lids = weights::lids(&flats)?;
        if self.json {
            say_json(&weights::everything(&flats, &parts, &lids)?);
            return Ok(());
        }
        let sheets = weights::sheets_of_the_job(&flats.job);
        let blocks = weights::blocks(&flats, &parts, &lids, &sheets)?;
        let mut texts = vec![format!("Weights: {}\n", flats.job.name)];
        texts.extend(blocks.iter().map(|block| in_text(block)));
        texts.push(weights::NO_CERTIFICATE.to_owned());
        say(&wrapped(texts.join("\n").trim_end()));
        Ok(())
    }
}
