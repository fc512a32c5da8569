//! Lengths in the committed samples, measured by readers that know nothing of plateloft, against the numbers beside them.

use std::fs;
use std::path::{Path, PathBuf};

use resvg::usvg::{Group, Node, Options, Tree};
use roxmltree::{Document, ParsingOptions};
use serde_json::Value;
use tempfile::tempdir;

use super::drawn_by_poppler;
use crate::program::{plateloft, top};

/// How far a length on paper may be off, mm.
const NEAR_MM: f64 = 0.1;

/// An upright rectangle: lower bounds, width and height, mm.
type Bounds = [f64; 4];

/// An outline that a leaf of a packet must show.
pub(super) struct Expected {
    /// The leaf, from 1.
    leaf: usize,
    /// The mark of the part.
    mark: String,
    /// Where it must lie, seen from the upper left corner of the paper.
    bounds: Bounds,
}

/// The samples that have numbers beside them.
pub(super) fn skiff() -> PathBuf {
    top().join("output-samples/oyster-skiff")
}

/// The numbers in a file.
pub(super) fn json(path: &Path) -> Value {
    serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap()
}

/// The marks of the parts with their sizes over all as `flats.json` has them, mm.
fn blanks(packet: &Path) -> Vec<(String, [f64; 2])> {
    let flats = json(&packet.join("flats.json"));
    let unit = if flats["units"]["length"] == "inch" { 25.4 } else { 1.0 };
    let parts = flats["parts"].as_array().unwrap().iter();
    parts
        .map(|part| {
            let size = [0, 1].map(|at| unit * part["blank"][at].as_f64().unwrap());
            (part["mark"].as_str().unwrap().to_owned(), size)
        })
        .collect()
}

/// A drawing as an SVG library reads it.
fn read(svg: &str) -> Tree {
    Tree::from_str(svg, &Options::default()).unwrap()
}

/// Bounds of a node, mm; an SVG library counts 96 to the inch.
fn bounds(node: &Node) -> Bounds {
    let found = node.abs_bounding_box();
    [found.x(), found.y(), found.width(), found.height()].map(|units| f64::from(units) * 25.4 / 96.0)
}

/// The first thing drawn in the group of that name.
fn first_of<'a>(tree: &'a Tree, name: &str) -> Option<&'a Node> {
    match tree.node_by_id(name)? {
        Node::Group(group) => group.children().first(),
        _ => None,
    }
}

/// Bounds of everything that is drawn.
fn all_bounds(group: &Group, found: &mut Vec<Bounds>) {
    for node in group.children() {
        match node {
            Node::Group(inner) => all_bounds(inner, found),
            Node::Path(path) if path.fill().is_some() => found.push(bounds(node)),
            _ => {}
        }
    }
}

fn svgs(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(svgs(&path));
        } else if path.extension().is_some_and(|extension| extension == "svg") {
            found.push(path);
        }
    }
    found.sort();
    found
}

/// The layout sheets of a packet: which leaf of `index.html` shows which, where, how large, and so the outline on it.
pub(super) fn layout_sheets(packet: &Path) -> Vec<Expected> {
    let html = fs::read_to_string(packet.join("index.html")).unwrap();
    let options = ParsingOptions { allow_dtd: true, ..ParsingOptions::default() };
    let document = Document::parse_with_options(&html, options).unwrap();
    let class = |node: &roxmltree::Node<'_, '_>| node.attribute("class").unwrap_or_default().to_owned();
    let leaves = document.descendants().filter(|node| class(node).starts_with("leaf "));
    let blanks = blanks(packet);
    let mut sheets = Vec::new();
    for (number, leaf) in leaves.enumerate() {
        for shown in
            leaf.descendants().filter(|node| node.has_tag_name(("http://www.w3.org/2000/svg", "use")))
        {
            let name = shown.attribute("href").unwrap();
            let part = name.strip_prefix("#part-").and_then(|rest| rest.strip_suffix("-drawing"));
            let Some((mark, blank)) = part.map(|part| &blanks[part.parse::<usize>().unwrap()]) else {
                continue;
            };
            let [x, y, width] =
                ["x", "y", "width"].map(|name| shown.attribute(name).unwrap().parse::<f64>().unwrap());
            let drawing = read(&fs::read_to_string(packet.join(format!("parts/{mark}.svg"))).unwrap());
            let scale = width / (f64::from(drawing.size().width()) * 25.4 / 96.0);
            let at = bounds(first_of(&drawing, mark).unwrap());
            let bounds = [x + scale * at[0], y + scale * at[1], scale * blank[0], scale * blank[1]];
            sheets.push(Expected { leaf: number + 1, mark: mark.clone(), bounds });
        }
    }
    sheets
}

/// Measures the outlines on leaves of a PDF as poppler draws them, unless it is missing, which is said.
pub(super) fn measure(pdf: &Path, sheets: &[Expected]) {
    for Expected { leaf, mark, bounds } in sheets {
        let Some(drawn) = drawn_by_poppler(pdf, *leaf) else { return };
        let tree = read(&drawn);
        let mut found = Vec::new();
        all_bounds(tree.root(), &mut found);
        let off = |other: &Bounds, wanted: &Bounds| {
            other.iter().zip(wanted).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max)
        };
        let least = |wanted: &Bounds| found.iter().map(|other| off(other, wanted)).fold(f64::MAX, f64::min);
        let nearest = least(bounds);
        assert!(
            nearest < NEAR_MM,
            "{mark} on leaf {leaf}: {bounds:?} mm wanted, the nearest is off by {nearest}"
        );
        // The measure itself: a part drawn a hundredth smaller in the same place would have been seen.
        let [x, y, width, height] = *bounds;
        let smaller = [x, y, 0.99 * width, 0.99 * height];
        assert!(NEAR_MM < least(&smaller), "{mark} on leaf {leaf} is too small to measure");
    }
}

#[test]
fn an_svg_library_finds_every_sample_in_true_size() {
    for (mark, blank) in blanks(&skiff()) {
        let tree = read(&fs::read_to_string(skiff().join(format!("parts/{mark}.svg"))).unwrap());
        let [_, _, width, height] = bounds(first_of(&tree, &mark).unwrap());
        let off = (width - blank[0]).abs().max((height - blank[1]).abs());
        assert!(off < NEAR_MM, "{mark}: {width} × {height} mm, by flats.json {blank:?}");
    }
    let nest = json(&skiff().join("nest.json"));
    let metals = nest["metals"].as_array().unwrap();
    let sheets: Vec<&Value> = metals.iter().flat_map(|metal| metal["sheets"].as_array().unwrap()).collect();
    assert_eq!(sheets.len(), svgs(&skiff().join("sheets")).len());
    for sheet in sheets {
        let mark = sheet["sheet"].as_str().unwrap().split(' ').next().unwrap();
        let size = [0, 1].map(|at| 25.4 * sheet["size"][at].as_f64().unwrap());
        let tree = read(&fs::read_to_string(skiff().join(format!("sheets/{mark}.svg"))).unwrap());
        let [_, _, width, height] = bounds(first_of(&tree, "sheet").unwrap());
        let off = (width - size[0]).abs().max((height - size[1]).abs());
        assert!(off < NEAR_MM, "{mark}: {width} × {height} mm, by nest.json {size:?}");
    }
}

/// Millimetres wherever a drawing is opened: the size that it names is that of its own numbers.
#[test]
fn an_svg_library_reads_every_sample_in_millimetres() {
    let folders = ["output-samples/oyster-skiff", "output-samples/jobs", "output-samples/shapes"];
    let all: Vec<PathBuf> = folders.iter().flat_map(|folder| svgs(&top().join(folder))).collect();
    assert!(100 < all.len());
    for path in all {
        let text = fs::read_to_string(&path).unwrap();
        let size = read(&text).size();
        let document = Document::parse(&text).unwrap();
        let view: Vec<f64> = document
            .root_element()
            .attribute("viewBox")
            .unwrap()
            .split(' ')
            .map(|number| number.parse().unwrap())
            .collect();
        let found = [size.width(), size.height()].map(|units| f64::from(units) * 25.4 / 96.0);
        let off = (found[0] - view[2]).abs().max((found[1] - view[3]).abs());
        assert!(view[..2] == [0.0, 0.0] && off < NEAR_MM, "{}: {found:?} mm, {view:?}", path.display());
    }
}

#[test]
fn poppler_finds_every_layout_sheet_of_the_sample_as_large_as_it_should_be() {
    let sheets = layout_sheets(&skiff());
    assert_eq!(sheets.len(), blanks(&skiff()).len());
    measure(&skiff().join("packet.pdf"), &sheets);
}

/// Of every job but the sample, and those that a browser prints as well (`browser.rs`).
#[test]
fn poppler_finds_the_layout_sheets_of_other_jobs_as_large_as_they_should_be() {
    for job in
        ["rescue-skiff", "exhaust-canopy", "channel-covers", "sled-bin", "call-out-truck", "work-barge"]
    {
        let folder = tempdir().unwrap();
        let packet = folder.path().join("packet");
        let file = format!("fixtures/jobs/{job}.json");
        let made = plateloft(&["packet", &file, "--out", packet.to_str().unwrap()]);
        assert_eq!(made.code, 0, "{job}: {}", made.stderr);
        let sheets = layout_sheets(&packet);
        assert!(!sheets.is_empty() && sheets.len() <= blanks(&packet).len(), "{job}");
        measure(&packet.join("packet.pdf"), &sheets);
    }
}
