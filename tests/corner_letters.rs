//! Letters of corners stand at their own ends of the drawing, and no name of a detail leads through the ring of another.

use roxmltree::{Document, Node};

use crate::legible;

type Place = [f64; 2];

/// How far a letter may stand from its corner, and how far its leader may run over the metal, in heights of its type.
const FARTHEST_EM: f64 = 16.0;
const ON_METAL_EM: f64 = 4.5;

fn number(node: Node<'_, '_>, name: &str) -> f64 {
    node.attribute(name).unwrap().parse().unwrap()
}

fn group<'a>(document: &'a Document<'a>, title: &str) -> Option<Node<'a, 'a>> {
    let own = |node: &Node<'_, '_>| node.first_element_child().and_then(|child| child.text()) == Some(title);
    document.descendants().filter(|node| node.has_tag_name("g")).find(own)
}

/// Corners of the outer contour of a part, arcs by their ends.
fn outline(metal: Node<'_, '_>) -> Vec<Place> {
    let path = metal.descendants().find(|node| node.has_tag_name("path")).unwrap();
    let outer = path.attribute("d").unwrap().split('Z').next().unwrap();
    let steps = outer.split(['M', 'L', 'A']).filter(|step| !step.trim().is_empty());
    steps
        .map(|step| {
            let numbers: Vec<f64> = step.split_whitespace().map(|word| word.parse().unwrap()).collect();
            [numbers[numbers.len() - 2], numbers[numbers.len() - 1]]
        })
        .collect()
}

fn is_within(corners: &[Place], [x, y]: Place) -> bool {
    let edges = corners.iter().zip(corners.iter().cycle().skip(1));
    let meets = edges
        .filter(|(a, b)| (a[1] > y) != (b[1] > y) && x < a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0]));
    meets.count() % 2 == 1
}

fn apart(a: Place, b: Place) -> f64 {
    geometry::trig::hypot(a[0] - b[0], a[1] - b[1])
}

/// A letter on a leader: its type size, and where the leader begins and ends.
fn led(text: Node<'_, '_>) -> Option<(f64, [Place; 2])> {
    let dot = text.prev_sibling_element().filter(|node| node.has_tag_name("path"))?;
    let line = dot.prev_sibling_element().filter(|node| node.has_tag_name("line"))?;
    let ends = [["x1", "y1"], ["x2", "y2"]].map(|end| end.map(|name| number(line, name)));
    Some((number(text, "font-size"), ends))
}

#[test]
fn a_letter_on_a_leader_stands_at_its_own_corner() {
    let (mut looked, mut faults) = (0, Vec::new());
    for (name, svg) in legible::made().iter().flat_map(|made| made.parts.iter()) {
        let text = std::str::from_utf8(svg).unwrap();
        let document = Document::parse(text).unwrap();
        let mark = name.trim_start_matches("parts/").trim_end_matches(".svg");
        let Some(labels) = group(&document, &format!("{mark} labels")) else { continue };
        let corners = outline(group(&document, mark).unwrap());
        for text in labels.children().filter(|node| node.has_tag_name("text")) {
            let letter = text.text().unwrap_or_default();
            if !(letter.len() == 1 && letter.chars().all(|letter| letter.is_ascii_uppercase())) {
                continue;
            }
            let Some((em, [from, to])) = led(text) else { continue };
            looked += 1;
            let length = apart(from, to);
            let steps = (0..200_u8).map(|step| (f64::from(step) + 0.5) / 200.0);
            let at = |share: f64| [0, 1].map(|axis| from[axis] + share * (to[axis] - from[axis]));
            let inside = steps.filter(|share| is_within(&corners, at(*share))).count();
            let on_metal = f64::from(u32::try_from(inside).unwrap()) / 200.0 * length;
            if FARTHEST_EM * em < length || ON_METAL_EM * em < on_metal {
                let [length, on_metal] = [length, on_metal].map(|mm| mm / em);
                faults.push(format!("{name}: {letter}: {length:.1} em off, {on_metal:.1} over the metal"));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert!(10 < looked, "{looked} letters on leaders were read");
}
