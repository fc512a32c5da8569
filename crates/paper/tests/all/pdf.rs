//! The written PDF, read by an independent reader: paper sizes, lengths on paper, words, bookmarks.

#![allow(clippy::unwrap_used, reason = "a PDF that cannot be read must stop the test")]

use std::io::Write as _;
use std::process::Command;

use geometry::{Contour, Point};
use lopdf::content::Content;
use lopdf::{Document, Object};
use paper::page::{Item, Page, Pen, Shape, Text};
use paper::pdf::{Leaf, Placed, write};

/// A page with two lines of 100 mm, a circle of radius 30 mm and words the font has and has not.
fn drawing() -> Page {
    let corner = Point::new(10.0, 20.0);
    let circle = Shape {
        contours: vec![Contour::round_hole(Point::new(60.0, 70.0), 30.0)],
        pen: Some(Pen::CutEdge),
        fill: None,
    };
    Page {
        title: "check".to_owned(),
        low: Point::default(),
        high: Point::new(120.0, 130.0),
        text_mm: 3.0,
        items: vec![
            Item::line(corner, Point::new(110.0, 20.0), Pen::Datum),
            Item::line(corner, Point::new(10.0, 120.0), Pen::Datum),
            Item::Shape(circle),
            Item::Text(Text::new(Point::new(10.0, 10.0), "Deckel ä 3 ≈ 4 <script>", 3.0)),
            Item::Text(Text::new(Point::new(10.0, 5.0), "板 L1", 3.0).bold()),
        ],
    }
}

fn leaves(page: &Page, scale: f64) -> Vec<Leaf<'_>> {
    let leaf = |name: &str, size_mm| Leaf {
        bookmark: name.to_owned(),
        also: if name.starts_with("second") { vec!["below".to_owned()] } else { Vec::new() },
        size_mm,
        drawings: vec![Placed { page, at: Point::new(15.0, 25.0), scale, window: None }],
        items: Vec::new(),
        text_mm: 3.0,
    };
    vec![leaf("first leaf", (215.9, 279.4)), leaf("second leaf: ü", (210.0, 297.0))]
}

fn number(object: &Object) -> f64 {
    f64::from(object.as_float().unwrap())
}

/// Ends of straight lines and of cubics on a leaf, mm, in drawing order.
fn strokes(document: &Document, leaf: u32) -> Vec<(f64, f64)> {
    let page = document.get_pages()[&leaf];
    let content = Content::decode(&document.get_page_content(page)).unwrap();
    let mm = |object: &Object| number(object) * 25.4 / 72.0;
    let ends =
        content.operations.iter().filter(|operation| ["m", "l", "c"].contains(&operation.operator.as_str()));
    ends.map(|operation| {
        let at = operation.operands.len() - 2;
        (mm(&operation.operands[at]), mm(&operation.operands[at + 1]))
    })
    .collect()
}

/// A hundredth of what paper is asked to keep.
const NEAR_MM: f64 = 0.001;

#[test]
fn sizes_on_paper_are_those_of_the_page() {
    let page = drawing();
    for scale in [1.0, 0.5] {
        let bytes = write("check", &leaves(&page, scale)).unwrap();
        let document = Document::load_mem(&bytes).unwrap();
        assert_eq!(document.get_pages().len(), 2);
        for (leaf, (width, height)) in [(1, (215.9, 279.4)), (2, (210.0, 297.0))] {
            let object = document.get_dictionary(document.get_pages()[&leaf]).unwrap();
            let media = object.get(b"MediaBox").unwrap().as_array().unwrap();
            assert!((number(&media[2]) * 25.4 / 72.0 - width).abs() < NEAR_MM);
            assert!((number(&media[3]) * 25.4 / 72.0 - height).abs() < NEAR_MM);
            let ends = strokes(&document, leaf);
            let expected = [(10.0, 20.0), (110.0, 20.0), (10.0, 20.0), (10.0, 120.0)];
            for ((x, y), (model_x, model_y)) in ends.iter().zip(expected) {
                assert!((x - 15.0 - scale * model_x).abs() < NEAR_MM, "{x}");
                assert!((y - 25.0 - scale * model_y).abs() < NEAR_MM, "{y}");
            }
            let (middle_x, middle_y) = (15.0 + scale * 60.0, 25.0 + scale * 70.0);
            let circle = &ends[4..];
            assert!(8 < circle.len());
            for (x, y) in circle {
                let radius = ((x - middle_x) * (x - middle_x) + (y - middle_y) * (y - middle_y)).sqrt();
                assert!((radius - scale * 30.0).abs() < NEAR_MM, "{radius}");
            }
        }
    }
}

#[test]
fn words_and_bookmarks_are_found_again() {
    let page = drawing();
    let bytes = write("check", &leaves(&page, 1.0)).unwrap();
    let document = Document::load_mem(&bytes).unwrap();
    let text = document.extract_text(&[1]).unwrap();
    assert!(text.contains("Deckel ä 3 ≈ 4 <script>"), "{text}");
    // A letter the font lacks is shown by its number, so that two such marks never look alike.
    assert!(text.contains("677F") && text.contains("L1"), "{text}");
    let titles: Vec<String> = document
        .get_toc()
        .unwrap()
        .toc
        .into_iter()
        .map(|entry| format!("{} {}", entry.page, entry.title))
        .collect();
    assert_eq!(titles, ["1 first leaf", "2 second leaf: ü", "2 below"]);
}

#[test]
fn same_leaves_same_bytes() {
    let page = drawing();
    assert_eq!(write("check", &leaves(&page, 1.0)).unwrap(), write("check", &leaves(&page, 1.0)).unwrap());
}

#[test]
fn another_reader_agrees_where_there_is_one() {
    if Command::new("pdfinfo").arg("-v").output().is_err() {
        let missing = "no pdfinfo here (on Debian: apt-get install poppler-utils)";
        let must_be_there = std::env::var_os("PLATELOFT_OUTSIDE_CHECKS").is_some();
        assert!(!must_be_there, "PLATELOFT_OUTSIDE_CHECKS is set: {missing}");
        // Past the tests' own catching of what is printed, so that it is seen.
        std::io::stderr().write_all(format!("not checked: {missing}\n").as_bytes()).unwrap();
        return;
    }
    let page = drawing();
    let folder = std::env::temp_dir().join(format!("plateloft-pdf-{}", std::process::id()));
    let read = |program: &str, arguments: &[&str]| {
        let out = Command::new(program).args(arguments).output().unwrap();
        assert!(out.status.success() && out.stderr.is_empty(), "{}", String::from_utf8_lossy(&out.stderr));
        String::from_utf8(out.stdout).unwrap()
    };
    write_file(&folder, &write("check", &leaves(&page, 1.0)).unwrap());
    let path = folder.to_str().unwrap();
    let information = read("pdfinfo", &["-f", "1", "-l", "2", path]);
    let words = read("pdftotext", &[path, "-"]);
    remove_file(&folder);
    assert!(information.contains("612 x 792 pts"), "{information}");
    assert!(information.contains("595.276 x 841.89 pts"), "{information}");
    assert!(words.contains("Deckel ä 3 ≈ 4 <script>"), "{words}");
}

#[expect(clippy::disallowed_methods, reason = "another program can only read a file")]
fn write_file(path: &std::path::Path, bytes: &[u8]) {
    std::fs::write(path, bytes).unwrap();
}

#[expect(clippy::disallowed_methods, reason = "what the test wrote goes again")]
fn remove_file(path: &std::path::Path) {
    std::fs::remove_file(path).unwrap();
}
