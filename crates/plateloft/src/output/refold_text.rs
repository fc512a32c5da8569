//! The refold proof as text for the terminal: worst deviation, every size, every seam.

use fold::refold::ProvenSize;
use paper::lists::ListUnits;
use paper::lists::refold::{self, SizeRow};
use units::{Length, LengthStyle};

use super::drawings::title;
use super::folded::seam_rows;
use crate::plan::{Flats, PlannedPart};

/// The proof of every part.
pub(crate) fn refold_text(flats: &Flats) -> String {
    let parts: Vec<String> = flats.parts.iter().map(|part| part_text(flats, part)).collect();
    parts.join("\n")
}

fn part_text(flats: &Flats, part: &PlannedPart) -> String {
    let job = &flats.job;
    let head = format!("{}: {}", part.part.mark, title(part));
    if part.flat.bends.is_empty() {
        return format!("{head}: flat, nothing to fold\n");
    }
    let proof = &part.proof;
    let worst_size = proof.sizes.iter().map(off_mm).fold(0.0, f64::max);
    let mut text = format!(
        "{head}\n  worst deviation of any corner or size {:.4} mm, of a size {worst_size:.4} mm\n",
        proof.worst_mm
    );
    let units = ListUnits::of(job.style);
    if !proof.sizes.is_empty() {
        let sizes: Vec<SizeRow> = proof.sizes.iter().map(|size| size_row(job.style, size)).collect();
        text.push_str(&indented(&refold::sizes(&sizes, units)));
    }
    let seams = seam_rows(job, part);
    if !seams.is_empty() {
        text.push_str(&indented(&refold::seams(&seams, units)));
    }
    text
}

fn size_row(style: LengthStyle, size: &ProvenSize) -> SizeRow {
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(style);
    SizeRow {
        name: size.name.clone(),
        designed: print(size.expected_mm),
        refolded: print(size.measured_mm),
        off_mm: format!("{:.4}", off_mm(size)),
    }
}

fn off_mm(size: &ProvenSize) -> f64 {
    (size.measured_mm - size.expected_mm).abs()
}

fn indented(text: &str) -> String {
    text.lines().map(|line| format!("  {line}\n")).collect()
}
