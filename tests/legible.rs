//! Every page of every job of the fixtures, read back from the written files: no two texts lie on one another, none on a
//! bend line, none off the paper, none too small to read.
#![expect(clippy::disallowed_methods, reason = "a test of a program that writes files reads them")]

use std::collections::BTreeMap;
use std::fs;
use std::sync::{Mutex, OnceLock};

use serde_json::Value;
use tempfile::tempdir;

use crate::program::{files, plateloft, top};
use crate::written::{self, Seen, pdf, svg};

/// The smallest text on any leaf, labels and lists: 1.9 mm or 5 1/2 points; common practice, no source.
const LEAST_MM: f64 = 1.9;

/// A packet with its pages.
pub(crate) struct Made {
    pub(crate) job: String,
    leaves: Vec<Seen>,
    pub(crate) drawings: Vec<Seen>,
    /// Its layout sheets, by the names of their files.
    pub(crate) parts: BTreeMap<String, Vec<u8>>,
    /// How many leaves the page has for a browser to print.
    printed: usize,
}

/// Jobs made again for other paper: their leaves are narrower or shorter, their maps larger.
const ON_OTHER_PAPER: [(&str, &[&str]); 4] = [
    ("oyster-skiff", &["--paper", "a4", "--map-paper", "a3"]),
    ("rescue-skiff", &["--paper", "a4", "--map-paper", "11x17"]),
    ("call-out-truck", &["--paper", "letter", "--map-paper", "11x17"]),
    ("litter-locker", &["--paper", "a4", "--paper-models"]),
];

/// The packet of every job in the fixtures, made once for all tests, on letter paper with models of paper; some on other paper.
pub(crate) fn made() -> &'static [Made] {
    static MADE: OnceLock<Vec<Made>> = OnceLock::new();
    MADE.get_or_init(|| {
        let folders =
            ["fixtures/jobs", "fixtures/shapes"].map(|folder| fs::read_dir(top().join(folder)).unwrap());
        let paths = folders.into_iter().flatten().map(|entry| entry.unwrap().path());
        let letter: &[&str] = &["--paper-models"];
        let mut jobs: Vec<(String, &[&str])> =
            paths.map(|path| (path.to_str().unwrap().to_owned(), letter)).collect();
        let path = |name: &str| top().join(format!("fixtures/jobs/{name}.json")).to_str().unwrap().to_owned();
        jobs.extend(ON_OTHER_PAPER.map(|(name, paper)| (path(name), paper)));
        jobs.sort();
        let (waiting, done) = (Mutex::new(jobs), Mutex::new(Vec::new()));
        let take = || waiting.lock().unwrap().pop();
        std::thread::scope(|scope| {
            for _ in 0..2 {
                scope.spawn(|| {
                    while let Some((job, paper)) = take() {
                        let packet = packet_of(&job, paper);
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

fn packet_of(job: &str, paper: &[&str]) -> Made {
    let folder = tempdir().unwrap();
    let out = folder.path().join("packet");
    let run = plateloft(&[&["packet", job, "--out", out.to_str().unwrap()], paper].concat());
    assert_eq!(run.code, 0, "{job}: {}", run.stderr);
    let packet: BTreeMap<String, Vec<u8>> = files(&out);
    let html = std::str::from_utf8(&packet["index.html"]).unwrap();
    let name = format!("{} {}", job.rsplit('/').next().unwrap(), paper.join(" "));
    let printed = html.matches("<div class=\"leaf ").count();
    let leaves = pdf::leaves(&packet["packet.pdf"]);
    let drawings = svg::drawings(html);
    let is_layout = |name: &str| name.starts_with("parts/") && name.ends_with(".svg");
    let parts = packet.into_iter().filter(|(name, _)| is_layout(name)).collect();
    Made { job: name, leaves, drawings, parts, printed }
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

/// Words of a bend on a leader: were it to cross another bend line, nobody could tell which of the two they belong to.
#[test]
fn no_leader_of_a_bend_crosses_another_bend_line() {
    assert_eq!(all_faults(|made| &made.drawings, written::misleading), "");
    let leaders = made().iter().flat_map(|made| &made.drawings).flat_map(|drawing| &drawing.leaders);
    let of_bends = leaders.filter(|(words, _)| words.starts_with("bend ")).count();
    assert!(200 < of_bends, "{of_bends} leaders of bends were read");
}

/// A leader through other words seems to strike them out, and to belong to them.
#[test]
fn no_leader_runs_through_words() {
    assert_eq!(all_faults(|made| &made.drawings, written::led_through), "");
    let leaders: usize =
        made().iter().flat_map(|made| &made.drawings).map(|drawing| drawing.leaders.len()).sum();
    assert!(1_000 < leaders, "{leaders} leaders were read");
}

/// Free at both sides, below and above, mm: what office printers leave white, and the line at the foot; common practice, no
/// source.
const MARGINS_MM: [f64; 3] = [11.8, 6.0, 11.8];

/// Sheets of labels have the margins of the labels as they are bought: 3/16 in or 5 mm at least; common practice, no source.
const LABEL_MARGINS_MM: [f64; 3] = [4.7, 4.7, 4.7];

#[test]
fn no_text_lies_outside_the_margin_of_its_leaf() {
    let outside = |leaf: &Seen| {
        let margins = if leaf.name.starts_with("Labels") { LABEL_MARGINS_MM } else { MARGINS_MM };
        written::outside_margins(leaf, margins)
    };
    assert_eq!(all_faults(|made| &made.leaves, outside), "");
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

/// "45" at the end of a line and "3/4 from the left edge" on the next: a man cuts at 45.
#[test]
fn no_size_is_broken_over_the_end_of_a_line() {
    assert_eq!(all_faults(|made| &made.leaves, written::broken_sizes), "");
}

/// Height of capitals of the font as a share of its em: 1409 of 2048 units, as its file says.
const CAPITAL: f64 = 1409.0 / 2048.0;

/// On a layout sheet, read at arm's length (600 to 700 mm): the smallest nominal height of ISO 3098 (from memory). At 650 mm that is
/// nine and a half minutes of arc, and good eyes tell five (from memory).
/// Figures in the lists over and under the drawing, which are read from nearer, are set a twentieth smaller, and the PDF tells
/// them from running dimensions by nothing.
const LEAST_CAPITAL_MM: f64 = 0.95 * 1.8;

/// Excepted: names of faces, edges, details, stations and holes, which stand in narrow places and are told in larger words, by a
/// list or on a page of their own; notes, by a twentieth. Common practice, no source.
const LEAST_NAME_MM: f64 = 1.4;

/// The thinnest line of ISO 128 (from memory).
const LEAST_LINE_MM: f64 = 0.13;

/// Slack for what is written in hundredths of a point, mm.
const WRITTEN: f64 = 0.02;

/// Running dimensions, and what a bend does.
fn is_read_from_afar(words: &str) -> bool {
    let is_number = |letter: char| letter.is_ascii_digit() || "./+- ".contains(letter);
    words.starts_with("bend UP ") || words.starts_with("bend DOWN ") || words.chars().all(is_number)
}

#[test]
fn layout_sheets_are_legible_at_arms_length() {
    let look = |leaf: &Seen| -> Vec<String> {
        if !leaf.name.ends_with(": layout sheet") {
            return Vec::new();
        }
        let small = leaf.texts.iter().filter_map(|text| {
            let least = if is_read_from_afar(&text.words) { LEAST_CAPITAL_MM } else { LEAST_NAME_MM };
            let capital = CAPITAL * text.size;
            (capital < least - WRITTEN)
                .then(|| format!("{}: “{}”: capitals of {capital:.2} mm", leaf.name, text.words))
        });
        let thin = leaf.widths.iter().filter(|width| **width < LEAST_LINE_MM - 1e-3);
        small.chain(thin.map(|width| format!("{}: a line {width:.3} mm wide", leaf.name))).collect()
    };
    assert_eq!(all_faults(|made| &made.leaves, look), "");
    let leaves = made().iter().flat_map(|made| &made.leaves);
    let sheets = leaves.filter(|leaf| leaf.name.ends_with(": layout sheet"));
    let main = sheets.flat_map(|leaf| &leaf.texts).filter(|text| is_read_from_afar(&text.words)).count();
    assert!(2_000 < main, "{main} dimensions and bends were read");
}

/// Paper is letter or A4, upright or across, less what printers and the foot of a leaf take, mm: a margin of 12 mm at both sides
/// and above, 15 mm below.
const ROOMS_MM: [[f64; 2]; 4] = [[191.9, 252.4], [255.4, 188.9], [186.0, 270.0], [273.0, 183.0]];

/// How much smaller a drawing comes out on paper, on letter or A4, whichever makes it smaller; never larger.
fn shrunk(drawing: &Seen) -> f64 {
    let fits = ROOMS_MM.map(|[wide, high]| (wide / drawing.size[0]).min(high / drawing.size[1]).min(1.0));
    fits[0].max(fits[1]).min(fits[2].max(fits[3]))
}

/// The least text of every layout sheet and of every page of holes as it is written in the SVG of the page, on paper.
#[test]
fn no_layout_sheet_and_no_page_of_holes_has_small_text() {
    // The slack of a margin rounded to a millimetre.
    const SLACK: f64 = 0.99;
    let is_sheet =
        |drawing: &Seen| drawing.widths.is_empty() && drawing.texts.iter().any(|text| text.words == "blank");
    let is_holes = |drawing: &Seen| drawing.name.ends_with(" holes") || drawing.name.ends_with(": NC points");
    let (mut sheets, mut holes) = (0, 0);
    let mut faults = Vec::new();
    for made in made() {
        for drawing in &made.drawings {
            let (is_sheet, is_holes) = (is_sheet(drawing), is_holes(drawing));
            if !is_sheet && !is_holes {
                continue;
            }
            sheets += usize::from(is_sheet);
            holes += usize::from(is_holes);
            for text in &drawing.texts {
                let number = is_read_from_afar(&text.words);
                let least = if number { LEAST_CAPITAL_MM } else { LEAST_NAME_MM };
                let capital = CAPITAL * text.size * shrunk(drawing);
                if capital < SLACK * least {
                    faults.push(format!("{}: {}: “{}”: {capital:.2} mm", made.job, drawing.name, text.words));
                }
            }
        }
    }
    assert_eq!(faults.join("\n"), "");
    assert!(150 < sheets && 10 < holes, "{sheets} layout sheets, {holes} pages of holes were read");
}

/// What a browser makes of them is seen in `outside/browser.rs`.
#[test]
fn the_page_has_the_leaves_of_the_pdf() {
    for made in made() {
        assert_eq!(made.printed, made.leaves.len(), "{}", made.job);
    }
}

/// The title of a chapter of drawings stands on the leaf of the first.
#[test]
fn no_title_stands_alone_on_a_leaf() {
    let together = || made().iter().flat_map(|made| &made.leaves).filter(|leaf| is_of_wholes(leaf));
    assert!(5 < together().count());
    for leaf in together() {
        assert!(10 < leaf.texts.len(), "{}: only {} words", leaf.name, leaf.texts.len());
    }
}

fn is_of_wholes(leaf: &Seen) -> bool {
    leaf.texts.iter().any(|text| text.words == "Pieces put together")
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

/// The words of every leaf of a packet tell its issue, and one that the job does not give is seen to be missing.
#[test]
fn every_leaf_and_label_tells_date_and_revision() {
    let mut open = 0;
    for made in made() {
        let job: Value = serde_json::from_slice(&files(&top().join("fixtures"))[&file_of(made)]).unwrap();
        let given = |name: &str| job[name].as_str().unwrap_or("—").to_owned();
        let issue = format!("date {}, revision {}", given("date"), given("revision"));
        open += usize::from(issue.ends_with("revision —"));
        for leaf in &made.leaves {
            let counted = |words: &str| leaf.texts.iter().filter(|text| text.words == words).count();
            let labels =
                if leaf.name.starts_with("Labels") { counted(job["job"].as_str().unwrap()) } else { 1 };
            let told = counted(&issue);
            assert!(0 < told && labels <= told, "{}: {}: {told} of {labels} times", made.job, leaf.name);
        }
    }
    assert!(8 < open, "{open} jobs without a revision");
}

/// The file of a job, in `fixtures`.
fn file_of(made: &Made) -> String {
    let file = made.job.split(' ').next().unwrap();
    let folder = if top().join("fixtures/jobs").join(file).exists() { "jobs" } else { "shapes" };
    format!("{folder}/{file}")
}

#[test]
fn a_kit_on_a4_is_legible() {
    let folder = tempdir().unwrap();
    let out = folder.path().join("kit");
    let asked = ["kit", "fixtures/jobs/gig-lockers.json", "--paper", "a4", "--out", out.to_str().unwrap()];
    let run = plateloft(&asked);
    assert_eq!(run.code, 0, "{}", run.stderr);
    let kit = files(&out);
    let leaves = pdf::leaves(&kit["kit.pdf"]);
    let words = |leaf: &Seen| leaf.texts.iter().any(|text| text.words.ends_with("revision —"));
    for leaf in &leaves {
        let mut sides = leaf.size;
        sides.sort_by(f64::total_cmp);
        assert!((sides[0] - 210.0).abs() < 0.1 && (sides[1] - 297.0).abs() < 0.1, "{}: {sides:?}", leaf.name);
        assert!(words(leaf), "{}: its foot does not tell the revision", leaf.name);
        let small: Vec<&str> =
            leaf.texts.iter().filter(|text| text.size < LEAST_MM).map(|text| text.words.as_str()).collect();
        assert_eq!(small, [""; 0], "{}", leaf.name);
    }
    let mut pages = leaves;
    pages.extend(svg::drawings(std::str::from_utf8(&kit["index.html"]).unwrap()));
    for (name, bytes) in kit.iter().filter(|(name, _)| name.ends_with(".svg")) {
        let drawings = svg::drawings(std::str::from_utf8(bytes).unwrap());
        pages.extend(drawings.into_iter().map(|seen| Seen { name: name.clone(), ..seen }));
    }
    let faults: Vec<String> = pages
        .iter()
        .flat_map(|page| [written::faults(page), written::struck_through(page)].concat())
        .collect();
    assert_eq!(faults, [""; 0]);
}

/// Curves and the lines of the scale keep clear of every word of the plot.
#[test]
fn the_plot_of_struts_is_legible() {
    let file = &files(&top().join("fixtures/jobs"))["litter-locker.json"];
    let mut job: Value = serde_json::from_slice(file).unwrap();
    for (opens, temperatures) in [(80, ["-20 C", "40 C"]), (95, ["19 C", "21 C"]), (28, ["-30 C", "80 C"])] {
        let lid = &mut job["weights"]["lids"][0];
        lid["opens"] = opens.into();
        lid["struts"]["temperatures"] = temperatures.as_slice().into();
        let folder = tempdir().unwrap();
        let (path, plot) = (folder.path().join("job.json"), folder.path().join("plot.svg"));
        fs::write(&path, job.to_string()).unwrap();
        let run = plateloft(&["strut", path.to_str().unwrap(), "--plot", plot.to_str().unwrap()]);
        assert!(run.code <= 1, "{}", run.stderr);
        let drawing = &svg::drawings(&fs::read_to_string(plot).unwrap())[0];
        assert!(40 < drawing.lines.len() && 12 < drawing.texts.len(), "{opens}");
        let faults = [written::faults(drawing), written::ruled_through(drawing)].concat();
        assert_eq!(faults, [""; 0], "open {opens}, {temperatures:?}");
    }
}
