//! Orders for lids with many bends: too many ways to prove that one is the best, and still one is found.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making};
use fold::Direction;
use fold::order::{self, BendOrder, Outcome};
use fold::part::Forming;
use geometry::Point;
use shapes::Figure;
use shapes::brake_profile::{BendWay, BrakeProfile, End, Leg, LegTo, ProfileBend};
use shapes::tapered_lid::TaperedLid;
use stock::brake::{Machine, PressBrake};
use units::{Angle, Length};

/// A lid whose sides lie in so many directions that the turnings between them cannot all be tried.
fn order_of(corners: &[(f64, f64)], inset: &[&str], skirt: &str) -> (usize, Outcome) {
    let corners: Vec<Point> = corners.iter().map(|&(x, y)| Point::new(x * 25.4, y * 25.4)).collect();
    let lid = TaperedLid {
        over: Figure::lettered(&corners).unwrap(),
        outset: inches("7/8"),
        rise: inches("2"),
        inset: inset.iter().map(|inset| inches(inset)).collect(),
        skirt: inches(skirt),
        return_width: None,
    };
    let flat = lid.shape(&making(".125", ".1875", 0.42)).unwrap().unfold().unwrap();
    let machine = Machine::Press(PressBrake::default());
    (flat.bends.len(), order::find(&flat, &machine, Some(inches("1")), &[]))
}

fn every_bend_is_made_once(order: &BendOrder, count: usize) {
    let mut bends: Vec<usize> = order.steps.iter().flat_map(|step| step.bends.iter().copied()).collect();
    bends.sort_unstable();
    assert_eq!(bends, (0..count).collect::<Vec<_>>());
}

#[test]
fn a_lid_of_six_sides_has_an_order() {
    let corners = [(0.0, 0.0), (22.0, 0.0), (29.7, 9.3), (27.6, 20.5), (14.1, 28.1), (-2.9, 14.0)];
    for skirt in ["1 1/8", "2"] {
        let (count, outcome) = order_of(&corners, &["3", "2", "2 1/2", "3 1/2", "2", "4"], skirt);
        assert_eq!(count, 12);
        let Outcome::Order(order) = outcome else { panic!("{outcome:?}") };
        every_bend_is_made_once(&order, count);
        // All bends turn down: the lid is never turned over, and no more often turned round than there are bends.
        assert_eq!(order.turn_overs, 0);
        assert!(order.turn_rounds < count, "{}", order.turn_rounds);
    }
}

/// Few bends are proved as before.
#[test]
fn the_best_order_of_a_lid_of_three_sides_is_proved() {
    let (count, outcome) = order_of(&[(0.0, 0.0), (26.0, 0.0), (9.0, 22.0)], &["3", "3", "3"], "1");
    let Outcome::Order(order) = outcome else { panic!("{outcome:?}") };
    every_bend_is_made_once(&order, count);
    assert!(order.is_best);
}

/// A joggle in sheet of .063: legs of 4 in with a set-off between them.
fn order_of_joggle(depth: &str) -> BendOrder {
    let joggle = ProfileBend::Joggle {
        depth: inches(depth),
        direction: Direction::Up,
        turn: Angle::from_degrees(45.0),
    };
    order_of_profile(&["4", "4"], vec![joggle], 0)
}

/// A profile 20 in long of sheet .063, bent in a V of 3/8.
fn order_of_profile(legs: &[&str], bends: Vec<ProfileBend>, flat_leg: usize) -> BendOrder {
    let leg = |length: &&str| Leg {
        length: inches(length),
        to: LegTo::Outside,
        short: [Length::ZERO; 2],
        holes: Vec::new(),
    };
    let profile = BrakeProfile {
        length: inches("20"),
        legs: legs.iter().map(leg).collect(),
        bends,
        flat_leg,
        ends: [End::Square; 2],
        edges: [shapes::edge::EdgeEnd::Plain; 2],
        joints: Vec::new(),
        joint_gap: Length::ZERO,
    };
    let flat = profile.shape(0, &making(".063", ".063", 0.42)).unwrap().unfold().unwrap();
    let machine = Machine::Press(PressBrake::default());
    let Outcome::Order(order) = order::find(&flat, &machine, Some(inches("3/8")), &[]) else {
        panic!("{legs:?}")
    };
    order
}

/// A shallow joggle is pressed at once between offset dies; one whose slant the V holds, seven tenths of 3/8 in and more, is two
/// bends of the brake, tried like any other.
#[test]
fn a_deep_joggle_is_bent_in_two_strokes() {
    let shallow = order_of_joggle("1/8");
    assert_eq!(shallow.steps.len(), 1);
    assert!(matches!(shallow.steps[0].forming, Forming::Joggle(_)) && shallow.steps[0].tooling.is_none());
    let deep = order_of_joggle("1");
    assert_eq!(deep.steps.len(), 2);
    every_bend_is_made_once(&deep, 2);
    assert!(deep.steps.iter().all(|step| step.forming == Forming::Brake && step.tooling.is_some()));
    assert_eq!(deep.turn_overs, 1);
}

/// All sets of fourteen bends are tried: the best order of a lid of seven sides is proved, whether sizes of the press are met or not.
#[test]
fn the_best_order_of_a_lid_of_seven_sides_is_proved() {
    let corners =
        [(0.0, 0.0), (18.0, -4.0), (31.0, 2.0), (36.0, 14.0), (31.0, 26.0), (16.0, 31.0), (-3.0, 16.0)];
    for (skirt, meets) in [("1 1/8", false), ("2", true)] {
        let inset = ["3", "2", "2 1/2", "3 1/2", "2", "3", "2 1/2"];
        let (count, outcome) = order_of(&corners, &inset, skirt);
        let Outcome::Order(order) = outcome else { panic!("{skirt}: {outcome:?}") };
        every_bend_is_made_once(&order, count);
        assert_eq!((count, order.is_best), (14, true));
        assert_eq!(order.with_assumed().is_empty(), !meets);
    }
}

/// Eight sides: too many ways to try them all, and where the skirts are deep most of them end before the last bend. One is found
/// all the same.
#[test]
fn a_lid_of_eight_sides_has_an_order() {
    let corners = [
        (0.0, 0.0),
        (18.0, -4.0),
        (31.0, 2.0),
        (36.0, 14.0),
        (31.0, 26.0),
        (16.0, 31.0),
        (1.0, 27.0),
        (-5.0, 12.0),
    ];
    for skirt in ["1 1/8", "2"] {
        let inset = ["3", "2", "2 1/2", "3 1/2", "2", "3", "2 1/2", "2"];
        let (count, outcome) = order_of(&corners, &inset, skirt);
        let Outcome::Order(order) = outcome else { panic!("{skirt}: {outcome:?}") };
        every_bend_is_made_once(&order, count);
        assert_eq!((count, order.turn_overs), (16, 0));
    }
}

/// A channel of 17 in with flanges of 3/4: each flange goes to the stop, and the web is before the machine, in the hands; turned
/// round between the two rather than once with the web hanging out behind (common practice, no source).
#[test]
fn the_larger_part_is_not_behind_the_press() {
    let bend = || ProfileBend::Bend {
        turn: Angle::from_degrees(90.0),
        direction: Direction::Up,
        radius: None,
        way: BendWay::Brake,
    };
    let order = order_of_profile(&["3/4", "17", "3/4"], vec![bend(), bend()], 1);
    assert_eq!((order.steps.len(), order.turn_rounds, order.settings), (2, 1, 1));
    for step in &order.steps {
        assert!(step.reach[0] < step.reach[1], "{:?}", step.reach);
    }
}
