//! Laps, tabs and slots at the corners between two pieces: gutters, hoppers, coamings, lids and pans that are made of plates.
//! Every piece is refolded and put in its place: the seam stands the gap apart, and no metal lies in the other.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making};
use crate::made_up_lids::{FOUR_SLOPES, lid};
use crate::wholes::stood;
use geometry::Point;
use shapes::coaming::{Coaming, CoamingMade};
use shapes::edge::EdgeEnd;
use shapes::gutter::Gutter;
use shapes::hopper::{Hopper, HopperMade, HopperStands, RimEdge};
use shapes::pan::{MadeUpPan, Pan, PanMade, PanPlan, Rim};
use shapes::tapered_lid::LidMade;
use shapes::{Chosen, CornerStyle, FactValue, Figure, Making, Recipe};
use units::Angle;

const GAP: &str = "1/64";

fn skin(corner: CornerStyle) -> Making {
    Making { corner, seam_gap: inches(GAP), ..making(".063", ".063", 0.42) }
}

fn lap(outside: bool, carried_by: Chosen) -> CornerStyle {
    CornerStyle::Lap { width: inches("5/8"), carried_by, outside }
}

fn tabs(count: u32) -> CornerStyle {
    CornerStyle::TabAndSlot {
        tab: inches("3/8"),
        clearance: inches("1/64"),
        count,
        tabs_on: Chosen::ShortSides,
    }
}

fn figure(corners: &[(f64, f64)]) -> Figure {
    let points: Vec<Point> = corners.iter().map(|(x, y)| Point::new(x * 25.4, y * 25.4)).collect();
    Figure::lettered(&points).unwrap()
}

fn crooked() -> Figure {
    figure(&[(0.0, 0.0), (31.25, 0.0), (30.5, 24.6), (0.9, 25.1)])
}

fn gutter(opening: Figure) -> Gutter {
    Gutter {
        opening,
        outset: inches("1/2"),
        width: inches("2 1/4"),
        depth: inches("1 3/4"),
        inner_depth: inches("2"),
        drain: None,
    }
}

/// How many seams of a piece are made so, each as far apart as designed.
fn made_so(recipe: &dyn Recipe, making: &Making, word: &str) -> usize {
    let mut found = 0;
    for piece in 0..recipe.pieces().len() {
        let shaped = recipe
            .shape_piece(piece, making)
            .unwrap_or_else(|problems| panic!("{} {piece} {:?}: {problems:?}", recipe.word(), making.corner));
        let flat = shaped.unfold().unwrap_or_else(|error| panic!("{} {piece}: {error}", recipe.word()));
        let proof = fold::refold::prove(&shaped.part, &flat)
            .unwrap_or_else(|error| panic!("{} {piece} {:?}: {error}", recipe.word(), making.corner));
        assert!(proof.worst_mm < 0.001);
        for fact in shaped.facts.iter().filter(|fact| fact.name.starts_with("weld ")) {
            let FactValue::Words(words) = &fact.value else { panic!("{fact:?}") };
            if words.contains(word) {
                assert!(words.contains("no metal in the other piece"), "{words}");
                found += 1;
            }
        }
    }
    stood(recipe, making);
    found
}

/// A channel has two walls, and each meets another at both its ends: with four channels eight seams, told by both pieces.
#[test]
fn the_walls_of_a_gutter_are_lapped_and_tabbed() {
    let plans = [crooked(), figure(&[(0.0, 0.0), (24.0, 0.0), (6.0, 20.0)])];
    for plan in plans {
        let sides = plan.count();
        let gutter = gutter(plan);
        for outside in [false, true] {
            for carried_by in [Chosen::LongSides, Chosen::ShortSides] {
                let making = skin(lap(outside, carried_by));
                assert_eq!(made_so(&gutter, &making, ", lap, "), 4 * sides);
            }
        }
        assert_eq!(made_so(&gutter, &skin(tabs(1)), "tabs on "), 4 * sides);
    }
}

#[test]
fn plates_of_a_hopper_are_lapped_and_tabbed() {
    let hopper = Hopper {
        stands: HopperStands::RimDown,
        rim: figure(&[(0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0)]),
        collar: figure(&[(11.0, 6.0), (19.0, 6.0), (19.0, 12.0), (11.0, 12.0)]),
        rise: inches("14"),
        rim_edge: RimEdge::None,
        collar_height: None,
        made: HopperMade::FourPlates { weld_flange: None },
        least_slope: None,
    };
    for outside in [false, true] {
        assert_eq!(made_so(&hopper, &skin(lap(outside, Chosen::LongSides)), ", lap, "), 8);
    }
    assert_eq!(made_so(&hopper, &skin(tabs(3)), "tabs on "), 8);
}

#[test]
fn sides_of_a_coaming_are_lapped_and_tabbed() {
    for top in [Rim::None, Rim::Out(inches("1")), Rim::In(inches("1"))] {
        let coaming = Coaming {
            opening: figure(&[(0.0, 0.0), (20.0, 0.0), (19.0, 14.0), (0.0, 15.0)]),
            outset: inches("0"),
            height: inches("3"),
            top,
            made: CoamingMade::Sides,
        };
        for outside in [false, true] {
            assert_eq!(made_so(&coaming, &skin(lap(outside, Chosen::LongSides)), ", lap, "), 8, "{top:?}");
        }
        assert_eq!(made_so(&coaming, &skin(tabs(2)), "tabs on "), 8, "{top:?}");
    }
}

#[test]
fn plates_of_lids_and_pans_are_lapped_and_tabbed() {
    let plates = lid(LidMade::Plates, FOUR_SLOPES);
    let lean = [8.0, 25.0, 8.0, 12.0].map(Angle::from_degrees).to_vec();
    let plan = PanPlan::Outside { length: inches("30"), width: inches("16") };
    let pan = |rim| MadeUpPan {
        pan: Pan {
            plan: plan.clone(),
            height: inches("8"),
            rims: vec![rim],
            lean: lean.clone(),
            edge: EdgeEnd::Plain,
        },
        step: None,
        made: PanMade::Panels,
        drain: None,
        slides: None,
    };
    for outside in [false, true] {
        let making = skin(lap(outside, Chosen::LongSides));
        assert!(made_so(&plates, &making, ", lap, ") >= 8);
        for rim in [Rim::None, Rim::Out(inches("3/4"))] {
            assert_eq!(made_so(&pan(rim), &making, ", lap, "), 8, "{rim:?}");
        }
    }
    assert_eq!(made_so(&pan(Rim::Out(inches("3/4"))), &skin(tabs(3)), "tabs on "), 8);
}
