//! `plateloft packet`: everything for the bench, in one folder, written whole or not at all.

use std::path::PathBuf;

use clap::Args;
use paper::packet::PaperSize;

use crate::output::{self, FullSize, PacketAsked};
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
    #[command(flatten)]
    wait: super::Wait,
    /// Folder for the packet; an earlier packet there is replaced in one step
    #[arg(long)]
    out: PathBuf,
    /// Add a paper model of every bent part: scaled to a letter or A4 sheet, to cut, fold and glue
    #[arg(long)]
    paper_models: bool,
    /// Paper that packet.pdf is printed on
    #[arg(long, value_enum, default_value = "letter")]
    paper: PacketPaper,
    /// Paper that the sheet maps in packet.pdf are printed on, if not the same
    #[arg(long, value_enum)]
    map_paper: Option<Paper>,
    /// Add full-size patterns of these parts over as many leaves as they take, a PDF each; all for every part
    #[arg(long, value_name = "MARK|all", value_delimiter = ',')]
    full_size: Vec<String>,
    /// Paper of the full-size patterns, if not that of the packet
    #[arg(long, value_enum, requires = "full_size")]
    full_size_paper: Option<Paper>,
}

/// Sizes of paper of the packet, as named on the command line.
#[derive(Debug, Clone, Copy, clap::ValueEnum)]
pub(super) enum PacketPaper {
    /// 8 1/2 × 11 in
    Letter,
    /// 210 × 297 mm
    A4,
}

/// Sizes of paper for maps and patterns, as named on the command line.
#[derive(Debug, Clone, Copy, clap::ValueEnum)]
enum Paper {
    /// 8 1/2 × 11 in
    Letter,
    /// 210 × 297 mm
    A4,
    /// 11 × 17 in
    #[value(name = "11x17")]
    Tabloid,
    /// 297 × 420 mm
    A3,
}

impl PacketPaper {
    pub(super) const fn size(self) -> PaperSize {
        match self {
            Self::Letter => PaperSize::Letter,
            Self::A4 => PaperSize::A4,
        }
    }
}

impl Paper {
    const fn size(self) -> PaperSize {
        match self {
            Self::Letter => PaperSize::Letter,
            Self::A4 => PaperSize::A4,
            Self::Tabloid => PaperSize::Tabloid,
            Self::A3 => PaperSize::A3,
        }
    }
}

impl Packet {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        self.wait.begin();
        let plan = super::plan_for_bench(&self.job, &self.log, &self.first, &self.received)?;
        output::packet(&plan, &self.asked())?.write(&self.out)?;
        speech::tell(&format!("wrote {}: open index.html there", self.out.display()));
        Ok(())
    }
    fn asked(&self) -> PacketAsked {
        let paper = self.paper.size();
        let other = |asked: Option<Paper>| asked.map_or(paper, Paper::size);
        let patterns = FullSize { marks: self.full_size.clone(), paper: other(self.full_size_paper) };
        PacketAsked {
            with_models: self.paper_models,
            paper,
            map_paper: other(self.map_paper),
            full_size: (!self.full_size.is_empty()).then_some(patterns),
        }
    }
}
