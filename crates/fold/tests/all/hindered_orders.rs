//! Orders past what stands in the way: assumed sizes, overbending, clearances, everything that hinders, seams.

#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use crate::bend_order::{mm, press, profile};
use crate::boxes_on_machines::{box_of, plate, rectangle};
use fold::order::{self, BendOrder, Impossible, OtherTools, Outcome, PUNCH, RAM, TALL_PUNCH};
use fold::{Direction, FlatPattern};
use stock::brake::{Clamp, Folder, Machine, PressBrake, Profile};

const UP: Direction = Direction::Up;
const DOWN: Direction = Direction::Down;

fn order_of(machine: &Machine, flat: &FlatPattern, in_die_rad: &[f64]) -> BendOrder {
    match order::find(flat, machine, Some(mm(24.0)), in_die_rad) {
        Outcome::Order(order) => order,
        other => panic!("{other:?}"),
    }
}

fn why_not(machine: &Machine, flat: &FlatPattern) -> Impossible {
    match order::find(flat, machine, Some(mm(24.0)), &[]) {
        Outcome::Impossible(why) => *why,
        other => panic!("{other:?}"),
    }
}

/// A press brake of which the shop says nothing.
fn unknown_press() -> Machine {
    Machine::Press(PressBrake::default())
}

/// A finger brake of which the shop says nothing.
fn unknown_fingers() -> Machine {
    Machine::Folder(Folder {
        length: None,
        throat: None,
        stop_reach: None,
        clamp: Clamp::Fingers { widths: Vec::new(), deepest_box: None },
        nose_angle: None,
        leaf_thickness: None,
        leaf_width: None,
    })
}

/// A finger brake with a leaf 40 wide and 12 thick, for boxes so deep.
fn given_fingers(length: Option<units::Length>, deepest_box_mm: f64) -> Machine {
    Machine::Folder(Folder {
        length,
        throat: None,
        stop_reach: None,
        clamp: Clamp::Fingers { widths: Vec::new(), deepest_box: Some(mm(deepest_box_mm)) },
        nose_angle: Some(units::Angle::from_degrees(45.0)),
        leaf_thickness: Some(mm(12.0)),
        leaf_width: Some(mm(40.0)),
    })
}

/// When each bend is made.
fn places(order: &BendOrder, bends: usize) -> Vec<usize> {
    (0..bends).map(|bend| order.steps.iter().position(|step| step.bends.contains(&bend)).unwrap()).collect()
}

#[test]
fn outer_legs_are_bent_before_inner_ones_even_past_an_assumed_punch() {
    let flat =
        profile(&[25.0, 50.0, 60.0, 50.0, 25.0], &[(90.0, UP), (90.0, UP), (90.0, UP), (90.0, UP)], 500.0);
    let order = order_of(&unknown_press(), &flat, &[]);
    let at = places(&order, 4);
    assert!(at[0] < at[1] && at[3] < at[2], "{at:?}");
}

/// Deep walls meet the ram at the second of them, and the first leans back over the middle there: 160·sin 45° = 113 before
/// it, 220·sin 45° = 156 long that way, it would meet a straight punch up to the ram as well. Nothing else need be met:
/// with the rims bent first, none of the walls hangs beside die and bed.
#[test]
fn one_assumed_body_in_the_way_leaves_the_others_standing() {
    let flat = profile(
        &[20.0, 220.0, 160.0, 220.0, 20.0],
        &[(90.0, DOWN), (90.0, UP), (90.0, UP), (90.0, DOWN)],
        500.0,
    );
    let order = order_of(&unknown_press(), &flat, &[]);
    let met: Vec<&str> = order.with_assumed().iter().map(|hindered| hindered.body).collect();
    assert!(!met.is_empty() && met.iter().all(|body| [RAM, PUNCH, TALL_PUNCH].contains(body)), "{met:?}");
    let straight_is_enough = order.with_assumed().iter().all(|hindered| hindered.body == RAM);
    assert!(!straight_is_enough, "no straight punch is, however tall");
    let at = places(&order, 4);
    assert!(at[0].max(at[3]) < at[1].max(at[2]), "{at:?}");
    let hindered: Vec<bool> = order.steps.iter().map(|step| !step.with_assumed.is_empty()).collect();
    assert_eq!(hindered.iter().filter(|hindered| **hindered).count(), 1, "{hindered:?}");
}

#[test]
fn on_a_folder_the_plate_is_clamped_and_not_its_skirt() {
    let order = order_of(&unknown_fingers(), &box_of(400.0, 300.0, 25.0), &[]);
    assert!(order.steps.iter().all(|step| step.back == 0), "{:?}", order.steps);
    assert_eq!(order.with_assumed(), Vec::new());
}

/// What stands up from a sheet that is clamped does not pass the bed below it: it rests there.
#[test]
fn skirts_of_a_clamped_plate_do_not_pass_the_bed() {
    let order = order_of(&unknown_fingers(), &box_of(400.0, 300.0, 25.0), &[]);
    let bodies: Vec<_> = order.steps.iter().filter_map(|step| step.clearance.map(|c| c.body)).collect();
    assert!(!bodies.contains(&"the bed"), "{bodies:?}");
}

/// A channel of flanges f = 42 on a web b = 60, 3 thick, the punch 20 wide. By hand: with the second bend at 2h the end
/// of the first flange comes to (b − T)·cos h − f·sin h from the middle, on the inside, less the punch's 10. Past a square
/// bend the web reaches (R + T)·(tan h − 1) farther to where the outsides meet, less what the arc takes, 4.26·(h − π/4)
/// with its neutral line at R + .42·T.
#[test]
fn the_least_clearance_is_told_with_the_bend_pressed_past_its_turn() {
    let flat = profile(&[42.0, 60.0, 42.0], &[(90.0, UP), (90.0, UP)], 500.0);
    let told = |in_die: f64| {
        let order = order_of(&press(), &flat, &[in_die.to_radians(); 2]);
        assert_eq!(order.steps[0].clearance, None);
        let clearance = order.steps[1].clearance.unwrap();
        assert_eq!(clearance.body, "the punch");
        (clearance.least.millimetres(), clearance.overbent)
    };
    let by_hand = |degrees: f64| {
        let half = (0.5 * degrees).to_radians();
        let more = 6.0 * (geometry::trig::tan(half) - 1.0) - 4.26 * (half - std::f64::consts::FRAC_PI_4);
        (60.0 + more - 3.0) * geometry::trig::cos(half) - 42.0 * geometry::trig::sin(half) - 10.0
    };
    for (in_die, overbent) in [(90.0, false), (90.5, true)] {
        let (least, late) = told(in_die);
        assert!((least - by_hand(in_die)).abs() < 0.02, "{in_die}: {least} for {}", by_hand(in_die));
        assert_eq!(late, overbent);
    }
    // At 91.5 it would lie .30 in the punch: sprung past by hand, and told.
    assert!(by_hand(91.5) < 0.0);
    assert_eq!(told(91.5), (0.0, true));
    // And 4 degrees are too many.
    let far = order::find(&flat, &press(), Some(mm(24.0)), &[94.0_f64.to_radians(); 2]);
    assert!(matches!(far, Outcome::Impossible(_)));
}

/// Two hooks on one leg: the last bend of either meets the punch.
const HOOKS_MM: [f64; 5] = [90.0, 60.0, 300.0, 60.0, 90.0];

fn hooks(legs: std::ops::Range<usize>) -> FlatPattern {
    let bends: Vec<_> = (legs.start + 1..legs.end).map(|_| (90.0, UP)).collect();
    profile(&HOOKS_MM[legs], &bends, 500.0)
}

#[test]
fn everything_that_hinders_is_listed() {
    let why = why_not(&press(), &hooks(0..5));
    let bends: Vec<usize> = why.hindered.iter().map(|hindered| hindered.bend).collect();
    assert!(bends.iter().any(|bend| *bend < 2) && bends.iter().any(|bend| 2 <= *bend), "{bends:?}");
}

/// Every seam named is put in its place and both pieces are looked at for themselves.
#[test]
fn seams_that_are_named_make_it_possible() {
    let bends_at_all = |legs: std::ops::Range<usize>| {
        legs.len() < 2
            || matches!(order::find(&hooks(legs), &press(), Some(mm(24.0)), &[]), Outcome::Order(_))
    };
    let one_hook = why_not(&press(), &hooks(0..3)).seams;
    assert_eq!((one_hook.single.clone(), one_hook.pair), (vec![0, 1], None));
    assert!(one_hook.single.iter().all(|&seam| bends_at_all(0..seam + 1) && bends_at_all(seam + 1..3)));
    let both = why_not(&press(), &hooks(0..5)).seams;
    assert_eq!(both.single, Vec::<usize>::new(), "one seam leaves the other hook");
    let [first, second] = both.pair.unwrap();
    assert!(
        bends_at_all(0..first + 1) && bends_at_all(first + 1..second + 1) && bends_at_all(second + 1..5),
        "{first} and {second}"
    );
}

/// Walls that lean out all round: the flat flares of two neighbours lie over a full-length leaf on both ends.
fn flared() -> FlatPattern {
    let flared = |long: f64| {
        vec![(0.0, 0.0), (long, 0.0), (long - 6.0, 8.0), (long + 30.0, 50.0), (-30.0, 50.0), (6.0, 8.0)]
    };
    let flanges: Vec<_> =
        (0..4).map(|edge| (edge, flared(if edge % 2 == 0 { 300.0 } else { 240.0 }), 30.0)).collect();
    plate(&rectangle(300.0, 240.0), &flanges)
}

#[test]
fn a_flare_on_either_end_lies_over_the_leaf() {
    let machine = given_fingers(Some(mm(1250.0)), 100.0);
    let why = why_not(&machine, &flared());
    assert!(
        why.hindered.iter().any(|hindered| hindered.flat && hindered.body == "the leaf" && !hindered.assumed),
        "{:?}",
        why.hindered
    );
}

/// A press of which everything is given, with a straight punch 20 wide or a gooseneck.
fn given_press(profile: Profile, height_mm: f64, relief_mm: Option<f64>) -> Machine {
    let mut machine = press();
    if let Machine::Press(press) = &mut machine {
        press.punch.profile = Some(profile);
        press.punch.height = Some(mm(height_mm));
        press.punch.relief = relief_mm.map(mm);
    }
    machine
}

/// The punch in the way is told with the one that would do, and that one does: the part is bent on it, and not on one cut
/// back by a quarter of an inch less.
#[test]
fn the_gooseneck_that_would_do_is_named() {
    let flat = profile(&[70.0, 50.0, 300.0], &[(90.0, UP), (90.0, UP)], 500.0);
    let why = why_not(&given_press(Profile::Straight, 160.0, None), &flat);
    let OtherTools::Enough(tool) = why.tools else { panic!("{:?}", why.tools) };
    let relief_mm = tool.relief.unwrap().millimetres();
    let bends = |relief_mm: f64| {
        let machine = given_press(Profile::Gooseneck, 160.0, Some(relief_mm));
        matches!(order::find(&flat, &machine, Some(mm(24.0)), &[]), Outcome::Order(order) if order.with_assumed().is_empty())
    };
    assert!(tool.height.is_none() && tool.daylight.is_none());
    assert!(tool.past_assumed || bends(relief_mm), "{tool:?}");
    assert!(!bends(relief_mm - 6.35), "{tool:?}");
    let shallow = why_not(&given_press(Profile::Gooseneck, 160.0, Some(8.0)), &flat);
    assert_eq!(shallow.tools, why.tools, "a gooseneck that is cut back too little is in the way as well");
}

#[test]
fn what_no_punch_clears_says_so_and_a_leaf_is_not_given_one() {
    let why = why_not(&press(), &profile(&[900.0, 60.0, 300.0, 60.0, 900.0], &[(90.0, UP); 4], 500.0));
    let OtherTools::NoneFound(tried) = why.tools else { panic!("{:?}", why.tools) };
    assert!(tried.gooseneck && tried.taller_punch && !tried.throat, "{tried:?}");
    let machine = given_fingers(Some(mm(1250.0)), 100.0);
    assert_eq!(why_not(&machine, &flared()).tools, OtherTools::NotTried);
}
