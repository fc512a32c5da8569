//! The tables of holes and of corners by number, and the numbers on their drawings, held against the plain outline of the same
//! part.

use std::collections::{BTreeMap, BTreeSet};

use crate::program::packet_of;
use crate::written::tape::inches;

/// What the outline's four decimals and the tape's thousandths leave open, inches.
const ROUNDED: f64 = 0.0011;

/// Right, up and diameter of every round end that is cut inside the outer edge.
fn drilled(packet: &BTreeMap<String, Vec<u8>>, mark: &str) -> Vec<[f64; 3]> {
    let text = String::from_utf8(packet[&format!("parts/{mark}.txt")].clone()).unwrap();
    let mut found: Vec<[f64; 3]> = Vec::new();
    for line in text.split("loop hole").skip(1).flat_map(str::lines) {
        let words: Vec<&str> = line.split(' ').collect();
        if words[0] == "arc" {
            let number = |at: usize| words[at].parse::<f64>().unwrap();
            let round = [number(5), number(6), 2.0 * number(8)];
            if !found.iter().any(|known| is_same(*known, round)) {
                found.push(round);
            }
        }
    }
    found
}

fn is_same(a: [f64; 3], b: [f64; 3]) -> bool {
    a.iter().zip(b).all(|(a, b)| (a - b).abs() < ROUNDED)
}

/// The words of a stretch of SVG.
fn texts(svg: &str) -> Vec<&str> {
    let texts = svg.split("<text ").skip(1);
    texts.map(|text| text.split_once('>').unwrap().1.split("</text>").next().unwrap()).collect()
}

/// The rows of the table, by number, and the numbers on the drawings.
fn printed(packet: &BTreeMap<String, Vec<u8>>, mark: &str) -> (BTreeMap<usize, [f64; 3]>, Vec<usize>) {
    let (mut rows, mut drawn) = (BTreeMap::new(), Vec::new());
    let own = packet.iter().filter(|(name, _)| name.starts_with(&format!("points/{mark}")));
    for (_, page) in own {
        let page = std::str::from_utf8(page).unwrap();
        for marks in page.split("hole marks</title>").skip(1) {
            drawn.extend(
                texts(marks.split("</g>").next().unwrap()).iter().map(|text| text.parse::<usize>().unwrap()),
            );
        }
        let texts = texts(page);
        let starts = (0..texts.len()).filter(|&at| texts[at] == "hole" && texts[at + 1] == "from left");
        for start in starts {
            let cells = texts[start + 4..].chunks_exact(4);
            for cells in cells.take_while(|cells| cells[0].parse::<usize>().is_ok()) {
                let diameter = cells[3].rsplit("dia ").next().unwrap();
                let row = [cells[1], cells[2], diameter].map(inches);
                assert!(rows.insert(cells[0].parse().unwrap(), row).is_none(), "{mark}: {} twice", cells[0]);
            }
        }
    }
    (rows, drawn)
}

/// Places of each part, as the job gives them: round holes, and both ends of slots.
const PLACES: [(&str, usize); 3] = [("V", 17 * 8 + 6 + 2 * 9), ("L", 5 * 30), ("S", 72)];

#[test]
fn every_hole_has_a_number_and_the_number_its_place() {
    let packet = packet_of("fixtures/shapes/holes.json", &[]);
    for (mark, count) in PLACES {
        let cut = drilled(&packet, mark);
        assert_eq!(cut.len(), count, "{mark}");
        let (rows, mut drawn) = printed(&packet, mark);
        assert_eq!(rows.keys().copied().collect::<Vec<_>>(), (1..=count).collect::<Vec<_>>(), "{mark}");
        drawn.sort_unstable();
        assert_eq!(drawn, (1..=count).collect::<Vec<_>>(), "{mark}: numbers on the drawings");
        let told: BTreeSet<usize> = rows
            .values()
            .map(|row| {
                cut.iter().position(|hole| is_same(*hole, *row)).unwrap_or_else(|| panic!("{mark}: {row:?}"))
            })
            .collect();
        assert_eq!(told.len(), count, "{mark}: two numbers for one hole");
    }
}

/// A row is told by its first and last hole and the distance between neighbours, which lead to the same places as the table.
#[test]
fn rows_of_equal_pitch_end_where_the_table_has_their_last_hole() {
    let packet = packet_of("fixtures/shapes/holes.json", &[]);
    let mut told = 0;
    for (mark, _) in PLACES {
        let (rows, _) = printed(&packet, mark);
        let own = packet.iter().filter(|(name, _)| name.starts_with(&format!("points/{mark}")));
        for (_, page) in own {
            let texts = texts(std::str::from_utf8(page).unwrap());
            let Some(start) = texts.iter().position(|text| *text == "row of holes") else { continue };
            for cells in texts[start + 5..].chunks_exact(5).take_while(|cells| cells[0].contains('–')) {
                let (first, last) = cells[0].split_once('–').unwrap();
                let [first, last] = [first, last].map(|number| rows[&number.parse::<usize>().unwrap()]);
                let (count, pitch) = cells[1].split_once(" at ").unwrap();
                let run = (count.parse::<f64>().unwrap() - 1.0) * inches(pitch);
                let apart = (last[0] - first[0]).abs() + (last[1] - first[1]).abs();
                assert!((apart - run).abs() < ROUNDED, "{mark}: {cells:?}");
                told += 1;
            }
        }
    }
    assert!(12 < told, "{told} rows");
}

/// The key plan draws every hole: the number of a stretch stands between them.
#[test]
fn the_key_plan_leaves_no_hole_out() {
    let packet = packet_of("fixtures/shapes/holes.json", &[]);
    let mut plans = 0;
    for (mark, _) in PLACES {
        let outline = std::str::from_utf8(&packet[&format!("parts/{mark}.txt")]).unwrap();
        let openings = outline.lines().filter(|line| *line == "close").count() - 1;
        for page in packet.iter().filter(|(name, _)| name.starts_with(&format!("points/{mark}"))) {
            let page = std::str::from_utf8(page.1).unwrap();
            for plan in page.split("<title>holes of the key plan</title>").skip(1) {
                let drawn = plan.split("</g>").next().unwrap().matches("<path ").count();
                assert_eq!(drawn, openings, "{mark}");
                plans += 1;
            }
        }
    }
    assert!(0 < plans);
}

/// A comb of sixty teeth has more corners than any row holds: all of them stand by number on a key plan's stretches.
#[test]
fn corners_that_no_row_holds_stand_by_number_in_stretches() {
    let packet = packet_of("fixtures/shapes/comb.json", &[]);
    let outline = std::str::from_utf8(&packet["parts/NC.txt"]).unwrap();
    let corners: Vec<[f64; 2]> = outline
        .lines()
        .filter_map(|line| line.strip_prefix("line to "))
        .map(|line| {
            let mut numbers = line.split(' ').map(|word| word.parse::<f64>().unwrap());
            [numbers.next().unwrap(), numbers.next().unwrap()]
        })
        .collect();
    assert!(4 + 60 * 4 <= corners.len(), "{} corners", corners.len());
    let (mut rows, mut drawn, mut stretches, mut plans) = (Vec::<[f64; 2]>::new(), Vec::new(), 0, 0);
    let mut pages: Vec<_> = packet.iter().filter(|(name, _)| name.starts_with("points/NC")).collect();
    pages.sort_by_key(|(name, _)| name.len());
    for (_, page) in pages {
        let page = std::str::from_utf8(page).unwrap();
        for marks in page.split("hole marks</title>").skip(1) {
            let own = texts(marks.split("</g>").next().unwrap());
            drawn.extend(own.iter().map(|text| text.parse::<usize>().unwrap()));
            stretches += 1;
        }
        plans += page.matches("key plan: ").count();
        let texts = texts(page);
        let Some(heads) = texts.iter().position(|text| *text == "from left") else { continue };
        let mut at = heads;
        while at + 2 < texts.len() {
            if texts[at] == (rows.len() + 1).to_string() {
                rows.push([inches(texts[at + 1]), inches(texts[at + 2])]);
                at += 2;
            }
            at += 1;
        }
    }
    assert_eq!(plans, 1);
    assert!(3 < stretches, "{stretches}");
    drawn.sort_unstable();
    let count = rows.len();
    assert_eq!(drawn, (1..=count).collect::<Vec<_>>(), "numbers on the drawings");
    // Below the teeth are bend ends and places where an edge merely runs on.
    for corner in corners.into_iter().filter(|corner| 2.0 < corner[1]) {
        let told = rows.iter().filter(|row| row.iter().zip(corner).all(|(a, b)| (a - b).abs() < ROUNDED));
        assert_eq!(told.count(), 1, "{corner:?}");
    }
    let layout = texts(std::str::from_utf8(&packet["parts/NC.svg"]).unwrap());
    assert!(layout.contains(&"240") && !layout.contains(&"118"), "no corner of a tooth is in the rows");
}
