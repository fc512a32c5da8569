//! Labels on every common sheet of labels: legible, on their own label, and unknown sheets refused with those that are known.
#![expect(clippy::disallowed_methods, reason = "a test of a program that writes files reads them")]

use std::fs;

use tempfile::tempdir;

use crate::program::{files, plateloft, plateloft_in};
use crate::rack::add_at;
use crate::written::{self, Seen, pdf};

/// Paper, sheet, and width and height of a label, mm; common practice, from memory.
const SHEETS: [(&str, &str, [f64; 2]); 8] = [
    ("letter", "2x5", [101.6, 50.8]),
    ("letter", "2x3", [101.6, 84.667]),
    ("letter", "2x7", [101.6, 33.867]),
    ("letter", "3x10", [66.675, 25.4]),
    ("a4", "2x4", [99.1, 67.7]),
    ("a4", "2x7", [99.1, 38.1]),
    ("a4", "3x7", [63.5, 38.1]),
    ("a4", "3x8", [63.5, 33.9]),
];

/// The smallest text of a label, mm: 5 1/2 points; common practice, no source.
const LEAST_MM: f64 = 1.9;

/// Free at both sides, below and above, mm, as labels are bought; common practice, no source.
const MARGINS_MM: [f64; 3] = [4.7, 4.7, 4.7];

/// Every fault of leaves of labels that are so large.
fn faults(leaves: &[Seen], label: [f64; 2]) -> Vec<String> {
    let labels = leaves.iter().filter(|leaf| leaf.name.starts_with("Labels"));
    let of = |leaf: &Seen| {
        let mut faults = [written::faults(leaf), written::outside_margins(leaf, MARGINS_MM)].concat();
        faults.extend(written::struck_through(leaf));
        for text in leaf.texts.iter().filter(|text| text.size < LEAST_MM - 0.01) {
            faults.push(format!("“{}” is {:.2} mm", text.words, text.size));
        }
        for text in &leaf.texts {
            let [left, right] = [f64::min, f64::max]
                .map(|least: fn(f64, f64) -> f64| text.corners.iter().map(|at| at[0]).reduce(least).unwrap());
            if label[0] < right - left {
                faults.push(format!("“{}” is wider than its label", text.words));
            }
        }
        faults
    };
    labels.flat_map(of).collect()
}

#[test]
fn labels_of_parts_are_legible_on_every_sheet() {
    for (paper, sheet, label) in SHEETS {
        let folder = tempdir().unwrap();
        let out = folder.path().join("packet");
        let out_words = out.to_str().unwrap();
        // Tread plate, an opposite hand, bend cards and lay: labels with all that a label says.
        let job = "fixtures/jobs/oyster-skiff.json";
        let run = plateloft(&["packet", job, "--out", out_words, "--paper", paper, "--labels", sheet]);
        assert_eq!(run.code, 0, "{}", run.stderr);
        let leaves = pdf::leaves(&files(&out)["packet.pdf"]);
        let labels: Vec<Seen> = leaves.into_iter().filter(|leaf| leaf.name.starts_with("Labels")).collect();
        assert!(!labels.is_empty(), "{paper} {sheet}");
        let texts: usize = labels.iter().map(|leaf| leaf.texts.len()).sum();
        assert!(40 < texts, "{paper} {sheet}: {texts}");
        assert_eq!(faults(&labels, label), [""; 0], "{paper} {sheet}");
    }
}

#[test]
fn labels_of_offcuts_are_legible_on_every_sheet() {
    let shop = tempdir().unwrap();
    for (mark, note) in
        [("R1", "scratched along the long edge"), ("A long mark of a piece of the rack, left", "")]
    {
        let note: Vec<&str> = if note.is_empty() { Vec::new() } else { vec!["--note", note] };
        let piece = ["--metal", "5052-H32", "--thickness", ".125", "--size", "36", "24"];
        let more = [&piece[..], &["--from-job", "Oyster skiff, second hull"], &note].concat();
        let run = add_at(shop.path(), mark, "rack A, third shelf", &more);
        assert_eq!(run.code, 0, "{}", run.stderr);
    }
    for (paper, sheet, label) in SHEETS {
        let out = format!("{paper}-{sheet}.pdf");
        let run =
            plateloft_in(shop.path(), &["rack", "label", "--out", &out, "--paper", paper, "--labels", sheet]);
        assert_eq!(run.code, 0, "{}", run.stderr);
        let leaves = pdf::leaves(&fs::read(shop.path().join(&out)).unwrap());
        assert!(4 < leaves[0].texts.len(), "{paper} {sheet}");
        assert_eq!(faults(&leaves, label), [""; 0], "{paper} {sheet}");
    }
}

#[test]
fn a_sheet_of_labels_that_nobody_knows_is_refused_with_those_that_are_known() {
    let folder = tempdir().unwrap();
    let out = folder.path().join("out");
    let out = out.to_str().unwrap();
    for (command, told) in [
        (
            vec!["packet", "fixtures/jobs/oyster-skiff.json", "--labels", "4x4"],
            "packet: --labels: 4x4: no such sheet",
        ),
        (
            vec!["kit", "fixtures/jobs/gig-lockers.json", "--paper", "a4", "--labels", "2x5"],
            "known on A4 paper",
        ),
    ] {
        let run = plateloft(&[&command[..], &["--out", out]].concat());
        assert_eq!(run.code, 2, "{command:?}");
        assert!(run.stderr.contains(told) && run.stderr.contains("2x7 ("), "{}", run.stderr);
        assert!(!folder.path().join("out").exists());
    }
}
