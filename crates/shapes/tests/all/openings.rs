//! Openings of three to eight sides, and what is said of figures that are not convex.
//!
//! Lengths of the test figures are worked from their corners by √(x² + y²) here, and never by the solver.

use crate::common::{inches, making};
use geometry::Point;
use proptest::prelude::*;
use shapes::not_convex;
use shapes::opening::{Sense, TapedSides, by_corners};
use units::{Length, LengthStyle};

const TAPE: LengthStyle = LengthStyle::Inches { places: 3 };

/// A hatch with six corners, in inches: our own invention.
const HATCH: [(f64, f64); 6] =
    [(0.0, 0.0), (22.0, 0.0), (30.0, 9.0), (27.0, 20.0), (12.0, 24.0), (-3.0, 14.0)];

fn points(corners: &[(f64, f64)]) -> Vec<Point> {
    corners.iter().map(|&(x, y)| Point::new(25.4 * x, 25.4 * y)).collect()
}

fn names(count: usize) -> Vec<String> {
    "ABCDEFGH".chars().take(count).map(String::from).collect()
}

/// Sides and these diagonals of corners, as a tape without divisions reads them.
fn taped(corners: &[(f64, f64)], diagonals: &[[usize; 2]]) -> TapedSides {
    let corners = points(corners);
    let between = |a: usize, b: usize| {
        let (dx, dy) = (corners[a].x - corners[b].x, corners[a].y - corners[b].y);
        Length::from_millimetres((dx * dx + dy * dy).sqrt())
    };
    TapedSides {
        sides: (0..corners.len()).map(|i| between(i, (i + 1) % corners.len())).collect(),
        diagonals: diagonals.iter().map(|&[a, b]| ([a, b], between(a, b))).collect(),
        sense: Sense::CounterClockwise,
        tape: inches("1/16"),
    }
}

/// How far corners of the solved opening lie from where they were, mm.
fn worst_mm(found: &[Point], corners: &[(f64, f64)]) -> f64 {
    found.iter().zip(points(corners)).map(|(a, b)| a.distance(b)).fold(0.0, f64::max)
}

#[test]
fn six_sides_and_the_diagonals_from_any_one_corner_give_the_figure_back() {
    for from in 0..6 {
        let spokes: Vec<[usize; 2]> = (2..5).map(|step| [from, (from + step) % 6]).collect();
        let opening = taped(&HATCH, &spokes).solve(TAPE).unwrap();
        assert!(worst_mm(&opening.figure.corners, &HATCH) < 1e-4, "from {from}");
        assert_eq!(opening.figure.sides, ["AB", "BC", "CD", "DE", "EF", "FA"]);
        assert!(opening.check.is_none());
    }
}

/// Which diagonals were taped, which only worked out: the list says so of each.
#[test]
fn a_diagonal_is_said_to_be_measured_or_worked_out() {
    let origin = |opening: &shapes::opening::Opening, name: &str| {
        opening.facts().into_iter().find(|fact| fact.name == name).unwrap().origin
    };
    let opening = taped(&HATCH, &[[0, 2], [0, 3], [0, 4], [1, 4]]).solve(TAPE).unwrap();
    for name in ["diagonal AC", "diagonal AD", "diagonal AE"] {
        assert_eq!(origin(&opening, name), "measured: the figure goes by it");
    }
    let checked = origin(&opening, "diagonal BE");
    assert!(checked.ends_with("it was measured too, as the check"), "{checked}");
    for name in ["diagonal BD", "diagonal CF"] {
        let origin = origin(&opening, name);
        assert!(origin.starts_with("worked out") && origin.ends_with("not measured itself"), "{origin}");
    }
    let by_corners = by_corners(&points(&HATCH), TAPE).unwrap();
    assert_eq!(origin(&by_corners, "diagonal AC"), "worked out from the corners as given");
    // Four sides: AC is trusted, BD is the check.
    let side = |text: &str| inches(text);
    let four = |bd: Option<&str>| shapes::opening::MeasuredOpening {
        sides: ["30", "40", "30", "40"].map(side),
        ac: Some(side("50")),
        bd: bd.map(side),
        trust: None,
        sense: Sense::CounterClockwise,
        tape: inches("1/16"),
    };
    let both = four(Some("50")).solve(TAPE).unwrap();
    assert_eq!(origin(&both, "diagonal AC"), "measured: the figure goes by it");
    assert!(origin(&both, "diagonal BD").ends_with("as the check"));
    assert!(origin(&four(None).solve(TAPE).unwrap(), "diagonal BD").ends_with("not measured itself"));
}

#[test]
fn corners_run_clockwise_are_the_mirror_image() {
    let taped = TapedSides { sense: Sense::Clockwise, ..taped(&HATCH, &[[0, 2], [0, 3], [0, 4]]) };
    let figure = taped.solve(TAPE).unwrap().figure;
    let at = |name: &str| figure.corners[figure.names.iter().position(|own| own == name).unwrap()];
    for (name, (x, y)) in ["A", "B", "C", "D", "E", "F"].iter().zip(HATCH) {
        assert!(at(name).distance(Point::new(25.4 * (22.0 - x), 25.4 * y)) < 1e-4, "{name}");
    }
}

#[test]
fn a_triangle_needs_no_diagonal() {
    let corners = [(0.0, 0.0), (9.0, 0.0), (0.0, 12.0)];
    let opening = taped(&corners, &[]).solve(TAPE).unwrap();
    assert!(worst_mm(&opening.figure.corners, &corners) < 1e-4);
    assert!((opening.figure.side_mm(1) / 25.4 - 15.0).abs() < 1e-6, "9, 12 and 15");
}

#[test]
fn too_few_diagonals_are_told_which() {
    for diagonals in [vec![], vec![[0, 2], [0, 3]], vec![[0, 2], [1, 3], [2, 4]]] {
        let problems = taped(&HATCH, &diagonals).solve(TAPE).unwrap_err();
        assert_eq!(problems[0].field, "diagonals");
        assert!(problems[0].wrong.contains("3 diagonals from one and the same corner"), "{}", problems[0]);
        assert!(problems[0].remedy.contains("AC, AD, AE"), "{}", problems[0]);
    }
}

#[test]
fn a_further_diagonal_is_a_check_within_what_the_tape_explains() {
    let off = |sixteenths: i32| {
        let mut taped = taped(&HATCH, &[[0, 2], [0, 3], [0, 4], [1, 4]]);
        taped.diagonals[3].1 += Length::from_inches(f64::from(sixteenths) / 16.0);
        taped.solve(TAPE)
    };
    let close = off(1).unwrap().check.unwrap();
    assert_eq!((close.diagonal.as_str(), close.others, close.explained()), ("BE", 9, true));
    assert!((close.off().inches() - 0.0625).abs() < 1e-6);
    // Ten readings, each good to half a sixteenth, at slopes of about one: some .2 in, and never 1 in.
    assert!(close.allowed < Length::from_inches(0.6), "{:?}", close.allowed);
    let problems = off(16).unwrap_err();
    assert_eq!((problems.len(), problems[0].field.as_str()), (1, "diagonals.BE"));
    assert!(problems[0].wrong.contains("the other nine numbers give"), "{}", problems[0]);
    assert!(problems[0].remedy.contains("all ten agree if one alone reads"), "{}", problems[0]);
}

#[test]
fn a_misread_side_makes_no_triangle() {
    let mut taped = taped(&HATCH, &[[0, 2], [0, 3], [0, 4]]);
    taped.sides[3] = Length::from_inches(70.0);
    let problems = taped.solve(TAPE).unwrap_err();
    assert_eq!(problems[0].field, "sides.DE");
    assert!(problems[0].wrong.starts_with("AD, DE and AE make no triangle"), "{}", problems[0]);
}

proptest! {
    // Corners on an ellipse are convex whatever their places are.
    #[test]
    fn random_openings_come_back_from_their_lengths(
        count in 3_usize..9,
        from in 0_usize..8,
        wobble in prop::collection::vec(-0.3_f64..0.3, 8),
        (long, wide) in (10.0_f64..60.0, 10.0_f64..60.0),
    ) {
        let turn = 2.0 * std::f64::consts::PI / count as f64;
        let corners: Vec<(f64, f64)> = (0..count)
            .map(|i| {
                let at = turn * (i as f64 + wobble[i]);
                (long * geometry::trig::cos(at), wide * geometry::trig::sin(at))
            })
            .collect();
        let from = from % count;
        let mut lines: Vec<[usize; 2]> = (2..count - 1).map(|step| [from, (from + step) % count]).collect();
        let further = [(from + 1) % count, (from + 3) % count];
        if count > 4 {
            lines.push(further);
        }
        let opening = taped(&corners, &lines).solve(TAPE).unwrap();
        let figure = &opening.figure;
        let points = points(&corners);
        for a in 0..count {
            for b in 0..count {
                let (found, given) =
                    (figure.corners[a].distance(figure.corners[b]), points[a].distance(points[b]));
                prop_assert!((found - given).abs() < 0.01, "{a} {b}: {found} {given}");
            }
        }
        prop_assert!(opening.check.is_none_or(|check| check.explained()));
    }
}

#[test]
fn an_inside_corner_is_named_with_its_angle_and_the_split() {
    // A square notch at D: from D a line to A leaves two openings without an inside corner.
    let corners = points(&[(0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (8.0, 10.0), (8.0, 18.0), (0.0, 18.0)]);
    let fault = not_convex(&corners, &names(6), TAPE).unwrap();
    assert!(!fault.crosses);
    assert_eq!(fault.wrong, "has an inside corner: D, where the inside angle is 270.0°");
    // √(8² + 10²) = 12.806.
    assert!(fault.remedy.contains("split it by the line from D to A, 12.806 long"), "{}", fault.remedy);
    // The same run the other way round.
    let (mut turned, mut letters) = (corners.clone(), names(6));
    turned.reverse();
    letters.reverse();
    assert_eq!(not_convex(&turned, &letters, TAPE), Some(fault.clone()));
    let problem = by_corners(&corners, TAPE).unwrap_err().remove(0);
    assert_eq!((problem.field, problem.wrong), ("outline".to_owned(), fault.wrong));
}

#[test]
fn a_split_runs_to_a_side_where_no_corner_can_be_reached() {
    // A dovetail slot whose sides open downward: no corner lies between the two sides at D carried on.
    let corners = points(&[(0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (16.0, 6.0), (14.0, 6.0), (0.0, 20.0)]);
    let fault = not_convex(&corners, &names(6), TAPE).unwrap();
    assert_eq!(
        fault.wrong,
        "has inside corners: D, where the inside angle is 225.0°; E, where the inside angle is 225.0°"
    );
    assert!(fault.remedy.contains("then look again"), "{}", fault.remedy);
    let wedge =
        points(&[(0.0, 0.0), (10.0, 0.0), (10.0, 1.0), (5.0, 5.0), (20.0, 8.0), (20.0, 9.0), (0.0, 9.0)]);
    let fault = not_convex(&wedge, &names(7), TAPE).unwrap();
    assert!(fault.remedy.contains("from D "), "{}", fault.remedy);
}

#[test]
fn a_figure_that_crosses_itself_is_told_apart_from_one_with_an_inside_corner() {
    let bow = points(&[(0.0, 0.0), (20.0, 0.0), (2.0, 10.0), (20.0, 12.0)]);
    let fault = not_convex(&bow, &names(4), TAPE).unwrap();
    assert!(fault.crosses);
    assert!(fault.wrong.starts_with("crosses itself: side "), "{}", fault.wrong);
    assert!(fault.wrong.contains("BC") && fault.wrong.contains("DA"), "{}", fault.wrong);
}

#[test]
fn a_corner_on_a_straight_line_is_none() {
    let corners = points(&[(0.0, 0.0), (10.0, 0.0), (20.0, 0.0), (20.0, 10.0), (0.0, 10.0)]);
    let fault = not_convex(&corners, &names(5), TAPE).unwrap();
    assert_eq!(fault.wrong, "has a corner B on the straight line from A to C");
    assert!(not_convex(&points(&HATCH), &names(6), TAPE).is_none());
}

/// A lid over the six-cornered hatch unfolds, refolds, and its slopes are those of its six insets.
#[test]
fn a_lid_over_six_corners_has_six_slopes() {
    let making = making(".125", ".125", 0.42);
    let over = taped(&HATCH, &[[0, 2], [0, 3], [0, 4]]).solve(TAPE).unwrap().figure;
    let lid = shapes::tapered_lid::TaperedLid {
        over,
        outset: inches("3/4"),
        rise: inches("2"),
        inset: ["3", "2", "2 1/2", "3 1/2", "2", "4"].map(inches).to_vec(),
        skirt: inches("1"),
        return_width: None,
    };
    let shaped = lid.shape(&making).unwrap();
    assert_eq!(shaped.part.bends.len(), 12);
    let flat = shaped.unfold().unwrap();
    let proof = fold::refold::prove(&shaped.part, &flat).unwrap();
    assert!(proof.worst_mm < 0.02, "{}", proof.worst_mm);
}
