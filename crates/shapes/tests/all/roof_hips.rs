//! Hips, corner angles and slants of tapered lids against roof framing tables.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making, value};
use serde_json::Value;
use shapes::tapered_lid::TaperedLid;
use shapes::{Fact, Figure, Shaped};
use units::Length;

const ROOFS: &str = include_str!("../../../../fixtures/published/roof_hips.json");
const BACKING: &str = include_str!("../../../../fixtures/published/hip_backing.json");

fn rows(text: &str, count: usize) -> Vec<Value> {
    let file: Value = serde_json::from_str(text).unwrap();
    let rows = file["rows"].as_array().unwrap().clone();
    assert_eq!(rows.len(), count);
    rows
}

fn number(row: &Value, field: &str) -> f64 {
    row[field].as_f64().unwrap_or_else(|| panic!("{field} in {row}"))
}

fn pair(row: &Value, field: &str) -> [f64; 2] {
    [0, 1].map(|place| row[field][place].as_f64().unwrap_or_else(|| panic!("{field} in {row}")))
}

fn near(row: &Value, field: &str, found: f64, within: f64) {
    let off = (found - number(row, field)).abs();
    assert!(off <= within, "{field}: {found} is off by {off}: {row}");
}

/// Facts of a lid over `rim` with the given rise and insets, inches; its flat is proven.
fn lid(rim: &[(f64, f64)], rise: f64, inset: &[f64]) -> Vec<Fact> {
    let making = making(".125", ".125", 0.42);
    let corners: Vec<_> = rim.iter().map(|(x, y)| geometry::Point::new(x * 25.4, y * 25.4)).collect();
    let lid = TaperedLid {
        over: Figure::lettered(&corners).unwrap(),
        outset: Length::ZERO,
        rise: Length::from_inches(rise),
        inset: inset.iter().map(|&inset| Length::from_inches(inset)).collect(),
        skirt: inches("2"),
        return_width: None,
    };
    proven(lid.shape(&making).unwrap())
}

fn proven(shaped: Shaped) -> Vec<Fact> {
    let flat = shaped.unfold().unwrap();
    let proof = fold::refold::prove(&shaped.part, &flat).unwrap();
    assert!(proof.worst_mm < 0.001, "{}", proof.worst_mm);
    shaped.facts
}

/// A rectangle large enough for every inset here.
const LARGE: [(f64, f64); 4] = [(0.0, 0.0), (96.0, 0.0), (96.0, 80.0), (0.0, 80.0)];

fn inside_angle(facts: &[Fact], corner: &str) -> f64 {
    value(facts, &format!("inside corner angle, slope at corner {corner}"))
}

/// Angle in a slope between its rim and the hip, degrees: the slant stands square on the rim.
fn in_face(facts: &[Fact], side: &str, hip: &str) -> f64 {
    let slant = value(facts, &format!("slant {side}, outside"));
    let hip = value(facts, &format!("hip {hip}, outside"));
    geometry::trig::asin(slant / hip).to_degrees()
}

// Framing-square rafter tables, two places printed; four places by Griffith's rule.
#[test]
fn equal_slopes_at_square_corners() {
    let mut seen = 0;
    for row in rows(ROOFS, 18).iter().filter(|row| !row["common_in"].is_null()) {
        let facts = lid(&LARGE, number(row, "rise_in_12"), &[12.0; 4]);
        near(row, "common_in", value(&facts, "slant AB, outside"), 0.00501);
        near(row, "slope_degrees", value(&facts, "turn at the top AB"), 0.000_051);
        for corner in ["A", "B", "C", "D"] {
            let hip = value(&facts, &format!("hip {corner}, outside"));
            near(row, "hip_in", hip, 0.00501);
            near(row, "hip_4_places_in", hip, 0.000_051);
            near(row, "hip_slope_degrees", value(&facts, &format!("hip slope {corner}")), 0.000_051);
            let inside = inside_angle(&facts, corner);
            near(row, "inside_dihedral_degrees", inside, 0.000_051);
            near(row, "backing_degrees", 0.5 * (180.0 - inside), 0.000_051);
        }
        near(row, "angle_in_face_degrees", in_face(&facts, "AB", "B"), 0.000_051);
        seen += 1;
    }
    assert_eq!(seen, 17);
}

// US Navy Builder, NAVEDTRA 14044: one inch here for a foot there.
#[test]
fn the_hip_rafter_worked_by_the_navy() {
    let rows = rows(ROOFS, 18);
    let row = rows.iter().find(|row| !row["common_run_ft"].is_null()).unwrap();
    let run = number(row, "common_run_ft");
    let rise = run * number(row, "rise_in_12") / 12.0;
    let facts = lid(&LARGE, rise, &[run; 4]);
    let hip = value(&facts, "hip B, outside");
    near(row, "exact_ft", hip, 0.000_051);
    near(row, "hip_length_ft", hip, 0.00501);
    near(row, "hip_run_ft", (hip * hip - rise * rise).sqrt(), 0.00501);
}

/// A rim whose corner B has this inside angle, degrees.
fn rim_with_corner(degrees: f64) -> Vec<(f64, f64)> {
    let beyond = (180.0 - degrees).to_radians();
    let (x, y) = (80.0 * geometry::trig::cos(beyond), 80.0 * geometry::trig::sin(beyond));
    vec![(0.0, 0.0), (96.0, 0.0), (96.0 + x, y), (0.0, y)]
}

// Roof framers' worked corners: slopes AB and BC meet at B.
#[test]
fn unlike_slopes_and_corners_that_are_not_square() {
    let rise = 6.0;
    let mut seen = 0;
    for row in rows(BACKING, 12).iter().filter(|row| !row["within_degrees"].is_null()) {
        let within = number(row, "within_degrees");
        let inset = pair(row, "slopes_degrees").map(|slope| rise / geometry::trig::tan(slope.to_radians()));
        let rim = rim_with_corner(number(row, "plan_corner_degrees"));
        let facts = lid(&rim, rise, &[inset[0], inset[1], 7.0, 5.0]);
        let inside = inside_angle(&facts, "B");
        near(row, "turn_degrees", 180.0 - inside, within);
        if !row["inside_dihedral_degrees"].is_null() {
            near(row, "inside_dihedral_degrees", inside, within);
        }
        if !row["hip_slope_degrees"].is_null() {
            near(row, "hip_slope_degrees", value(&facts, "hip slope B"), within.max(0.000_051));
        }
        if !row["backing_degrees"].is_null() {
            let sum: f64 = pair(row, "backing_degrees").iter().sum();
            assert!((180.0 - inside - sum).abs() <= 2.0 * within, "{inside}: {row}");
        }
        if !row["in_face_angles_degrees"].is_null() {
            let printed = pair(row, "in_face_angles_degrees");
            for (side, printed) in ["AB", "BC"].into_iter().zip(printed) {
                let found = in_face(&facts, side, "B");
                assert!((found - printed).abs() <= within, "{found}: {row}");
            }
        }
        seen += 1;
    }
    assert_eq!(seen, 8);
}

// mathcentral.uregina.ca: a hood 28 × 36 drawn in to 6 × 6 over a height of 16, so runs of 11 and 15.
#[test]
fn a_hood_drawn_in_to_a_square() {
    let rows = rows(BACKING, 12);
    let row = rows.iter().find(|row| !row["slants_in"].is_null()).unwrap();
    let facts = lid(&[(0.0, 0.0), (28.0, 0.0), (28.0, 36.0), (0.0, 36.0)], 16.0, &[15.0, 11.0, 15.0, 11.0]);
    let (slants, slopes) = (pair(row, "slants_in"), pair(row, "slopes_degrees"));
    for (number, side) in ["AB", "BC"].into_iter().enumerate() {
        let slant = value(&facts, &format!("slant {side}, outside"));
        assert!((slant - slants[number]).abs() <= 0.000_005_1, "{slant}");
        let slope = value(&facts, &format!("turn at the top {side}"));
        assert!((slope - slopes[number]).abs() <= 0.00501, "{slope}");
    }
    for corner in ["A", "B", "C", "D"] {
        near(row, "hip_in", value(&facts, &format!("hip {corner}, outside")), 0.000_005_1);
        near(row, "inside_dihedral_degrees", inside_angle(&facts, corner), 0.000_005_1);
        near(row, "turn_degrees", 180.0 - inside_angle(&facts, corner), 0.000_005_1);
    }
}

// Runs and rises as printed, one inch here for their unit there; in the largest a tenth of an inch.
#[test]
fn hips_by_rise_and_runs() {
    let mut seen = 0;
    for row in rows(BACKING, 12).iter().filter(|row| row["slopes_degrees"].is_null()) {
        let (unit, scale) = if row["rise_in"].is_null() { ("ft", 1.0) } else { ("in", 0.1) };
        let rise = scale * number(row, &format!("rise_{unit}"));
        let [first, second] = pair(row, &format!("runs_{unit}")).map(|run| scale * run);
        let facts = lid(&LARGE, rise, &[first, second, first, second]);
        let hip = value(&facts, "hip B, outside");
        let exact = format!("hip_length_exact_{unit}");
        let printed = format!("hip_length_{unit}");
        if row[&exact].is_null() {
            near(row, &printed, hip / scale, 0.000_006);
        } else {
            near(row, &exact, hip / scale, 0.000_051);
            // Printed from a hip run already rounded.
            near(row, &printed, hip / scale, 0.0015);
        }
        near(row, &format!("hip_run_{unit}"), (hip * hip - rise * rise).sqrt() / scale, 0.000_051);
        if !row["inside_dihedral_degrees"].is_null() {
            near(row, "inside_dihedral_degrees", inside_angle(&facts, "B"), 0.000_006);
        }
        seen += 1;
    }
    assert_eq!(seen, 3);
}

/// A square pyramid with faces at 60°: edges at 50.77°, faces at 104.48° to one another, as printed on a maker's page on cutting
/// boards for a pyramid, 2008 (read; 104.477512 by the formula).
#[test]
fn a_square_pyramid_with_faces_at_sixty_degrees() {
    let rise = 12.0 * 3.0_f64.sqrt();
    let facts = lid(&LARGE, rise, &[12.0; 4]);
    for corner in ["A", "B", "C", "D"] {
        let slope = value(&facts, &format!("hip slope {corner}"));
        assert!((slope - 50.77).abs() < 0.005, "{slope}");
        let inside = inside_angle(&facts, corner);
        assert!((inside - 104.48).abs() < 0.005 && (inside - 104.477_512).abs() < 0.000_02, "{inside}");
    }
}
