//! Drawings in the written page: every SVG element of `index.html`.

use geometry::trig::{cos, sin};
use roxmltree::{Document, Node, ParsingOptions};
use ttf_parser::Face;

use super::{Ink, Place, Seen, run};

static REGULAR: &[u8] = include_bytes!("../../crates/paper/assets/LiberationSans-Regular.ttf");
static BOLD: &[u8] = include_bytes!("../../crates/paper/assets/LiberationSans-Bold.ttf");

/// Every drawing of a page of HTML that is XML too.
pub(crate) fn drawings(html: &str) -> Vec<Seen> {
    let options = ParsingOptions { allow_dtd: true, ..ParsingOptions::default() };
    let document = Document::parse_with_options(html, options).unwrap();
    let fonts = [REGULAR, BOLD].map(|data| Face::parse(data, 0).unwrap());
    let drawings =
        document.descendants().filter(|node| node.has_tag_name(("http://www.w3.org/2000/svg", "svg")));
    drawings.map(|drawing| seen(drawing, &fonts)).collect()
}

fn named<'a, 'input>(node: Node<'a, 'input>, name: &'static str) -> impl Iterator<Item = Node<'a, 'input>> {
    node.descendants().filter(move |node| node.tag_name().name() == name)
}

fn number(node: Node<'_, '_>, name: &str) -> f64 {
    node.attribute(name).unwrap().parse().unwrap()
}

fn title<'a>(node: Node<'a, '_>) -> &'a str {
    node.children()
        .find(|child| child.tag_name().name() == "title")
        .and_then(|title| title.text())
        .unwrap_or("")
}

/// Both ends of a line.
fn ends(node: Node<'_, '_>) -> [Place; 2] {
    [["x1", "y1"], ["x2", "y2"]].map(|end| end.map(|name| number(node, name)))
}

fn seen(drawing: Node<'_, '_>, fonts: &[Face<'_>; 2]) -> Seen {
    let view: Vec<f64> =
        drawing.attribute("viewBox").unwrap().split(' ').map(|number| number.parse().unwrap()).collect();
    let lines = named(drawing, "g").filter(|group| title(*group).ends_with(" bend lines"));
    let line = ends;
    let pictures = named(drawing, "g").filter(|group| is_picture(title(*group)));
    let strokes = pictures.flat_map(|group| {
        let straight = named(group, "line").map(line);
        let edges = named(group, "path").filter(|path| path.attribute("stroke").is_some()).flat_map(edges);
        straight.chain(edges).collect::<Vec<_>>()
    });
    Seen {
        name: title(drawing).to_owned(),
        strokes: strokes.collect(),
        size: [view[2], view[3]],
        lines: named(drawing, "line").map(line).collect(),
        texts: named(drawing, "text").map(|node| text(node, fonts)).collect(),
        groups: named(drawing, "g")
            .filter(|group| !title(*group).is_empty())
            .map(|group| {
                (title(group).to_owned(), named(group, "text").map(|node| text(node, fonts)).collect())
            })
            .collect(),
        leaders: leaders(drawing),
        bends: lines.flat_map(|group| named(group, "line").map(line).collect::<Vec<_>>()).collect(),
        ..Seen::default()
    }
}

/// Every leader of a layout sheet or of a picture of a whole: a line among its labels, with the next words behind it.
fn leaders(drawing: Node<'_, '_>) -> Vec<(String, [Place; 2])> {
    let mut leaders = Vec::new();
    let is_labels = |title: &str| [" labels", " marks"].iter().any(|end| title.ends_with(end));
    for labels in named(drawing, "g").filter(|group| is_labels(title(*group))) {
        let mut line = None;
        for node in labels.descendants() {
            match node.tag_name().name() {
                "line" => line = Some(ends(node)),
                "text" => {
                    let words =
                        node.children().filter(Node::is_text).filter_map(|child| child.text()).collect();
                    leaders.extend(line.take().map(|line| (words, line)));
                }
                _ => {}
            }
        }
    }
    leaders
}

/// A stroke of a bend card, a picture of a fit check, or the view of a folded part on its layout sheet.
fn is_picture(title: &str) -> bool {
    title.starts_with("picture: ")
        || title.ends_with(" folded view")
        || title.strip_prefix("step ").is_some_and(|number| number.parse::<u32>().is_ok())
}

/// The straight edges of a path of absolute commands, arcs left out.
fn edges(path: Node<'_, '_>) -> Vec<[Place; 2]> {
    let mut edges = Vec::new();
    let (mut first, mut at): (Place, Place) = ([0.0; 2], [0.0; 2]);
    let words: Vec<&str> = path.attribute("d").unwrap().split(' ').collect();
    let read = |number: usize| words[number].trim_start_matches(char::is_alphabetic).parse::<f64>().unwrap();
    for (number, word) in words.iter().enumerate() {
        let to = match word.chars().next() {
            Some('M' | 'L') => [read(number), read(number + 1)],
            Some('A') => [read(number + 5), read(number + 6)],
            Some('Z') => first,
            _ => continue,
        };
        match word.chars().next() {
            Some('M') => first = to,
            Some('L' | 'Z') => edges.push([at, to]),
            _ => {}
        }
        at = to;
    }
    edges
}

/// SVG measures down: turns run to the right, and up is left of the line.
fn text(node: Node<'_, '_>, fonts: &[Face<'_>; 2]) -> Ink {
    let words: String = node.children().filter(Node::is_text).filter_map(|child| child.text()).collect();
    let size = number(node, "font-size");
    let face = &fonts[usize::from(node.attribute("font-weight") == Some("bold"))];
    let ([low, high], width) = run(face, words.chars().map(|letter| face.glyph_index(letter)));
    let turn = node.attribute("transform").map_or(0.0, |transform| {
        let turn = transform.strip_prefix("rotate(").and_then(|rest| rest.split(' ').next()).unwrap();
        turn.parse::<f64>().unwrap().to_radians()
    });
    let (along, up): (Place, Place) = ([cos(turn), sin(turn)], [sin(turn), -cos(turn)]);
    let back = match node.attribute("text-anchor") {
        Some("middle") => 0.5 * width * size,
        Some("end") => width * size,
        _ => 0.0,
    };
    let at = [number(node, "x"), number(node, "y")];
    let start = [at[0] - along[0] * back, at[1] - along[1] * back];
    Ink::along(words, size, start, (along, up), [low, high].map(|corner| corner.map(|share| share * size)))
}
