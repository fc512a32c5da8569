//! Tilted lift-out about a line along the opening as well as about one across it: the same as the first with along and across
//! exchanged, and of two ways out the one with less tilting.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on stops there")]

use crate::common::{inches, making};
use checks::fit::tilted::{Lies, TiltedLift};
use checks::fit::{Answer, Body};
use geometry::Point;
use shapes::edge::EdgeEnd;
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::{Clearance, FactValue, Figure, Recipe};
use units::{Length, LengthStyle};

fn pan(length: &str, width: &str) -> Body {
    let pan = Pan {
        plan: PanPlan::Outside { length: inches(length), width: inches(width) },
        height: inches("4"),
        rims: vec![Rim::Out(inches("1/2"))],
        lean: Vec::new(),
        edge: EdgeEnd::Plain,
    };
    let part = pan.shape_piece(0, &making()).unwrap().part;
    let flat = fold::flat::unfold(&part).unwrap();
    Body::of(&part, &flat, false)
}

fn lift(opening: [&str; 2], lies: Lies, reach: [Option<[&str; 2]>; 2]) -> TiltedLift {
    let [ends, sides] = reach.map(|reach| reach.map(|reach| reach.map(inches)));
    let [length, width] = opening.map(|size| inches(size).millimetres());
    TiltedLift {
        opening: Figure::rectangle(length, width).unwrap(),
        clearance: Clearance::single("gap", inches("1/8")),
        lies,
        deck: inches("1"),
        depth_below: inches("24"),
        reach_below: ends.unwrap_or([Length::ZERO; 2]),
        reach_sides: sides,
        headroom: None,
    }
}

fn judged(lift: &TiltedLift, body: &Body) -> Answer {
    lift.judge("T", body, LengthStyle::Inches { places: 3 })
}

/// The greatest tilt in the sentence.
fn degrees(answer: &Answer) -> f64 {
    let words = answer.sentence.split("up first, to ").nth(1).unwrap();
    words.split('°').next().unwrap().parse().unwrap()
}

fn words(answer: &Answer, name: &str) -> String {
    let fact = answer.facts.iter().find(|fact| fact.name == name);
    match fact.map(|fact| &fact.value) {
        Some(FactValue::Words(words)) => words.clone(),
        other => panic!("{name}: {other:?} of {:?}", answer.facts),
    }
}

/// 20 across its walls and 16 wide opening: no end goes first, for its width never clears the sides; a side does.
#[test]
fn a_tray_wider_than_the_opening_comes_out_one_side_first() {
    let body = pan("14", "19");
    let sideways = judged(&lift(["18", "17"], Lies::Along, [None, Some(["8", "8"])]), &body);
    assert!(sideways.fits && sideways.sentence.contains("its side toward the"), "{}", sideways.sentence);
    assert!(words(&sideways, "one end first").contains("no way"), "{:?}", sideways.facts);
    assert_eq!(sideways.scenes.len(), 3);
    assert!(sideways.scenes.iter().all(|scene| scene.title.contains("seen along the opening")));
    // The same with along and across exchanged is a way about the first line, tilted as far.
    let endways = judged(&lift(["17", "18"], Lies::Across, [Some(["8", "8"]), None]), &body);
    assert!(endways.fits && endways.sentence.contains("its end toward the"), "{}", endways.sentence);
    assert!(
        (degrees(&sideways) - degrees(&endways)).abs() < 1e-9,
        "{} {}",
        sideways.sentence,
        endways.sentence
    );
}

/// Which of two ways is taken does not hang on which of them is along.
#[test]
fn of_two_ways_out_the_less_tilted_is_taken() {
    // 15 and 20 over the rims: a stretch of 14 3/4 for 15 asks for less tilt than one of 16 for 20.
    let body = pan("14", "19");
    let reach = Some(["8", "8"]);
    for (opening, lies) in [(["14 7/8", "20 1/2"], Lies::Along), (["20 1/2", "14 7/8"], Lies::Across)] {
        let answer = judged(&lift(opening, lies, [reach, reach]), &body);
        assert!(answer.fits, "{}", answer.sentence);
    }
    let tight = |opening: [&str; 2]| judged(&lift(opening, Lies::Along, [reach, reach]), &body);
    // Wide enough for either: tilted along by a little, across by much.
    let both = tight(["14 3/4", "20 1/2"]);
    assert!(both.sentence.contains("its end toward"), "{}", both.sentence);
    let other = tight(["15 1/2", "18"]);
    assert!(other.sentence.contains("its side toward"), "{}", other.sentence);
}

/// Straight out is straight out: the other line is not looked at.
#[test]
fn what_lifts_straight_out_is_not_looked_at_twice() {
    let answer = judged(&lift(["16", "21"], Lies::Along, [None, None]), &pan("14", "19"));
    assert!(answer.sentence.contains("lifts straight out"), "{}", answer.sentence);
    assert!(answer.facts.iter().all(|fact| fact.name != "one side first"));
}

/// Without a word how far the space reaches sideways, a side has no room to go down: the "no" says what was taken.
#[test]
fn a_space_not_given_sideways_is_taken_as_no_wider_and_said_so() {
    let body = pan("14", "19");
    let answer = judged(&lift(["18", "17"], Lies::Along, [Some(["8", "8"]), None]), &body);
    assert!(!answer.fits);
    let sentence = &answer.sentence;
    assert!(
        sentence.contains("end first, it is too wide")
            && sentence.contains("side first, it does not stand level"),
        "{sentence}"
    );
    assert!(
        sentence.contains("taken as no farther than the opening") && sentence.contains("was not tried"),
        "{sentence}"
    );
}

/// An opening of any outline: seen along it, corners cut off shorten what is long enough for the part the other way.
#[test]
fn an_opening_with_a_corner_off_is_seen_along_as_it_is_seen_across() {
    let body = pan("14", "19");
    let corners = [(3.0, 0.0), (18.0, 0.0), (18.0, 17.0), (0.0, 17.0), (0.0, 3.0)];
    let along = corners.map(|(x, y)| Point::new(25.4 * x, 25.4 * y));
    // Mirrored at the diagonal, along and across are exchanged; the order of the corners turns round.
    let across: Vec<Point> = along.iter().map(|p| Point::new(p.y, p.x)).collect();
    let reach = [Some(["8", "8"]), Some(["8", "8"])];
    let cut = |corners: &[Point], lies| TiltedLift {
        opening: Figure::lettered(corners).unwrap(),
        ..lift(["18", "17"], lies, reach)
    };
    let (first, second) =
        (judged(&cut(&along, Lies::Along), &body), judged(&cut(&across, Lies::Across), &body));
    assert!(first.fits && second.fits, "{} {}", first.sentence, second.sentence);
    assert!((degrees(&first) - degrees(&second)).abs() < 1e-9, "{} {}", first.sentence, second.sentence);
    assert!(first.sentence.contains("its side") && second.sentence.contains("its end"));
}
