//! Full-size patterns, measured in the written PDF: bars and metal true to a tenth of a millimetre over all joined leaves,
//! and no pattern of more leaves than can be joined.

use std::collections::BTreeMap;

use tempfile::tempdir;

use crate::program::{SKIFF, packet_of, plateloft};
use crate::written::{self, Place, Seen, pdf};

/// What paper is asked to keep, mm.
const NEAR: f64 = 0.1;

fn near(a: Place, b: Place) -> bool {
    (0..2).all(|axis| (a[axis] - b[axis]).abs() < NEAR)
}

fn length([a, b]: [Place; 2]) -> f64 {
    ((a[0] - b[0]) * (a[0] - b[0]) + (a[1] - b[1]) * (a[1] - b[1])).sqrt()
}

/// Row and column in the name of a leaf: "L1: full size, B3" is row 1, column 2.
fn tile(leaf: &Seen) -> (u32, u32) {
    let name = leaf.name.rsplit(' ').next().unwrap();
    let row = u32::from(name.chars().next().unwrap()) - u32::from('A');
    (row, name[1..].parse::<u32>().unwrap() - 1)
}

/// Middles of the joining crosses: two lines of 8 mm that cut one another in half.
fn crosses(leaf: &Seen) -> Vec<Place> {
    let arms = leaf.lines.iter().filter(|line| (length(**line) - 8.0).abs() < 0.01);
    let middles: Vec<Place> = arms.map(|[a, b]| [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])]).collect();
    let mut crosses: Vec<Place> = Vec::new();
    for (number, middle) in middles.iter().enumerate() {
        if middles[number + 1..].iter().any(|other| near(*middle, *other)) {
            crosses.push(*middle);
        }
    }
    crosses
}

/// How far a leaf lies from its neighbour when their two shared crosses are laid on one another; both must agree.
fn shift(leaf: &Seen, next: &Seen, axis: usize) -> Place {
    let [far, near_by] = [leaf, next].map(crosses);
    let middle = |seen: &Seen| 0.5 * seen.size[axis];
    let pick = |all: &[Place], beyond: bool, seen: &Seen| {
        let mut strip: Vec<Place> = all
            .iter()
            .filter(|at| {
                let edge = if beyond {
                    all.iter().map(|at| at[axis]).fold(f64::MIN, f64::max)
                } else {
                    all.iter().map(|at| at[axis]).fold(f64::MAX, f64::min)
                };
                (at[axis] - edge).abs() < NEAR && (edge < middle(seen)) != beyond
            })
            .copied()
            .collect();
        strip.sort_by(|a, b| a[1 - axis].total_cmp(&b[1 - axis]));
        strip
    };
    let (from, to) = (pick(&far, true, leaf), pick(&near_by, false, next));
    assert_eq!((from.len(), to.len()), (2, 2), "{} and {} share two crosses", leaf.name, next.name);
    let shifts: Vec<Place> = from.iter().zip(&to).map(|(a, b)| [a[0] - b[0], a[1] - b[1]]).collect();
    assert!(near(shifts[0], shifts[1]), "{} lies crooked on {}", next.name, leaf.name);
    shifts[0]
}

/// Corners of the outline of a part as its plain outline has them, mm from the datum corner.
fn corners_of(packet: &BTreeMap<String, Vec<u8>>, mark: &str) -> Vec<Place> {
    let text = std::str::from_utf8(&packet[&format!("parts/{mark}.txt")]).unwrap();
    let corner = |line: &str| {
        let rest = line.strip_prefix("line to ").or_else(|| line.strip_prefix("start "))?;
        let numbers: Vec<f64> = rest.split(' ').map(|number| 25.4 * number.parse::<f64>().unwrap()).collect();
        Some([numbers[0], numbers[1]])
    };
    let corners: Vec<Place> = text.lines().filter_map(corner).collect();
    assert!(4 <= corners.len(), "{text}");
    corners
}

#[test]
fn a_joined_pattern_is_the_part_itself() {
    let packet = packet_of(SKIFF, &["--full-size", "L1,WS"]);
    for mark in ["L1", "WS"] {
        let leaves = pdf::leaves(&packet[&format!("full-size/{mark}.pdf")]);
        let tiles: BTreeMap<(u32, u32), &Seen> = leaves[1..].iter().map(|leaf| (tile(leaf), leaf)).collect();
        assert!(6 <= tiles.len(), "{mark}: {} leaves", tiles.len());
        let mut places: BTreeMap<(u32, u32), Place> = BTreeMap::from([((0, 0), [0.0; 2])]);
        for (&(row, column), leaf) in &tiles {
            let (before, axis) =
                if 0 < column { ((row, column - 1), 0) } else { ((row.saturating_sub(1), 0), 1) };
            if (row, column) != (0, 0) {
                let step = shift(tiles[&before], leaf, axis);
                let from = places[&before];
                places.insert((row, column), [from[0] + step[0], from[1] + step[1]]);
            }
        }
        let seen: Vec<Place> = tiles
            .iter()
            .flat_map(|(at, leaf)| {
                let place = places[at];
                leaf.corners.iter().map(move |corner| [corner[0] + place[0], corner[1] + place[1]])
            })
            .collect();
        let least = |axis: usize| seen.iter().map(|at| at[axis]).fold(f64::INFINITY, f64::min);
        let datum = [least(0), least(1)];
        for corner in corners_of(&packet, mark) {
            let there = [corner[0] + datum[0], corner[1] + datum[1]];
            assert!(seen.iter().any(|at| near(*at, there)), "{mark}: nothing is drawn at {corner:?}");
        }
    }
}

/// On letter and on A4, of a part of many leaves, no words run off the printed field.
#[test]
fn no_words_run_past_the_margins_of_a_leaf() {
    for paper in ["letter", "a4"] {
        let packet = packet_of(SKIFF, &["--full-size", "L1", "--paper", paper]);
        let leaves = pdf::leaves(&packet["full-size/L1.pdf"]);
        let past: Vec<String> =
            leaves.iter().flat_map(|leaf| written::outside_margins(leaf, [7.0, 0.0, 0.0])).collect();
        assert!(past.is_empty(), "{paper}: {past:#?}");
    }
}

/// The names of the leaves on a key plan stand beside the pattern's lines, never on them.
#[test]
fn names_of_leaves_keep_off_the_lines_of_the_pattern() {
    for (job, marks) in [(SKIFF, ["L1", "WS"].as_slice()), ("fixtures/jobs/hatch-options.json", &["L"])] {
        let packet = packet_of(job, &["--full-size", &marks.join(",")]);
        for mark in marks {
            let plan = &pdf::leaves(&packet[&format!("full-size/{mark}.pdf")])[0];
            let ruled = written::ruled_through(plan);
            assert!(ruled.is_empty(), "{job} {mark}: {ruled:#?}");
        }
    }
}

#[test]
fn every_leaf_proves_its_print_and_maps_have_paper_of_their_own() {
    let packet = packet_of(SKIFF, &["--full-size", "all", "--full-size-paper", "a3", "--map-paper", "11x17"]);
    let leaves = pdf::leaves(&packet["packet.pdf"]);
    let (maps, others): (Vec<&Seen>, Vec<&Seen>) =
        leaves.iter().partition(|leaf| leaf.name.starts_with("Sheet: "));
    let is_across = |leaf: &&Seen, size: Place| near(leaf.size, [size[1], size[0]]);
    let is_on = |leaf: &&Seen, size: Place| near(leaf.size, size) || is_across(leaf, size);
    assert!(3 < maps.len() && maps.iter().all(|leaf| is_on(leaf, [279.4, 431.8])), "maps are on 11 × 17");
    assert!(others.iter().all(|leaf| is_on(leaf, [215.9, 279.4])));
    let mut count = 0;
    for (name, bytes) in packet.iter().filter(|(name, _)| name.starts_with("full-size/")) {
        let leaves = pdf::leaves(bytes);
        assert!(leaves[0].texts.iter().any(|text| text.words.starts_with("Print at 100 %")), "{name}");
        for leaf in &leaves {
            assert_eq!(written::faults(leaf), [] as [String; 0], "{name}");
        }
        for leaf in &leaves[1..] {
            count += 1;
            let bars = leaf.lines.iter().filter(|line| (length(**line) - 101.6).abs() < NEAR);
            let ways: Vec<bool> = bars.map(|[a, b]| (a[0] - b[0]).abs() < (a[1] - b[1]).abs()).collect();
            assert!(ways.contains(&true) && ways.contains(&false), "{}: bars both ways", leaf.name);
            let words: String = leaf.texts.iter().map(|text| text.words.as_str()).collect();
            assert!(words.contains("4 in exactly") && words.contains("do not scale"), "{words}");
        }
    }
    assert!(20 < count, "{count} leaves were looked at");
}

#[test]
fn a_pattern_of_too_many_leaves_is_refused_with_the_number_and_what_to_do() {
    let folder = tempdir().unwrap();
    let out = folder.path().join("packet");
    let job = folder.path().join("deck.json");
    let plate = serde_json::json!({
        "plateloft": 1, "job": "Deck", "units": "inch", "tape": "1/16",
        "shop": { "gap": "1/4", "edge_trim": "1/2" },
        "metals": { "m": { "alloy": "5052-H32", "thickness": ".125", "inside_radius": ".125" } },
        "sheets": [ { "metal": "m", "size": ["60", "240"] } ],
        "parts": [ { "mark": "P", "shape": "plate", "metal": "m", "size": ["200", "50"] } ],
    });
    write(&job, &plate.to_string());
    let run = |mark: &str, paper: &str| {
        let (job, out) = (job.to_str().unwrap(), out.to_str().unwrap());
        plateloft(&["packet", job, "--out", out, "--full-size", mark, "--full-size-paper", paper])
    };
    let refused = run("P", "letter");
    assert_eq!(refused.code, 2, "{}", refused.stderr);
    // Own sum, paper upright: windows of 181.1 × 228.5 mm that share 12 mm, and 4 mm about the flat. Across
    // 1 + ⌈(5088 − 181.1) / 169.1⌉ = 31, up 1 + ⌈(1278 − 228.5) / 216.5⌉ = 6; held the other way it takes 22 × 9 = 198.
    let count = "P: --full-size: takes 186 leaves of letter paper in full size";
    assert!(refused.stderr.contains(count) && refused.stderr.contains("layout sheet"), "{}", refused.stderr);
    assert!(!out.exists(), "nothing is half-written");
    let unknown = run("Q", "letter");
    assert_eq!(unknown.code, 2);
    assert!(
        unknown.stderr.contains("Q: no part has this mark")
            && unknown.stderr.contains("name one or more of P")
    );
}

#[expect(clippy::disallowed_methods, reason = "the program reads its job from a file")]
fn write(path: &std::path::Path, text: &str) {
    std::fs::write(path, text).unwrap();
}
