//! `plateloft kit`: the flats in crates, with everything the buyer needs.

use std::path::PathBuf;

use clap::Args;
use paper::lists::ListUnits;
use paper::packet::{LabelSheet, PaperSize};
use paper::{kit_page, offcut_label, pdf, svg};

use super::packet::{Labels, PacketPaper};
use super::{AsReceived, StripLog, job_as_received, plan_of};
use crate::kit::{self, PackedKit};
use crate::output::{self, Files};
use crate::speech::{Refusal, say, say_json, tell};

/// Packs the flats into the crates under "kit", layer by layer, and writes the packing list, the bend cards for the
/// buyer's own machine, the labels and the test strip's card. A flat that lies in no crate is refused with its size.
#[derive(Debug, Args)]
pub(crate) struct Kit {
    /// The job file
    job: PathBuf,
    #[command(flatten)]
    log: StripLog,
    #[command(flatten)]
    received: AsReceived,
    /// Print it as JSON
    #[arg(long)]
    json: bool,
    /// Folder for list, page, layers, labels and bend cards; an earlier one there is replaced in one step
    #[arg(long)]
    out: Option<PathBuf>,
    /// Paper that kit.pdf is printed on
    #[arg(long, value_enum, default_value = "letter")]
    paper: PacketPaper,
    #[command(flatten)]
    labels: Labels,
}

impl Kit {
    /// Runs the command.
    pub(crate) fn run(&self) -> Result<(), Refusal> {
        let paper = self.paper.size();
        let labels = self.labels.sheet("kit", paper)?;
        let (job, told) = job_as_received(&self.job, &self.log, &self.received)?;
        told.iter().for_each(|sentence| tell(sentence));
        let (flats, asked) = kit::for_buyer(&self.job.display().to_string(), job)?;
        let packed = kit::packed(plan_of(flats)?, asked)?;
        if let Some(folder) = &self.out {
            files(&packed, (paper, labels))?.write(folder)?;
            tell(&format!("wrote {}: open index.html there", folder.display()));
        }
        if self.json {
            say_json(&kit::json(&packed));
        } else {
            say(kit::text(&packed, &heading(&packed)).trim_end());
        }
        Ok(())
    }
}

/// Job, date and revision in one line: what stands at the foot of every leaf.
fn heading(packed: &PackedKit) -> String {
    let job = &packed.plan.flats.job;
    format!("{}, {}", job.name, output::edition(job))
}

fn files(packed: &PackedKit, paper: (PaperSize, LabelSheet)) -> Result<Files, Refusal> {
    let mut files = Files::default();
    let heading = heading(packed);
    let units = ListUnits::of(packed.plan.flats.job.style);
    let drawings = kit::drawings(packed);
    files.add("packing-list.txt", kit::text(packed, &heading));
    files.add("kit.json", output::pretty(&kit::json(packed)));
    files.add("flats.json", output::pretty(&output::flats_json(&packed.plan.flats)));
    files.add("labels.svg", svg::write(&offcut_label::draw(&kit::labels(packed))));
    for (number, layers) in drawings.layers.iter().enumerate() {
        for (layer, page) in layers.iter().enumerate() {
            files.add(format!("layers/crate-{}-layer-{}.svg", number + 1, layer + 1), svg::write(page));
        }
    }
    for (mark, card) in &drawings.cards {
        files.add_drawings(&output::pages_of("bends", mark, card));
    }
    let (page, pdf) = kit::with_paper(packed, &heading, |list| {
        let leaves = kit_page::leaves(list, &drawings, units, paper);
        (kit_page::html(list, &drawings, units, &leaves), pdf::write(list.heading, &leaves))
    });
    files.add("index.html", page);
    files.add("kit.pdf", pdf.map_err(|error| Refusal::bad(format!("{}: {error}", packed.plan.flats.file)))?);
    Ok(files)
}
