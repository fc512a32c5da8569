//! Pans of panels, stepped rims, drains, trays and boxes set into a leaning face: every piece refolds and every size holds.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making, value};
use shapes::day_box::{BackCut, CutCorner, CutStyle, SetBox};
use shapes::pan::{MadeUpPan, Pan, PanDrain, PanMade, PanPlan, Rim, RimStep, SlideThrough};
use shapes::tray::Tray;
use shapes::{FactValue, Making, Recipe, Shaped};
use units::{Angle, Length};

fn proven(recipe: &dyn Recipe, making: &Making) -> Vec<Shaped> {
    let piece = |number: usize| {
        let shaped = recipe.shape_piece(number, making).unwrap();
        let flat = shaped.unfold().unwrap_or_else(|error| panic!("piece {number}: {error}"));
        let proof = fold::refold::prove(&shaped.part, &flat).unwrap();
        assert!(proof.worst_mm < 0.001, "{}", proof.worst_mm);
        shaped
    };
    (0..recipe.pieces().len().max(1)).map(piece).collect()
}

fn pan(length: &str, width: &str, height: &str, rim: Rim) -> Pan {
    Pan {
        plan: PanPlan::Outside { length: inches(length), width: inches(width) },
        height: inches(height),
        rims: vec![rim],
        lean: Vec::new(),
        edge: shapes::edge::EdgeEnd::Plain,
    }
}

fn plain(pan: Pan) -> MadeUpPan {
    MadeUpPan { pan, step: None, made: PanMade::OnePiece, drain: None, slides: None }
}

fn tub() -> Pan {
    Pan {
        lean: [8.0, 25.0, 8.0, 12.0].map(Angle::from_degrees).to_vec(),
        ..pan("44", "20", "14", Rim::Out(inches("3/4")))
    }
}

// Source of the areas: worked from the same inputs by a separate script, to the rim's mold line; an invented tub.
#[test]
fn a_tub_of_separate_panels() {
    let making = making(".100", ".100", 0.42);
    let tub = MadeUpPan { made: PanMade::Panels, ..plain(tub()) };
    let shaped = proven(&tub, &making);
    assert_eq!(shaped.len(), 5);
    let area = |name: &str| {
        let fact = shaped[0]
            .facts
            .iter()
            .find(|fact| fact.name == format!("area of {name}, outside, to the mold lines"));
        let Some(FactValue::Area(area)) = fact.map(|fact| fact.value.clone()) else { panic!("{name}") };
        area.square_millimetres() / 645.16
    };
    for (name, square_inches) in
        [("wall AB", 689.0), ("wall BC", 339.0), ("wall DA", 314.0), ("floor", 880.0)]
    {
        assert!((area(name) - square_inches).abs() < 0.5, "{name}: {}", area(name));
    }
}

#[test]
fn one_design_gives_the_same_one_piece_pan_as_the_ring() {
    let making = making(".100", ".100", 0.42);
    let area = |shaped: &Shaped| shaped.unfold().unwrap().outline.area_mm2();
    for rim in [Rim::Out(inches("3/4")), Rim::In(inches("3/4"))] {
        let pan = Pan { rims: vec![rim], ..tub() };
        let ring = area(&pan.shape(&making).unwrap());
        let shell = area(&proven(&plain(pan), &making)[0]);
        // The rims of walls that lean unlike are mitred along slightly other lines, and their bends end there; both close.
        assert!((ring - shell).abs() < 5.0, "{ring} {shell}");
    }
}

#[test]
fn a_stepped_rim_up_or_down_refolds_and_counts_when_it_lifts_out() {
    let making = making(".063", ".063", 0.42);
    for height in ["1/2", "-1/2"] {
        let step = Some(RimStep { height: inches(height), out: inches("5/8") });
        let stepped = MadeUpPan { step, ..plain(pan("12", "9", "3", Rim::Out(inches("1/2")))) };
        let shaped = proven(&stepped, &making).remove(0);
        // 3 wall, 1/2 rim, 1/2 step and 5/8 outer rim on both sides of 12; the three legs that run between reversed bends
        // run from face to opposite face, one thickness more each. Less eight deductions, BD = 2·OSSB − BA = .11148.
        let (length, _) = shaped.unfold().unwrap().extents_mm();
        let legs = 12.0 + 2.0 * (3.0 + 0.5 + 0.5 + 0.625 + 3.0 * 0.063);
        assert!((length / 25.4 - (legs - 8.0 * 0.111_477)).abs() < 0.000_1, "{}", length / 25.4);
    }
    let low = MadeUpPan {
        step: Some(RimStep { height: inches("1/8"), out: inches("5/8") }),
        ..plain(pan("12", "9", "3", Rim::Out(inches("1/2"))))
    };
    assert!(low.shape_piece(0, &making).unwrap_err()[0].remedy.contains(".252"));
}

#[test]
fn a_grease_pan_slides_through_its_slot_under_its_handle() {
    let making = making(".063", ".063", 0.42);
    let slides = |handle: &str| SlideThrough {
        slot: [inches("38 1/2"), inches("2 3/8")],
        handle: Some(inches(handle)),
        lugs: None,
    };
    let grease =
        MadeUpPan { slides: Some(slides("2 5/16")), ..plain(pan("38 1/4", "9", "2 1/4", Rim::None)) };
    let shaped = proven(&grease, &making).remove(0);
    let (length, width) = shaped.unfold().unwrap().extents_mm();
    // Source: worked from the same inputs by a separate script, K .42; an invented pan.
    assert!((length / 25.4 - 42.527).abs() < 0.0006 && (width / 25.4 - 13.277).abs() < 0.0006);
    // "Not above": a handle as high as the slot passes.
    let even = MadeUpPan { slides: Some(slides("2 3/8")), ..grease.clone() };
    assert!(even.shape_piece(0, &making).is_ok());
    let high = MadeUpPan { slides: Some(slides("2 25/64")), ..grease };
    let problems = high.shape_piece(0, &making).unwrap_err();
    assert_eq!(problems[0].field, "slides_through.handle");
    assert!(problems[0].remedy.contains("2.375"), "{}", problems[0]);
}

#[test]
fn a_drain_keeps_clear_of_the_walls_bends() {
    let making = making(".090", ".090", 0.42);
    let with = |x: &str, y: &str| MadeUpPan {
        drain: Some(PanDrain { at: [inches(x), inches(y)], diameter: inches("1") }),
        ..plain(pan("20", "10", "3", Rim::None))
    };
    let shaped = proven(&with("2", "2"), &making).remove(0);
    assert_eq!(shaped.part.faces[0].holes.len(), 1);
    let problems = with("1/2", "2").shape_piece(0, &making).unwrap_err();
    // 1/2 radius + .090 + .090.
    assert!(problems[0].remedy.contains(".680"), "{}", problems[0]);
}

#[test]
fn a_tray_with_dividers_slotted_into_one_another() {
    let making = making(".063", ".063", 0.42);
    for flange in [None, Some(inches("1/2"))] {
        for lean in [Vec::new(), [5.0, 10.0, 5.0, 0.0].map(Angle::from_degrees).to_vec()] {
            let tray = Tray {
                pan: Pan { lean, ..pan("24", "12", "3", Rim::Out(inches("1/2"))) },
                across: vec![inches("8"), inches("16")],
                along: vec![inches("5")],
                height: inches("2"),
                play: inches("1/32"),
                flange,
            };
            let shaped = proven(&tray, &making);
            assert_eq!(shaped.len(), 4);
            assert_eq!(shaped[1].part.faces.len(), if flange.is_some() { 3 } else { 1 });
        }
    }
    let plumb = Tray {
        pan: pan("24", "12", "3", Rim::None),
        across: vec![inches("8")],
        along: vec![],
        height: inches("2"),
        play: Length::ZERO,
        flange: None,
    };
    let shaped = proven(&plumb, &making);
    assert!((value(&shaped[1].facts, "divider, at the floor") - (12.0 - 2.0 * 0.063)).abs() < 1e-9);
    let high = Tray { height: inches("3"), ..plumb };
    assert!(high.shape_piece(0, &making).unwrap_err()[0].remedy.contains("2.937"));
}

/// A divider with leaning ends and flanges, crossed by two others: its flat lies along its floor edge, and its seam with the floor is
/// all three runs between the slots.
#[test]
fn a_crossed_divider_stands_on_the_floor_in_runs() {
    let lean = [12.0, 6.0, 12.0, 6.0].map(Angle::from_degrees).to_vec();
    let tray = Tray {
        pan: Pan { lean, ..pan("22", "15", "3", Rim::Out(inches("3/4"))) },
        across: vec![inches("6"), inches("13")],
        along: vec![inches("5"), inches("10")],
        height: inches("2"),
        play: Length::ZERO,
        flange: Some(inches("5/8")),
    };
    let shaped = proven(&tray, &making(".090", ".125", 0.42));
    let flat = shaped[1].unfold().unwrap();
    let (long, wide) = flat.extents_mm();
    assert!(15.0 * 25.4 < long && (wide / 25.4 - 2.0).abs() < 0.2, "{long} × {wide}");
    let floor = shaped[1].facts.iter().find(|fact| fact.name.ends_with("across 1 to floor")).unwrap();
    let FactValue::Words(words) = &floor.value else { panic!("{floor:?}") };
    let (_, runs) = words.split_once("in 3 runs, ").unwrap();
    let (runs, rest) = runs.split_once(',').unwrap();
    let sum: f64 = runs.split(" + ").map(|run| run.parse::<f64>().unwrap()).sum();
    let long = rest.split_once("inside, ").unwrap().1.split_once(" long").unwrap().0;
    assert!((long.parse::<f64>().unwrap() - sum).abs() < 0.002, "{words}");
}

#[test]
fn a_box_set_level_into_a_leaning_console() {
    let making = making(".125", ".125", 0.42);
    let plain = SetBox {
        width: inches("16"),
        height: inches("9"),
        depth_top: inches("5"),
        depth_bottom: inches("7"),
        face_lean: Angle::from_degrees(20.0),
        cut: None,
        rim: Rim::Out(inches("1 1/4")),
        door_lip: None,
    };
    let shaped = proven(&plain, &making).remove(0);
    // Of the back: up 9·cos 20°, and in depth 5 + 9·sin 20° − 7.
    let lean = 20.0_f64.to_radians();
    let (up, run) = (9.0 * geometry::trig::cos(lean), 5.0 + 9.0 * geometry::trig::sin(lean) - 7.0);
    assert!((value(&shaped.facts, "back, outside") - (up * up + run * run).sqrt()).abs() < 1e-6);
    for corner in [CutCorner::Lower, CutCorner::Upper] {
        for (style, count) in [(CutStyle::Sloped, 1), (CutStyle::Stepped, 3)] {
            let cut = Some(BackCut { corner, back: inches("2 1/2"), level: inches("2"), style });
            for door_lip in [None, Some(inches("3/4"))] {
                let set = SetBox { cut, door_lip, ..plain.clone() };
                assert_eq!(proven(&set, &making).len(), count);
            }
        }
    }
    let inward = SetBox { rim: Rim::In(inches("1")), ..plain.clone() };
    proven(&inward, &making);
    let deep = SetBox {
        cut: Some(BackCut {
            corner: CutCorner::Lower,
            back: inches("2"),
            level: inches("7"),
            style: CutStyle::Sloped,
        }),
        ..plain
    };
    assert!(deep.shape_piece(0, &making).unwrap_err()[0].remedy.contains("7.000"));
}

/// Without a rim no metal of a box set into a leaning face stands before that face: the bottom's inside edge lies on it, so
/// that its outside is T·tan(lean) shorter than the depth; of the top the outside is the nearer (plane geometry).
#[test]
fn a_set_box_without_a_rim_ends_at_its_face() {
    let making = making(".125", ".125", 0.42);
    let set = SetBox {
        width: inches("16"),
        height: inches("9"),
        depth_top: inches("5"),
        depth_bottom: inches("7"),
        face_lean: Angle::from_degrees(20.0),
        cut: None,
        rim: Rim::None,
        door_lip: None,
    };
    let shaped = proven(&set, &making).remove(0);
    let depth = |name: &str| {
        let face = shaped.part.faces.iter().find(|face| face.name == name).unwrap();
        face.corners.iter().map(|corner| corner.y).fold(0.0, f64::max) / 25.4
    };
    let bottom = 7.0 - 0.125 * geometry::trig::tan(20.0_f64.to_radians());
    assert!(
        (depth("bottom") - bottom).abs() < 1e-6 && (depth("top") - 5.0).abs() < 1e-6,
        "{}",
        depth("bottom")
    );
}

/// What of a pan is in the way of its edge is named, and what can be done instead of each.
#[test]
fn an_edge_on_a_pan_with_more_says_what_can_be_done_instead() {
    let edge = shapes::edge::EdgeEnd::Return { length: inches("1/2"), turn: Angle::RIGHT, way: None };
    let plain = plain(Pan { edge, ..pan("20", "14", "4", Rim::None) });
    let drain = Some(PanDrain { at: [inches("5"), inches("5")], diameter: inches("1") });
    let drained = MadeUpPan { drain, ..plain.clone() };
    let panels = MadeUpPan { made: PanMade::Panels, ..drained.clone() };
    for (pan, words) in
        [(&drained, ["cut the hole in the bent pan"].as_slice()), (&panels, &["cut the hole", "one_piece"])]
    {
        let problems = pan.shape_piece(0, &making(".125", ".125", 0.42)).unwrap_err();
        assert_eq!(problems[0].field, "edge");
        assert!(words.iter().all(|words| problems[0].remedy.contains(words)), "{}", problems[0]);
        assert!(!problems[0].remedy.contains("step"), "{}", problems[0]);
    }
}
