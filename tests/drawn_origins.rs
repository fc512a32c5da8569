//! Tables on drawings and maps: their numbers say where they come from under the pointer, and the appendix says it too.

use roxmltree::{Document, Node, ParsingOptions};

use crate::program::packet_of;

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
