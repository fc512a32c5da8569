//! Lids framed like hip roofs: carpenters' published hips, backing angles and corner angles.

#![allow(clippy::unwrap_used, reason = "a test may stop at a broken fixture")]

mod common;

use common::{making, value};
use geometry::{Point, Vector3, trig};
use serde_json::Value;
use shapes::tapered_lid::TaperedLid;
use shapes::{Figure, Shaped};
use units::Length;

const ROOF_HIPS: &str = include_str!("../../../fixtures/published/roof_hips.json");
const HIP_BACKING: &str = include_str!("../../../fixtures/published/hip_backing.json");

fn rows(text: &str) -> Vec<Value> {
    let table: Value = serde_json::from_str(text).unwrap();
    table["rows"].as_array().unwrap().clone()
}

fn number(row: &Value, field: &str) -> f64 {
    row[field].as_f64().unwrap_or_else(|| panic!("no number {field}: {row}"))
}

fn pair(row: &Value, field: &str) -> Option<[f64; 2]> {
    let list = row[field].as_array()?;
    Some([list[0].as_f64().unwrap(), list[1].as_f64().unwrap()])
}

/// Asserts that `found` is the row's `field` to within `within`, where the row has it.
fn near(row: &Value, field: &str, found: f64, within: f64) {
    if row.get(field).is_some() {
        let printed = number(row, field);
        assert!((found - printed).abs() <= within, "{field}: {found}, published {printed}: {row}");
    }
}

/// A lid in inches, refolded before anything is read off it. Sides AB and BC have the given insets, the others that of
/// AB; `corner_degrees` is the plan angle at B.
fn lid(rise: f64, insets: [f64; 2], corner_degrees: f64) -> Shaped {
    let side = 6.0 * (insets[0] + insets[1]) * 25.4;
    let bend = std::f64::consts::PI - corner_degrees.to_radians();
    let corner = Point::new(side, 0.0) + geometry::Vector::at_angle(bend) * side;
    let corners = [Point::new(0.0, 0.0), Point::new(side, 0.0), corner, Point::new(0.0, corner.y)];
    let lid = TaperedLid {
        over: Figure::lettered(&corners).unwrap(),
        outset: Length::ZERO,
        rise: Length::from_inches(rise),
        inset: [insets[0], insets[1], insets[0], insets[0]].map(Length::from_inches).to_vec(),
        skirt: Length::from_inches(2.0),
        return_width: None,
    };
    let shaped = lid.shape(&making(".063", ".063", 0.42)).unwrap();
    let proof = fold::refold::prove(&shaped.part, &shaped.unfold().unwrap()).unwrap();
    assert!(proof.worst_mm < 0.001, "{}", proof.worst_mm);
    shaped
}

/// The hip at B as the two sloping plates give it: its slope, the backing angle toward each, the angle between hip and
/// eave in each; degrees.
struct Hip {
    slope: f64,
    backing: [f64; 2],
    in_face: [f64; 2],
}

fn hip_at_b(shaped: &Shaped) -> Hip {
    let frames = shaped.part.frames();
    let frame = |name: &str| frames[shaped.part.faces.iter().position(|face| face.name == name).unwrap()];
    let slopes = [frame("slope AB"), frame("slope BC")];
    let up_the_hip = {
        let along = slopes[0].z.cross(slopes[1].z).unit();
        if along.z < 0.0 { -along } else { along }
    };
    let plan_run = trig::hypot(up_the_hip.x, up_the_hip.y);
    let level = Vector3::new(-up_the_hip.y, up_the_hip.x, 0.0).unit();
    let over_hip = up_the_hip.cross(level);
    let acute = |a: Vector3, b: Vector3| {
        let angle = a.angle_to(b).to_degrees();
        angle.min(180.0 - angle)
    };
    Hip {
        slope: trig::atan2(up_the_hip.z, plan_run).to_degrees(),
        backing: slopes.map(|slope| acute(slope.z, over_hip)),
        in_face: slopes.map(|slope| acute(slope.x, up_the_hip)),
    }
}

// Framing-square rafter tables: common and hip per foot of run were read to two places, the rest derived.
#[test]
fn hips_of_equal_pitch_are_those_of_the_framing_square() {
    let mut pitches = 0;
    for row in rows(ROOF_HIPS).iter().filter(|row| row.get("common_in").is_some()) {
        let shaped = lid(number(row, "rise_in_12"), [12.0, 12.0], 90.0);
        let facts = &shaped.facts;
        near(row, "slope_degrees", value(facts, "turn at the top AB"), 5.1e-5);
        near(row, "common_in", value(facts, "slant AB, outside"), 0.0051);
        near(row, "hip_in", value(facts, "hip B, outside"), 0.0051);
        near(row, "hip_4_places_in", value(facts, "hip B, outside"), 5.1e-5);
        near(row, "hip_slope_degrees", value(facts, "hip slope B"), 5.1e-5);
        let inside = value(facts, "inside corner angle, slope at corner B");
        near(row, "inside_dihedral_degrees", inside, 5.1e-5);
        let hip = hip_at_b(&shaped);
        near(row, "hip_slope_degrees", hip.slope, 5.1e-5);
        near(row, "backing_degrees", hip.backing[0], 5.1e-5);
        near(row, "backing_degrees", hip.backing[1], 5.1e-5);
        near(row, "angle_in_face_degrees", hip.in_face[0], 5.1e-5);
        pitches += 1;
    }
    assert_eq!(pitches, 17);
}

// US Navy Builder, NAVEDTRA 14044: hip rafter over a run of 15 ft at 8 in 12.
#[test]
fn the_builder_s_worked_hip_rafter() {
    let rows = rows(ROOF_HIPS);
    let row = rows.iter().find(|row| row.get("common_run_ft").is_some()).unwrap();
    let run = number(row, "common_run_ft") * 12.0;
    let facts = lid(run * number(row, "rise_in_12") / 12.0, [run, run], 90.0).facts;
    let (hip, slope) = (value(&facts, "hip B, outside") / 12.0, value(&facts, "hip slope B").to_radians());
    near(row, "exact_ft", hip, 5.1e-5);
    near(row, "hip_length_ft", hip, 0.0051);
    near(row, "hip_run_ft", hip * trig::cos(slope), 0.0051);
}

// Sources with each row: roof framers' worked examples and a sheet-metal hood.
#[test]
fn hips_between_unlike_slopes() {
    let mut cases = 0;
    for row in rows(HIP_BACKING) {
        let Some(slopes) = pair(&row, "slopes_degrees") else { continue };
        let within = row["within_degrees"].as_f64().unwrap_or(0.005);
        let rise = 12.0;
        let insets = slopes.map(|slope| rise / trig::tan(slope.to_radians()));
        let shaped = lid(rise, insets, number(&row, "plan_corner_degrees"));
        let inside = value(&shaped.facts, "inside corner angle, slope at corner B");
        near(&row, "turn_degrees", 180.0 - inside, within);
        near(&row, "inside_dihedral_degrees", inside, within);
        let hip = hip_at_b(&shaped);
        near(&row, "hip_slope_degrees", hip.slope, within.max(5.1e-4));
        for (field, found) in [("backing_degrees", hip.backing), ("in_face_angles_degrees", hip.in_face)] {
            if let Some(printed) = pair(&row, field) {
                let off = (0..2).map(|i| (found[i] - printed[i]).abs()).fold(0.0, f64::max);
                assert!(off <= within, "{field}: {found:?}: {row}");
            }
        }
        cases += 1;
    }
    assert_eq!(cases, 9);
}

#[test]
fn lengths_of_hips_between_unlike_runs() {
    let mut cases = 0;
    for row in rows(HIP_BACKING) {
        let (rise, runs) = match (pair(&row, "runs_ft"), pair(&row, "runs_in")) {
            (Some(runs), None) => (number(&row, "rise_ft"), runs),
            (None, Some(runs)) => (number(&row, "rise_in"), runs),
            _ => continue,
        };
        let facts = lid(rise, runs, 90.0).facts;
        let hip = value(&facts, "hip B, outside");
        let run = hip * trig::cos(value(&facts, "hip slope B").to_radians());
        near(&row, "hip_run_ft", run, 1e-4);
        near(&row, "hip_run_in", run, 1e-4);
        near(&row, "hip_length_ft", hip, 2e-5);
        near(&row, "hip_length_exact_in", hip, 5.1e-5);
        // Read off a page that rounded on the way.
        near(&row, "hip_length_in", hip, 0.002);
        let inside = value(&facts, "inside corner angle, slope at corner B");
        near(&row, "inside_dihedral_degrees", inside, 1e-5);
        cases += 1;
    }
    assert_eq!(cases, 3);
}

// A sheet-metal hood 28 × 36 to 6 × 6, 16 high (mathcentral.uregina.ca): slopes read, the rest derived from them.
#[test]
fn the_hood() {
    let rows = rows(HIP_BACKING);
    let row = rows.iter().find(|row| row.get("slants_in").is_some()).unwrap();
    let facts = lid(16.0, [15.0, 11.0], 90.0).facts;
    let slants = pair(row, "slants_in").unwrap();
    assert!((value(&facts, "slant AB, outside") - slants[0]).abs() < 5.1e-6, "{row}");
    assert!((value(&facts, "slant BC, outside") - slants[1]).abs() < 5.1e-6, "{row}");
    near(row, "hip_in", value(&facts, "hip B, outside"), 5.1e-6);
    near(row, "inside_dihedral_degrees", value(&facts, "inside corner angle, slope at corner B"), 5.1e-6);
}
