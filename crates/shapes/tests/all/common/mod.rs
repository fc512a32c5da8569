//! Metals and readings shared by the shape tests.
#![allow(dead_code, unreachable_pub, clippy::unwrap_used, reason = "each test file uses its own share")]

use fold::BendNumber;
use fold::bend::{Origin, TestStrip};
use proptest::prelude::*;
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
