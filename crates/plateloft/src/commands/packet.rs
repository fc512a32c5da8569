//! `plateloft packet`: everything for the bench, in one folder, written whole or not at all.

use std::path::PathBuf;

use clap::Args;
use paper::packet::{LabelSheet, PaperSize, Papers};

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
    #[command(flatten)]
    labels: Labels,
    /// Add full-size patterns of these parts over as many leaves as they take, a PDF each; all for every part
    #[arg(long, value_name = "MARK|all", value_delimiter = ',')]
    full_size: Vec<String>,
    /// Paper of the full-size patterns, if not that of the packet
    #[arg(long, value_enum, requires = "full_size")]
    full_size_paper: Option<Paper>,
}

/// Which sheets of labels are in the printer.
#[derive(Debug, clap::Args)]
pub(super) struct Labels {
    /// Sheets of labels, by how many lie across and down: on letter paper 2x5 (4 × 2 in), 2x3 (4 × 3 1/3 in), 2x7 (4 × 1 1/3 in)
    /// or 3x10 (2 5/8 × 1 in); on A4 2x4 (99.1 × 67.7 mm), 2x7 (99.1 × 38.1 mm), 3x7 (63.5 × 38.1 mm) or 3x8 (63.5 × 33.9 mm).
    /// 2x5, and 2x4 on A4, where none is named
    #[arg(long = "labels", value_name = "ACROSSxDOWN", allow_hyphen_values = true)]
    sheet: Option<String>,
}

impl Labels {
    /// The sheet that is named, on this paper; `command` begins the message where none is known.
    pub(super) fn sheet(&self, command: &str, paper: PaperSize) -> Result<LabelSheet, Refusal> {
        let Some(name) = &self.sheet else { return Ok(LabelSheet::usual(paper)) };
        LabelSheet::named(paper, name).ok_or_else(|| {
            let known: Vec<String> =
                LabelSheet::all(paper).map(|sheet| format!("{} ({})", sheet.name, sheet.size)).collect();
            Refusal::bad(format!(
                "{command}: --labels: {name}: no such sheet of labels is known on {}\n    name one by how many labels lie across \
                 and down: {}",
                paper.words(),
                known.join(", ")
            ))
        })
    }
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
        let asked = self.asked()?;
        self.wait.begin("packet")?;
        let plan = super::plan_for_bench(&self.job, &self.log, &self.first, &self.received)?;
        output::packet(&plan, &asked)?.write(&self.out)?;
        speech::tell(&format!("wrote {}: open index.html there", self.out.display()));
        Ok(())
    }

    fn asked(&self) -> Result<PacketAsked, Refusal> {
        let paper = self.paper.size();
        let other = |asked: Option<Paper>| asked.map_or(paper, Paper::size);
        let patterns = FullSize { marks: self.full_size.clone(), paper: other(self.full_size_paper) };
        let labels = self.labels.sheet("packet", paper)?;
        Ok(PacketAsked {
            with_models: self.paper_models,
            papers: Papers { leaves: paper, maps: other(self.map_paper), labels },
            full_size: (!self.full_size.is_empty()).then_some(patterns),
        })
    }
}
