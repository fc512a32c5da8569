//! Setbacks, deductions and flats against published tables, row by row.

use std::f64::consts::{FRAC_PI_2, PI};

use crate::common::{in_inches, rows, unit_of};
use fold::BendNumber;
use fold::bend::{Origin, TestStrip, formula};
use stock::BendModel;
use units::{Angle, Length};

const SETBACKS: &str = include_str!("../../../../fixtures/published/setback_k_chart.json");
const DIN: &str = include_str!("../../../../fixtures/published/din_6935.json");
const K_FACTORS: &str = include_str!("../../../../fixtures/published/k_factor_deductions.json");
const STRIPS: &str = include_str!("../../../../fixtures/published/test_strips.json");
const WORKBOOK: &str = include_str!("../../../../fixtures/published/workbook_exercises.json");

// AC 43.13-1B, table 4-7. Many entries are cut instead of rounded; the misprints must stay out of reach.
#[test]
fn the_setback_chart() {
    let mut misprints = 0;
    for row in rows(SETBACKS, 42) {
        let setback = formula::setback(row.radians("turn_degrees"), 0.6, 0.4);
        let unit = unit_of(row.count("places"));
        if row.has("misprint") {
            misprints += 1;
            assert!((setback - row.number("k")).abs() > unit, "no misprint: {setback}");
        } else {
            row.is_within("k", setback, unit);
        }
    }
    assert_eq!(misprints, 3);
}

// v is what the sum of the outside legs changes by, so −v is the deduction; legs of acute openings run to the
// outermost metal.
#[test]
fn the_flat_lengths_of_din_6935() {
    let mut seen = 0;
    for row in rows(DIN, 131).iter().filter(|row| row.has("v_mm") && !row.has("flat_mm")) {
        let (thickness, radius) = (row.number("thickness_mm"), row.number("inside_radius_mm"));
        row.is_rounded("k", formula::din_factor(radius, thickness), 3);
        let turn = PI - row.radians("opening_degrees");
        row.is_rounded("v_mm", v(turn, radius, thickness), 3);
        if 90 <= row.count("opening_degrees") {
            let [thickness, radius] = [thickness, radius].map(Length::from_millimetres);
            let number = BendNumber::new(thickness, radius, BendModel::Din6935, Origin::General).unwrap();
            row.is_rounded("v_mm", -number.deduction_mm(turn), 3);
        }
        seen += 1;
    }
    assert_eq!(seen, 128);
}

fn v(turn_rad: f64, radius: f64, thickness: f64) -> f64 {
    let setback = formula::capped_setback(turn_rad, radius, thickness);
    -formula::deduction(setback, formula::allowance_din(turn_rad, radius, thickness))
}

// The first takes k = .7 from a diagram and rounds its flat up to a whole millimetre, the others work by rule of
// thumb and round to the nearest.
#[test]
fn the_school_books_worked_by_din_6935() {
    let rows = rows(DIN, 131);
    let worked: Vec<_> = rows.iter().filter(|row| row.has("flat_mm")).collect();
    assert_eq!(worked.len(), 3);
    for row in worked {
        let turn = PI - row.radians("opening_degrees");
        let each = v(turn, row.number("inside_radius_mm"), row.number("thickness_mm"));
        let bends = if row.has("bends") { row.number("bends") } else { 1.0 };
        let flat = row.numbers("legs_mm").iter().sum::<f64>() + bends * each;
        row.is_within("flat_exact_mm", flat, 0.001);
        if row.has("v_mm") {
            row.is_rounded("v_exact_mm", each, 5);
            row.is_within("v_mm", each, 0.06);
            row.is_within("flat_mm", flat.ceil(), 0.0);
        } else {
            row.is_within("flat_mm", flat.round(), 0.0);
        }
    }
}

#[test]
fn the_deductions_by_k_factor() {
    let mut seen = 0;
    for row in rows(K_FACTORS, 33).iter().filter(|row| row.has("deduction_in")) {
        let number = row.bend_number(BendModel::KFactor(row.number("k_factor")));
        let turn = row.radians("turn_degrees");
        row.is_rounded("deduction_in", in_inches(number.deduction_mm(turn)), 6);
        let behind = number.k_factor(Angle::from_radians(turn));
        row.is_within("k_factor", behind, 1e-9);
        seen += 1;
    }
    assert_eq!(seen, 32);
}

// An open box of four bends: each size of the blank loses two deductions, each notch half a one.
#[test]
fn the_open_box_of_four_bends() {
    let rows = rows(K_FACTORS, 33);
    let row = rows.iter().find(|row| row.has("open_box_outside_in")).unwrap();
    let number = row.bend_number(BendModel::KFactor(row.number("k_factor")));
    let deduction = in_inches(number.deduction_mm(row.radians("turn_degrees")));
    let [length, width, height] = row.numbers("open_box_outside_in")[..] else { panic!("three sizes") };
    let blank = row.numbers("blank_in");
    for (outside, printed) in [(length, blank[0]), (width, blank[1])] {
        let computed = outside + 2.0 * height - 2.0 * deduction;
        assert!((computed - printed).abs() < 0.501 * unit_of(5), "{computed} for {printed}");
    }
    row.is_rounded("corner_notch_in", height - 0.5 * deduction, 5);
}

#[test]
fn the_strips_bent_once() {
    for row in rows(STRIPS, 2) {
        let length = |field: &str| Length::from_inches(row.number(field));
        let legs = row.numbers("legs_in");
        let strip = TestStrip {
            length: length("strip_in"),
            legs: [legs[0], legs[1]].map(Length::from_inches),
            turn: Angle::from_degrees(row.number("turn_degrees")),
            thickness: length("thickness_in"),
            inside_radius: length("inside_radius_in"),
        };
        row.is_within("deduction_in", strip.deduction().inches(), 1e-6);
        let k_factor = strip.k_factor().unwrap();
        row.is_rounded("k_factor", k_factor, 5);
        // The number made of the strip gives the strip back.
        let number = row.bend_number(BendModel::KFactor(k_factor));
        row.is_within("deduction_in", in_inches(number.deduction_mm(FRAC_PI_2)), 1e-6);
    }
}

// The mold line is not capped in the workbook, so the bend number's own deduction applies to every turn.
#[test]
fn the_exercises_of_the_workbook() {
    let mut seen = 0;
    for row in rows(WORKBOOK, 13).iter().filter(|row| !row.has("flat_exact_in")) {
        let number = row.bend_number(BendModel::FaaHandbook);
        let deduction = in_inches(number.deduction_mm(row.radians("turn_degrees")));
        row.is_rounded("deduction_in", deduction, 4);
        row.is_rounded("flat_in", row.numbers("legs_in").iter().sum::<f64>() - deduction, 4);
        seen += 1;
    }
    assert_eq!(seen, 12);
}

#[test]
fn the_profile_of_four_legs() {
    let rows = rows(WORKBOOK, 13);
    let row = rows.iter().find(|row| row.has("flat_exact_in")).unwrap();
    let number = row.bend_number(BendModel::FaaHandbook);
    let turn = row.radians("turn_degrees");
    let deduction = in_inches(number.deduction_mm(turn));
    row.is_rounded("allowance_in", in_inches(number.allowance_mm(turn)), 3);
    row.is_rounded("deduction_in", deduction, 3);
    row.is_rounded("deduction_exact_in", deduction, 4);
    let flat = row.numbers("legs_in").iter().sum::<f64>() - 3.0 * deduction;
    row.is_rounded("flat_exact_in", flat, 4);
    // The book takes the rounded deduction three times.
    row.is_within("flat_in", flat, 3.0 * 0.5 * unit_of(3));
}

/// Openings above 165° have v = 0 (the note of the table): a single bend of 12° takes nothing off its legs, at 15° the
/// formula's row holds, and one of many bends of a curve goes by the formula at any turn.
#[test]
fn din_6935_takes_nothing_off_a_slight_single_bend() {
    let millimetres = Length::from_millimetres;
    let number =
        BendNumber::new(millimetres(2.0), millimetres(2.0), BendModel::Din6935, Origin::General).unwrap();
    let single = |degrees: f64| {
        let turn_rad = degrees.to_radians();
        formula::deduction(number.setback_mm(turn_rad), number.single_allowance_at_mm(turn_rad, 2.0))
    };
    assert!(single(12.0).abs() < 1e-12 && single(14.99).abs() < 1e-12, "{}", single(12.0));
    // The row of 2 mm, radius 2, opening 165°: v = −.359.
    assert!((single(15.0) - 0.359).abs() < 0.0005, "{}", single(15.0));
    let turn_rad = 12.0_f64.to_radians();
    assert!((number.allowance_at_mm(turn_rad, 2.0) - turn_rad * (2.0 + 0.5 * 0.65 * 2.0)).abs() < 1e-9);
}

/// A bend that is pressed goes by the metal's own K whether its radius is the metal's or its own; what is rolled or bumped round
/// a curve above five thicknesses goes by the middle of the sheet (DIN 6935).
#[test]
fn a_radius_given_with_the_bend_and_one_given_with_the_metal_make_one_flat() {
    let of = |radius_mm: f64| {
        let [thickness, radius] = [1.5, radius_mm].map(Length::from_millimetres);
        BendNumber::new(thickness, radius, BendModel::KFactor(0.41), Origin::Job).unwrap()
    };
    let (tight, wide) = (of(2.0), of(9.0));
    for (radius_mm, is_wide) in [(7.4, false), (7.5, false), (7.6, true), (9.0, true)] {
        let pressed = tight.single_allowance_at_mm(FRAC_PI_2, radius_mm);
        assert!((pressed - FRAC_PI_2 * (radius_mm + 0.41 * 1.5)).abs() < 1e-9);
        assert!((pressed - wide.single_allowance_at_mm(FRAC_PI_2, radius_mm)).abs() < 1e-9);
        assert_eq!(tight.is_wide(radius_mm), is_wide);
    }
    let rolled = tight.allowance_at_mm(FRAC_PI_2, 9.0);
    assert!((rolled - FRAC_PI_2 * (9.0 + 0.5 * 1.5)).abs() < 1e-9);
}
