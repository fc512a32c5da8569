//! A transition worked by triangulation as sheet-metal pattern textbooks teach it (the method from memory, the numbers worked
//! here): every line's true length from a right triangle of its plan length and the height, every triangle laid out from its
//! three sides with compasses. Nothing here asks the shape's own geometry.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use crate::common::{inches, making, value};
use geometry::{Point, trig};
use shapes::Recipe;
use shapes::transition::{MadeOf, Transition};
use shapes::wrap::WrapSeam;

/// A rectangle of 12 × 10 to a round of 8, 6 high, three divisions a quarter; inches.
fn worked() -> Transition {
    Transition {
        rectangle: [inches("12"), inches("10")],
        round: inches("8"),
        height: inches("6"),
        offset: [inches("0"), inches("0")],
        divisions: 3,
        made_of: MadeOf::One,
        seam: WrapSeam::Butt,
    }
}

/// Corner B lies 6 across and 5 down from the middle, the round's divisions at 30°, radius 4. Plan lengths from B:
///
/// | to | across | up | plan² | + 36 | true length |
/// |---|---|---|---|---|---|
/// | 0 | 6 | 5 − 4 = 1 | 37 | 73 | 8.5440 |
/// | 1 | 6 − 2 = 4 | 5 − 3.4641 = 1.5359 | 18.3590 | 54.3590 | 7.3729 |
/// | 2 | 6 − 3.4641 = 2.5359 | 5 − 2 = 3 | 15.4308 | 51.4308 | 7.1715 |
/// | 3 | 6 − 4 = 2 | 5 | 29 | 65 | 8.0623 |
const FROM_CORNER: [f64; 4] = [8.5440, 7.3729, 7.1715, 8.0623];

/// 2 · 4 · sin 15°.
const DIVISION: f64 = 2.0706;

/// Down the middle of AB: 5 − 4 in plan, √(1 + 36).
const SEAM: f64 = 6.0828;

/// The third corner of a triangle over a line walked from its first end to its second, on the right, by its distances from both.
fn swung(first: Point, second: Point, from_first: f64, from_second: f64) -> Point {
    let base = first.distance(second);
    let along = (from_first * from_first - from_second * from_second + base * base) / (2.0 * base);
    let across = (from_first * from_first - along * along).sqrt();
    let way = (second - first).unit();
    first + way * along + way.right() * across
}

/// The places 0 to 12 of the round on the blank, laid out triangle by triangle from the seam on AB once round to it.
fn laid_out() -> Vec<Point> {
    let (middle, mut corner) = (Point::new(0.0, 0.0), Point::new(6.0, 0.0));
    // The line down the middle of AB stands square to it: 6² + 6.0828² = 8.5440².
    let mut round = vec![middle + geometry::Vector::new(0.0, SEAM)];
    for number in 0..4 {
        // Of every second corner the short side comes first, and its lines run the other way round.
        let lines: Vec<f64> =
            if number % 2 == 0 { FROM_CORNER.to_vec() } else { FROM_CORNER.iter().rev().copied().collect() };
        for to_next in &lines[1..] {
            let last = *round.last().unwrap();
            // Seen from the corner the round runs clockwise.
            round.push(swung(corner, last, *to_next, DIVISION));
        }
        let side = if number % 2 == 0 { 10.0 } else { 12.0 };
        let apex = *round.last().unwrap();
        corner = swung(corner, apex, side, lines[3]);
    }
    round
}

#[test]
fn true_lengths_are_those_of_right_triangles() {
    let facts = worked().shape_piece(0, &making(".050", ".050", 0.42)).unwrap().facts;
    for (corner, first) in [("B", 0), ("D", 6)] {
        for (step, length) in FROM_CORNER.iter().enumerate() {
            let told = value(&facts, &format!("{corner} to {}", first + step));
            assert!((told - length).abs() < 5e-5, "{corner} to {}: {told} {length}", first + step);
        }
    }
    for (corner, first) in [("C", 3), ("A", 9)] {
        for (step, length) in FROM_CORNER.iter().rev().enumerate() {
            let told = value(&facts, &format!("{corner} to {}", (first + step) % 12));
            assert!((told - length).abs() < 5e-5, "{corner} to {}: {told} {length}", first + step);
        }
    }
    assert!((value(&facts, "between divisions of the round") - DIVISION).abs() < 5e-5);
    assert!((value(&facts, "seam on AB") - SEAM).abs() < 5e-5);
}

/// Textbooks lay out paper, without thickness: in foil of .001 the flat is that blank. In sheet of .050 every bend takes its
/// deduction, θ·(T − K·T) at the slight turns here, and the blank is narrower by their sum at most.
#[test]
fn the_blank_is_the_one_laid_out_with_compasses() {
    let round = laid_out();
    let ends = |thickness: &str| -> Vec<Point> {
        let flat = worked().shape_piece(0, &making(thickness, thickness, 0.42)).unwrap().unfold().unwrap();
        assert_eq!(flat.bends.len(), 16);
        // The bends from every corner: 0 to 3 from B, 3 to 6 from C, and so on; each ends on the round nearer the rest of it.
        let end = |number: usize| {
            let bend = &flat.bends[number];
            let next = &flat.bends[if number % 4 == 3 { number - 1 } else { number + 1 }];
            let apart = |at: Point| at.distance(next.from).min(at.distance(next.to));
            // At the corner the lines lie nearer to one another than at the round, but for what is cut away.
            if apart(bend.from) < apart(bend.to) { bend.to } else { bend.from }
        };
        (0..16).map(end).map(|at| Point::new(at.x / 25.4, at.y / 25.4)).collect()
    };
    for (thickness, within) in [(".001", 0.004), (".050", 0.2)] {
        let ends = ends(thickness);
        for (one, other) in [(0, 15), (0, 7), (3, 12), (1, 9), (5, 15), (2, 13)] {
            let place = |bend: usize| round[3 * (bend / 4) + bend % 4];
            let (told, by_hand) = (ends[one].distance(ends[other]), place(one).distance(place(other)));
            assert!((told - by_hand).abs() < within, "{thickness}: {one} to {other}: {told} {by_hand}");
        }
    }
}

/// Four quarters of three triangles, by Heron's formula, and the four of the sides by base and height: 6.7368, 7.4167 and 7.0526
/// a quarter, 36.4966 on AB and on CD, 31.6228 on BC and on DA.
#[test]
fn the_blank_is_as_large_as_its_triangles() {
    let heron = |a: f64, b: f64, c: f64| {
        let half = 0.5 * (a + b + c);
        (half * (half - a) * (half - b) * (half - c)).sqrt()
    };
    let fan: f64 = FROM_CORNER.windows(2).map(|pair| heron(pair[0], pair[1], DIVISION)).sum();
    let sides = 12.0 * SEAM + 10.0 * trig::cos(trig::asin(5.0 / FROM_CORNER[3])) * FROM_CORNER[3];
    let flat = worked().shape_piece(0, &making(".001", ".001", 0.42)).unwrap().unfold().unwrap();
    let cut = flat.outline.area_mm2() / (25.4 * 25.4);
    assert!((cut - (4.0 * fan + sides)).abs() < 0.05, "{cut} {}", 4.0 * fan + sides);
}
