//! A browser prints the page: as many leaves as the PDF has, of the same sizes, in the same order, with the same lengths.

use std::path::{Path, PathBuf};

use lopdf::Document;
use tempfile::{TempDir, tempdir};

use super::measured::{Expected, layout_sheets, measure};
use super::{not_checked, run};
use crate::program::plateloft;

/// How far paper may be off, mm: a browser counts it in pixels of 1/96 in.
const PAPER_MM: f64 = 0.27;

/// What the browser goes by on different systems.
const NAMES: [&str; 2] = ["chromium", "chromium-browser"];

/// A packet, and its page as the browser prints it.
struct Printed {
    folder: TempDir,
}

impl Printed {
    fn packet(&self) -> PathBuf {
        self.folder.path().join("packet")
    }

    fn by_browser(&self) -> PathBuf {
        self.folder.path().join("printed.pdf")
    }
}

/// Has the page of a packet printed. None where there is no browser, which is said.
fn print(job: &str, arguments: &[&str]) -> Option<Printed> {
    let printed = Printed { folder: tempdir().unwrap() };
    let packet = printed.packet();
    let made = plateloft(&[&["packet", job, "--out", packet.to_str().unwrap()], arguments].concat());
    assert_eq!(made.code, 0, "{job}: {}", made.stderr);
    let page = format!("file://{}", packet.join("index.html").to_str().unwrap());
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

/// Looks at every leaf, and measures the outlines on layout sheets as the browser prints them.
fn agrees(job: &str, arguments: &[&str]) -> Option<usize> {
    let printed = print(job, arguments)?;
    let (ours, theirs) = (sizes(&printed.packet().join("packet.pdf")), sizes(&printed.by_browser()));
    assert_eq!(ours.len(), theirs.len(), "{job}: leaves of the PDF, and of the browser");
    for (number, (our, their)) in ours.iter().zip(&theirs).enumerate() {
        let off = (our[0] - their[0]).abs().max((our[1] - their[1]).abs());
        assert!(off < PAPER_MM, "{job}: leaf {} is {our:?} mm, printed {their:?}", number + 1);
    }
    let words = run("pdftotext", "poppler-utils", &[printed.by_browser().to_str().unwrap(), "-"])?;
    let words = String::from_utf8(words.stdout).unwrap();
    for (number, leaf) in words.split('\u{c}').take(ours.len()).enumerate() {
        let foot = format!("{} of {}", number + 1, ours.len());
        assert!(leaf.contains(&foot), "{job}: leaf {foot} is printed as\n{leaf}");
    }
    let sheets = layout_sheets(&printed.packet());
    assert!(!sheets.is_empty(), "{job}");
    for Expected { leaf, .. } in &sheets {
        assert!(*leaf <= ours.len(), "{job}");
    }
    measure(&printed.by_browser(), &sheets)
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
        let Some(measured) = agrees(job, arguments) else { return };
        assert!(0 < measured, "{job}: no outline was measured");
    }
}
