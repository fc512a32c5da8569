//! A browser prints the page: as many leaves as the PDF has, of the same sizes, in the same order, with the same lengths.

use std::path::{Path, PathBuf};

use lopdf::Document;
use tempfile::{TempDir, tempdir};

use super::measured::{layout_sheets, measure};
use super::{not_checked, run};
use crate::program::plateloft;

/// How far paper may be off, mm: a browser counts it in pixels of 1/96 in.
const PAPER_MM: f64 = 0.27;

/// What the browser goes by on different systems.
const NAMES: [&str; 2] = ["chromium", "chromium-browser"];

/// A packet or kit, and its page as the browser prints it.
struct Printed {
    folder: TempDir,
}

impl Printed {
    fn made(&self) -> PathBuf {
        self.folder.path().join("made")
    }

    fn by_browser(&self) -> PathBuf {
        self.folder.path().join("printed.pdf")
    }
}

/// Makes a packet or a kit and has its page printed. None where there is no browser, which is said.
fn print(command: &str, job: &str, arguments: &[&str]) -> Option<Printed> {
    let printed = Printed { folder: tempdir().unwrap() };
    let folder = printed.made();
    let made = plateloft(&[&[command, job, "--out", folder.to_str().unwrap()], arguments].concat());
    assert_eq!(made.code, 0, "{job}: {}", made.stderr);
    let page = format!("file://{}", folder.join("index.html").to_str().unwrap());
    let onto = format!("--print-to-pdf={}", printed.by_browser().to_str().unwrap());
    let profile = format!("--user-data-dir={}", printed.folder.path().join("profile").to_str().unwrap());
    let mut asked = vec!["--headless", "--no-sandbox", "--disable-gpu", "--no-first-run"];
    asked.extend(["--no-pdf-header-footer", &profile, &onto, &page]);
    let there = |name: &&&str| std::process::Command::new(name).arg("--version").output().is_ok();
    let name = NAMES.iter().find(there).unwrap_or(&NAMES[0]);
    let out = run(name, "chromium", &asked)?;
    if !printed.by_browser().exists() {
        not_checked(&format!("{name} printed nothing: {}", String::from_utf8_lossy(&out.stderr)));
        return None;
    }
    Some(printed)
}

/// Width and height of every page, mm.
fn sizes(pdf: &Path) -> Vec<[f64; 2]> {
    let document = Document::load(pdf).unwrap();
    let size = |page| {
        let place = document.get_dictionary(page).unwrap().get(b"MediaBox").unwrap().as_array().unwrap();
        let [left, low, right, high] =
            [0, 1, 2, 3].map(|at| f64::from(place[at].as_float().unwrap()) * 25.4 / 72.0);
        [right - left, high - low]
    };
    document.get_pages().into_values().map(size).collect()
}

/// Compares every leaf that the browser prints with the PDF made beside the page: how many, how large, in what order. How
/// many there are; none where poppler is missing, which is said.
fn same_leaves(printed: &Printed, pdf: &str) -> Option<usize> {
    let (ours, theirs) = (sizes(&printed.made().join(pdf)), sizes(&printed.by_browser()));
    assert_eq!(ours.len(), theirs.len(), "leaves of {pdf}, and of the browser");
    for (number, (our, their)) in ours.iter().zip(&theirs).enumerate() {
        let off = (our[0] - their[0]).abs().max((our[1] - their[1]).abs());
        assert!(off < PAPER_MM, "leaf {} of {pdf} is {our:?} mm, printed {their:?}", number + 1);
    }
    let words = run("pdftotext", "poppler-utils", &[printed.by_browser().to_str().unwrap(), "-"])?;
    let words = String::from_utf8(words.stdout).unwrap();
    for (number, leaf) in words.split('\u{c}').take(ours.len()).enumerate() {
        let foot = format!("{} of {}", number + 1, ours.len());
        assert!(leaf.lines().any(|line| line.ends_with(&foot)), "leaf {foot} of {pdf} is printed as\n{leaf}");
    }
    Some(ours.len())
}

#[test]
fn a_browser_prints_the_leaves_of_the_pdf() {
    let jobs: [(&str, &[&str]); 4] = [
        ("fixtures/jobs/oyster-skiff.json", &["--paper", "a4", "--map-paper", "a3"]),
        ("fixtures/jobs/gig-lockers.json", &["--map-paper", "11x17"]),
        ("fixtures/jobs/marina-gangway.json", &[]),
        ("fixtures/jobs/litter-locker.json", &["--paper-models"]),
    ];
    for (job, arguments) in jobs {
        let Some(printed) = print("packet", job, arguments) else { return };
        let Some(leaves) = same_leaves(&printed, "packet.pdf") else { return };
        let sheets = layout_sheets(&printed.made());
        assert!(10 < leaves && !sheets.is_empty(), "{job}: {leaves} leaves");
        // Measured on the browser's paper, every outline has the size and place that it has on ours.
        measure(&printed.made().join("packet.pdf"), &sheets);
        measure(&printed.by_browser(), &sheets);
    }
}

#[test]
fn a_browser_prints_the_leaves_of_a_kit() {
    for paper in ["letter", "a4"] {
        let kit = print("kit", "fixtures/jobs/gig-lockers.json", &["--paper", paper]);
        let Some(printed) = kit else { return };
        let Some(leaves) = same_leaves(&printed, "kit.pdf") else { return };
        assert!(10 < leaves, "{leaves}");
    }
}
