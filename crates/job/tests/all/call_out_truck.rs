//! The call-out truck's drawers: every size of the job worked by hand.
//!
//! Check values by hand from the inputs, K .42, thickness and inside radius 1.5: a square bend takes
//! 2·(1.5 + 1.5) − π/2·(1.5 + .42·1.5) = 2.654; a blank is 560 + 2·height + 2·10 of rim to the mold line − 4·2.654
//! across and 700 + 2·height − 2·2.654 deep.

use std::f64::consts::FRAC_PI_2;

use crate::common::{demo, flat, part};
use fold::{Direction, FlatPattern};
use shapes::FaceSide;

#[test]
fn a_square_bend_takes_two_and_two_thirds() {
    let job = demo("call-out-truck.json");
    assert!((job.metals[0].number.deduction_mm(FRAC_PI_2) - 2.654).abs() < 0.0005);
}

#[test]
fn the_nine_drawers_have_their_blanks() {
    let job = demo("call-out-truck.json");
    let blanks = [
        ("D560-90", 1, 749.4, 874.7),
        ("D560-140", 1, 849.4, 974.7),
        ("D560-220", 1, 1009.4, 1134.7),
        ("D270-90", 2, 459.4, 874.7),
        ("D270-140", 2, 559.4, 974.7),
        ("D270-220", 2, 719.4, 1134.7),
    ];
    for (mark, quantity, across, deep) in blanks {
        let drawer = part(&job, mark);
        assert_eq!(drawer.quantity, quantity, "{mark}");
        let (x, y) = flat(drawer).extents_mm();
        assert!((x - deep).abs() < 0.05 && (y - across).abs() < 0.05, "{mark}: {y} × {x}");
    }
    assert_eq!(blanks.iter().map(|row| row.1).sum::<u32>(), 9);
}

#[test]
fn the_film_is_outside_and_only_the_long_sides_have_a_rim() {
    let job = demo("call-out-truck.json");
    for drawer in job.parts.iter().filter(|part| part.mark.starts_with('D')) {
        assert_eq!(drawer.face, Some(FaceSide::Outside));
        let flat = flat(drawer);
        let ways: Vec<Direction> = flat.bends.iter().map(|bend| bend.direction).collect();
        // Seen from the film: four walls go down, away from it; two rims come back up.
        assert_eq!(ways.iter().filter(|&&way| way == Direction::Down).count(), 4, "{}", drawer.mark);
        assert_eq!(ways.iter().filter(|&&way| way == Direction::Up).count(), 2, "{}", drawer.mark);
        let rims =
            flat.faces.iter().filter(|face| face.name.starts_with("rim")).map(|face| face.name.as_str());
        assert_eq!(rims.collect::<Vec<_>>(), ["rim AB", "rim CD"]);
    }
}

#[test]
fn two_small_drawers_and_a_middle_runner_fill_a_large_bay_and_the_door_takes_586_of_588() {
    let job = demo("call-out-truck.json");
    let front = |mark| {
        let shaped = part(&job, mark).shape().unwrap();
        let fact = shaped.facts.iter().find(|fact| fact.name == "floor, outside, BC").cloned().unwrap();
        let shapes::FactValue::Length(length) = fact.value else { panic!("not a length") };
        length.millimetres()
    };
    assert!((2.0 * front("D270-90") + 20.0 - front("D560-90")).abs() < 1e-6);
    // Runners of 13 a side: 586 of a clear 588; with the door on its hinge at 88°, 9 less, it does not pass.
    let over_runners = front("D560-90") + 2.0 * 13.0;
    assert!(over_runners <= 588.0 && over_runners > 588.0 - 9.0);
}

#[test]
fn the_carcass_sides_are_opposite_hands_with_fifteen_holes_on_one_datum() {
    let job = demo("call-out-truck.json");
    let (right, left) = (part(&job, "CS-R"), part(&job, "CS-L"));
    assert_eq!(left.opposite_hand_of.as_deref(), Some("CS-R"));
    let (left, right) = (flat(left), flat(right));
    let (x, y) = left.extents_mm();
    assert!((x - 1040.0).abs() < 1e-6 && (y - 720.0).abs() < 1e-6);
    let centres = |flat: &FlatPattern| -> Vec<(f64, f64)> {
        let middle = |hole: &geometry::Contour| {
            let (low, high) = hole.bounds();
            (f64::midpoint(low.x, high.x), f64::midpoint(low.y, high.y))
        };
        flat.outline.holes.iter().map(middle).collect()
    };
    assert_eq!(centres(&left).len(), 15);
    for ((own_x, own_y), (other_x, other_y)) in centres(&left).into_iter().zip(centres(&right)) {
        assert!((own_x - (1040.0 - other_x)).abs() < 1e-6 && (own_y - other_y).abs() < 1e-6);
    }
    // Rows every 200 from 60, three holes across at 50, 360 and 670, all from the lower front corner.
    let rows: Vec<f64> = centres(&right).iter().map(|centre| centre.0).collect();
    for (number, row) in rows.iter().enumerate() {
        let expected = 60.0 + 200.0 * f64::from(u32::try_from(number / 3).unwrap());
        assert!((row - expected).abs() < 1e-6, "{number}: {row}");
    }
}
