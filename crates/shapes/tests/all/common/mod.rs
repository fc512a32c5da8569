//! Metals and readings shared by the shape tests.
#![allow(dead_code, unreachable_pub, clippy::unwrap_used, reason = "each test file uses its own share")]

use fold::BendNumber;
use fold::Direction::Down;
use fold::bend::{Origin, TestStrip};
use proptest::prelude::*;
use shapes::deck::{Deck, DeckFlange, DeckStation};
use shapes::edge::EdgeEnd;
use shapes::{Fact, FactValue, Making, Problem, ReliefStyle};
use stock::BendModel;
use units::{Angle, Length, LengthStyle, LengthUnit};

/// A length as taped in inches.
pub fn inches(text: &str) -> Length {
    Length::read(text, LengthUnit::Inch).unwrap()
}

/// Lengths of whole sixteenths of an inch.
pub fn sixteenths(range: std::ops::Range<i64>) -> impl Strategy<Value = Length> {
    range.prop_map(|count| Length::from_sixty_fourths(4 * count))
}

/// A making by K-factor.
pub fn making(thickness: &str, radius: &str, k_factor: f64) -> Making {
    let number =
        BendNumber::new(inches(thickness), inches(radius), BendModel::KFactor(k_factor), Origin::Job)
            .unwrap();
    with_number(number)
}

/// A making by the strip 4.000 → 2.118 + 2.103.
pub fn strip_making() -> Making {
    let strip = TestStrip {
        length: inches("4.000"),
        legs: [inches("2.118"), inches("2.103")],
        turn: Angle::from_degrees(90.0),
        thickness: inches(".125"),
        inside_radius: inches(".125"),
    };
    let model = BendModel::KFactor(strip.k_factor().unwrap());
    with_number(BendNumber::new(inches(".125"), inches(".125"), model, Origin::Strip(strip)).unwrap())
}

fn with_number(number: BendNumber) -> Making {
    Making {
        number,
        relief: ReliefStyle::Square,
        corner: shapes::CornerStyle::Open,
        seam_gap: Length::ZERO,
        style: LengthStyle::Inches { places: 3 },
    }
}

/// The number a fact gives, in inches or degrees.
pub fn value(facts: &[Fact], name: &str) -> f64 {
    match facts.iter().find(|fact| fact.name == name).map(|fact| &fact.value) {
        Some(FactValue::Length(length) | FactValue::About(length)) => length.inches(),
        Some(FactValue::Angle(angle)) => angle.degrees(),
        other => panic!("no number called {name}: {other:?}"),
    }
}

/// The word behind some words of what a problem says to do.
pub fn word_after(problem: &Problem, after: &str) -> String {
    let rest = problem.remedy.split(after).nth(1).unwrap_or_else(|| panic!("{problem}"));
    rest.trim().split([' ', ',']).next().unwrap().to_owned()
}

/// A deck with a crooked outer edge in three lengths over backing strips, a frame every 7 1/2.
pub fn split_deck() -> Deck {
    let station = |(at, width): (&str, &str)| DeckStation { at: inches(at), width: inches(width) };
    let flange = |leg: &str| Some(DeckFlange { leg: inches(leg), direction: Down });
    Deck {
        stations: [("0", "11 1/2"), ("15", "12 1/4"), ("30", "12 7/8"), ("45", "13 1/4"), ("60", "12")]
            .map(station)
            .to_vec(),
        outboard: flange("1 1/2"),
        inboard: flange("3/4"),
        edges: [EdgeEnd::Plain; 2],
        slit: inches("1/16"),
        splits_at: vec![inches("15"), inches("37 1/2")],
        frames_every: Some(inches("7 1/2")),
        longest: None,
        backing_strip: Some(inches("2")),
    }
}
