//! Faces bumped in strikes are swept past the machine strike by strike, in their row.

#![allow(clippy::unwrap_used, reason = "a test may stop at a part that cannot be made")]

use std::f64::consts::FRAC_PI_4;

use fold::flat::unfold;
use fold::order::{self, BendOrder, Outcome};
use fold::part::Forming;
use fold::{Direction, FlatPattern};
use geometry::polygon;

use crate::bend_order::{mm, press, profile, profile_part};

const UP: Direction = Direction::Up;

/// Two legs and between them one round, bumped in so many strikes.
fn bumped(legs_mm: [f64; 2], (degrees, radius_mm): (f64, f64), strikes: u32) -> FlatPattern {
    let mut part = profile_part(&legs_mm, &[(degrees.min(90.0), UP)], 500.0);
    part.bends[0].turn_rad = degrees.to_radians();
    part.bends[0].inside_radius_mm = radius_mm;
    part.bends[0].legs_to = fold::part::LegsTo::OutermostMetal;
    part.bends[0].forming = Forming::Bumped(strikes);
    unfold(&part).unwrap()
}

/// A full round of flats, a strike between each two, its seam in the middle of one.
fn ring(flat_mm: f64, strikes: usize) -> FlatPattern {
    let mut legs = vec![flat_mm; strikes + 1];
    (legs[0], legs[strikes]) = (0.5 * flat_mm, 0.5 * flat_mm);
    let each = 360.0 / f64::from(u32::try_from(strikes).unwrap());
    let mut flat = profile(&legs, &vec![(each, UP); strikes], 300.0);
    flat.bends.iter_mut().for_each(|bend| bend.forming = Forming::Bumped(1));
    flat
}

fn found(flat: &FlatPattern) -> Outcome {
    order::find(flat, &press(), Some(mm(24.0)), &[])
}

fn clear_order(flat: &FlatPattern) -> BendOrder {
    match found(flat) {
        Outcome::Order(order) if order.with_assumed().is_empty() => order,
        other => panic!("{other:?}"),
    }
}

/// Which strikes are made, one after the other, and drawn closed by hand at the end.
fn strokes(order: &BendOrder) -> (Vec<usize>, Vec<usize>) {
    let of = |by_hand: bool| {
        let steps = order.steps.iter().filter(|step| step.by_hand == by_hand);
        steps.flat_map(|step| step.bends.iter().copied()).collect::<Vec<_>>()
    };
    (of(false), of(true))
}

#[test]
fn every_strike_is_a_bend_where_it_is_marked_and_no_metal_is_lost() {
    let flat = bumped([200.0, 150.0], (90.0, 80.0), 9);
    let struck = flat.struck().unwrap();
    assert_eq!((struck.bends.len(), struck.faces.len()), (9, 10));
    let marks = flat.bends[0].marks(flat.thickness_mm);
    for (number, bend) in struck.bends.iter().enumerate() {
        let strike = flat.strike_of(number).unwrap();
        assert_eq!((strike.bend, strike.of), (0, 9));
        assert_eq!((bend.from, bend.to), marks[strike.number - 1]);
        assert!((bend.turn_rad - 10.0_f64.to_radians()).abs() < 1e-9);
    }
    let of = |flat: &FlatPattern| -> f64 {
        let rings = flat.faces.iter().map(|face| &face.corners).chain(&flat.zones);
        rings.map(|ring| polygon::signed_area(ring)).sum()
    };
    assert!((of(&flat) - of(&struck)).abs() < 1e-6, "{} and {}", of(&flat), of(&struck));
    assert_eq!(flat.strike_of(9), None);
    assert_eq!(bumped([200.0, 150.0], (90.0, 80.0), 1).struck(), None);
    assert_eq!(bumped([200.0, 150.0], (90.0, 80.0), 64).struck(), None, "more than orders are tried with");
}

/// With the flat leg at the stop, that moves on by one pitch at each strike.
#[test]
fn a_round_is_struck_from_one_end_on_with_a_stop_that_moves_by_a_pitch() {
    let flat = bumped([200.0, 150.0], (90.0, 80.0), 9);
    let struck = flat.struck().unwrap();
    let order = clear_order(&struck);
    let (made, by_hand) = strokes(&order);
    let numbers: Vec<usize> = made.iter().map(|&bend| flat.strike_of(bend).unwrap().number).collect();
    let forward: Vec<usize> = (1..=9).collect();
    let backward: Vec<usize> = forward.iter().rev().copied().collect();
    assert!(numbers == forward || numbers == backward, "{numbers:?}");
    assert!(by_hand.is_empty() && order.turn_overs == 0 && order.turn_rounds == 0);
    let stops: Vec<f64> = order.steps.iter().map(|step| step.stop.unwrap().distance.millimetres()).collect();
    let pitch_mm = flat.bends[0].zone_mm / 9.0;
    assert!(stops.windows(2).all(|pair| ((pair[0] - pair[1]).abs() - pitch_mm).abs() < 0.001), "{stops:?}");
}

/// Legs of 400 that come back over one another 80 apart shut in a punch of 100 and the ram over it.
#[test]
fn a_round_that_swings_into_the_machine_is_not_let_pass() {
    let flat = bumped([400.0, 400.0], (180.0, 40.0), 6);
    let unstruck = clear_order(&flat);
    assert!(unstruck.steps[0].tooling.is_none(), "not tried");
    let free =
        matches!(found(&flat.struck().unwrap()), Outcome::Order(order) if order.with_assumed().is_empty());
    assert!(!free);
}

/// A round of eighteen flats closes about the punch: it is struck from both ends toward the middle, and the last lines are
/// drawn closed by hand, an eighth of a turn at the most.
#[test]
fn a_full_round_is_struck_from_both_ends_and_drawn_closed() {
    let flat = ring(60.0, 18);
    let order = clear_order(&flat);
    let (made, by_hand) = strokes(&order);
    assert_eq!(made.len() + by_hand.len(), 18);
    let left: f64 = by_hand.iter().map(|&bend| flat.bends[bend].turn_rad).sum();
    assert!(!by_hand.is_empty() && left <= FRAC_PI_4 + 1e-9, "{by_hand:?}");
    assert!(order.steps.last().unwrap().by_hand && order.turn_rounds == 1);
    // From either end on, without a gap.
    for count in 1..=made.len() {
        let done = &made[..count];
        let first = (0..18).take_while(|bend| done.contains(bend)).count();
        let last = (0..18).rev().take_while(|bend| done.contains(bend)).count();
        assert_eq!(first + last, count, "{made:?}");
    }
}

/// A round no wider than the punch is thick cannot be struck at all.
#[test]
fn a_small_round_is_not_drawn_closed_from_half_open() {
    let flat = ring(8.0, 18);
    let free = matches!(found(&flat), Outcome::Order(order) if order.with_assumed().is_empty());
    assert!(!free);
}

/// A row that is begun is gone on with: no other bend comes between two of its strikes.
#[test]
fn nothing_comes_between_the_strikes_of_a_row() {
    let mut flat = ring(60.0, 9);
    for bend in [0, 8] {
        flat.bends[bend].forming = Forming::Brake;
    }
    for bend in &mut flat.bends {
        bend.turn_rad = 10.0_f64.to_radians();
    }
    let (made, _) = strokes(&clear_order(&flat));
    let places: Vec<usize> = (0..9).filter(|&place| (1..8).contains(&made[place])).collect();
    assert!(places.windows(2).all(|pair| pair[1] == pair[0] + 1), "{made:?}");
}
