//! Reading a written SVG back: boxes of all texts and the straight lines of a pen, from the document alone.

use geometry::{Point, Vector};
use paper::page::font::{self, Weight};
use paper::page::{Pen, TextBox};

/// One text of a document: its words and the room they take.
pub(crate) struct Found {
    pub(crate) words: String,
    pub(crate) room: TextBox,
}

fn value(node: roxmltree::Node<'_, '_>, name: &str) -> f64 {
    node.attribute(name).unwrap().parse().unwrap()
}

/// Every text element, measured from its attributes. SVG coordinates: y down, so turns are negated.
pub(crate) fn texts(document: &roxmltree::Document<'_>) -> Vec<Found> {
    let nodes = document.descendants().filter(|node| node.has_tag_name("text"));
    nodes
        .map(|node| {
            let words = node.text().unwrap_or_default().to_owned();
            let weight =
                if node.attribute("font-weight") == Some("bold") { Weight::Bold } else { Weight::Regular };
            let size = value(node, "font-size");
            let turn = node.attribute("transform").map_or(0.0, |transform| {
                let inner = transform.strip_prefix("rotate(").unwrap();
                inner.split(' ').next().unwrap().parse::<f64>().unwrap().to_radians()
            });
            let along = Vector::at_angle(turn);
            let up = along.right();
            let width = font::width_mm(&words, weight, size);
            let start = match node.attribute("text-anchor") {
                Some("middle") => -0.5 * width,
                Some("end") => -width,
                _ => 0.0,
            };
            // With y down the rectangle grows upward to the right of its baseline; built from its top edge.
            let origin = Point::new(value(node, "x"), value(node, "y")) + along * start + up * (0.74 * size);
            Found { words, room: TextBox::new(origin, along, width, 0.96 * size) }
        })
        .collect()
}

/// Every line element with the dashes of `pen` on a page of this text size.
pub(crate) fn lines(document: &roxmltree::Document<'_>, pen: Pen, text_mm: f64) -> Vec<(Point, Point)> {
    let dashes = pen.look(text_mm).dashes_mm;
    let same = |node: &roxmltree::Node<'_, '_>| {
        let written: Vec<f64> = node
            .attribute("stroke-dasharray")
            .map_or(Vec::new(), |list| list.split(' ').map(|dash| dash.parse().unwrap()).collect());
        written.len() == dashes.len() && written.iter().zip(&dashes).all(|(a, b)| (a - b).abs() < 1.0e-3)
    };
    let nodes = document.descendants().filter(|node| node.has_tag_name("line")).filter(same);
    nodes
        .map(|node| {
            (
                Point::new(value(node, "x1"), value(node, "y1")),
                Point::new(value(node, "x2"), value(node, "y2")),
            )
        })
        .collect()
}

/// Pairs of texts that overlap.
pub(crate) fn overlaps(texts: &[Found]) -> Vec<(String, String)> {
    let mut pairs = Vec::new();
    for (number, first) in texts.iter().enumerate() {
        for second in &texts[number + 1..] {
            if first.room.overlaps(&second.room) {
                pairs.push((first.words.clone(), second.words.clone()));
            }
        }
    }
    pairs
}
