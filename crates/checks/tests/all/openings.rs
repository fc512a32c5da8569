//! Openings with small sides: chamfers that the clearance takes whole, and notches.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on stops there")]

use crate::common::{inches, making};
use checks::fit::level::{LevelLift, PlanTurns, Way};
use checks::fit::together::Together;
use checks::fit::{Answer, Body};
use geometry::Point;
use shapes::edge::EdgeEnd;
use shapes::pan::{Pan, PanPlan, Rim};
use shapes::{Clearance, Figure, Recipe};
use units::LengthStyle;

const STYLE: LengthStyle = LengthStyle::Inches { places: 3 };

/// A plumb pan without a rim, 4 high, inches.
fn pan(length: &str, width: &str) -> Body {
    let plan = PanPlan::Outside { length: inches(length), width: inches(width) };
    let (rims, lean, edge) = (vec![Rim::None], Vec::new(), EdgeEnd::Plain);
    let pan = Pan { plan, height: inches("4"), rims, lean, edge };
    let part = pan.shape_piece(0, &making()).unwrap().part;
    Body::of(&part, &fold::flat::unfold(&part).unwrap(), false)
}

fn figure(corners: &[(f64, f64)]) -> Figure {
    let corners: Vec<Point> = corners.iter().map(|(x, y)| Point::new(x * 25.4, y * 25.4)).collect();
    Figure::lettered(&corners).unwrap()
}

fn lifted(part: &Body, opening: &Figure, clearance: &str) -> Answer {
    let clearance = Clearance::single("gap", inches(clearance));
    let lift = LevelLift { opening: opening.clone(), clearance, way: Way::Up, turns: PlanTurns::AsDrawn };
    lift.judge("P", part, STYLE)
}

/// 40 × 30 with a notch in its long side, `wide` × 2.
fn notched(wide: f64) -> Figure {
    let (from, to) = (21.0 - 0.5 * wide, 21.0 + 0.5 * wide);
    figure(&[
        (0.0, 0.0),
        (40.0, 0.0),
        (40.0, 30.0),
        (to, 30.0),
        (to, 28.0),
        (from, 28.0),
        (from, 30.0),
        (0.0, 30.0),
    ])
}

/// 40 × 30 with one corner cut off, `off` on either side.
fn chamfered(off: f64) -> Figure {
    figure(&[(off, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0), (0.0, off)])
}

/// Under the notch 28 are left: a part 27 3/4 across passes with 1/8 a side, one 27 7/8 does not. The notch is closed up by sides
/// moved out by 1 and more, whatever its width.
#[test]
fn a_part_goes_under_a_notch() {
    for wide in [2.0, 6.0, 12.0] {
        let opening = notched(wide);
        assert!(lifted(&pan("6", "4"), &opening, "1/8").fits);
        assert!(lifted(&pan("36", "27 3/4"), &opening, "1/8").fits);
        let answer = lifted(&pan("36", "27 7/8"), &opening, "1/8");
        assert!(
            !answer.fits && answer.sentence.contains(".063 too far out at side 5–6"),
            "{}",
            answer.sentence
        );
    }
}

/// Beside a notch the metal that stands out past one side is not counted against others: 31 across stand 1/2 past 1–2 and past
/// 30 in the middle, and no piece stands past a side of the notch by more than the notch is large.
#[test]
fn what_stands_out_is_told_at_the_sides_it_stands_past() {
    let answer = lifted(&pan("37", "31"), &notched(2.0), "0");
    let over: Vec<f64> = answer
        .sentence
        .split(" stands ")
        .skip(1)
        .map(|words| words.split(' ').next().unwrap().parse().unwrap())
        .collect();
    assert!(!answer.fits && !over.is_empty(), "{}", answer.sentence);
    assert!(over.iter().all(|over| *over < 2.6), "{}", answer.sentence);
}

/// The chamfer of 1/16 lies wholly inside the clearance of 1/4: what is left is the rectangle 39 1/2 × 29 1/2.
#[test]
fn a_chamfer_smaller_than_the_clearance_leaves_the_rectangle() {
    let opening = chamfered(1.0 / 16.0);
    assert!(lifted(&pan("39 1/2", "29 1/2"), &opening, "1/4").fits);
    let answer = lifted(&pan("39 9/16", "29 1/2"), &opening, "1/4");
    assert!(!answer.fits && answer.sentence.contains(".031 too far out"), "{}", answer.sentence);
    let clearance = Clearance::single("gap", inches("1/4"));
    let together = |length: &str| {
        let space = opening.clone();
        let together = Together { space, height: None, clearance: clearance.clone(), may_turn: false };
        together.judge(["P", "Q"], [&pan(length, "29 1/2"), &pan("19 5/8", "29 1/2")], STYLE)
    };
    // 19 5/8 twice and three gaps of 1/4 are 40.
    assert!(together("19 5/8").fits);
    assert!(!together("19 11/16").fits);
}
