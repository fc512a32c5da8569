//! Blanks of pans and flanged lids against worked jobs and their own sums.

#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use crate::common::{inches, making, value};
use fold::refold;
use geometry::Point;
use shapes::lid::{Lid, LidPlan};
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::{Chosen, CornerStyle, FactValue, Figure, Making, Shaped};
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

/// A hatch with one side .2 longer: a butted wall has a square end, whose outer corner stands out beyond its neighbour's line by a
/// part of the thickness where their corner is blunt. The pan is made, and what is left of the clearance is told: of 1/4 no
/// less than the clearance less the thickness times the sine of how far the corner is off square, 1/70 at the most.
#[test]
fn a_butted_pan_in_a_hatch_a_hair_off_square_is_made_and_tells_what_is_left() {
    let mut making = making(".125", ".125", 0.42);
    making.corner = CornerStyle::Butt { through: Chosen::LongSides };
    let corners = [(0.0, 0.0), (20.2, 0.0), (20.0, 14.0), (0.0, 14.0)];
    let corners: Vec<Point> = corners.iter().map(|&(x, y)| Point::new(x * 25.4, y * 25.4)).collect();
    let opening = Figure::lettered(&corners).unwrap();
    let pan = Pan {
        plan: PanPlan::LiftsThrough { opening, clearance: shapes::Clearance::single("gap", inches("1/4")) },
        height: inches("4"),
        rims: vec![Rim::None],
        lean: Vec::new(),
        edge: shapes::edge::EdgeEnd::Plain,
    };
    let shaped = pan.shape(&making).unwrap();
    let least = shaped.facts.iter().find(|fact| fact.name == "least clearance").unwrap();
    let FactValue::Words(words) = &least.value else { panic!("{least:?}") };
    let left: f64 = words.split(": ").nth(1).unwrap().split(' ').next().unwrap().parse().unwrap();
    assert!((0.25 - 0.125 / 70.0 - 0.001..0.25).contains(&left), "{words}");
    assert!(20.0 < blank(&shaped).0);
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
    let FactValue::Volume { cubic_millimetres } = volume.value else { panic!("no volume") };
    // 65.1 US gallons of 231 cubic inches.
    assert!((cubic_millimetres / 1e6 - 246.4).abs() < 0.05, "{cubic_millimetres}");
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

fn leaning(rim: Rim, lean: [f64; 4], edge: shapes::edge::EdgeEnd) -> Pan {
    Pan {
        plan: PanPlan::Outside { length: inches("20"), width: inches("9") },
        height: inches("4"),
        rims: vec![rim],
        lean: lean.map(Angle::from_degrees).to_vec(),
        edge,
    }
}

/// Highest metal over the outside of the floor, inches: every flat and every bend zone, its round in strips.
fn highest(shaped: &Shaped) -> f64 {
    let facets = fold::facets::of(&shaped.unfold().unwrap());
    let points = facets.facets.iter().flat_map(|facet| facet.rings.iter().flatten());
    points.map(|point| point.z).fold(f64::NEG_INFINITY, f64::max) / 25.4
}

/// A wall without a rim is cut square, so that leaning outward it is highest at its inside edge: that edge is at the height,
/// and the outside ends T·sin(lean) lower. From plane geometry: slant (4 − .125·sin 40°)/cos 40°, deduction
/// 2(R + T)·tan 25° − 50°·(R + K·T).
#[test]
fn a_leaning_wall_without_a_rim_is_as_high_as_asked() {
    let making = making(".125", ".125", 0.42);
    let shaped =
        leaning(Rim::None, [40.0, 0.0, 40.0, 0.0], shapes::edge::EdgeEnd::Plain).shape(&making).unwrap();
    let deduction = |degrees: f64| {
        let turn = degrees.to_radians();
        0.5 * geometry::trig::tan(0.5 * turn) - turn * (0.125 + 0.42 * 0.125)
    };
    let lean = 40.0_f64.to_radians();
    let slant = (4.0 - 0.125 * geometry::trig::sin(lean)) / geometry::trig::cos(lean);
    assert!((value(&shaped.facts, "wall AB, outside") - slant).abs() < 1e-6);
    let plumb = 20.0 + 2.0 * (4.0 - deduction(90.0));
    assert_blank(blank(&shaped), (plumb, 9.0 + 2.0 * (slant - deduction(50.0))));
    assert!((highest(&shaped) - 4.0).abs() < 1e-6, "{}", highest(&shaped));
    let proof = refold::prove(&shaped.part, &shaped.unfold().unwrap()).unwrap();
    for side in ["AB", "BC"] {
        let name = format!("overall height at {side}, to the top of the metal");
        let size = proof.sizes.iter().find(|size| size.name == name).unwrap();
        assert!((size.measured_mm / 25.4 - 4.0).abs() < 1e-6, "{size:?}");
    }
}

/// A wall laid out too high is seen by the proof.
#[test]
fn the_proof_sees_a_wall_without_a_rim_that_is_too_high() {
    let making = making(".125", ".125", 0.42);
    let pan = leaning(Rim::None, [40.0, 0.0, 40.0, 0.0], shapes::edge::EdgeEnd::Plain);
    let mut higher = pan.clone();
    higher.height = inches("4.080");
    let sizes = pan.shape(&making).unwrap().part.sizes;
    let mut shaped = higher.shape(&making).unwrap();
    shaped.part.sizes = sizes;
    let error = refold::prove(&shaped.part, &shaped.unfold().unwrap()).unwrap_err().to_string();
    assert!(error.contains("overall height"), "{error}");
}

/// Walls with rims and walls without, side by side, are of one height; and with a bent edge, whichever way, the highest
/// metal of the bend is at the height (strips of 10° of its round lie a little inside it).
#[test]
fn walls_are_of_one_height_however_they_lean_and_end() {
    use shapes::edge::{EdgeEnd, EdgeWay, HemKind};
    let making = making(".090", ".090", 0.42);
    let (gap, length) = (inches("1/8"), inches("3/4"));
    let hem = |way| EdgeEnd::Hem { kind: HemKind::Open { gap }, length, way: Some(way) };
    let lip = |turn: f64, way| EdgeEnd::Return { length, turn: Angle::from_degrees(turn), way: Some(way) };
    let curl =
        |way| EdgeEnd::Curl { radius: inches("3/16"), turn: Angle::from_degrees(270.0), way: Some(way) };
    let mut ends = vec![EdgeEnd::Plain];
    for way in [EdgeWay::In, EdgeWay::Out] {
        ends.extend([hem(way), lip(90.0, way), lip(60.0, way), lip(120.0, way), curl(way)]);
    }
    for end in ends {
        for lean in [[0.0; 4], [30.0, 12.0, 30.0, 12.0], [-15.0, -8.0, -15.0, -8.0]] {
            let shaped = leaning(Rim::None, lean, end).shape(&making).unwrap();
            let high = highest(&shaped);
            assert!((high - 4.0).abs() < 0.002, "{end:?} {lean:?}: {high}");
        }
    }
    let mut mixed = leaning(Rim::None, [40.0, 0.0, 40.0, 0.0], EdgeEnd::Plain);
    mixed.rims = vec![Rim::None, Rim::Out(inches("1/2")), Rim::None, Rim::Out(inches("1/2"))];
    let high = highest(&mixed.shape(&making).unwrap());
    assert!((high - 4.0).abs() < 1e-6, "{high}");
}

/// A pan whose walls lean lifts out by its top: of 30 × 20 go 1/4 clearance, 1/2 rim and 4·tan 10° a side. One that leans
/// inward without a rim is widest at its floor.
#[test]
fn a_leaning_pan_lifts_out_through_its_opening() {
    let making = making(".090", ".090", 0.42);
    let opening = Figure::rectangle(inches("30").millimetres(), inches("20").millimetres()).unwrap();
    let lifted = |rim, degrees: f64| Pan {
        plan: PanPlan::LiftsThrough {
            opening: opening.clone(),
            clearance: shapes::Clearance::single("gap", inches("1/4")),
        },
        ..leaning(rim, [degrees; 4], shapes::edge::EdgeEnd::Plain)
    };
    let out = lifted(Rim::Out(inches("1/2")), 10.0).shape(&making).unwrap();
    blank(&out);
    let run = 4.0 * geometry::trig::tan(10.0_f64.to_radians());
    let floor = value(&out.facts, "floor, outside, AB");
    assert!((floor - (30.0 - 2.0 * (0.75 + run))).abs() < 1e-5, "{floor}");
    let inward = lifted(Rim::None, -10.0).shape(&making).unwrap();
    blank(&inward);
    assert!((value(&inward.facts, "floor, outside, AB") - 29.5).abs() < 1e-5);
}

#[test]
fn a_pan_that_closes_at_its_top_names_the_fault_and_the_nearest_size() {
    let making = making(".125", ".125", 0.42);
    let plan = PanPlan::Outside { length: inches("6"), width: inches("6") };
    let rims = vec![Rim::In(inches("4"))];
    let pan = Pan { plan, rims, ..leaning(Rim::None, [0.0; 4], shapes::edge::EdgeEnd::Plain) };
    let problem = pan.shape(&making).unwrap_err().remove(0);
    assert_eq!(problem.field, "rim");
    assert!(problem.remedy.contains("under 3.000"), "{problem}");
    use shapes::Recipe;
    assert_eq!((pan.field_of_face("floor"), pan.field_of_face("wall AB")), ("outside", "height"));
    let met = leaning(Rim::None, [-45.0, -45.0, -45.0, -45.0], shapes::edge::EdgeEnd::Plain);
    let met = Pan { plan: PanPlan::Outside { length: inches("7"), width: inches("7") }, ..met };
    assert_eq!(met.shape(&making).unwrap_err()[0].field, "lean");
}
