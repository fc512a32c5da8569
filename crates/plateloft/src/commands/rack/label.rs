//! `plateloft rack label`: labels to stick on the pieces.

use std::path::PathBuf;

use clap::Args;
use geometry::Vector;
use job::{Offcut, OffcutLay, SheetOutline, Standing};
use paper::offcut_label::{self, OffcutLabel};
use paper::pdf;
use units::LengthStyle;

use super::super::Unit;
use super::super::packet::{Labels, PacketPaper};
use super::{RackPath, rack_file, take, words};
use crate::output;
use crate::speech::{Refusal, counted, tell};

/// Draws a label for every piece named, or for all that stand in the rack: a PDF for sheets of common labels, in true size.
#[derive(Debug, Args)]
pub(super) struct Label {
    #[command(flatten)]
    rack: RackPath,
    /// Marks of the pieces; all that stand in the rack when none is given
    marks: Vec<String>,
    /// The PDF to write; it must not be there yet
    #[arg(long)]
    out: PathBuf,
    /// Sheets of labels that it is printed on
    #[arg(long, value_enum, default_value = "letter")]
    paper: PacketPaper,
    #[command(flatten)]
    labels: Labels,
    /// Unit of the lengths printed
    #[arg(long, value_enum, default_value = "inch")]
    units: Unit,
}

impl Label {
    /// Runs the command.
    pub(super) fn run(&self) -> Result<(), Refusal> {
        let sheet = self.labels.sheet("rack label", self.paper.size())?;
        let mut rack = rack_file::read(&self.rack.rack)?;
        let mut wrong = Vec::new();
        let mut labels = Vec::new();
        for mark in &self.marks {
            match take::find(&mut rack, mark) {
                Some(offcut) => labels.push(label(offcut, self.units.style())),
                None => wrong.push(take::unknown("rack label", mark)),
            }
        }
        if !wrong.is_empty() {
            return Err(Refusal::BadInput(wrong));
        }
        if self.marks.is_empty() {
            let there = rack.offcuts.iter().filter(|offcut| !matches!(offcut.standing, Standing::Taken(_)));
            labels.extend(there.map(|offcut| label(offcut, self.units.style())));
        }
        if labels.is_empty() {
            return Err(Refusal::No(format!("{}: nothing stands in the rack", self.rack.rack.display())));
        }
        let sheets = offcut_label::leaves(&labels, &sheet);
        let title = format!("Labels of {}", self.rack.rack.display());
        let pdf = pdf::write(&title, &sheets)
            .map_err(|error| Refusal::bad(format!("{}: {error}", self.out.display())))?;
        output::write_new(&self.out, &pdf)?;
        tell(&format!(
            "wrote {}: labels of {}; print it at true size",
            self.out.display(),
            counted(labels.len(), "piece")
        ));
        Ok(())
    }
}

fn label(offcut: &Offcut, style: LengthStyle) -> OffcutLabel {
    let thickness = offcut.thickness.print(style);
    let measured = if offcut.measured { "by caliper" } else { "as ordered: measure it" };
    let mut lines = vec![
        format!("{} {thickness} ({measured})", offcut.metal.words()),
        words::size(offcut, style),
        words::state(offcut),
        format!("stands: {}", offcut.place),
        offcut.standing.words(),
    ];
    let job = offcut.from_job.as_ref().map(|job| format!("from {job}, ")).unwrap_or_default();
    lines.push(format!("{job}{}", offcut.date));
    let lay = match offcut.lay {
        OffcutLay::AlongX => Some(Vector::new(1.0, 0.0)),
        OffcutLay::AlongY => Some(Vector::new(0.0, 1.0)),
        OffcutLay::None | OffcutLay::Unknown => None,
    };
    lines.extend(words::torn(offcut));
    let laid = SheetOutline::as_measured(offcut);
    let (holes, torn) = (laid.hole_points(), laid.torn_points());
    OffcutLabel { mark: offcut.mark.clone(), words: lines, outline: laid.points(), holes, torn, lay }
}
