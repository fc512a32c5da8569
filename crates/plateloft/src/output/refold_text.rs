//! The refold proof as text for the terminal: worst deviation, every size, every seam of a piece and between pieces.

use fold::refold::{ProvenHole, ProvenSize};
use job::Job;
use paper::lists::ListUnits;
use paper::lists::refold::{self, SizeRow};
use units::Length;

use super::drawings::{deviation, deviation_words, title};
use super::folded::{joined_rows, seam_rows};
use super::relief_words::cut_relief;
use crate::plan::{Flats, PlannedPart};

/// The proof of every part.
pub(crate) fn refold_text(flats: &Flats) -> String {
    let parts: Vec<String> = flats.parts.iter().map(|part| part_text(flats, part)).collect();
    parts.join("\n")
}

fn part_text(flats: &Flats, part: &PlannedPart) -> String {
    let job = &flats.job;
    let head = format!("{}: {}", part.part.mark, title(flats, part));
    let units = ListUnits::of(job.style);
    let joined = joined_rows(job, part);
    if part.flat.bends.is_empty() {
        let text = format!("{head}: flat, nothing to fold\n");
        let seams = if joined.is_empty() { String::new() } else { indented(&refold::seams(&joined, units)) };
        return text + &seams;
    }
    let proof = &part.proof;
    let worst_size = proof.sizes.iter().map(off_mm).fold(0.0, f64::max);
    let [worst, of_size] = [proof.worst_mm, worst_size].map(|off_mm| deviation_words(off_mm, job.unit));
    let mut text =
        format!("{head}\n  worst deviation of any corner, size or hole {worst}, of a size {of_size}\n");
    let of_holes: Vec<ProvenSize> = proof.holes.iter().flat_map(hole_sizes).collect();
    let sizes: Vec<SizeRow> = proof.sizes.iter().chain(&of_holes).map(|size| size_row(job, size)).collect();
    if !sizes.is_empty() {
        text.push_str(&indented(&refold::sizes(&sizes, units)));
    }
    let mut seams = seam_rows(job, part);
    seams.extend(joined);
    if !seams.is_empty() {
        text.push_str(&indented(&refold::seams(&seams, units)));
        let beyond = refold::beyond_gaps(&cut_relief(part, job.style));
        text.extend(beyond.map(|words| format!("\n{}", indented(&words))));
    }
    text
}

fn size_row(job: &Job, size: &ProvenSize) -> SizeRow {
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(job.style);
    SizeRow {
        name: size.name.clone(),
        designed: print(size.expected_mm),
        refolded: print(size.measured_mm),
        off: deviation(off_mm(size), job.unit),
    }
}

/// Middle of a hole on the marked side, x and y in the coordinates of the part's first face and the height above the back
/// of that, and its largest width.
fn hole_sizes(hole: &ProvenHole) -> [ProvenSize; 4] {
    let (expected, measured) = (hole.expected, hole.measured);
    let size = |what: &str, expected_mm: f64, measured_mm: f64| ProvenSize {
        name: format!("{}, {what}", hole.name),
        expected_mm,
        measured_mm,
    };
    [
        size("middle, x", expected.x, measured.x),
        size("middle, y", expected.y, measured.y),
        size("middle, height", expected.z, measured.z),
        size("across", hole.expected_across_mm, hole.measured_across_mm),
    ]
}

fn off_mm(size: &ProvenSize) -> f64 {
    (size.measured_mm - size.expected_mm).abs()
}

fn indented(text: &str) -> String {
    text.lines().map(|line| format!("  {line}\n")).collect()
}
