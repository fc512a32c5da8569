//! Labels of offcuts and drops, read back from the files.
#![expect(clippy::disallowed_methods, reason = "a test of a program that keeps a file writes and reads it")]

use std::fs;
use std::path::Path;

use tempfile::tempdir;

use crate::program::{plateloft_in, top};
use crate::rack::{added, list};
use crate::written;

/// Every text of a file of labels, in the order in which it stands there; none lies on another, or is too small.
pub(crate) fn label_words(folder: &Path, name: &str) -> Vec<String> {
    let leaves = written::pdf::leaves(&fs::read(folder.join(name)).unwrap());
    assert!(!leaves.is_empty());
    for leaf in &leaves {
        assert_eq!(written::faults(leaf), Vec::<String>::new());
        // A mark or its words may be turned for the lay arrow, but never be smaller than 2.4 mm.
        let small: Vec<_> = leaf.texts.iter().filter(|text| text.size < 2.4 - 1e-3).collect();
        assert!(small.is_empty(), "{small:?}");
    }
    leaves.into_iter().flat_map(|leaf| leaf.texts).map(|text| text.words).collect()
}

#[test]
fn labels_of_the_longest_words_are_read_at_arm_s_length() {
    let shop = tempdir().unwrap();
    let long = "Behind the roll of carpet on the third shelf of the lean-to where the old press stood";
    let mut words =
        vec!["rack", "add", "--mark", "The longest mark chalk may write, all 40", "--place", long];
    words.extend([
        "--date",
        "2026-03-04",
        "--from-job",
        "A job whose name goes on for quite some time, as names do",
    ]);
    words.extend(["--note", long, "--metal", "5052-H32", "--thickness", ".126", "--size", "60", "40"]);
    for (x, y) in [("20", "0"), ("26", "0"), ("23", "3")] {
        words.extend(["--torn", "a", x, y]);
    }
    words.extend(["--torn-why", "a", "creased by a strap where it hung from the crane"]);
    let run = plateloft_in(shop.path(), &words);
    assert_eq!(run.code, 0, "{}", run.stderr);
    for mark in 0..25 {
        added(shop.path(), &format!("R{mark}"), &["--size", "30", "24", "--lay", "along-y"]);
    }
    for (paper, leaves) in [("letter", 3), ("a4", 4)] {
        let name = format!("{paper}.pdf");
        let run = plateloft_in(shop.path(), &["rack", "label", "--paper", paper, "--out", &name]);
        assert_eq!(run.code, 0, "{}", run.stderr);
        let all = label_words(shop.path(), &name).join(" ");
        for word in ["lean-to", "R24", "quite some time"] {
            assert!(all.contains(word), "{word}: {all}");
        }
        let pages = written::pdf::leaves(&fs::read(shop.path().join(&name)).unwrap());
        assert_eq!(pages.len(), leaves, "ten to a letter sheet, eight to one of A4");
    }
}

#[test]
fn a_drop_has_one_name_on_its_label_and_in_the_rack() {
    let shop = tempdir().unwrap();
    let job = top().join("fixtures/jobs/oyster-skiff.json");
    let job = job.to_str().unwrap();
    let words = ["rack", "return", "--drops-of", job, "--place", "floor", "--date", "2026-03-04"];
    assert_eq!(plateloft_in(shop.path(), &words).code, 0);
    assert_eq!(plateloft_in(shop.path(), &["packet", job, "--out", "out"]).code, 0);
    let labels = label_leaves(&shop.path().join("out/packet.pdf"));
    for piece in &list(shop.path(), &[]) {
        // In the rack the job goes before it, on the label it stands below.
        let mark = piece["mark"].as_str().unwrap();
        let (_, drop) = mark.split_once("Oyster skiff 21 ft 6 ").unwrap();
        assert!(labels.contains(drop), "{mark}: {labels}");
    }
    assert!(labels.contains("Oyster skiff 21 ft 6"), "{labels}");
    for piece in &list(shop.path(), &[]) {
        assert!(piece["mark"].as_str().unwrap().contains(" d"), "{piece}");
    }
    assert!(labels.contains("face not inspected"), "{labels}");
}

/// All that stands on the leaves of labels of a packet.
fn label_leaves(pdf: &Path) -> String {
    let leaves = written::pdf::leaves(&fs::read(pdf).unwrap());
    let labels = leaves.into_iter().filter(|leaf| leaf.name.starts_with("Labels"));
    labels.flat_map(|leaf| leaf.texts).map(|text| text.words).collect::<Vec<_>>().join(" ")
}
