//! The verifier: boundaries both ways, and random damage that is always found.

#![expect(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use geometry::grid::{GridOutline, GridPoint, Turn};
use nest::clear;
use nest::verify::keeps_gap;
use nest::{
    Effort, Fault, Mirror, Nest, Part, Placement, Problem, Rules, Sheet, Stock, StockShape, Turns, compare,
    verify,
};

/// What the search asks and what the judge asks; they must not differ.
fn apart(first: &GridOutline, second: &GridOutline, gap: i64) -> bool {
    let judged = keeps_gap(first, second, gap);
    assert_eq!(clear::apart(first, second, gap), judged, "{first:?}\n{second:?}\n{gap}");
    judged
}

fn outline(corners: &[(i64, i64)]) -> GridOutline {
    GridOutline::new(corners.iter().map(|&(x, y)| GridPoint::new(x, y)).collect(), vec![]).unwrap()
}

fn frame() -> GridOutline {
    let square =
        |low, high| [(low, low), (high, low), (high, high), (low, high)].map(|(x, y)| GridPoint::new(x, y));
    GridOutline::new(square(0, 100).to_vec(), vec![square(20, 80).to_vec()]).unwrap()
}

#[test]
fn the_gap_exactly_is_allowed_and_one_step_less_is_not() {
    let square = GridOutline::rectangle(100, 100).unwrap();
    for (shift, gap, allowed) in [
        ((107, 50), 7, true),
        ((106, 50), 7, false),
        ((103, 104), 5, true), // corner to corner 3, 4, 5
        ((103, 103), 5, false),
        ((100, 0), 0, true),
        ((99, 0), 0, false),
        ((0, 0), 0, false),
        ((100, 100), 0, true),
    ] {
        let moved = square.shifted(GridPoint::new(shift.0, shift.1));
        assert_eq!(apart(&square, &moved, gap), allowed, "{shift:?} {gap}");
    }
}

#[test]
fn a_slanted_edge_is_measured_square_to_it() {
    // The edge from (400, 0) to (0, 300) leaves (240 + 3k, 180 + 4k)/… at distance 5k: a 3-4-5 triangle.
    let wedge = outline(&[(0, 0), (400, 0), (0, 300)]);
    let tip = outline(&[(0, 0), (300, 400), (-100, 400)]).shifted(GridPoint::new(192 + 30, 156 + 40));
    assert!(apart(&wedge, &tip, 50));
    assert!(!apart(&wedge, &tip, 51));
}

#[test]
fn overlap_without_a_crossing_is_found() {
    let square = GridOutline::rectangle(100, 100).unwrap();
    let cross = outline(&[(50, -50), (150, 50), (50, 150), (-50, 50)]);
    // The diamond passes exactly through the corners of the square; all crossings are at corners.
    assert!(!apart(&square, &cross, 0));
    let inner = GridOutline::rectangle(50, 50).unwrap();
    assert!(!apart(&square, &inner, 0), "inside, sharing a corner and two edges");
    assert!(!apart(&square, &inner.shifted(GridPoint::new(25, 25)), 0), "strictly inside");
}

#[test]
fn a_cut_out_may_hold_a_part_with_the_gap_around_it() {
    let square = |side| GridOutline::rectangle(side, side).unwrap();
    assert!(apart(&frame(), &square(50).shifted(GridPoint::new(25, 25)), 5));
    assert!(!apart(&frame(), &square(50).shifted(GridPoint::new(25, 26)), 5));
    assert!(apart(&frame(), &square(60).shifted(GridPoint::new(20, 20)), 0));
    assert!(!apart(&frame(), &square(61).shifted(GridPoint::new(20, 20)), 0));
}

/// Four kinds of parts on as many sheets as it takes, or on no more than `limit`.
fn problem_on(limit: Option<u32>) -> Problem {
    let part = |mark: &str, outline: GridOutline, quantity, turns| Part {
        mark: mark.into(),
        outline,
        quantity,
        turns,
        mirror: Mirror::Never,
    };
    let parts = vec![
        part(
            "tee",
            outline(&[(0, 0), (300, 0), (300, 80), (200, 80), (200, 300), (100, 300), (100, 80), (0, 80)]),
            4,
            Turns::Quarter,
        ),
        part("wedge", outline(&[(0, 0), (400, 0), (130, 200)]), 4, Turns::Half),
        part("frame", frame(), 3, Turns::Quarter),
        part("small", GridOutline::rectangle(40, 30).unwrap(), 6, Turns::Any),
    ];
    let shape = StockShape::Rectangle { length: 900, width: 700 };
    let stock = vec![Stock { name: "S".into(), shape, price: None, limit }];
    Problem::new(parts, stock, Rules { gap: 8, edge_trim: 12, least_drop: 50 }).unwrap()
}

fn problem() -> Problem {
    problem_on(None)
}

fn valid_nest(problem: &Problem) -> Nest {
    let effort = Effort { evaluations: 300, starts: 1, seed: 3 };
    let table = compare(problem, &effort).unwrap();
    table.rows[table.best].outcome.clone().unwrap().nest
}

#[test]
fn each_kind_of_damage_has_its_fault() {
    let problem = problem();
    let nest = valid_nest(&problem);
    assert_eq!(verify(&problem, &nest), Ok(()));
    let damaged = |damage: &dyn Fn(&mut Nest)| {
        let mut nest = nest.clone();
        damage(&mut nest);
        verify(&problem, &nest).unwrap_err()
    };
    let removed = damaged(&|nest| nest.sheets[0].placements.truncate(1));
    assert!(matches!(removed[0], Fault::Count { .. }));
    let outside = damaged(&|nest| nest.sheets[0].placements[0].shift.x -= 900);
    assert!(outside.iter().any(|fault| matches!(fault, Fault::Outside { .. })));
    let wedge = |placed: &&mut Placement| placed.part == 1;
    let turned = damaged(&|nest| {
        let mut placements = nest.sheets.iter_mut().flat_map(|sheet| sheet.placements.iter_mut());
        placements.find(wedge).unwrap().pose.turn = Turn::QUARTER;
    });
    assert!(turned.iter().any(|fault| matches!(fault, Fault::Turn { .. })));
    let doubled = damaged(&|nest| {
        let again = nest.sheets[0].placements[0];
        nest.sheets[0].placements.push(again);
    });
    assert!(doubled.iter().any(|fault| matches!(fault, Fault::TooNear { .. })));
    let unknown = damaged(&|nest| nest.sheets.push(Sheet { stock: 7, placements: Vec::new() }));
    assert!(unknown.iter().any(|fault| matches!(fault, Fault::Unknown { .. })));
}
