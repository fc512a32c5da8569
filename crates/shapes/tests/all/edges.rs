//! Hems, returns and curls: what they take of the flat, that they fold back, and what is refused.

#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use crate::common::{inches, making};
use fold::Direction::Up;
use fold::{FlatPattern, refold};
use proptest::prelude::*;
use shapes::brake_profile::{BendWay, BrakeProfile, End, Leg, LegTo, ProfileBend};
use shapes::edge::{EdgeEnd, EdgeWay, HemKind};
use shapes::lid::{Lid, LidPlan};
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::panel::{Flange, Panel};
use shapes::tapered_lid::{EdgedLid, TaperedLid};
use shapes::{Figure, Making, Problem, Recipe, Shaped};
use units::{Angle, Length};

fn proven(shaped: &Shaped) -> FlatPattern {
    let flat = shaped.unfold().unwrap();
    refold::prove(&shaped.part, &flat).unwrap();
    flat
}

fn hem(kind: HemKind, length: &str, way: Option<EdgeWay>) -> EdgeEnd {
    EdgeEnd::Hem { kind, length: inches(length), way }
}

fn panel(edges: &[(&str, EdgeEnd)], flanges: Vec<Flange>) -> Panel {
    Panel {
        outline: Figure::rectangle(inches("20").millimetres(), inches("10").millimetres()).unwrap(),
        flanges,
        holes: Vec::new(),
        notches: Vec::new(),
        edges: edges.iter().map(|(side, end)| ((*side).to_owned(), *end)).collect(),
    }
}

fn flange(side: &str, leg: &str) -> Flange {
    Flange {
        side: side.to_owned(),
        leg: inches(leg),
        direction: Up,
        turn: Angle::RIGHT,
        short: [Length::ZERO; 2],
    }
}

fn width_inches(flat: &FlatPattern) -> f64 {
    flat.extents_mm().1 / 25.4
}

fn lid(edge: EdgeEnd) -> Lid {
    let plan = LidPlan::Outside { length: inches("14"), width: inches("9") };
    Lid { plan, skirt: inches("2"), edge }
}

fn pan(rim: Rim, edge: EdgeEnd) -> Pan {
    let plan = PanPlan::Outside { length: inches("14"), width: inches("9") };
    Pan { plan, height: inches("3"), rims: vec![rim], lean: Vec::new(), edge }
}

fn thin() -> Making {
    making(".050", ".063", 0.42)
}

fn refused(result: Result<Shaped, Vec<Problem>>, field: &str) -> String {
    let problems = result.unwrap_err();
    let found = problems.iter().find(|problem| problem.field.starts_with(field));
    found.unwrap_or_else(|| panic!("nothing at {field}: {problems:?}")).to_string()
}

// A trade article's rule: .060 × .43 = .0258 off a .500 hem, .474 to the bend line (read in a copy; the sum derived).
#[test]
fn a_flattened_hem_takes_43_percent_of_the_thickness() {
    let making = making(".060", ".060", 0.42);
    let up = Some(EdgeWay::Up);
    let shaped = panel(&[("CD", hem(HemKind::Closed, ".5", up))], Vec::new()).shape(&making).unwrap();
    let flat = proven(&shaped);
    assert!((width_inches(&flat) - (10.0 + 0.5 - 0.0258)).abs() < 1e-6, "{}", width_inches(&flat));
    let size = shaped.part.sizes.iter().find(|size| size.name.contains("both layers")).unwrap();
    assert!((size.expected_mm / 25.4 - 0.120).abs() < 1e-9);
}

/// The same hem as a leg of a profile, asked for by a radius of nothing.
#[test]
fn a_leg_of_a_profile_is_pressed_flat_by_the_same_rule() {
    let leg = |length: &str| Leg {
        length: inches(length),
        to: LegTo::Outside,
        short: [Length::ZERO; 2],
        holes: Vec::new(),
    };
    let profile = |degrees: f64| BrakeProfile {
        length: inches("20"),
        legs: vec![leg(".5"), leg("2")],
        bends: vec![ProfileBend::Bend {
            turn: Angle::from_degrees(degrees),
            direction: Up,
            radius: Some(Length::ZERO),
            way: BendWay::Hem,
        }],
        flat_leg: 1,
        ends: [End::Square; 2],
        edges: [EdgeEnd::Plain; 2],
        joints: Vec::new(),
        joint_gap: Length::ZERO,
    };
    let making = making(".060", ".060", 0.42);
    let flat = proven(&profile(180.0).shape(0, &making).unwrap());
    assert!((width_inches(&flat) - (2.5 - 0.0258)).abs() < 1e-6, "{}", width_inches(&flat));
    assert!(refused(profile(90.0).shape(0, &making), "bends[0].radius").contains("above zero"));
}

/// Open: two setbacks of R + T less, half a turn of the neutral line more (common practice, no source).
#[test]
fn an_open_hem_goes_by_its_gap() {
    let making = making(".060", ".060", 0.42);
    let kind = HemKind::Open { gap: inches(".100") };
    let shaped = panel(&[("CD", hem(kind, ".5", Some(EdgeWay::Down)))], Vec::new()).shape(&making).unwrap();
    let arc = std::f64::consts::PI * (0.05 + 0.42 * 0.06);
    let expected = 10.5 - 2.0 * 0.11 + arc;
    assert!((width_inches(&proven(&shaped)) - expected).abs() < 1e-6);
}

/// The edge of a tear-drop touches its plate: the refolded leg comes down to the inner face of the panel.
#[test]
fn the_edge_of_a_tear_drop_touches_its_plate() {
    let making = making(".060", ".060", 0.42);
    let kind = HemKind::TearDrop { radius: inches(".09") };
    let shaped = panel(&[("CD", hem(kind, ".75", Some(EdgeWay::Up)))], Vec::new()).shape(&making).unwrap();
    let flat = proven(&shaped);
    let frames = refold::fold(&flat);
    let top = frames[0].plane(flat.thickness_mm);
    let tip = flat.faces[1].corners.iter().map(|&corner| {
        top.distance(frames[1].place(corner, flat.thickness_mm))
            .min(top.distance(frames[1].place(corner, 0.0)))
    });
    let lowest = tip.fold(f64::INFINITY, f64::min);
    assert!(lowest.abs() < 1e-6, "{lowest}");
}

#[test]
fn hems_all_round_a_panel_are_mitred() {
    let up = Some(EdgeWay::Up);
    let hem = hem(HemKind::Closed, "1/2", up);
    let all = [("AB", hem), ("BC", hem), ("CD", hem), ("DA", hem)];
    let flat = proven(&panel(&all, Vec::new()).shape(&thin()).unwrap());
    assert_eq!(flat.faces.len(), 5);
    // The mitred far edge is shorter than the fold by the leg at each end.
    let long = &flat.faces[1].corners;
    let far = long.iter().map(|corner| corner.x).fold(f64::NEG_INFINITY, f64::max)
        - long.iter().map(|corner| corner.x).fold(f64::INFINITY, f64::min);
    assert!(far < inches("20").millimetres());
}

#[test]
fn a_hem_beside_a_flange_stops_clear_of_it() {
    let up = Some(EdgeWay::Up);
    let edges = [("AB", hem(HemKind::Closed, "1/2", up))];
    let shaped = panel(&edges, vec![flange("BC", "1"), flange("DA", "1")]).shape(&thin()).unwrap();
    proven(&shaped);
}

#[test]
fn flanges_skirts_walls_and_rims_take_every_edge() {
    let curl = EdgeEnd::Curl { radius: inches("3/16"), turn: Angle::from_degrees(270.0), way: None };
    let outward =
        EdgeEnd::Curl { radius: inches("1/8"), turn: Angle::from_degrees(225.0), way: Some(EdgeWay::Out) };
    let lip = EdgeEnd::Return { length: inches("3/8"), turn: Angle::RIGHT, way: None };
    let open = HemKind::Open { gap: inches(".06") };
    let drop = HemKind::TearDrop { radius: inches(".07") };
    let ends = [
        hem(HemKind::Closed, "3/8", None),
        hem(open, "3/8", Some(EdgeWay::Out)),
        hem(drop, "1/2", None),
        lip,
        curl,
        outward,
    ];
    for end in ends {
        proven(&lid(end).shape(&thin()).unwrap());
        proven(&pan(Rim::None, end).shape(&thin()).unwrap());
        proven(&pan(Rim::Out(inches("1 1/4")), end).shape(&thin()).unwrap());
        proven(&pan(Rim::In(inches("1 1/4")), end).shape(&thin()).unwrap());
        proven(&panel(&[("AB", end)], vec![flange("AB", "1 1/2")]).shape(&thin()).unwrap());
    }
}

#[test]
fn what_cannot_be_bent_is_refused_with_a_number() {
    let closed = |length: &str, way| hem(HemKind::Closed, length, way);
    let making = thin();
    let side = |end| panel(&[("AB", end)], Vec::new()).shape(&making);
    assert!(refused(side(closed("1/2", None)), "edges.AB.hem.toward").contains("up"));
    assert!(refused(side(closed(".04", Some(EdgeWay::Up))), "edges.AB.hem.length").contains(".050"));
    let lip = EdgeEnd::Return { length: inches("1/2"), turn: Angle::RIGHT, way: Some(EdgeWay::Up) };
    assert!(refused(side(lip), "edges.AB.return").contains("flange"));
    assert!(refused(lid(closed("1 15/16", None)).shape(&making), "edge.hem").contains("beyond its own bend"));
    assert!(refused(lid(closed("1/2", Some(EdgeWay::Up))).shape(&making), "edge.hem.toward").contains("out"));
    let tight = EdgeEnd::Curl { radius: inches(".06"), turn: Angle::from_degrees(320.0), way: None };
    assert!(refused(lid(tight).shape(&making), "edge.curl.turn").contains("at most"));
    let inward = pan(Rim::In(inches("1")), closed("1", None)).shape(&making);
    assert!(refused(inward, "edge").contains("beyond its own bend"));
    let lip = EdgeEnd::Return { length: inches("3"), turn: Angle::RIGHT, way: None };
    assert!(
        refused(pan(Rim::In(inches("1")), lip).shape(&making), "edge.return")
            .contains("run into one another")
    );
    let nowhere = panel(&[("XY", closed("1/2", Some(EdgeWay::Up)))], Vec::new()).shape(&making);
    assert!(refused(nowhere, "edges.XY").contains("no such side"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Crooked panels with hems on any of their sides either refold, faces apart, or are refused.
    #[test]
    fn hemmed_quadrilaterals_refold(
        shifts in prop::array::uniform8(-40.0..40.0),
        which in prop::array::uniform4(any::<bool>()),
        kind in 0..4_u8,
        length in 0.3..0.9,
        down: bool,
    ) {
        let base = [(0.0, 0.0), (400.0, 0.0), (400.0, 250.0), (0.0, 250.0)];
        let corners: Vec<geometry::Point> = base.iter().enumerate().map(|(number, (x, y))| {
            geometry::Point::new(x + shifts[2 * number], y + shifts[2 * number + 1])
        }).collect();
        let way = Some(if down { EdgeWay::Down } else { EdgeWay::Up });
        let length = Length::from_inches(length);
        let end = match kind {
            0 => EdgeEnd::Hem { kind: HemKind::Closed, length, way },
            1 => EdgeEnd::Hem { kind: HemKind::Open { gap: inches(".08") }, length, way },
            2 => EdgeEnd::Hem { kind: HemKind::TearDrop { radius: inches(".06") }, length, way },
            _ => EdgeEnd::Curl { radius: inches(".15"), turn: Angle::from_degrees(240.0), way },
        };
        let sides = ["AB", "BC", "CD", "DA"];
        let edges = sides.iter().zip(which).filter(|(_, on)| *on).map(|(side, _)| ((*side).to_owned(), end));
        let panel = Panel {
            outline: Figure::lettered(&corners).unwrap(),
            flanges: Vec::new(),
            holes: Vec::new(),
            notches: Vec::new(),
            edges: edges.collect(),
        };
        let shaped = panel.shape(&thin()).unwrap();
        let flat = shaped.unfold().unwrap();
        prop_assert!(refold::prove(&shaped.part, &flat).is_ok(), "{:?}", refold::prove(&shaped.part, &flat));
    }

    /// Skirts of random lids, both directions.
    #[test]
    fn edged_lids_refold(
        length in 0.2..0.6,
        skirt in 1.0..3.0,
        out: bool,
        kind in 0..4_u8,
    ) {
        let way = Some(if out { EdgeWay::Out } else { EdgeWay::In });
        let length = Length::from_inches(length);
        let end = match kind {
            0 => EdgeEnd::Hem { kind: HemKind::Closed, length, way },
            1 => EdgeEnd::Hem { kind: HemKind::Open { gap: inches(".08") }, length, way },
            2 => EdgeEnd::Return { length, turn: Angle::from_degrees(60.0), way },
            _ => EdgeEnd::Curl { radius: inches(".12"), turn: Angle::from_degrees(200.0), way },
        };
        let lid = Lid { skirt: Length::from_inches(skirt), ..lid(end) };
        if let Ok(shaped) = lid.shape(&thin()) {
            let flat = shaped.unfold().unwrap();
            prop_assert!(refold::prove(&shaped.part, &flat).is_ok());
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Rims turned inward round a hole, plain walls or leaning ones: every edge either refolds, or is refused for what it meets.
    #[test]
    fn edges_of_inward_rims_refold(
        length in 0.2..0.8,
        rim in 0.8..1.6,
        lean in prop::array::uniform4(0_u32..25),
        out: bool,
        kind in 0..5_u8,
        gap in 0.0..0.06,
    ) {
        let way = Some(if out { EdgeWay::Out } else { EdgeWay::In });
        let length = Length::from_inches(length);
        let end = match kind {
            0 => EdgeEnd::Hem { kind: HemKind::Closed, length, way },
            1 => EdgeEnd::Hem { kind: HemKind::Open { gap: inches(".08") }, length, way },
            2 => EdgeEnd::Hem { kind: HemKind::TearDrop { radius: inches(".06") }, length, way },
            3 => EdgeEnd::Return { length, turn: Angle::from_degrees(75.0), way },
            _ => EdgeEnd::Curl { radius: inches(".12"), turn: Angle::from_degrees(200.0), way },
        };
        let lean = lean.map(|degrees| Angle::from_degrees(f64::from(degrees))).to_vec();
        let pan = Pan { lean, ..pan(Rim::In(Length::from_inches(rim)), end) };
        let making = Making { seam_gap: Length::from_inches(gap), ..thin() };
        match pan.shape(&making) {
            Ok(shaped) => {
                let flat = shaped.unfold().unwrap();
                let proof = refold::prove(&shaped.part, &flat);
                prop_assert!(proof.is_ok(), "{proof:?}");
                prop_assert_eq!(flat.bends.len(), 12);
            }
            // A rim of .8 may have no room for a leg of .8 that lies back over it.
            Err(problems) => prop_assert!(problems[0].wrong.contains("beyond its own bend"), "{problems:?}"),
        }
    }
}

#[test]
fn a_hollow_corner_is_mitred_in_the_flat() {
    let corners = [(0.0, 0.0), (20.0, 0.0), (20.0, 6.0), (12.0, 6.0), (12.0, 12.0), (0.0, 12.0)]
        .map(|(x, y)| geometry::Point::new(x * 25.4, y * 25.4));
    let up = hem(HemKind::Closed, "1/2", Some(EdgeWay::Up));
    let panel = Panel {
        outline: Figure::lettered(&corners).unwrap(),
        flanges: Vec::new(),
        holes: Vec::new(),
        notches: Vec::new(),
        edges: ["CD", "DE"].map(|side| (side.to_owned(), up)).to_vec(),
    };
    let shaped = panel.shape(&thin()).unwrap();
    match shaped.unfold() {
        Ok(flat) => assert!(refold::prove(&shaped.part, &flat).is_ok()),
        Err(error) => assert!(matches!(error, fold::flat::UnfoldError::InsideCorner { .. }), "{error}"),
    }
}

/// The skirt of a tapered lid takes a hem, a return or a curl as the skirt of a flat lid does: the flat grows by as much,
/// and everything folds back.
#[test]
fn the_skirt_of_a_tapered_lid_is_edged_as_that_of_a_flat_lid() {
    let tapered = |return_width| TaperedLid {
        over: Figure::rectangle(inches("14").millimetres(), inches("9").millimetres()).unwrap(),
        outset: Length::ZERO,
        rise: inches("1"),
        inset: ["2", "2", "2", "2"].map(inches).to_vec(),
        skirt: inches("2"),
        return_width,
    };
    let ends = [
        hem(HemKind::Open { gap: inches("1/8") }, "1/2", None),
        hem(HemKind::Closed, "1/2", None),
        EdgeEnd::Return { length: inches("1/2"), turn: Angle::RIGHT, way: None },
        EdgeEnd::Return { length: inches("1/2"), turn: Angle::RIGHT, way: Some(EdgeWay::Out) },
        EdgeEnd::Curl { radius: inches("1/8"), turn: Angle::from_degrees(270.0), way: None },
    ];
    let making = thin();
    let plain = width_inches(&proven(&tapered(None).shape(&making).unwrap()));
    let flat_lid = |end| width_inches(&proven(&lid(end).shape(&making).unwrap()));
    for edge in ends {
        let edged = EdgedLid { lid: tapered(None), edge, hinge: None };
        let shaped = edged.shape_piece(0, &making).unwrap();
        let grown = width_inches(&proven(&shaped)) - plain;
        let as_flat = flat_lid(edge) - flat_lid(EdgeEnd::Plain);
        assert!((grown - as_flat).abs() < 1e-6, "{edge:?}: {grown} {as_flat}");
        assert_eq!(shaped.part.faces.len(), 9 + 4, "{edge:?}");
    }
    let edged = EdgedLid { lid: tapered(Some(inches("1"))), edge: ends[1], hinge: None };
    let problems = edged.shape_piece(0, &making).unwrap_err();
    assert!(problems[0].wrong.contains("runs round a hole"), "{problems:?}");
    // A return as long as half of the opening leaves nothing between its mitres.
    let long = EdgeEnd::Return { length: inches("6"), turn: Angle::RIGHT, way: None };
    assert!(EdgedLid { lid: tapered(None), edge: long, hinge: None }.shape_piece(0, &making).is_err());
}

/// A profile takes a tear-drop, an open hem or a curl at its free edges: the flat grows by what the edge of a panel's flange grows by,
/// and everything folds back. Its mitred ends, and a lip, which is a further leg, are refused.
#[test]
fn the_free_edges_of_a_profile_are_hemmed_and_curled() {
    let leg = || Leg { length: inches("2"), to: LegTo::Outside, short: [Length::ZERO; 2], holes: Vec::new() };
    let bend = || ProfileBend::Bend { turn: Angle::RIGHT, direction: Up, radius: None, way: BendWay::Brake };
    let profile = |flat_leg: usize, edges: [EdgeEnd; 2]| BrakeProfile {
        length: inches("20"),
        legs: vec![leg(), leg(), leg()],
        bends: vec![bend(), bend()],
        flat_leg,
        ends: [End::Square; 2],
        edges,
        joints: Vec::new(),
        joint_gap: Length::ZERO,
    };
    let making = thin();
    let width = |profile: &BrakeProfile| width_inches(&proven(&profile.shape_piece(0, &making).unwrap()));
    let out = Some(EdgeWay::Out);
    let ends = [
        hem(HemKind::TearDrop { radius: inches("3/32") }, "3/4", None),
        hem(HemKind::Open { gap: inches("1/8") }, "1/2", out),
        EdgeEnd::Curl { radius: inches("1/8"), turn: Angle::from_degrees(270.0), way: out },
    ];
    let flange = |end: EdgeEnd| width_inches(&proven(&lid(end).shape(&making).unwrap()));
    for end in ends {
        let grown = (flange(end) - flange(EdgeEnd::Plain)) / 2.0;
        for (first, last) in [(end, EdgeEnd::Plain), (EdgeEnd::Plain, end), (end, end)] {
            let both = if first == last { 2.0 } else { 1.0 };
            let more = width(&profile(1, [first, last])) - width(&profile(1, [EdgeEnd::Plain; 2]));
            assert!((more - both * grown).abs() < 1e-6, "{first:?} {last:?}: {more} {grown}");
        }
    }
    // The flat leg is not bent itself: it must be said to which side its edge goes.
    let refused = |profile: BrakeProfile| profile.shape_piece(0, &making).unwrap_err().remove(0);
    assert_eq!(refused(profile(0, [ends[0], EdgeEnd::Plain])).field, "edges.first.hem.toward");
    let up =
        EdgeEnd::Curl { radius: inches("1/8"), turn: Angle::from_degrees(270.0), way: Some(EdgeWay::Up) };
    width(&profile(0, [up, EdgeEnd::Plain]));
    width(&profile(2, [EdgeEnd::Plain, up]));
    let lip = EdgeEnd::Return { length: inches("1/2"), turn: Angle::RIGHT, way: None };
    assert_eq!(refused(profile(1, [EdgeEnd::Plain, lip])).field, "edges.last.return");
    let mitred = BrakeProfile {
        ends: [End::Plan(Angle::from_degrees(45.0)), End::Square],
        ..profile(1, [EdgeEnd::Plain, ends[2]])
    };
    assert_eq!(refused(mitred).field, "edges");
}
