//! Tables on drawings and maps: their numbers say where they come from under the pointer, and the appendix says it too.

use std::collections::{BTreeMap, BTreeSet};

use roxmltree::{Document, Node, ParsingOptions};
use serde_json::Value;

use crate::program::{files, packet_of, top};

/// What stands directly under a node as its title.
fn title<'a>(node: Node<'a, '_>) -> &'a str {
    let child = node.children().find(|child| child.tag_name().name() == "title");
    child.and_then(|title| title.text()).unwrap_or_default()
}

fn words(node: Node<'_, '_>) -> String {
    node.children().filter_map(|child| child.text()).collect()
}

/// Numbers of a table: those with an origin, and those without.
fn numbers<'a>(page: &'a Document<'_>, table: &str) -> (Vec<&'a str>, Vec<String>) {
    let is_table = |node: &Node<'_, '_>| node.tag_name().name() == "g" && title(*node) == table;
    let (mut told, mut bare) = (Vec::new(), Vec::new());
    for group in page.descendants().filter(is_table) {
        for text in group.descendants().filter(|node| node.tag_name().name() == "text") {
            if !words(text).contains(|letter: char| letter.is_ascii_digit()) {
                continue;
            }
            match text.parent().map(title) {
                Some(origin) if origin != table => told.push(origin),
                _ => bare.push(words(text)),
            }
        }
    }
    (told, bare)
}

#[test]
fn numbers_of_drawn_tables_tell_their_origin() {
    let mut seen = [0; 5];
    for job in ["jobs/rescue-skiff", "jobs/oyster-skiff", "shapes/holes"] {
        let packet = packet_of(&format!("fixtures/{job}.json"), &[]);
        let html = std::str::from_utf8(&packet["index.html"]).unwrap();
        let page = Document::parse_with_options(
            html,
            ParsingOptions { allow_dtd: true, ..ParsingOptions::default() },
        )
        .unwrap();
        let appendix = html.split("id=\"origins\"").nth(1).unwrap();
        let tables = [
            ("points", "points by number, from left and from bottom"),
            ("holes by number", "holes by number, from left and from bottom"),
            ("bend line", "bend line, long"),
            ("slanted edge of", "slanted edge, long"),
        ];
        for (number, (table, row)) in tables.into_iter().enumerate() {
            let (told, bare) = numbers(&page, table);
            if told.is_empty() {
                continue;
            }
            // Without an origin are names alone: of points, of holes, of faces.
            assert!(bare.len() <= told.len(), "{job}: {table}: {bare:?}");
            assert!(
                !bare.iter().any(|words| words.contains([' ', '/'])) || number == 2 || number == 3,
                "{bare:?}"
            );
            assert!(appendix.contains(row), "{job}: {row}");
            seen[number] += told.len();
        }
        let drops = page.descendants().filter(|node| title(*node).starts_with("a rectangle free of parts"));
        let drops = drops.count();
        assert!(drops == 0 || appendix.contains("drops, usable size"), "{job}");
        seen[4] += drops;
    }
    assert!(seen.iter().all(|count| 3 < *count), "{seen:?}");
}

/// Names with numbers in them: of the job, its parts, faces, seams, sheets, roll goods and liner.
fn names_of(job: &str, packet: &BTreeMap<String, Vec<u8>>) -> Vec<String> {
    let flats: Value = serde_json::from_slice(&packet["flats.json"]).unwrap();
    let parts = flats["parts"].as_array().unwrap();
    let mut names: Vec<String> = vec![flats["job"].as_str().unwrap().to_owned()];
    for part in parts {
        let mark = part["mark"].as_str().unwrap();
        names.push(mark.to_owned());
        names.extend(mark.rsplit_once('-').map(|(whole, _)| whole.to_owned()));
        // "outboard 60 to 75" is a face.
        let bends = part["bends"].as_array().unwrap().iter();
        let faces = bends.flat_map(|bend| [0, 1].map(|end: usize| bend["between"][end].as_str()));
        names.extend(faces.flatten().map(str::to_owned));
        let seams = part["seams"].as_array().into_iter().flatten();
        names.extend(seams.filter_map(|seam| seam["name"].as_str().map(str::to_owned)));
    }
    // Roll goods and liner have marks of their own.
    let jobs = files(&top().join("fixtures/jobs"));
    let file: Value = serde_json::from_slice(&jobs[&format!("{job}.json")]).unwrap();
    for goods in ["coverings", "liners"].map(|goods| file[goods].as_array()).into_iter().flatten().flatten() {
        let pieces = ["pieces", "areas"].map(|list| goods[list].as_array());
        let marks = pieces.into_iter().flatten().flatten().map(|piece| &piece["mark"]);
        let told = marks.chain(["covering", "liner"].map(|field| &goods[field]));
        names.extend(told.filter_map(|name| name.as_str().map(str::to_owned)));
    }
    let sheets = packet.keys().filter_map(|name| name.strip_prefix("sheets/")?.strip_suffix(".svg"));
    names.extend(sheets.map(|name| name.split(['_', ' ']).next().unwrap_or_default().to_owned()));
    names
}

/// Everything that a drawing of the page says with a number in it tells where that comes from, and the appendix, which is all that
/// paper has, tells the same; but for names: of jobs, parts, sheets, points, faces, frames, pages.
#[test]
fn no_number_of_a_drawing_is_without_its_origin() {
    const NAMED: [&str; 17] = [
        "page ", "detail ", "station ", "frame ", "leg ", "drop ", "joint ", "piece ", "seam ", "length ",
        "stretch ", "channel ", " run ", "side ", "bend ", "sheet ", "of 2",
    ];
    let mut seen = 0;
    for job in
        ["oyster-skiff", "litter-locker", "rescue-skiff", "marina-gangway", "call-out-truck", "work-barge"]
    {
        let packet = packet_of(&format!("fixtures/jobs/{job}.json"), &[]);
        let html = std::str::from_utf8(&packet["index.html"]).unwrap();
        let options = ParsingOptions { allow_dtd: true, ..ParsingOptions::default() };
        let page = Document::parse_with_options(html, options).unwrap();
        let is_origin = |node: &Node<'_, '_>| node.attribute("class") == Some("origin");
        let told: BTreeSet<&str> =
            page.descendants().filter(is_origin).map(|cell| cell.text().unwrap_or_default()).collect();
        let names = names_of(job, &packet);
        let is_name = |words: &str| {
            let words = words.trim();
            let is_point = words.trim_end_matches(|c: char| c.is_ascii_lowercase()).parse::<u32>().is_ok();
            is_point
                || NAMED.iter().any(|named| words.starts_with(named) || words.contains(named))
                || names.iter().any(|name| match name.contains(' ') {
                    true => words.contains(name.as_str()),
                    false => words
                        .split(|letter: char| !letter.is_alphanumeric() && letter != '-')
                        .any(|word| word == name),
                })
        };
        let sections = page.descendants().filter(|node| node.has_tag_name("section"));
        for text in sections.flat_map(|section| section.descendants()) {
            if text.tag_name().name() != "text" {
                continue;
            }
            let own = words(text);
            if !own.contains(|letter: char| letter.is_ascii_digit()) {
                continue;
            }
            let from = text.parent().map(title).unwrap_or_default();
            assert!(told.contains(from) || is_name(&own), "{job}: {own}: “{from}”");
            seen += usize::from(told.contains(from));
        }
    }
    assert!(4000 < seen, "{seen} numbers were read");
}
