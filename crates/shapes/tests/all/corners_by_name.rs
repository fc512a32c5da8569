//! Corners and single seams in styles of their own: each is made as its name asks for, the others as all others, and a name
//! that no seam goes by is refused.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making, sixteenths};
use crate::seams::{Most, Tally, made_with, openings, runner, styles};
use fold::SeamStyle;
use fold::part::SeamSide;
use fold::refold::{self, SeamGap};
use geometry::{Point, tolerance};
use proptest::prelude::*;
use shapes::edge::EdgeEnd;
use shapes::hopper::{Hopper, HopperMade, HopperStands, RimEdge};
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::tapered_lid::{LidMade, MadeUpLid, Seat, Split, TaperedLid};
use shapes::{Chosen, CornerStyle, Figure, Making, Problem, Recipe, Shaped, nearest_lap};
use units::Angle;

fn by_name<const N: usize>(named: [(&str, CornerStyle); N], others: CornerStyle) -> CornerStyle {
    let named = named.map(|(name, style)| (name.to_owned(), style)).to_vec();
    CornerStyle::ByName { named, others: Box::new(others) }
}

fn butt(through: &[&str]) -> CornerStyle {
    CornerStyle::Butt { through: Chosen::Sides(through.iter().map(|&side| side.to_owned()).collect()) }
}

fn lap(width: &str, outside: bool) -> CornerStyle {
    CornerStyle::Lap { width: inches(width), carried_by: Chosen::LongSides, outside }
}

fn tabs() -> CornerStyle {
    CornerStyle::TabAndSlot {
        tab: inches("1/2"),
        clearance: inches("1/32"),
        count: 2,
        tabs_on: Chosen::ShortSides,
    }
}

fn made(corner: CornerStyle) -> Making {
    Making { corner, seam_gap: inches("1/64"), ..making(".090", ".090", 0.42) }
}

fn measured(shaped: &Shaped) -> Vec<SeamGap> {
    let flat = shaped.unfold().unwrap();
    let proof = refold::prove(&shaped.part, &flat).unwrap();
    assert!(proof.worst_mm < 0.001, "{}", proof.worst_mm);
    for seam in &proof.seams {
        let gap_mm = inches("1/64").millimetres();
        assert!((seam.least_mm - gap_mm).abs() < tolerance::REFOLD_MM, "{seam:?}");
        let slotted = matches!(seam.style, SeamStyle::TabAndSlot { .. });
        assert!(slotted || (seam.largest_mm - gap_mm).abs() < tolerance::REFOLD_MM, "{seam:?}");
    }
    proof.seams
}

fn style_of(seams: &[SeamGap], name: &str) -> SeamStyle {
    seams.iter().find(|seam| seam.name == name).unwrap_or_else(|| panic!("{name}: {seams:?}")).style
}

fn pan() -> Pan {
    let plan = PanPlan::Outside { length: inches("20"), width: inches("12") };
    let lean = [10.0; 4].map(Angle::from_degrees).to_vec();
    Pan { plan, height: inches("4"), rims: vec![Rim::None], lean, edge: EdgeEnd::Plain }
}

#[test]
fn the_four_corners_of_a_pan_are_made_in_four_ways() {
    let corner = by_name([("A", butt(&["AB"])), ("B", lap("5/8", false)), ("C", tabs())], CornerStyle::Open);
    let seams = measured(&pan().shape(&made(corner)).unwrap());
    assert_eq!(seams.len(), 4);
    // Corner A lies between DA, the first, and AB.
    assert_eq!(style_of(&seams, "wall at corner A"), SeamStyle::Butt { through: SeamSide::Second });
    let SeamStyle::Lap { width_mm, carrier, outside } = style_of(&seams, "wall at corner B") else {
        panic!()
    };
    assert_eq!((width_mm, carrier, outside), (inches("5/8").millimetres(), SeamSide::First, false));
    let SeamStyle::TabAndSlot { count, tabs, .. } = style_of(&seams, "wall at corner C") else { panic!() };
    assert_eq!((count, tabs), (2, SeamSide::First));
    assert_eq!(style_of(&seams, "wall at corner D"), SeamStyle::Open);
}

/// Every corner is cut as it would be if all were made in its own way.
#[test]
fn a_corner_is_no_other_for_what_its_neighbours_are() {
    let all = [("A", butt(&["AB", "CD"])), ("B", CornerStyle::Open), ("C", tabs()), ("D", lap("1/2", true))];
    let mixed = pan().shape(&made(by_name(all.clone(), CornerStyle::Open))).unwrap();
    for (corner, style) in all {
        let alone = pan().shape(&made(style)).unwrap();
        let gap = |shaped: &Shaped| {
            let seams = measured(shaped);
            let seam =
                seams.into_iter().find(|seam| seam.name.ends_with(&format!("corner {corner}"))).unwrap();
            (seam.style, seam.length_mm, seam.inside_angle_rad)
        };
        assert_eq!(gap(&mixed), gap(&alone), "{corner}");
    }
}

fn lid(made: LidMade) -> MadeUpLid {
    let corners = [(0.0, 0.0), (31.25, 0.0), (31.003, 24.624), (0.13, 25.125)];
    let over = Figure::lettered(&corners.map(|(x, y)| Point::new(x * 25.4, y * 25.4))).unwrap();
    let inset = ["3", "2 1/2", "4 1/4", "2"].map(inches).to_vec();
    let (outset, rise, skirt) = (inches("7/8"), inches("2"), inches("1 1/2"));
    let lid = TaperedLid { over, outset, rise, inset, skirt, return_width: None };
    MadeUpLid { lid, seat: Seat::Proud, hinge: None, made, notch: None, edge: EdgeEnd::Plain }
}

/// A single seam goes before its corner: the hip at B stays open, the skirts there are butted.
#[test]
fn one_seam_of_a_corner_is_made_otherwise() {
    let corner = by_name([("B", CornerStyle::Open), ("skirt at corner B", butt(&["AB"]))], tabs());
    let ring = lid(LidMade::OnePiece).lid.shape(&made(corner.clone())).unwrap();
    let shell = lid(LidMade::OnePiece).shape_piece(0, &made(corner)).unwrap();
    for shaped in [ring, shell] {
        let seams = measured(&shaped);
        assert_eq!(style_of(&seams, "slope at corner B"), SeamStyle::Open);
        assert!(matches!(style_of(&seams, "skirt at corner B"), SeamStyle::Butt { .. }));
        assert!(matches!(style_of(&seams, "skirt at corner C"), SeamStyle::TabAndSlot { .. }));
    }
}

/// Each half has some of the corners only, and what is asked for at the others is no fault.
#[test]
fn halves_take_the_corners_that_they_have() {
    let line =
        Split { ends: [("AB".to_owned(), inches("15")), ("CD".to_owned(), inches("17"))], flange: None };
    let lid = lid(LidMade::TwoHalves(line));
    let corner = by_name([("A", butt(&["AB"])), ("C", butt(&["CD"]))], CornerStyle::Open);
    let butted: Vec<String> = (0..2)
        .flat_map(|piece| measured(&lid.shape_piece(piece, &made(corner.clone())).unwrap()))
        .filter(|seam| matches!(seam.style, SeamStyle::Butt { .. }))
        .map(|seam| seam.name)
        .collect();
    let mut sorted = butted;
    sorted.sort();
    let expected = ["skirt at corner A", "skirt at corner C", "slope at corner A", "slope at corner C"];
    assert_eq!(sorted, expected);
    let wrong = by_name([("E", butt(&["AB"]))], CornerStyle::Open);
    assert_eq!(lid.shape_piece(1, &made(wrong)).unwrap_err()[0].value, "E");
}

#[test]
fn hips_of_a_hopper_of_plates_are_made_one_by_one() {
    let figure = |corners: [(f64, f64); 4]| {
        Figure::lettered(&corners.map(|(x, y)| Point::new(x * 25.4, y * 25.4))).unwrap()
    };
    let hopper = Hopper {
        stands: HopperStands::RimDown,
        rim: figure([(0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0)]),
        collar: figure([(11.0, 6.0), (19.0, 6.0), (19.0, 12.0), (11.0, 12.0)]),
        rise: inches("14"),
        rim_edge: RimEdge::None,
        collar_height: None,
        made: HopperMade::FourPlates { weld_flange: None },
        least_slope: None,
    };
    let corner = by_name([("A", butt(&["AB"])), ("hip C", butt(&["BC"]))], CornerStyle::Open);
    let mut words = Vec::new();
    for piece in 0..4 {
        let shaped = hopper.shape_piece(piece, &made(corner.clone())).unwrap();
        measured(&shaped);
        words.extend(shaped.facts.iter().map(|fact| format!("{}: {:?}", fact.name, fact.value)));
    }
    let of_hip = |hip: &str| {
        words
            .iter()
            .filter(|line| line.contains(&format!("hip {hip}:")))
            .filter(|line| line.contains("gap designed"))
            .map(String::as_str)
            .collect::<Vec<_>>()
            .join(" ")
    };
    assert!(of_hip("A").contains("face AB runs through"), "{words:?}");
    assert!(of_hip("C").contains("face BC runs through"), "{words:?}");
    assert!(of_hip("B").contains("open corner") && of_hip("D").contains("open corner"), "{words:?}");
}

#[test]
fn names_that_nothing_goes_by_are_refused_with_those_that_there_are() {
    let corner =
        by_name([("E", CornerStyle::Open), ("B", butt(&["AB"])), ("rim at corner B", tabs())], tabs());
    let problems = pan().shape(&made(corner)).unwrap_err();
    assert_eq!(problems.len(), 1);
    let Problem { field, value, remedy, .. } = &problems[0];
    assert_eq!((field.as_str(), value.as_str()), ("corner.at", "E, rim at corner B"));
    assert!(remedy.contains("A, B, C and D") && remedy.contains("\"wall at corner D\""), "{remedy}");
}

/// What cannot be made is told at the field that asks for it.
#[test]
fn a_fault_is_told_at_its_own_corner() {
    let many = CornerStyle::TabAndSlot {
        tab: inches("1"),
        clearance: inches("1/32"),
        count: 9,
        tabs_on: Chosen::ShortSides,
    };
    let field = |corner: CornerStyle| pan().shape(&made(corner)).unwrap_err()[0].field.clone();
    assert_eq!(field(by_name([("C", many.clone())], tabs())), "corner.at.C.count");
    assert_eq!(field(by_name([("C", tabs())], many.clone())), "corner.others.count");
    assert_eq!(field(many), "corner.count");
    assert_eq!(field(by_name([("B", butt(&["CD", "DA"]))], tabs())), "corner.at.B");
    assert_eq!(field(by_name([("wall at corner B", butt(&[]))], tabs())), "corner.at.wall at corner B");
}

/// Of two laps only the one that is at fault is made narrower.
#[test]
fn the_lap_at_fault_is_named() {
    let lean = [35.0; 4].map(Angle::from_degrees).to_vec();
    let pan = Pan { lean, ..pan() };
    let corner = |wide: &str| by_name([("A", lap("5/8", false)), ("B", lap(wide, false))], CornerStyle::Open);
    let works = |wide: &str| {
        let shaped = pan.shape(&made(corner(wide))).unwrap();
        shaped.unfold().is_ok_and(|flat| refold::prove(&shaped.part, &flat).is_ok())
    };
    assert!(works("5/8") && !works("8"), "else this test shows nothing");
    let problem = nearest_lap(&pan, 0, &made(corner("8"))).unwrap();
    assert_eq!((problem.field.as_str(), problem.value.as_str()), ("corner.at.B.lap", "8.000"));
    let most = crate::common::word_after(&problem, "the widest that would do is");
    assert!(works(&most), "{problem}");
}

/// Three corners each in a style of its own, the others in one.
pub(crate) fn mixed() -> impl Strategy<Value = CornerStyle> {
    (styles(), styles(), styles(), styles())
        .prop_map(|(a, b, c, others)| by_name([("A", a), ("B", b), ("C", c)], others))
}

#[test]
fn mixed_corners_of_lids_close_as_asked() {
    let sizes = (sixteenths(0..20), sixteenths(12..90), sixteenths(24..60));
    let inset = prop::collection::vec(sixteenths(16..80), 8);
    let strategy = (made_with(mixed()), openings(), sizes, inset);
    let tally = Tally::default();
    let outcome = runner().run(&strategy, |(making, over, (outset, rise, skirt), mut inset)| {
        inset.truncate(over.count());
        let lid = TaperedLid { over, outset, rise, inset, skirt, return_width: None };
        tally.measure(lid.shape(&making))
    });
    outcome.unwrap();
    // Two in three of these lids have a strip somewhere, one in four where all corners are alike.
    tally.check(&Most {
        overlaps: 1.9,
        too_short: 0.15,
        no_relief: 0.0,
        runs_into: 0.01,
        strip_runs_into: 0.02,
        no_such_shape: 0.7,
    });
}

#[test]
fn mixed_corners_of_pans_close_as_asked() {
    let sizes = (sixteenths(160..600), sixteenths(160..500), sixteenths(48..160));
    let lean = prop::collection::vec(-20_i32..45, 4);
    let rim = prop_oneof![Just(Rim::None), sixteenths(24..40).prop_map(Rim::Out)];
    let tally = Tally::default();
    let outcome = runner().run(&(made_with(mixed()), sizes, lean, rim), |(making, sizes, lean, rim)| {
        let (length, width, height) = sizes;
        let lean = lean.into_iter().map(|degrees| Angle::from_degrees(f64::from(degrees))).collect();
        let plan = PanPlan::Outside { length, width };
        let pan = Pan { plan, height, rims: vec![rim], lean, edge: EdgeEnd::Plain };
        tally.measure(pan.shape(&making))
    });
    outcome.unwrap();
    tally.check(&Most {
        overlaps: 0.06,
        too_short: 0.03,
        no_relief: 0.0,
        runs_into: 0.02,
        strip_runs_into: 0.04,
        no_such_shape: 0.08,
    });
}
