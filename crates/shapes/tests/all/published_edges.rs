//! Hems and curls against the allowances of a printed pattern-drafting course: what an edge adds to the flat of the plate that it
//! is made on. The rules neglect the thickness, so they hold to the sixty-fourth that such patterns are drawn to, in light sheet.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use std::f64::consts::PI;

use crate::common::{inches, making};
use fold::Direction::Up;
use serde_json::Value;
use shapes::brake_profile::{BendWay, BrakeProfile, End, Leg, LegTo, ProfileBend};
use shapes::edge::{EdgeEnd, EdgeWay, HemKind};
use shapes::panel::Panel;
use shapes::{Figure, Making, Shaped};
use units::{Angle, Length};

const TABLE: &str = include_str!("../../../../fixtures/published/edge_allowances.json");
const SIXTY_FOURTH: f64 = 1.0 / 64.0;
/// 30, 28, 26 and 24 gage, the sheet that edges are wired and hemmed twice in: galvanized sheet, inches, from memory.
const LIGHT: [&str; 4] = [".0157", ".0187", ".0217", ".0276"];

/// The number of the table's rows for an edge.
fn published(edge: &str, field: &str) -> f64 {
    let table: Value = serde_json::from_str(TABLE).unwrap();
    let rows = table["rows"].as_array().unwrap().clone();
    rows.iter().filter(|row| row["edge"] == edge).find_map(|row| row[field].as_f64()).unwrap()
}

fn sheet(thickness: &str) -> Making {
    making(thickness, thickness, 0.42)
}

/// What the flat is wider than the finished plate, inches.
fn added(shaped: &Shaped, finished: f64) -> f64 {
    let flat = shaped.unfold().unwrap();
    fold::refold::prove(&shaped.part, &flat).unwrap();
    flat.extents_mm().1 / 25.4 - finished
}

fn on_a_panel(end: EdgeEnd) -> Panel {
    Panel {
        outline: Figure::rectangle(inches("20").millimetres(), inches("10").millimetres()).unwrap(),
        flanges: Vec::new(),
        holes: Vec::new(),
        notches: Vec::new(),
        edges: vec![("CD".to_owned(), end)],
    }
}

#[test]
fn a_single_hem_takes_its_width() {
    let widths = published("single hem", "widths");
    for thickness in LIGHT {
        for width in ["3/16", "1/4", "3/8", "1/2"] {
            let end = EdgeEnd::Hem { kind: HemKind::Closed, length: inches(width), way: Some(EdgeWay::Up) };
            let added = added(&on_a_panel(end).shape(&sheet(thickness)).unwrap(), 10.0);
            let off = widths * inches(width).inches() - added;
            // By the other rule a fold takes 43 % of the thickness, which this one neglects.
            let neglected = published("flattened hem", "share_of_thickness") * inches(thickness).inches();
            assert!((off - neglected).abs() < 1e-9 && neglected < SIXTY_FOURTH, "{thickness} {width}: {off}");
        }
    }
}

/// The edge is folded, and folded again over itself: the first leg lies between the plate and the second. The rule, twice the width,
/// neglects the thickness; in metal that has one it cannot be followed, for a first leg of the whole width would stand in the second
/// fold. By hand, in thicknesses: the first leg ends where the straight of the second fold begins, 1.5 from its outside; the first
/// fold takes .43; the second, round a radius of .5, is 3 less its arc of π·(.5 + K), K .42, which is .11. Together 2.04.
#[test]
fn a_double_hem_takes_twice_its_width() {
    let widths = published("double hem", "widths");
    let leg = |length: &str| Leg {
        length: inches(length),
        to: LegTo::Outside,
        short: [Length::ZERO; 2],
        holes: Vec::new(),
    };
    for thickness in LIGHT {
        for width in ["1/4", "3/8", "1/2"] {
            let fold = |radius: Length| ProfileBend::Bend {
                turn: Angle::from_degrees(180.0),
                direction: Up,
                radius: Some(radius),
                way: BendWay::Hem,
            };
            let between = Length::from_nanometres(inches(thickness).nanometres() / 2);
            let profile = BrakeProfile {
                length: inches("20"),
                legs: vec![Leg { length: inches(width) - between * 3, ..leg(width) }, leg(width), leg("4")],
                bends: vec![fold(Length::ZERO), fold(between)],
                flat_leg: 2,
                ends: [End::Square; 2],
                edges: [EdgeEnd::Plain; 2],
                joints: Vec::new(),
                joint_gap: Length::ZERO,
            };
            let added = added(&profile.shape(0, &sheet(thickness)).unwrap(), 4.0);
            let off = widths * inches(width).inches() - added;
            let neglected = off / inches(thickness).inches();
            let by_hand = 1.5 + published("flattened hem", "share_of_thickness") + 3.0 - PI * (0.5 + 0.42);
            assert!((neglected - by_hand).abs() < 1e-4, "{thickness} {width}: {neglected}, {by_hand}");
        }
    }
}

/// The greatest turn at which a curl of this inside radius does not run into its plate: what is refused says it.
fn closed_turn(radius: Length, making: &Making) -> Angle {
    let curl = |degrees: f64| {
        on_a_panel(EdgeEnd::Curl { radius, turn: Angle::from_degrees(degrees), way: Some(EdgeWay::Up) })
    };
    let problem = curl(330.0).shape(making).unwrap_err().remove(0);
    let most = problem.remedy.split("turn it by ").nth(1).unwrap().split('°').next().unwrap();
    Angle::from_degrees(most.parse().unwrap())
}

/// A wired edge is a curl of half the wire's diameter inside, turned until its edge comes to the plate.
#[test]
fn a_wired_edge_takes_two_and_a_half_diameters() {
    let example = published("wired edge", "allowance_in");
    assert!(
        (example - published("wired edge", "diameters") * published("wired edge", "wire_in")).abs() < 1e-9
    );
    for thickness in LIGHT {
        let making = sheet(thickness);
        for wire in ["1/8", "3/16", "1/4"] {
            let radius = Length::from_nanometres(inches(wire).nanometres() / 2);
            let end = EdgeEnd::Curl { radius, turn: closed_turn(radius, &making), way: Some(EdgeWay::Up) };
            let added = added(&on_a_panel(end).shape(&making).unwrap(), 10.0);
            let off = added - published("wired edge", "diameters") * inches(wire).inches();
            assert!(off.abs() < SIXTY_FOURTH, "{thickness} {wire}: {off}");
        }
    }
    // Heavier sheet takes more.
    let of = |thickness: &str| {
        let (radius, making) = (inches("1/16"), sheet(thickness));
        let end = EdgeEnd::Curl { radius, turn: closed_turn(radius, &making), way: Some(EdgeWay::Up) };
        added(&on_a_panel(end).shape(&making).unwrap(), 10.0)
    };
    assert!(of(".0396") > example + 0.01 && (of(".0217") - example).abs() < 0.004);
}
