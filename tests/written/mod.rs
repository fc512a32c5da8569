//! What a reader of the written files sees: the ink of every text as a turned rectangle, and bend lines, from the files
//! and the font alone. Shares no measure with the program.

pub(crate) mod pdf;
pub(crate) mod places;
pub(crate) mod svg;
pub(crate) mod tape;

use ttf_parser::Face;

/// A point, mm.
pub(crate) type Place = [f64; 2];

/// A text on a page.
#[derive(Debug, Clone)]
pub(crate) struct Ink {
    /// Its words, or what stands for them.
    pub(crate) words: String,
    /// Height of its em, mm.
    pub(crate) size: f64,
    /// Where its baseline begins.
    pub(crate) at: Place,
    /// The rectangle about its ink, in turn.
    pub(crate) corners: [Place; 4],
}

/// All that was read of one page.
#[derive(Debug, Clone, Default)]
pub(crate) struct Seen {
    /// Its name.
    pub(crate) name: String,
    /// Width and height, mm.
    pub(crate) size: Place,
    /// Every text.
    pub(crate) texts: Vec<Ink>,
    /// Every bend line.
    pub(crate) bends: Vec<[Place; 2]>,
    /// Every drawn line of a picture that words must keep clear of: strokes of bend cards, fit checks.
    pub(crate) strokes: Vec<[Place; 2]>,
    /// Every straight line: of a drawing, or of a leaf that is drawn on the paper itself.
    pub(crate) lines: Vec<[Place; 2]>,
    /// How wide lines are drawn, mm, each width once.
    pub(crate) widths: Vec<f64>,
    /// Every leader of a layout sheet, from the thing it leads to: the words at its other end.
    pub(crate) leaders: Vec<(String, [Place; 2])>,
    /// The texts of every named group of a drawing.
    pub(crate) groups: Vec<(String, Vec<Ink>)>,
    /// Where drawn lines begin and end, within the window of their drawing.
    pub(crate) corners: Vec<Place>,
}

/// How deep ink must lie in other ink to be called an overlap, mm: the fineness of written numbers.
const TOUCH: f64 = 0.01;

impl Ink {
    /// Ink from `low` to `high` along and above a baseline that starts at `start` and runs along the unit vector `along`,
    /// with `up` to its upper side.
    fn along(words: String, size: f64, start: Place, (along, up): (Place, Place), ink: [Place; 2]) -> Self {
        let [low, high] = ink;
        let at = |x: f64, y: f64| [start[0] + along[0] * x + up[0] * y, start[1] + along[1] * x + up[1] * y];
        let corners = [at(low[0], low[1]), at(high[0], low[1]), at(high[0], high[1]), at(low[0], high[1])];
        Self { words, size, at: start, corners }
    }

    /// True when the ink has no extent, as that of blanks.
    fn is_blank(&self) -> bool {
        let [a, b, c, _] = self.corners;
        (a[0] - b[0]).abs() + (a[1] - b[1]).abs() < TOUCH || (b[0] - c[0]).abs() + (b[1] - c[1]).abs() < TOUCH
    }
}

/// Ink of a run of glyphs in ems: from (left, low) to (right, high), and how far the pen moved.
fn run(face: &Face<'_>, letters: impl Iterator<Item = Option<ttf_parser::GlyphId>>) -> ([Place; 2], f64) {
    let em = f64::from(face.units_per_em());
    let mut ink = [[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]];
    let mut add = |low: Place, high: Place| {
        for axis in 0..2 {
            ink[0][axis] = ink[0][axis].min(low[axis]);
            ink[1][axis] = ink[1][axis].max(high[axis]);
        }
    };
    let mut pen = 0.0;
    for glyph in letters {
        // A letter that the font lacks comes from another one: an em wide, as high as capitals.
        let Some(glyph) = glyph else {
            add([pen, 0.0], [pen + 1.0, 0.73]);
            pen += 1.0;
            continue;
        };
        if let Some(bounds) = face.glyph_bounding_box(glyph) {
            let [left, low, right, high] =
                [bounds.x_min, bounds.y_min, bounds.x_max, bounds.y_max].map(|units| f64::from(units) / em);
            add([pen + left, low], [pen + right, high]);
        }
        pen += f64::from(face.glyph_hor_advance(glyph).unwrap()) / em;
    }
    if ink[0][0] > ink[1][0] { ([[0.0; 2]; 2], pen) } else { (ink, pen) }
}

/// Least and greatest of `corners` along `axis`.
fn span(corners: &[Place], axis: Place) -> (f64, f64) {
    let along = corners.iter().map(|at| at[0] * axis[0] + at[1] * axis[1]);
    along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)))
}

/// True when the upright rectangles about two figures share something: most pairs are told apart by that.
fn near(first: &[Place], second: &[Place]) -> bool {
    [[1.0, 0.0], [0.0, 1.0]].into_iter().all(|axis| {
        let ((low, high), (other_low, other_high)) = (span(first, axis), span(second, axis));
        low <= other_high && other_low <= high
    })
}

/// True when two convex figures share more than a hair: no side of either parts them.
fn overlap(first: &[Place], second: &[Place]) -> bool {
    if !near(first, second) {
        return false;
    }
    let sides = |figure: &[Place]| -> Vec<Place> {
        let next = figure.iter().cycle().skip(1);
        let normal = |(a, b): (&Place, &Place)| [a[1] - b[1], b[0] - a[0]];
        figure.iter().zip(next).map(normal).collect()
    };
    [first, second].into_iter().flat_map(sides).all(|axis| {
        let length = (axis[0] * axis[0] + axis[1] * axis[1]).sqrt();
        if length < TOUCH {
            return true;
        }
        let axis = axis.map(|part| part / length);
        let ((low, high), (other_low, other_high)) = (span(first, axis), span(second, axis));
        low + TOUCH < other_high && other_low + TOUCH < high
    })
}

/// What lies of a straight line within an upright rectangle, if anything does.
fn within([a, b]: [Place; 2], [low, high]: [Place; 2]) -> Option<[Place; 2]> {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for axis in 0..2 {
        let run = b[axis] - a[axis];
        let shares = [low[axis], high[axis]].map(|side| (side - a[axis]) / run);
        if run.abs() < TOUCH {
            if a[axis] < low[axis] || high[axis] < a[axis] {
                return None;
            }
        } else {
            from = from.max(shares[0].min(shares[1]));
            to = to.min(shares[0].max(shares[1]));
        }
    }
    let at = |share: f64| [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
    (from < to).then(|| [at(from), at(to)])
}

/// Units that a number is not parted from.
const UNITS: [&str; 12] = ["in", "mm", "lb", "lbf", "kg", "ft", "m", "in²", "ft²", "°", "kN", "psi"];

/// True for "45", "3/4", ".004", with or without a bracket before it.
fn is_number(word: &str) -> bool {
    let bare = word.trim_start_matches(['(', '-', '+', '±']);
    bare.ends_with(|last: char| last.is_ascii_digit())
        && bare.chars().all(|letter| letter.is_ascii_digit() || "./,".contains(letter))
}

/// True when a reader of `above`, broken off before `below`, reads half a size: "45" of "45 3/4", "12" of "12 at 120".
fn parts_a_size(above: &str, below: &str) -> bool {
    let (Some(last), Some(first)) = (above.split_whitespace().last(), below.split_whitespace().next()) else {
        return false;
    };
    let second = below
        .split_whitespace()
        .nth(1)
        .is_some_and(|word| is_number(word.trim_end_matches([',', '.', ';', ')'])));
    let first = first.trim_end_matches([',', '.', ';', ':', ')']);
    let starts_with_number = is_number(first);
    match last {
        "×" | "±" => true,
        "+" | "-" | "at" => {
            let ahead = above.split_whitespace().rev().nth(1);
            starts_with_number && (last == "at" || ahead.is_some_and(is_number))
        }
        _ if !is_number(last) => false,
        _ => match first {
            "×" | "±" => true,
            "+" | "-" | "at" => second,
            _ => (starts_with_number && first.contains('/')) || UNITS.contains(&first),
        },
    }
}

/// Sizes of a leaf that end on one line and go on on the next. Rows of a table of numbers alone, and totals "in all", are no lines of a text.
pub(crate) fn broken_sizes(seen: &Seen) -> Vec<String> {
    let is_upright = |ink: &&Ink| (ink.corners[0][1] - ink.corners[1][1]).abs() < TOUCH && !ink.is_blank();
    let has_words = |ink: &Ink| ink.words.chars().filter(|letter| letter.is_alphabetic()).nth(1).is_some();
    let upright: Vec<&Ink> = seen.texts.iter().filter(is_upright).collect();
    let mut faults = Vec::new();
    for above in &upright {
        let follows = |below: &&&Ink| {
            let down = (above.at[1] - below.at[1]) / above.size;
            (above.size - below.size).abs() < TOUCH
                && (above.at[0] - below.at[0]).abs() < 0.3 * above.size
                && (1.1..1.42).contains(&down)
        };
        for below in upright.iter().filter(follows) {
            let is_total = below.words.starts_with("in all");
            if !is_total && has_words(above) | has_words(below) && parts_a_size(&above.words, &below.words) {
                faults.push(format!("{}: “{}” / “{}”", seen.name, above.words, below.words));
            }
        }
    }
    faults
}

/// Texts that a drawn line of a side view or of a fit check runs through.
pub(crate) fn struck_through(seen: &Seen) -> Vec<String> {
    let inked = seen.texts.iter().filter(|ink| !ink.is_blank());
    let struck = inked.filter(|ink| seen.strokes.iter().any(|line| overlap(&ink.corners, line)));
    struck.map(|ink| format!("{}: a line runs through “{}”", seen.name, ink.words)).collect()
}

/// Texts that any straight line of a drawing runs through.
pub(crate) fn ruled_through(seen: &Seen) -> Vec<String> {
    struck_through(&Seen { strokes: seen.lines.clone(), ..seen.clone() })
}

/// What is wrong with a page: texts over one another, texts on bend lines, texts off the paper.
pub(crate) fn faults(seen: &Seen) -> Vec<String> {
    let mut faults = Vec::new();
    let inked: Vec<&Ink> = seen.texts.iter().filter(|ink| !ink.is_blank()).collect();
    for (number, ink) in inked.iter().enumerate() {
        for other in &inked[number + 1..] {
            if overlap(&ink.corners, &other.corners) {
                faults.push(format!("{}: “{}” lies on “{}”", seen.name, ink.words, other.words));
            }
        }
        for line in &seen.bends {
            if overlap(&ink.corners, line) {
                faults.push(format!("{}: “{}” lies on a bend line", seen.name, ink.words));
            }
        }
        let off = |at: &Place| (0..2).any(|axis| at[axis] < 0.0 || seen.size[axis] < at[axis]);
        if ink.corners.iter().any(off) {
            faults.push(format!("{}: “{}” runs off the paper", seen.name, ink.words));
        }
    }
    faults
}

/// How far two lines may be apart where one begins on the other, mm: the fineness of written numbers.
const ON: f64 = 0.01;

/// Leaders of bends that cross another bend line than the one they begin on.
pub(crate) fn misleading(seen: &Seen) -> Vec<String> {
    let mut faults = Vec::new();
    for (words, leader) in &seen.leaders {
        if words.starts_with("bend UP ") || words.starts_with("bend DOWN ") {
            let crossed =
                seen.bends.iter().filter(|line| off(leader[0], **line) > ON && cross(*leader, **line));
            let count = crossed.count();
            if 0 < count {
                faults
                    .push(format!("{}: the leader of “{words}” crosses {count} other bend lines", seen.name));
            }
            // The line of a test strip is drawn with its picture.
            if !seen.bends.is_empty() && seen.bends.iter().all(|line| off(leader[0], *line) > ON) {
                faults.push(format!("{}: the leader of “{words}” begins on no bend line", seen.name));
            }
        }
    }
    faults
}

/// Leaders that run through other words than their own.
pub(crate) fn led_through(seen: &Seen) -> Vec<String> {
    let mut faults = Vec::new();
    for (words, leader) in &seen.leaders {
        let others = seen.texts.iter().filter(|ink| !ink.is_blank() && ink.words != *words);
        for ink in others.filter(|ink| overlap(&ink.corners, leader)) {
            faults.push(format!("{}: the leader of “{words}” runs through “{}”", seen.name, ink.words));
        }
    }
    faults
}

/// How far a place lies off a line, mm.
fn off(at: Place, [a, b]: [Place; 2]) -> f64 {
    let (run, from_a) = ([b[0] - a[0], b[1] - a[1]], [at[0] - a[0], at[1] - a[1]]);
    let squared = run[0] * run[0] + run[1] * run[1];
    let share = if squared < TOUCH * TOUCH {
        0.0
    } else {
        ((from_a[0] * run[0] + from_a[1] * run[1]) / squared).clamp(0.0, 1.0)
    };
    let rest = [from_a[0] - share * run[0], from_a[1] - share * run[1]];
    (rest[0] * rest[0] + rest[1] * rest[1]).sqrt()
}

/// True when each of two lines has the ends of the other on either side.
fn cross(first: [Place; 2], second: [Place; 2]) -> bool {
    let side =
        |[a, b]: [Place; 2], at: Place| (b[0] - a[0]) * (at[1] - a[1]) - (b[1] - a[1]) * (at[0] - a[0]);
    let parted = |line: [Place; 2], ends: [Place; 2]| side(line, ends[0]) * side(line, ends[1]) < 0.0;
    parted(first, second) && parted(second, first)
}

/// Texts that come nearer to the edge of the paper than `margins`: left and right, below, above, mm.
pub(crate) fn outside_margins(seen: &Seen, [beside, below, above]: [f64; 3]) -> Vec<String> {
    let is_out = |at: &Place| {
        let [width, height] = seen.size;
        at[0] < beside || width - beside < at[0] || at[1] < below || height - above < at[1]
    };
    let out = seen.texts.iter().filter(|ink| !ink.is_blank() && ink.corners.iter().any(is_out));
    out.map(|ink| format!("{}: “{}” lies outside the margin", seen.name, ink.words)).collect()
}

/// Two bend lines and a leader that begins on the first: over the second, and away from it.
#[test]
fn a_leader_over_another_bend_line_is_found_and_one_beside_it_is_not() {
    let seen = |foot: Place| Seen {
        bends: vec![[[0.0, 0.0], [50.0, 0.0]], [[0.0, 5.0], [50.0, 5.0]]],
        leaders: vec![("bend UP 90.0°".to_owned(), [[20.0, 0.0], foot])],
        ..Seen::default()
    };
    assert_eq!(misleading(&seen([22.0, 9.0])).len(), 1);
    assert_eq!(misleading(&seen([22.0, -9.0])), [""; 0]);
    let mut loose = seen([22.0, -9.0]);
    loose.leaders[0].1[0] = [20.0, -1.0];
    assert_eq!(misleading(&loose).len(), 1);
}

/// A page with every fault: what is written of it must be found out, in the drawing and on the leaf.
#[test]
fn faults_are_found_in_what_is_written() {
    use geometry::Point;
    use paper::page::{Item, Page, Pen, Text};
    use paper::pdf::{Leaf, Placed};
    let text = |x: f64, y: f64, words: &str| Item::Text(Text::new(Point::new(x, y), words, 3.0));
    let bend = Item::line(Point::new(20.0, 52.0), Point::new(60.0, 52.0), Pen::BendUp);
    let items = |shift: f64| {
        let clear = [text(10.0, 10.0, "alone"), Item::group("L1 bend lines", vec![bend.clone()])];
        let turned =
            Text::new(Point::new(70.0, 28.0 + shift), "upright", 3.0).turned(std::f64::consts::FRAC_PI_2);
        let others =
            [text(60.0, 30.0 - shift, "below it"), Item::Text(turned), text(40.0, 51.0 - shift, "on it")];
        [clear.as_slice(), &others, &[text(80.0 - shift, 80.0, "off the paper")]].concat()
    };
    for (shift, count) in [(0.0, 3), (5.0, 1), (20.0, 0)] {
        let page = Page {
            title: "faults".to_owned(),
            low: Point::default(),
            high: Point::new(90.0, 90.0),
            text_mm: 3.0,
            items: items(shift),
        };
        let drawing = svg::drawings(&format!("<html>{}</html>", paper::svg::write_inline(&page, "")));
        let leaf = Leaf {
            bookmark: "L1: layout sheet".to_owned(),
            also: Vec::new(),
            size_mm: (90.0, 90.0),
            drawings: vec![Placed { page: &page, at: Point::default(), scale: 1.0, window: None }],
            items: Vec::new(),
            text_mm: 3.0,
        };
        let leaves = pdf::leaves(&paper::pdf::write("faults", &[leaf]).unwrap());
        for seen in [&drawing[0], &leaves[0]] {
            assert_eq!(faults(seen).len(), count, "moved by {shift}: {:?}", faults(seen));
        }
    }
}

#[test]
fn figures_that_share_ink_are_told_from_those_that_do_not() {
    let square = |x: f64, y: f64| [[x, y], [x + 2.0, y], [x + 2.0, y + 1.0], [x, y + 1.0]];
    assert!(overlap(&square(0.0, 0.0), &square(1.9, 0.9)));
    assert!(!overlap(&square(0.0, 0.0), &square(2.1, 0.0)) && !overlap(&square(0.0, 0.0), &square(0.0, 1.0)));
    assert!(overlap(&square(0.0, 0.0), &[[1.0, -1.0], [1.0, 3.0]]));
    assert!(!overlap(&square(0.0, 0.0), &[[0.0, 1.9], [3.0, 0.9]]));
}
