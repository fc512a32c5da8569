//! Profiles against published developed widths, and their ends.
#![expect(clippy::unwrap_used, reason = "a shape that does not build fails its test")]

use crate::common::{inches, making, value};
use fold::Direction::{self, Down, Up};
use fold::bend::Origin;
use fold::{BendNumber, refold};
use shapes::brake_profile::{BendWay, BrakeProfile, End, Leg, LegTo, ProfileBend};
use shapes::{Making, Recipe, ReliefStyle};
use stock::{BendModel, Hardness};
use units::{Angle, Length, LengthStyle};

fn mm(size: f64) -> Length {
    Length::from_millimetres(size)
}

fn metric(thickness: f64, radius: f64, model: BendModel) -> Making {
    Making {
        number: BendNumber::new(mm(thickness), mm(radius), model, Origin::Job).unwrap(),
        relief: ReliefStyle::Square,
        corner: shapes::CornerStyle::Open,
        seam_gap: Length::ZERO,
        style: LengthStyle::Millimetres { places: 2 },
    }
}

fn leg(length: Length, to: LegTo) -> Leg {
    Leg { length, to, short: [Length::ZERO; 2], holes: Vec::new() }
}

fn bend(degrees: f64, direction: Direction) -> ProfileBend {
    ProfileBend::Bend { turn: Angle::from_degrees(degrees), direction, radius: None, way: BendWay::Brake }
}

fn profile(length: Length, legs: Vec<Leg>, bends: Vec<ProfileBend>) -> BrakeProfile {
    BrakeProfile {
        length,
        legs,
        bends,
        flat_leg: 0,
        ends: [End::Square; 2],
        edges: [shapes::edge::EdgeEnd::Plain; 2],
        joints: Vec::new(),
        joint_gap: Length::ZERO,
    }
}

fn outside(lengths: &[Length]) -> Vec<Leg> {
    lengths.iter().map(|&length| leg(length, LegTo::Outside)).collect()
}

/// Developed width in mm, as cut: the extent of the flat across the profile. The refold proof is part of it.
fn developed_mm(profile: &BrakeProfile, making: &Making) -> f64 {
    let shaped = profile.shape_piece(0, making).unwrap();
    let flat = shaped.unfold().unwrap();
    refold::prove(&shaped.part, &flat).unwrap();
    let (length, width) = flat.extents_mm();
    assert!((length - profile.length.millimetres()).abs() < 1e-6, "{length}");
    width
}

#[test]
fn the_faa_channel() {
    // FAA-H-8083-31, chapter 4, U-channel of .040 2024-T3, R .16, mold lines 1.00, 2.00, 1.00: printed 3.74, rounding
    // the allowance to two places; 3.75814 by the handbook's formula.
    let model = BendModel::FaaHandbook;
    let number = BendNumber::new(inches(".040"), inches(".16"), model, Origin::Job).unwrap();
    let making = Making { number, ..making(".040", ".16", 0.42) };
    let legs = outside(&[inches("1"), inches("2"), inches("1")]);
    let mut channel = profile(inches("10"), legs, vec![bend(90.0, Up), bend(90.0, Up)]);
    for flat_leg in 0..3 {
        channel.flat_leg = flat_leg;
        let width = developed_mm(&channel, &making) / 25.4;
        assert!((width - 3.75814).abs() < 5e-5, "{width}");
        assert!((width - 3.74).abs() < 0.02, "{width}");
    }
}

#[test]
fn three_legs_by_din_and_by_the_school_rule() {
    // Legs 50 + 40 + 30, s 1, r 1, two square bends: 116.163 by DIN 6935 (derived from its formula); 116 by the school
    // rule ½r + 1½t a bend (Austrian technical-drawing textbook, p. 206).
    let making = metric(1.0, 1.0, BendModel::Din6935);
    let legs = outside(&[mm(50.0), mm(40.0), mm(30.0)]);
    let width = developed_mm(&profile(mm(200.0), legs, vec![bend(90.0, Up), bend(90.0, Up)]), &making);
    assert!((width - 116.163).abs() < 1e-3, "{width}");
}

#[test]
fn an_acute_bend_by_din() {
    // Tabellenbuch Metall: opening angle 60° (turn 120°), a 16, b 21, r 6, s 5; by the formula 31.17706 (derived),
    // printed 31.23 from a diagram and rounded up to 32.
    let making = metric(5.0, 6.0, BendModel::Din6935);
    let legs = outside(&[mm(16.0), mm(21.0)]);
    let width = developed_mm(&profile(mm(100.0), legs, vec![bend(120.0, Up)]), &making);
    assert!((width - 31.17706).abs() < 1e-4, "{width}");
}

#[test]
fn the_four_leg_profile_of_the_workbook() {
    // Sheet-metal workbook, 6th edition: T .050, R .032, outside legs .740, .420, 1.050, 1.000, three square bends:
    // 2.973 printed, 2.97390 exact. Both ways round the middle: the bends reverse.
    let number =
        BendNumber::new(inches(".050"), inches(".032"), BendModel::FaaHandbook, Origin::Job).unwrap();
    let making = Making { number, ..making(".050", ".032", 0.42) };
    let sizes = [".740", ".420", "1.050", "1.000"].map(inches);
    for ways in [[Up, Up, Up], [Up, Down, Up]] {
        let bends = ways.map(|way| bend(90.0, way)).to_vec();
        // Three bends one way would curl the last leg into the first; only the developed width is asked for here.
        let Ok(shaped) = profile(inches("6"), outside(&sizes), bends).shape_piece(0, &making) else {
            assert_eq!(ways, [Up, Up, Up]);
            continue;
        };
        let width = shaped.unfold().unwrap().extents_mm().1 / 25.4;
        assert!((width - 2.97390).abs() < 5e-5, "{width}");
    }
}

#[test]
fn the_two_bend_bar_of_machinerys_handbook() {
    // Machinery's Handbook, 31st edition, page 1421, figure 13: soft steel 1/8, 3 1/2 straight, 180° at R 3/8 on one end
    // and 60° at R 5/8 on the other: 5.545. The bar ends with its bends; here each bend carries 1 in of straight more.
    let model = BendModel::EmpiricalByMaterial(Hardness::HalfHard);
    let number = BendNumber::new(inches("1/8"), inches("3/8"), model, Origin::Job).unwrap();
    let making = Making { number, ..making("1/8", "3/8", 0.42) };
    let legs = ["1", "3 1/2", "1"].map(|size| leg(inches(size), LegTo::Straight)).to_vec();
    let turned = |degrees, radius| ProfileBend::Bend {
        turn: Angle::from_degrees(degrees),
        direction: Up,
        radius: Some(inches(radius)),
        way: BendWay::Brake,
    };
    let bar = profile(inches("2"), legs, vec![turned(180.0, "3/8"), turned(60.0, "5/8")]);
    let width = developed_mm(&bar, &making) / 25.4;
    assert!((width - 2.0 - 5.545).abs() < 5e-4, "{width}");
}

#[test]
fn a_zee_keeps_its_height_and_a_hat_its_outside() {
    // Derived: flat = sum of mold-line legs less a deduction a bend, whichever way each turns. Deduction at T .125,
    // R .125, K .42: .22118.
    let making = making(".125", ".125", 0.42);
    let zee = profile(
        inches("20"),
        outside(&[inches("1"), inches("2"), inches("1")]),
        vec![bend(90.0, Up), bend(90.0, Down)],
    );
    let width = developed_mm(&zee, &making) / 25.4;
    assert!((width - (4.0 - 2.0 * 0.22118)).abs() < 1e-4, "{width}");
    // The refold proof measured the height over both flanges, between their outer faces.
    let shaped = zee.shape_piece(0, &making).unwrap();
    let proof = refold::prove(&shaped.part, &shaped.unfold().unwrap()).unwrap();
    let sizes: Vec<(&str, f64)> =
        proof.sizes.iter().map(|size| (size.name.as_str(), size.measured_mm / 25.4)).collect();
    let expected = [
        ("leg 2, outside", 2.0),
        ("height of leg 1 off leg 2, outside", 1.0),
        ("height of leg 3 off leg 2, outside", 1.0),
    ];
    for ((name, measured), (expected_name, expected)) in sizes.iter().zip(expected) {
        assert!(*name == expected_name && (measured - expected).abs() < 1e-9, "{sizes:?}");
    }
    assert_eq!(sizes.len(), expected.len());
    let hat = profile(
        inches("20"),
        outside(&["1", "2", "3", "2", "1"].map(inches)),
        vec![bend(90.0, Up), bend(90.0, Down), bend(90.0, Down), bend(90.0, Up)],
    );
    let width = developed_mm(&hat, &making) / 25.4;
    assert!((width - (9.0 - 4.0 * 0.22118)).abs() < 1e-4, "{width}");
}

#[test]
fn inside_and_centre_legs_are_the_outside_less_the_metal() {
    // One channel said three ways: outside 1, 2, 1; inside .875, 1.75, .875; centre .9375, 1.875, .9375.
    let making = making(".125", ".125", 0.42);
    let bends = vec![bend(90.0, Up), bend(90.0, Up)];
    let ways = [
        (LegTo::Outside, ["1", "2", "1"]),
        (LegTo::Inside, [".875", "1.75", ".875"]),
        (LegTo::Centre, [".9375", "1.875", ".9375"]),
        (LegTo::Straight, [".75", "1.5", ".75"]),
    ];
    let widths = ways.map(|(to, sizes)| {
        let legs = sizes.map(|size| leg(inches(size), to)).to_vec();
        developed_mm(&profile(inches("5"), legs, bends.clone()), &making)
    });
    assert!(widths.iter().all(|width| (width - widths[0]).abs() < 1e-6), "{widths:?}");
}

#[test]
fn a_joggle_sets_off_by_its_depth() {
    let making = making(".063", ".063", 0.42);
    let joggle =
        |depth| ProfileBend::Joggle { depth: inches(depth), direction: Up, turn: Angle::from_degrees(45.0) };
    let strip = |depth| profile(inches("12"), outside(&[inches("2"), inches("1")]), vec![joggle(depth)]);
    let shaped = strip(".063").shape_piece(0, &making).unwrap();
    let proof = refold::prove(&shaped.part, &shaped.unfold().unwrap()).unwrap();
    assert!((proof.sizes[0].measured_mm / 25.4 - 0.063).abs() < 1e-9, "{:?}", proof.sizes);
    // Derived: slant straight = 0 at depth 2·(R + T)·tan(22.5°)·sin(45°) − T·(1 − cos(45°)) = .0554.
    let problems = strip(".05").shape_piece(0, &making).unwrap_err();
    assert!(problems[0].remedy.contains(".055"), "{problems:?}");
}

#[test]
fn a_mitred_gutter_meets_its_neighbour() {
    // A channel mitred 45° in plan at both ends, flat on its web: the outer wall is longer than the inner by twice the
    // width over the outsides (plane geometry), less what the inner one gives for its thickness.
    let making = making(".063", ".063", 0.42);
    let mut gutter = profile(
        inches("30"),
        outside(&["1 1/4", "1 3/4", "1 1/4"].map(inches)),
        vec![bend(90.0, Up), bend(90.0, Up)],
    );
    gutter.flat_leg = 1;
    gutter.ends = [End::Plan(Angle::from_degrees(45.0)); 2];
    let shaped = gutter.shape_piece(0, &making).unwrap();
    let flat = shaped.unfold().unwrap();
    refold::prove(&shaped.part, &flat).unwrap();
    let edge = |name: &str| {
        let face = shaped.part.faces.iter().find(|face| face.name == name).unwrap();
        let low = face.corners.iter().map(|corner| corner.x).fold(f64::INFINITY, f64::min);
        let high = face.corners.iter().map(|corner| corner.x).fold(f64::NEG_INFINITY, f64::max);
        (high - low) / 25.4
    };
    // The longer wall is cut where its inside meets the mitre: shorter than the web's long edge by 2·T at 45°.
    assert!((edge("leg 2") - 30.0).abs() < 1e-6, "{}", edge("leg 2"));
    assert!((edge("leg 3") - (30.0 - 2.0 * 0.063)).abs() < 1e-6, "{}", edge("leg 3"));
    assert!((edge("leg 1") - (30.0 - 2.0 * 1.75)).abs() < 1e-6, "{}", edge("leg 1"));
}

#[test]
fn legs_may_stop_short_on_either_side_of_the_flat_one() {
    let making = making(".063", ".063", 0.42);
    for (flat_leg, short_leg) in [(0, 1), (1, 1), (1, 0), (2, 1)] {
        let mut channel = profile(
            inches("12"),
            outside(&["1", "3", "1"].map(inches)),
            vec![bend(90.0, Up), bend(90.0, Down)],
        );
        channel.flat_leg = flat_leg;
        channel.legs[short_leg].short = [inches("1"), inches("1/2")];
        let shaped = channel.shape_piece(0, &making).unwrap();
        let flat = shaped.unfold().unwrap();
        refold::prove(&shaped.part, &flat).unwrap();
    }
}

#[test]
fn a_profile_in_pieces_adds_up() {
    // Toe plate 9,000 long in 3 mm, 100 up and 50 under, joined at three beams, 4 mm open.
    let making = metric(3.0, 3.0, BendModel::KFactor(0.42));
    let mut toe = profile(mm(9000.0), outside(&[mm(50.0), mm(100.0)]), vec![bend(90.0, Up)]);
    toe.joints = [2250.0, 4500.0, 6750.0].map(mm).to_vec();
    toe.joint_gap = mm(4.0);
    assert_eq!(toe.pieces().len(), 4);
    let lengths: Vec<f64> = (0..4)
        .map(|piece| toe.shape_piece(piece, &making).unwrap().unfold().unwrap().extents_mm().0)
        .collect();
    assert!((lengths.iter().sum::<f64>() + 3.0 * 4.0 - 9000.0).abs() < 1e-6, "{lengths:?}");
    let named = |toe: &BrakeProfile| -> Vec<String> {
        toe.places(1, &making).edges.into_iter().map(|(name, _)| name).collect()
    };
    let open = [
        "toward the start, joint 1, 4.00 open, to piece 1",
        "toward the end, joint 2, 4.00 open, to piece 3",
    ];
    assert_eq!(named(&toe), open);
    let butted = BrakeProfile { joint_gap: Length::ZERO, ..toe.clone() };
    assert_eq!(named(&butted)[0], "toward the start, seam 1, to piece 1");
    toe.joints[1] = mm(2251.0);
    assert!(toe.shape_piece(0, &making).is_err());
}

#[test]
fn what_cannot_be_is_refused_with_the_nearest_size() {
    let making = making(".125", ".125", 0.42);
    // A square bend takes R + T = 1/4 of each leg.
    let short = profile(inches("5"), outside(&[inches("1/4"), inches("2")]), vec![bend(90.0, Up)]);
    let problems = short.shape_piece(0, &making).unwrap_err();
    assert_eq!(problems[0].field, "legs[0]");
    assert!(problems[0].remedy.contains("more than .250"), "{problems:?}");
    // Four square bends one way: the last leg comes back through the first.
    let curl = profile(inches("5"), outside(&["3", "2", "2", "3"].map(inches)), vec![bend(90.0, Up); 3]);
    assert!(curl.shape_piece(0, &making).unwrap_err()[0].wrong.contains("run into one another"));
    // A mitre longer than the profile.
    let mut stub = profile(inches("1"), outside(&["1", "2"].map(inches)), vec![bend(90.0, Up)]);
    stub.ends = [End::Plan(Angle::from_degrees(45.0)), End::Plan(Angle::from_degrees(45.0))];
    stub.flat_leg = 1;
    let problems = stub.shape_piece(0, &making).unwrap_err();
    assert_eq!(problems[0].field, "length");
    let one_too_many = profile(inches("5"), outside(&[inches("2")]), vec![bend(90.0, Up)]);
    assert_eq!(one_too_many.shape_piece(0, &making).unwrap_err()[0].field, "bends");
    let facts = profile(inches("5"), outside(&["1", "1"].map(inches)), vec![bend(90.0, Up)]);
    let facts = facts.shape_piece(0, &making).unwrap().facts;
    assert!((value(&facts, "developed width") - (2.0 - 0.22118)).abs() < 1e-4);
}

/// Legs measured past square to where the insides or the middles meet: the meeting lies (R + depth)·tan(turn/2) from the
/// tangent line, so each straight is its leg less that, and the flat is the straights and the allowances. From plane
/// geometry; T .125, R .125, K .42, turns of 120° and 135°.
#[test]
fn legs_past_square_run_to_where_insides_or_middles_meet() {
    let making = making(".125", ".125", 0.42);
    let allowances = (120.0_f64 + 135.0).to_radians() * (0.125 + 0.42 * 0.125);
    let tangents = geometry::trig::tan(60.0_f64.to_radians()) + geometry::trig::tan(67.5_f64.to_radians());
    for (to, depth) in [(LegTo::Inside, 0.125), (LegTo::Centre, 0.1875)] {
        let legs = ["2", "3", "2"].map(|length| leg(inches(length), to)).to_vec();
        let profile = profile(inches("20"), legs, vec![bend(120.0, Up), bend(135.0, Down)]);
        let expected = 7.0 - 2.0 * depth * tangents + allowances;
        let found = developed_mm(&profile, &making) / 25.4;
        assert!((found - expected).abs() < 1e-6, "{to:?}: {found}, expected {expected}");
    }
}

#[test]
fn where_middles_meet_out_of_reach_the_leg_is_refused() {
    let making = making(".125", ".125", 0.42);
    let with = |degrees: f64, to| {
        let legs = ["6", "6"].map(|length| leg(inches(length), to)).to_vec();
        profile(inches("20"), legs, vec![bend(degrees, Up)]).shape_piece(0, &making)
    };
    assert!(with(150.0, LegTo::Centre).is_ok() && with(160.0, LegTo::Straight).is_ok());
    for to in [LegTo::Inside, LegTo::Centre] {
        let problems = with(160.0, to).unwrap_err();
        assert_eq!((problems[0].field.as_str(), problems.len()), ("legs[0].to", 2));
        assert!(problems[0].wrong.contains("150°"), "{}", problems[0]);
    }
}
