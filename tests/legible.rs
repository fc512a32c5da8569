//! Every page of every job of the fixtures, read back from the written files: no two texts lie on one another, none on a
//! bend line, none off the paper, none too small to read.

use std::collections::BTreeMap;
use std::fs;
use std::sync::{Mutex, OnceLock};

use tempfile::tempdir;

use crate::program::{files, plateloft, top};
use crate::written::{self, Seen, pdf, svg};

/// The smallest text on any leaf, labels and lists: 1.9 mm or 5 1/2 points; common practice, no source.
const LEAST_MM: f64 = 1.9;

/// A packet with its pages.
struct Made {
    job: String,
    leaves: Vec<Seen>,
    drawings: Vec<Seen>,
    /// How many leaves a browser prints of the page.
    printed: usize,
}

/// The packet of every job in the fixtures, made once for all tests, with models of paper.
fn made() -> &'static [Made] {
    static MADE: OnceLock<Vec<Made>> = OnceLock::new();
    MADE.get_or_init(|| {
        let folders =
            ["fixtures/jobs", "fixtures/shapes"].map(|folder| fs::read_dir(top().join(folder)).unwrap());
        let paths = folders.into_iter().flatten().map(|entry| entry.unwrap().path());
        let mut jobs: Vec<String> = paths.map(|path| path.to_str().unwrap().to_owned()).collect();
        jobs.sort();
        let (waiting, done) = (Mutex::new(jobs), Mutex::new(Vec::new()));
        let take = || waiting.lock().unwrap().pop();
        std::thread::scope(|scope| {
            for _ in 0..2 {
                scope.spawn(|| {
                    while let Some(job) = take() {
                        let packet = packet_of(&job);
                        done.lock().unwrap().push(packet);
                    }
                });
            }
        });
        let mut made = done.into_inner().unwrap();
        made.sort_by(|a, b| a.job.cmp(&b.job));
        made
    })
}

fn packet_of(job: &str) -> Made {
    let folder = tempdir().unwrap();
    let out = folder.path().join("packet");
    let run = plateloft(&["packet", job, "--paper-models", "--out", out.to_str().unwrap()]);
    assert_eq!(run.code, 0, "{job}: {}", run.stderr);
    let packet: BTreeMap<String, Vec<u8>> = files(&out);
    let html = std::str::from_utf8(&packet["index.html"]).unwrap();
    let name = job.rsplit('/').next().unwrap().to_owned();
    let printed = html.matches("<div class=\"leaf ").count();
    Made { job: name, leaves: pdf::leaves(&packet["packet.pdf"]), drawings: svg::drawings(html), printed }
}

/// The faults of all jobs in one list, so that one run shows them all.
fn all_faults(pages: fn(&Made) -> &[Seen], look: fn(&Seen) -> Vec<String>) -> String {
    let faults = made().iter().flat_map(|made| {
        pages(made).iter().flat_map(look).map(|fault| format!("{}: {fault}", made.job)).collect::<Vec<_>>()
    });
    faults.collect::<Vec<_>>().join("\n")
}

#[test]
fn no_text_collides_on_any_leaf_of_the_pdf() {
    assert_eq!(all_faults(|made| &made.leaves, written::faults), "");
    let texts: usize = made().iter().flat_map(|made| &made.leaves).map(|leaf| leaf.texts.len()).sum();
    let bends: usize = made().iter().flat_map(|made| &made.leaves).map(|leaf| leaf.bends.len()).sum();
    assert!(10_000 < texts && 300 < bends, "{texts} texts, {bends} bend lines were read");
}

#[test]
fn no_text_collides_in_any_drawing_of_the_page() {
    assert_eq!(all_faults(|made| &made.drawings, written::faults), "");
    let bends: usize = made().iter().flat_map(|made| &made.drawings).map(|drawing| drawing.bends.len()).sum();
    assert!(150 < bends, "{bends} bend lines were read");
}

/// Lines of tools, doors, lids and openings are as much in the way of a figure as a bend line is.
#[test]
fn no_line_of_a_picture_runs_through_words() {
    assert_eq!(all_faults(|made| &made.drawings, written::struck_through), "");
    let strokes: usize =
        made().iter().flat_map(|made| &made.drawings).map(|drawing| drawing.strokes.len()).sum();
    assert!(5_000 < strokes, "{strokes} lines were read");
}

#[test]
fn no_text_on_paper_is_too_small_to_read() {
    let small = |leaf: &Seen| {
        let small = leaf.texts.iter().filter(|text| text.size < LEAST_MM);
        small
            .map(|text| format!("{}: “{}” is {:.2} mm", leaf.name, text.words, text.size))
            .collect::<Vec<_>>()
    };
    assert_eq!(all_faults(|made| &made.leaves, small), "");
}

#[test]
fn a_browser_prints_the_leaves_of_the_pdf() {
    for made in made() {
        assert_eq!(made.printed, made.leaves.len(), "{}", made.job);
    }
}

/// Chapters of words and tables run on: no leaf of them is nearly empty but the last before drawings, and the very last.
#[test]
fn no_leaf_of_words_is_nearly_empty() {
    const WORDS: [&str; 8] = [
        "Summary",
        "Sheets to buy",
        "Checks",
        "Cut list",
        "Coverings",
        "Weights",
        "Scrap report",
        "Where the numbers",
    ];
    let is_words = |leaf: &Seen| WORDS.iter().any(|words| leaf.name.starts_with(words));
    let mut looked = 0;
    for made in made() {
        for pair in made.leaves.windows(2) {
            let [leaf, next] = pair else { unreachable!() };
            if !is_words(leaf) || !is_words(next) || (leaf.size[0] - next.size[0]).abs() > 1.0 {
                continue;
            }
            looked += 1;
            // The foot of a leaf lies lower than 15 mm.
            let heights = leaf
                .texts
                .iter()
                .flat_map(|text| text.corners)
                .map(|corner| corner[1])
                .filter(|height| 15.0 < *height);
            let lowest = heights.fold(leaf.size[1], f64::min);
            assert!(lowest < 0.75 * leaf.size[1], "{}: {} ends at {lowest:.0} mm", made.job, leaf.name);
        }
    }
    assert!(30 < looked, "{looked}");
}
