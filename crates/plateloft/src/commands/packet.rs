//! `plateloft packet`: everything for the bench, in one folder, written whole or not at all.

use std::path::PathBuf;

use clap::Args;
use paper::packet::PaperSize;

use crate::output;
use crate::speech::{self, Refusal};

/// Writes the whole packet: a drawing and a plain outline a part, a map a sheet, cut list, scrap report, all numbers as
/// JSON, `index.html` that shows it all, and `packet.pdf`
/// that prints it in black and white.
#[derive(Debug, Args)]
pub(crate) struct Packet {
    /// The job file
    job: PathBuf,
    #[command(flatten)]
    log: super::StripLog,
    #[command(flatten)]
    first: super::RackFirst,
    #[command(flatten)]
    received: super::AsReceived,
    /// Folder for the packet; an earlier packet there is replaced in one step
    #[arg(long)]
    out: PathBuf,
    /// Add a paper model of every bent part: scaled to a letter or A4 sheet, to cut, fold and glue
    #[arg(long)]
    paper_models: bool,
    /// Paper that packet.pdf is printed on
    #[arg(long, value_enum, default_value = "letter")]
    paper: Paper,
}

/// Sizes of paper, as named on the command line.
#[derive(Debug, Clone, Copy, clap::ValueEnum)]
enum Paper {
    /// 8 1/2 × 11 in
    Letter,
    /// 210 × 297 mm
    A4,
}

impl Paper {
    const fn size(self) -> PaperSize {
        match self {
            Self::Letter => PaperSize::Letter,
            Self::A4 => PaperSize::A4,
        }
    }
}

impl Packet {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let plan = super::plan_for_bench(&self.job, &self.log, &self.first, &self.received)?;
        output::packet(&plan, self.paper_models, self.paper.size())?.write(&self.out)?;
        speech::tell(&format!("wrote {}: open index.html there", self.out.display()));
        Ok(())
    }
}
