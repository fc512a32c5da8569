//! The plain outlines of the sample packet, read as the README describes them by a reader that shares nothing with the
//! program, against the numbers of `flats.json`.

use std::collections::BTreeMap;
use std::fs;

use geometry::trig::{atan2, sin};

use super::measured::{json, skiff};

/// A point, in the unit of the file.
type Place = [f64; 2];

/// What was read of a file.
#[derive(Default)]
struct Outline {
    /// Statements of one value, by their word.
    named: BTreeMap<String, String>,
    /// Signed area of all loops: holes run the other way round.
    area: f64,
    /// Signed area of every loop.
    loops: Vec<f64>,
    low: Place,
    high: Place,
    /// Ends of every bend line.
    bends: Vec<[Place; 2]>,
}

fn number(word: &str) -> f64 {
    assert_eq!(word.split('.').nth(1).map(str::len), Some(4), "{word} has four decimals");
    word.parse().unwrap()
}

fn place(words: &[&str]) -> Place {
    [number(words[0]), number(words[1])]
}

/// How far a direction is turned on from another, going round one way, from 0 to a whole turn.
fn turned(from: f64, to: f64, counter_clockwise: bool) -> f64 {
    let whole = 2.0 * std::f64::consts::PI;
    let turn = if counter_clockwise { to - from } else { from - to };
    turn.rem_euclid(whole)
}

impl Outline {
    fn holds(&mut self, at: Place) {
        self.low = [self.low[0].min(at[0]), self.low[1].min(at[1])];
        self.high = [self.high[0].max(at[0]), self.high[1].max(at[1])];
    }

    /// Twice the area between the datum and a straight edge.
    fn straight(&mut self, from: Place, to: Place) {
        *self.loops.last_mut().unwrap() += 0.5 * (from[0] * to[1] - to[0] * from[1]);
        self.holds(to);
    }

    /// The area between a chord and its arc, and how far the arc reaches.
    fn arc(&mut self, from: Place, words: &[&str]) -> Place {
        let (to, centre, radius) = (place(words), place(&words[3..]), number(words[6]));
        assert_eq!((words[2], words[5]), ("centre", "radius"), "{words:?}");
        let counter_clockwise = words[7] == "ccw";
        assert!(counter_clockwise || words[7] == "cw", "{words:?}");
        let toward = |at: Place| atan2(at[1] - centre[1], at[0] - centre[0]);
        let turn = turned(toward(from), toward(to), counter_clockwise);
        let segment = 0.5 * radius * radius * (turn - sin(turn));
        self.straight(from, to);
        *self.loops.last_mut().unwrap() += if counter_clockwise { segment } else { -segment };
        for (along, up) in [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)] {
            let way = atan2(up, along);
            if turned(toward(from), way, counter_clockwise) < turn {
                self.holds([centre[0] + radius * along, centre[1] + radius * up]);
            }
        }
        to
    }
}

fn read(text: &str) -> Outline {
    let mut lines = text.lines().filter(|line| !line.starts_with('#'));
    assert_eq!(lines.next(), Some("plateloft outline 1"));
    let (low, high) = ([f64::MAX; 2], [f64::MIN; 2]);
    let mut outline = Outline { low, high, ..Outline::default() };
    let (mut start, mut at) = ([0.0; 2], [0.0; 2]);
    for line in lines {
        let words: Vec<&str> = line.split(' ').collect();
        match words.as_slice() {
            ["loop", "outer" | "hole"] => outline.loops.push(0.0),
            ["start", rest @ ..] => {
                start = place(rest);
                at = start;
                outline.holds(at);
            }
            ["line", "to", rest @ ..] => {
                outline.straight(at, place(rest));
                at = place(rest);
            }
            ["arc", "to", rest @ ..] => at = outline.arc(at, rest),
            ["close"] => assert!(
                at.map(f64::to_bits) == start.map(f64::to_bits),
                "the last point repeats the first: {line}"
            ),
            ["bend", "up" | "down", "turn", _, "radius", _, "zone", _, "from", x, y, "to", rest @ ..] => {
                outline.bends.push([place(&[x, y]), place(rest)]);
            }
            ["end"] => {}
            [word, ..] => {
                let value = line[word.len()..].trim_start().to_owned();
                outline.named.insert((*word).to_owned(), value);
            }
            [] => panic!("an empty line"),
        }
    }
    assert!(0.0 < outline.loops[0], "the outer loop runs counter-clockwise");
    assert!(outline.loops[1..].iter().all(|hole| *hole < 0.0), "holes run clockwise");
    outline.area = outline.loops.iter().sum();
    outline
}

#[test]
fn every_plain_outline_of_the_sample_has_the_numbers_of_its_part() {
    let flats = json(&skiff().join("flats.json"));
    assert_eq!((&flats["units"]["length"], &flats["units"]["area"]), (&"inch".into(), &"ft2".into()));
    let parts = flats["parts"].as_array().unwrap();
    let (mut holes, mut bends) = (0, 0);
    for part in parts {
        let mark = part["mark"].as_str().unwrap();
        let text = fs::read_to_string(skiff().join(format!("parts/{mark}.txt"))).unwrap();
        let outline = read(&text);
        let named = |name: &str| outline.named[name].as_str();
        assert_eq!((named("units"), named("mark")), ("inch", mark));
        assert_eq!(Some(named("job")), flats["job"].as_str());
        assert_eq!(named("quantity").parse().ok(), part["quantity"].as_u64());
        for axis in 0..2 {
            let blank = part["blank"][axis].as_f64().unwrap();
            assert!(outline.low[axis].abs() < 0.0002, "{mark}: {:?} is not the datum corner", outline.low);
            assert!((outline.high[axis] - blank).abs() < 0.0002, "{mark}: {:?}", outline.high);
        }
        let area = part["area"].as_f64().unwrap();
        assert!(
            (outline.area / 144.0 - area).abs() < 0.0001,
            "{mark}: {} ft2, not {area}",
            outline.area / 144.0
        );
        assert_eq!(outline.bends.len(), part["bends"].as_array().unwrap().len(), "{mark}");
        holes += outline.loops.len() - 1;
        bends += outline.bends.len();
        // The program's own reader takes it too.
        let own = paper::plain_outline::read(&text).unwrap();
        assert_eq!(own.outline.holes.len(), outline.loops.len() - 1, "{mark}");
    }
    assert!(
        10 < parts.len() && 3 < holes && 30 < bends,
        "{} parts, {holes} holes, {bends} bends",
        parts.len()
    );
    // An arc with a known area: a rectangle of 4 × 2 with a half circle of radius 1 on its right end, less a hole.
    let round = "plateloft outline 1\nloop outer\nstart 0.0000 0.0000\nline to 4.0000 0.0000\narc to 4.0000 2.0000 centre 4.0000 \
                 1.0000 radius 1.0000 ccw\nline to 0.0000 2.0000\nline to 0.0000 0.0000\nclose\nloop hole\nstart 1.5000 1.0000\n\
                 arc to 0.5000 1.0000 centre 1.0000 1.0000 radius 0.5000 cw\narc to 1.5000 1.0000 centre 1.0000 1.0000 \
                 radius 0.5000 cw\nclose\nend\n";
    let outline = read(round);
    let area = 8.0 + std::f64::consts::PI * (0.5 - 0.25);
    assert!((outline.area - area).abs() < 1e-9 && (outline.high[0] - 5.0).abs() < 1e-9, "{}", outline.area);
}
