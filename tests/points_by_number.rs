//! The table of every point by number, held against the plain outline of the same part.

use std::collections::BTreeMap;

use crate::program::packet_of;
use crate::written::tape::inches;

/// 1/64 in: corners nearer to one another are one.
const JOG: f64 = 1.0 / 64.0;

/// A row of the table: number, from left, from bottom, in inches, and what it says of the point.
struct Row {
    number: String,
    at: [f64; 2],
    what: String,
}

/// The rows of all pages of points of a part, as they are written.
fn rows(packet: &BTreeMap<String, Vec<u8>>, mark: &str) -> Vec<Row> {
    let mut rows = Vec::new();
    let whole = [format!("points/{mark}.svg"), format!("points/{mark} 2.svg")];
    for page in whole.iter().filter_map(|name| packet.get(name)) {
        let page = String::from_utf8(page.clone()).unwrap();
        let texts: Vec<&str> = page
            .split("<text ")
            .skip(1)
            .map(|text| text.split_once('>').unwrap().1.split("</text>").next().unwrap())
            .collect();
        let starts = (0..texts.len()).filter(|&at| texts[at] == "point" && texts[at + 1] == "from left");
        for start in starts {
            let cells = texts[start + 4..].chunks_exact(4);
            let own = cells.take_while(|cells| cells[0].starts_with(|first: char| first.is_ascii_digit()));
            rows.extend(own.map(|cells| Row {
                number: cells[0].to_owned(),
                at: [inches(cells[1]), inches(cells[2])],
                what: cells[3].to_owned(),
            }));
        }
    }
    rows
}

/// Ends of the outer edge's pieces in order, and centre and radius of every arc.
fn outline(packet: &BTreeMap<String, Vec<u8>>, mark: &str) -> (Vec<[f64; 2]>, Vec<[f64; 3]>) {
    let text = String::from_utf8(packet[&format!("parts/{mark}.txt")].clone()).unwrap();
    let (mut ends, mut arcs) = (Vec::new(), Vec::new());
    for line in text.lines() {
        let words: Vec<&str> = line.split(' ').collect();
        let number = |at: usize| words[at].parse::<f64>().unwrap();
        match words[0] {
            "line" => ends.push([number(2), number(3)]),
            "arc" => {
                ends.push([number(2), number(3)]);
                arcs.push([number(5), number(6), number(8)]);
            }
            "close" => break,
            _ => {}
        }
    }
    (ends, arcs)
}

fn apart(a: [f64; 2], b: [f64; 2]) -> f64 {
    geometry::trig::hypot(a[0] - b[0], a[1] - b[1])
}

/// Joined in the order of the table, the centre of an arc would cut a notch: every row that is no corner says so, with the radius
/// of its arc, and the corners run through both ends of every arc.
#[test]
fn centres_of_arcs_are_no_corners() {
    let packet = packet_of("fixtures/shapes/console.json", &[]);
    for mark in ["CN-side-s", "CN-side-p"] {
        let (ends, arcs) = outline(&packet, mark);
        assert_eq!(arcs.len(), 3, "{mark}: corners C, D and E are round");
        let rows = rows(&packet, mark);
        let (centres, corners): (Vec<&Row>, Vec<&Row>) =
            rows.iter().partition(|row| row.what.contains("centre"));
        // The corners are the ends of the pieces, in the same order, from the datum corner on.
        let first = ends.iter().position(|end| apart(*end, corners[0].at) < JOG).unwrap();
        assert_eq!(corners.len(), ends.len(), "{mark}");
        for (row, end) in corners.iter().zip(ends.iter().cycle().skip(first)) {
            assert!(apart(row.at, *end) < JOG, "{mark}: {} is not at {end:?}", row.number);
        }
        assert_eq!(centres.len(), arcs.len(), "{mark}");
        for row in centres {
            let arc = arcs.iter().find(|arc| apart([arc[0], arc[1]], row.at) < JOG).unwrap();
            let radius = row.what.strip_prefix("centre of R ").map(inches).unwrap();
            assert!((radius - arc[2]).abs() < 0.001, "{mark}: {} {}", row.number, row.what);
            // Those in a detail are named there as well.
            let details = String::from_utf8(packet[&format!("details/{mark}.svg")].clone()).unwrap();
            let says = format!("{}: {}, no corner", row.number, row.what);
            assert!(arc[2] > 1.0 || details.contains(&says), "{mark}: {says}");
        }
    }
}
