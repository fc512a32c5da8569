//! Orders for lids with many bends: too many ways to prove that one is the best, and still one is found.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making};
use fold::order::{self, BendOrder, Outcome};
use geometry::Point;
use shapes::Figure;
use shapes::tapered_lid::TaperedLid;
use stock::brake::{Machine, PressBrake};

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
