//! Parts of any turn: laid flush with one another where steps of 30° and edges along the sheet leave no room.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use geometry::grid::{GridOutline, GridPoint, Turn};
use nest::{Comparison, Effort, Mirror, Part, Problem, Rules, Stock, StockShape, Turns, compare, verify};

fn part(mark: &str, corners: &[(i64, i64)], quantity: u32, turns: Turns) -> Part {
    let ring = corners.iter().map(|&(x, y)| GridPoint::new(1000 * x, 1000 * y)).collect();
    let outline = GridOutline::new(ring, Vec::new()).unwrap();
    Part { mark: mark.into(), outline, quantity, turns, mirror: Mirror::Never }
}

fn table(parts: Vec<Part>, (length, width): (i64, i64)) -> (Problem, Comparison) {
    let shape = StockShape::Rectangle { length: 1000 * length, width: 1000 * width };
    let stock = Stock { name: "S".into(), shape, price: None, limit: None };
    let rules = Rules { gap: 1_000, edge_trim: 0, least_drop: 100_000 };
    let problem = Problem::new(parts, vec![stock], rules).unwrap();
    let table = compare(&problem, &Effort { evaluations: 4_000, starts: 2, seed: 1 }).unwrap();
    verify(&problem, &table.rows[table.best].outcome.as_ref().unwrap().nest).unwrap();
    (problem, table)
}

fn sheets(parts: Vec<Part>, size: (i64, i64)) -> u32 {
    let (_, table) = table(parts, size);
    table.rows[table.best].outcome.as_ref().unwrap().take.count()
}

/// The turns of old: every 30°, and these edges along the sheet.
fn steps(edges_deg: &[u32]) -> Turns {
    let quarters = edges_deg.iter().flat_map(|&turn| (0..4).map(move |quarter| turn + 90_000 * quarter));
    Turns::Listed((0..12).map(|step| 30_000 * step).chain(quarters).map(Turn::from_millidegrees).collect())
}

/// A bar longer than the sheet lies across it, at a turn that is no step of 30° and lays no edge along it.
#[test]
fn a_bar_fits_across_a_sheet_near_its_diagonal() {
    let bar = |turns| part("B", &[(0, 0), (1000, 0), (1000, 50), (0, 50)], 2, turns);
    assert_eq!(sheets(vec![bar(Turns::Any)], (800, 800)), 1);
    let stock = StockShape::Rectangle { length: 800_000, width: 800_000 };
    let stock = Stock { name: "S".into(), shape: stock, price: None, limit: None };
    let rules = Rules { gap: 1_000, edge_trim: 0, least_drop: 100_000 };
    let problem = Problem::new(vec![bar(steps(&[0]))], vec![stock], rules).unwrap();
    assert!(compare(&problem, &Effort { evaluations: 10, starts: 1, seed: 1 }).is_err());
}

/// A larger size that takes the bar upright does not keep it from the smaller one that takes it askew.
#[test]
fn a_bar_goes_across_a_small_sheet_though_a_larger_one_takes_it_upright() {
    let bar = part("B", &[(0, 0), (1000, 0), (1000, 50), (0, 50)], 2, Turns::Any);
    let stock = |name: &str, length, price| {
        let shape = StockShape::Rectangle { length, width: 800_000 };
        Stock { name: name.into(), shape, price: Some(price), limit: None }
    };
    let rules = Rules { gap: 1_000, edge_trim: 0, least_drop: 100_000 };
    let sizes = vec![stock("small", 800_000, 30), stock("large", 1_600_000, 55)];
    let problem = Problem::new(vec![bar], sizes, rules).unwrap();
    let table = compare(&problem, &Effort { evaluations: 4_000, starts: 2, seed: 1 }).unwrap();
    let best = table.rows[table.best].outcome.as_ref().unwrap();
    verify(&problem, &best.nest).unwrap();
    assert_eq!(best.take.money, Some(30));
}

/// The first look is at the turns of old, so what comes out is never worse than with those alone.
#[test]
fn looking_again_never_makes_it_worse() {
    let shapes: [&[(i64, i64)]; 3] = [
        &[(0, 0), (430, 0), (130, 210)],
        &[(0, 0), (390, 0), (250, 170), (60, 170)],
        &[(0, 0), (310, 40), (90, 330)],
    ];
    let along = |a: (i64, i64), b: (i64, i64)| {
        let [x, y] = [b.0 - a.0, b.1 - a.1].map(|n| f64::from(i32::try_from(n).unwrap()));
        let turn = 360_000.0 - geometry::trig::atan2(y, x).to_degrees() * 1000.0;
        format!("{turn:.0}").parse::<u32>().unwrap()
    };
    let old = |corners: &[(i64, i64)]| {
        let next = corners.iter().cycle().skip(1);
        steps(&corners.iter().zip(next).map(|(a, b)| along(*a, *b)).collect::<Vec<u32>>())
    };
    for size in [(900, 700), (1300, 800), (750, 750)] {
        let any = shapes.iter().map(|corners| part("P", corners, 4, Turns::Any)).collect();
        let listed = shapes.iter().map(|corners| part("P", corners, 4, old(corners))).collect();
        assert!(sheets(any, size) <= sheets(listed, size), "{size:?}");
    }
}

/// Four triangles with legs of 200 and 500 round a square of 538, a square of 700 in all: on sheets of 712 the square must stand
/// at atan(2/5). At 30° it is 735 wide, and where it lies along the sheet a strip of 174 is left, too narrow for the triangles,
/// which are 185 at the narrowest.
#[test]
fn a_square_between_four_triangles_stands_at_their_angle() {
    let square = |turns| part("S", &[(0, 0), (538, 0), (538, 538), (0, 538)], 1, turns);
    let triangles = |turns| part("T", &[(0, 0), (500, 0), (0, 200)], 4, turns);
    // The long side of the triangle runs at 180° − atan(2/5) = 158.199°.
    let before = sheets(vec![square(steps(&[0])), triangles(steps(&[0, 201_801]))], (712, 712));
    let after = sheets(vec![square(Turns::Any), triangles(Turns::Any)], (712, 712));
    assert_eq!((before, after), (2, 1));
}
