//! Springback: the published formula, its inverse, and the shop's own strip before it.

#![expect(clippy::unwrap_used, reason = "a strip that proves nothing fails its test")]

use std::f64::consts::FRAC_PI_2;

use crate::common::{rows, unit_of};
use fold::BendNumber;
use fold::bend::choice::{Wanted, choose};
use fold::bend::springback::{self, OverbendOrigin, SpringbackError};
use fold::bend::{Origin, ShopStrip, StripMetal, TestStrip};
use stock::{BendModel, Family, yield_strength};
use units::{Angle, Length};

const SPRINGBACK: &str = include_str!("../../../../fixtures/published/springback.json");

#[test]
fn the_formula_for_metals_of_round_figures() {
    let mut seen = 0;
    for row in rows(SPRINGBACK, 11).iter().filter(|row| row.has("x")) {
        let strain = row.number("yield_ksi") / row.number("modulus_ksi");
        let (radius, thickness) = (row.number("inside_radius_in"), row.number("thickness_in"));
        row.is_within("x", radius * strain / thickness, 0.6 * unit_of(5));
        let ratio = springback::radius_ratio(radius, thickness, strain);
        row.is_rounded("radius_ratio", ratio, 5);
        let on_bench = radius / ratio;
        row.is_rounded("radius_on_bench_in", on_bench, 5);
        let turn_ratio = springback::turn_ratio(radius, on_bench, thickness);
        row.is_rounded("turn_ratio", turn_ratio, 5);
        row.is_rounded("square_relaxes_to_degrees", 90.0 * turn_ratio, 2);
        let back = springback::radius_in_die_mm(on_bench, thickness, strain);
        assert!((back - radius).abs() < 1e-9, "{back} for {radius}");
        seen += 1;
    }
    assert_eq!(seen, 6);
}

// The tables book does not name the temper; with the figures of 6061-T6 the formula comes within .025 of it.
#[test]
fn the_formula_beside_a_tables_book() {
    let strain = yield_strength("6061", Some("T6")).unwrap().strain();
    let mut seen = 0;
    for row in rows(SPRINGBACK, 11).iter().filter(|row| row.has("k_r")) {
        let on_bench = row.number("radius_over_thickness");
        let in_die = springback::radius_in_die_mm(on_bench, 1.0, strain);
        row.is_within("k_r", springback::turn_ratio(in_die, on_bench, 1.0), 0.025);
        seen += 1;
    }
    assert_eq!(seen, 5);
}

fn inches(text: f64) -> Length {
    Length::from_inches(text)
}

fn metal() -> StripMetal {
    StripMetal {
        alloy: "5052".to_owned(),
        temper: Some("H32".to_owned()),
        family: Family::Aluminium,
        tread: false,
    }
}

fn by_table() -> BendNumber {
    BendNumber::new(inches(0.125), inches(0.125), BendModel::KFactor(0.42), Origin::General).unwrap()
}

fn by_strip(turn_in_die: Option<f64>) -> BendNumber {
    let test = TestStrip {
        length: inches(4.0),
        legs: [inches(2.118), inches(2.103)],
        turn: Angle::RIGHT,
        thickness: inches(0.125),
        inside_radius: inches(0.125),
    };
    let mut strip = ShopStrip::new(test, metal(), "here".to_owned()).unwrap();
    strip.turn_in_die = turn_in_die.map(Angle::from_degrees);
    let wanted = Wanted {
        metal: metal(),
        thickness: inches(0.125),
        inside_radius: inches(0.125),
        v_openings: Vec::new(),
    };
    BendNumber::from_strips(choose(&wanted, &[strip]).unwrap().unwrap()).unwrap()
}

#[test]
fn a_strip_measured_in_the_die_comes_before_the_formula() {
    let row = yield_strength("5052", Some("H32"));
    let number = by_strip(Some(92.0));
    let overbend = springback::overbend(&number, row, FRAC_PI_2, 3.175).unwrap();
    assert!((overbend.turn_in_die_rad.to_degrees() - 92.0).abs() < 1e-9);
    assert!(matches!(overbend.origin, OverbendOrigin::Strip(_)));
    // The same share at another turn: 45 × 92/90.
    let half = springback::overbend(&number, row, FRAC_PI_2 / 2.0, 3.175).unwrap();
    assert!((half.turn_in_die_rad.to_degrees() - 46.0).abs() < 1e-9);
    // But not for a radius of its own.
    let rolled = springback::overbend(&number, row, FRAC_PI_2, 25.0).unwrap();
    assert!(matches!(rolled.origin, OverbendOrigin::Estimate(_)));
}

#[test]
fn without_one_the_formula_is_an_estimate() {
    let row = yield_strength("5052", Some("H32"));
    let number = by_strip(None);
    for number in [&number, &by_table()] {
        let overbend = springback::overbend(number, row, FRAC_PI_2, 3.175).unwrap();
        assert!(matches!(overbend.origin, OverbendOrigin::Estimate(_)));
        // The table row of 5052-H32 with these sizes keeps .9945 of its turn, so a square bend goes to about 90.5.
        assert!((overbend.turn_in_die_rad.to_degrees() - 90.5).abs() < 0.01);
    }
}

#[test]
fn what_is_not_known_is_not_told() {
    let number = by_table();
    let unknown = springback::overbend(&number, None, FRAC_PI_2, 3.175);
    assert_eq!(unknown.unwrap_err(), SpringbackError::Unknown);
    // A sheet rolled to 250 thicknesses springs back almost flat.
    let row = yield_strength("5052", Some("H32"));
    let past = springback::overbend(&number, row, FRAC_PI_2, 250.0 * 3.175);
    assert_eq!(past.unwrap_err(), SpringbackError::PastHalfTurn);
}

#[test]
fn overbending_leaves_the_flat_alone() {
    let (with, without) = (by_strip(Some(92.0)), by_strip(None));
    assert!((with.deduction_mm(FRAC_PI_2) - without.deduction_mm(FRAC_PI_2)).abs() < f64::EPSILON);
}
