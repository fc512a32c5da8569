//! The dripping pan of Longfield, Sheet Metal Drafting (1921), problem 32: a flared pan of metal so thin that the book
//! gives it no thickness.

#![allow(clippy::unwrap_used, reason = "a test may stop at a broken fixture")]

use crate::common::value;
use fold::BendNumber;
use fold::bend::Origin;
use serde_json::Value;
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::{Making, Shaped};
use stock::BendModel;
use units::{Angle, Length};

const TABLE: &str = include_str!("../../../../fixtures/published/dripping_pan.json");

/// Thickness and radius that no rule in the book can show: a hundred-thousandth of an inch.
const NEXT_TO_NOTHING_IN: f64 = 1e-5;

fn row(what: &str) -> Value {
    let table: Value = serde_json::from_str(TABLE).unwrap();
    table["rows"].as_array().unwrap().iter().find(|row| row["what"] == what).unwrap().clone()
}

fn number(row: &Value, field: &str) -> f64 {
    row[field].as_f64().unwrap_or_else(|| panic!("no number {field}: {row}"))
}

fn pair(row: &Value, field: &str) -> [f64; 2] {
    [0, 1].map(|place| row[field][place].as_f64().unwrap_or_else(|| panic!("no pair {field}: {row}")))
}

fn pan(bottom: [f64; 2], height: f64, flare: f64) -> Shaped {
    let nothing = Length::from_inches(NEXT_TO_NOTHING_IN);
    let number = BendNumber::new(nothing, nothing, BendModel::KFactor(0.42), Origin::Job).unwrap();
    let making = Making { number, ..crate::common::making(".125", ".125", 0.42) };
    let lean = Angle::from_radians(geometry::trig::atan2(flare, height));
    let [length, width] = bottom.map(Length::from_inches);
    let plan = PanPlan::Outside { length, width };
    let pan = Pan {
        plan,
        height: Length::from_inches(height),
        rims: vec![Rim::None],
        lean: vec![lean; 4],
        edge: shapes::edge::EdgeEnd::Plain,
    };
    let shaped = pan.shape(&making).unwrap();
    fold::refold::prove(&shaped.part, &shaped.unfold().unwrap()).unwrap();
    shaped
}

fn book_pan() -> Shaped {
    let book = row("blank by the book");
    pan(pair(&book, "bottom_in"), number(&book, "height_in"), number(&book, "flare_in"))
}

// The book draws the slant and reads 1 1/16; the exact slant is √(1 + .375²) = 1.068. The wire edge lies flat outside.
#[test]
fn the_blank_of_the_book_and_of_the_exact_slant() {
    let (book, exact) = (row("blank by the book"), row("blank with the exact slant"));
    let shaped = book_pan();
    let slant = value(&shaped.facts, "wall AB, outside");
    assert!((slant - number(&exact, "slant_in")).abs() < 5.1e-4, "{slant}");
    assert!((slant - number(&book, "slant_used_in")).abs() < 1.0 / 128.0, "the book's slant is read to 1/64");
    let (length, width) = shaped.unfold().unwrap().extents_mm();
    let wire = 2.0 * number(&book, "wire_edge_in");
    for (found, place) in [(length / 25.4 + wire, 0), (width / 25.4 + wire, 1)] {
        assert!((found - pair(&exact, "blank_in")[place]).abs() < 5.1e-4, "{found}");
        assert!((found - pair(&book, "blank_in")[place]).abs() < 1.0 / 64.0, "{found}");
    }
}

// In both pans of the book the finished top is 1 1/4 over the bottom: twice the flare of 3/8, and 1/2 for the wire.
#[test]
fn the_top_flares_by_the_book_s_rule() {
    let book = row("blank by the book");
    let by_the_same_rule = row("12 × 18 top by the same rule");
    let (height, flare) = (number(&book, "height_in"), number(&book, "flare_in"));
    for row in [&book, &by_the_same_rule] {
        let (bottom, top) = (pair(row, "bottom_in"), pair(row, "top_in"));
        let facts = pan(bottom, height, flare).facts;
        for (name, place) in [("AB", 0), ("BC", 1)] {
            let found = value(&facts, &format!("top, outside of the walls, {name}"));
            // A height runs to the highest metal: even next to nothing of thickness, T·sin·tan, ends the outside sooner.
            let sooner = NEXT_TO_NOTHING_IN * 2.0;
            assert!((found + 0.5 - top[place]).abs() < sooner, "{found}: {row}");
        }
    }
}

#[test]
fn the_corner_at_the_floor() {
    let (corner, shaped) = (row("floor corner"), book_pan());
    let near = |field: &str, found: f64, within: f64| {
        assert!((found - number(&corner, field)).abs() <= within, "{field}: {found}: {corner}");
    };
    near("floor_turn_degrees", value(&shaped.facts, "turn at the floor AB"), 5.1e-4);
    near("hip_in", value(&shaped.facts, "hip B, outside"), 5.1e-6);
    near("inside_dihedral_degrees", shaped.part.seams[0].inside_angle_rad.to_degrees(), 5.1e-5);
    let flat = shaped.unfold().unwrap();
    let [first, second] = [&flat.seams[0].first, &flat.seams[0].second].map(|(_, [from, to])| {
        let along = *to - *from;
        if along.dot(*to - flat.seams[0].first.1[0]) < 0.0 { along * -1.0 } else { along }
    });
    let between = (first.cross(second)).abs() / (first.length() * second.length());
    near("gap_between_flaps_degrees", geometry::trig::asin(between).to_degrees(), 5.1e-3);
}
