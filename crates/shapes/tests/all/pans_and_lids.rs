//! Blanks of pans and flanged lids against worked jobs and their own sums.

#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use crate::common::{inches, making, value};
use fold::refold;
use shapes::lid::{Lid, LidPlan};
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::{Figure, Making, Shaped};
use units::{Angle, Length};

/// Unfolds, refolds, and gives the blank in inches.
fn blank(shaped: &Shaped) -> (f64, f64) {
    let flat = shaped.unfold().unwrap();
    let proof = refold::prove(&shaped.part, &flat).unwrap();
    assert!(proof.worst_mm < 0.001, "{}", proof.worst_mm);
    let (width, height) = flat.extents_mm();
    (width / 25.4, height / 25.4)
}

fn assert_blank(found: (f64, f64), expected: (f64, f64)) {
    let near = |a: f64, b: f64| (a - b).abs() < 0.0006;
    assert!(near(found.0, expected.0) && near(found.1, expected.1), "{found:?}, expected {expected:?}");
}

// Source of the check values below: worked from the same inputs by a separate script, K .42; invented jobs.

#[test]
fn a_tray_that_lifts_through_its_hole() {
    let making = making(".090", ".090", 0.42);
    let opening = Figure::rectangle(inches("30 1/4").millimetres(), inches("22 1/2").millimetres()).unwrap();
    let tray = Pan {
        plan: PanPlan::LiftsThrough { opening, clearance: shapes::Clearance::single("gap", inches("1/4")) },
        height: inches("4"),
        rims: vec![Rim::Out(inches("1/2"))],
        lean: Vec::new(),
        edge: shapes::edge::EdgeEnd::Plain,
    };
    let shaped = tray.shape(&making).unwrap();
    assert!((value(&shaped.facts, "floor, outside, AB") - 28.75).abs() < 1e-9);
    assert!((value(&shaped.facts, "floor, outside, BC") - 21.0).abs() < 1e-9);
    assert_blank(blank(&shaped), (37.293, 29.543));
}

#[test]
fn a_rim_too_wide_for_the_hole_is_refused_with_the_largest_that_passes() {
    let making = making(".090", ".090", 0.42);
    let opening = Figure::rectangle(inches("6").millimetres(), inches("5").millimetres()).unwrap();
    let tray = Pan {
        plan: PanPlan::LiftsThrough { opening, clearance: shapes::Clearance::single("gap", inches("1/4")) },
        height: inches("4"),
        rims: vec![Rim::Out(inches("2 1/2"))],
        lean: Vec::new(),
        edge: shapes::edge::EdgeEnd::Plain,
    };
    let problems = tray.shape(&making).unwrap_err();
    assert_eq!(problems[0].field, "rim");
    assert!(problems[0].remedy.contains("2.25"), "{}", problems[0]);
}

#[test]
fn a_locker_lid_turned_down_all_round() {
    let making = making(".125", ".1875", 0.42);
    let plan = LidPlan::Outside { length: inches("78"), width: inches("26") };
    let shaped = Lid { plan, skirt: inches("2"), edge: shapes::edge::EdgeEnd::Plain }.shape(&making).unwrap();
    assert_blank(blank(&shaped), (81.504, 29.504));
    // 1.95 lb/ft² tread; 32.4 lb is the sum of blank less four corners.
    let pounds = shaped.unfold().unwrap().outline.area_mm2() / 92_903.04 * 1.95;
    assert!((pounds - 32.4).abs() < 0.1, "{pounds}");
}

#[test]
fn an_open_box_has_the_blank_of_its_legs_less_deductions() {
    // Outside 24 × 12 × 4, T .125, R .125, K .42: derived from BD = 2·OSSB − BA.
    let making = making(".125", ".125", 0.42);
    let plan = PanPlan::Outside { length: inches("24"), width: inches("12") };
    let pan = Pan {
        plan,
        height: inches("4"),
        rims: vec![Rim::None],
        lean: Vec::new(),
        edge: shapes::edge::EdgeEnd::Plain,
    };
    assert_blank(blank(&pan.shape(&making).unwrap()), (31.55763, 19.55763));
}

#[test]
fn drawer_pans_in_millimetres() {
    // Deduction 2.654 at 1.5 mm; front and back plain, a 10 mm runner rim to the mold line on the long sides; the
    // pan here has no rim, so the rim's 2 × (10 − 2.654) comes off the width of the check values.
    let millimetres = |mm: f64| Length::from_millimetres(mm);
    let number = fold::BendNumber::new(
        millimetres(1.5),
        millimetres(1.5),
        stock::BendModel::KFactor(0.42),
        fold::bend::Origin::Job,
    );
    let making = Making { number: number.unwrap(), ..making(".090", ".090", 0.42) };
    let deduction = making.number.deduction_mm(std::f64::consts::FRAC_PI_2);
    assert!((deduction - 2.654).abs() < 0.0005);
    for (width, height, across, along) in
        [(560.0, 90.0, 749.4, 874.7), (560.0, 220.0, 1009.4, 1134.7), (270.0, 140.0, 559.4, 974.7)]
    {
        let plan = PanPlan::Outside { length: millimetres(width), width: millimetres(700.0) };
        let pan = Pan {
            plan,
            height: millimetres(height),
            rims: vec![Rim::None],
            lean: Vec::new(),
            edge: shapes::edge::EdgeEnd::Plain,
        };
        let found = blank(&pan.shape(&making).unwrap());
        let runner = 2.0 * (10.0 - deduction);
        assert!((found.0 * 25.4 + runner - across).abs() < 0.06, "{found:?}");
        assert!((found.1 * 25.4 - along).abs() < 0.06, "{found:?}");
    }
}

#[test]
fn a_bin_whose_walls_lean() {
    let making = making(".100", ".100", 0.42);
    let pan = Pan {
        plan: PanPlan::Outside { length: inches("44"), width: inches("20") },
        height: inches("14"),
        rims: vec![Rim::Out(inches("3/4"))],
        lean: [8.0, 25.0, 8.0, 12.0].map(Angle::from_degrees).to_vec(),
        edge: shapes::edge::EdgeEnd::Plain,
    };
    let shaped = pan.shape(&making).unwrap();
    let near = |name: &str, expected: f64| {
        let found = value(&shaped.facts, name);
        assert!((found - expected).abs() < 0.0006, "{name}: {found}, expected {expected}");
    };
    for (name, slant, turn) in [("AB", 14.138, 82.0), ("BC", 15.447, 65.0), ("DA", 14.313, 78.0)] {
        near(&format!("wall {name}, outside"), slant);
        near(&format!("turn at the floor {name}"), turn);
    }
    near("top, outside of the walls, AB", 53.504);
    near("top, outside of the walls, BC", 23.935);
    near("hip B, outside", 15.572);
    near("hip A, outside", 14.447);
    let volume = shaped.facts.iter().find(|fact| fact.name.starts_with("volume")).unwrap();
    assert_eq!(volume.value, shapes::FactValue::Words("65.1 US gal, 246.4 l".to_owned()));
    blank(&shaped);
}

#[test]
fn a_box_fitted_to_a_flare_has_the_slope_of_its_outboard_side() {
    // Bottom 22 × 12 1/2, top 22 × 17 1/4, 15 deep, one side plumb: slope 15.734 long at 72.43°.
    let making = making(".090", ".090", 0.42);
    let lean = Angle::from_radians(geometry::trig::atan2(4.75, 15.0));
    let pan = Pan {
        plan: PanPlan::Outside { length: inches("22"), width: inches("12 1/2") },
        height: inches("15"),
        rims: vec![Rim::In(inches("3/4"))],
        lean: vec![Angle::from_degrees(0.0), Angle::from_degrees(0.0), lean, Angle::from_degrees(0.0)],
        edge: shapes::edge::EdgeEnd::Plain,
    };
    let shaped = pan.shape(&making).unwrap();
    assert!((value(&shaped.facts, "wall CD, outside") - 15.734).abs() < 0.0006);
    assert!((value(&shaped.facts, "turn at the floor CD") - 72.43).abs() < 0.006);
    assert!((value(&shaped.facts, "top, outside of the walls, BC") - 17.25).abs() < 0.0001);
    blank(&shaped);
}

#[test]
fn bend_lines_end_at_drilled_relief_holes() {
    let mut making = making(".125", ".125", 0.42);
    making.relief = shapes::ReliefStyle::Round { hole: shapes::ReliefHole::Diameter(inches("1/2")) };
    let plan = PanPlan::Outside { length: inches("24"), width: inches("12") };
    let pan = Pan {
        plan,
        height: inches("4"),
        rims: vec![Rim::None],
        lean: Vec::new(),
        edge: shapes::edge::EdgeEnd::Plain,
    };
    let flat = pan.shape(&making).unwrap().unfold().unwrap();
    let ring = flat.outline.outer.corners(geometry::outline::Chords::On);
    for bend in &flat.bends {
        for end in [bend.from, bend.to] {
            let edge = geometry::polygon::edges(&ring)
                .map(|edge| geometry::polygon::point_to_segment(end, edge))
                .fold(f64::INFINITY, f64::min);
            assert!(edge < geometry::tolerance::ARC_CHORD_MM, "{edge}");
        }
    }
}

#[test]
fn an_outline_that_is_not_its_faces_is_refused() {
    let making = making(".125", ".125", 0.42);
    let plan = PanPlan::Outside { length: inches("24"), width: inches("12") };
    let shaped = Pan {
        plan,
        height: inches("4"),
        rims: vec![Rim::None],
        lean: Vec::new(),
        edge: shapes::edge::EdgeEnd::Plain,
    }
    .shape(&making)
    .unwrap();
    let mut flat = shaped.unfold().unwrap();
    assert!(refold::prove(&shaped.part, &flat).is_ok());
    flat.outline.outer.segments.remove(3);
    assert!(refold::prove(&shaped.part, &flat).is_err());
}
