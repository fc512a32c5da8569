//! Parts that may lie turned over: only where allowed, and with use.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use std::sync::atomic::AtomicBool;

use geometry::grid::{GridOutline, GridPoint, Turn};
use nest::{
    Effort, Fault, Mirror, Nest, NestError, NoNest, Part, Placement, Pose, Problem, RollWatch, Rules, Sheet,
    Stock, StockShape, Turns, compare, least_roll_length, nest_on_roll, verify,
};

const GAP: i64 = 2_000;

fn outline(corners: &[(i64, i64)]) -> GridOutline {
    let corner = |&(x, y): &(i64, i64)| GridPoint::new(1000 * x, 1000 * y);
    GridOutline::new(corners.iter().map(corner).collect(), Vec::new()).unwrap()
}

/// Leans to the right, and has no mirror image among its turns.
fn leaning() -> GridOutline {
    outline(&[(0, 0), (300, 0), (400, 200), (100, 200)])
}

fn part(quantity: u32, mirror: Mirror) -> Part {
    Part { mark: "L".into(), outline: leaning(), quantity, turns: Turns::Quarter, mirror }
}

fn problem(parts: Vec<Part>, shape: StockShape) -> Problem {
    let stock = Stock { name: "S".into(), shape, price: None, limit: None };
    Problem::new(parts, vec![stock], Rules { gap: GAP, edge_trim: 0, least_drop: 100_000 }).unwrap()
}

const EFFORT: Effort = Effort { evaluations: 300, starts: 2, seed: 3 };

fn nested(problem: &Problem) -> Result<Nest, NoNest> {
    let table = compare(problem, &EFFORT).unwrap();
    table.rows.into_iter().next().unwrap().outcome.map(|nested| nested.nest)
}

/// An offcut a little larger than the part's mirror image: only a copy that is turned over fits it.
#[test]
fn a_part_fits_the_offcut_of_its_mirror_image_only_turned_over() {
    let offcut = || StockShape::Offcut(outline(&[(0, 204), (102, 0), (406, 0), (304, 204)]));
    let never = compare(&problem(vec![part(1, Mirror::Never)], offcut()), &EFFORT);
    assert!(never.is_err(), "a copy that is not turned over fits nowhere");
    let allowed = problem(vec![part(1, Mirror::Allowed)], offcut());
    let nest = nested(&allowed).unwrap();
    let placed = nest.sheets[0].placements[0];
    assert!(placed.pose.over);
    assert_eq!(placed.outline(&allowed).doubled_area(), leaning().doubled_area());
    // The same placement is refused where the part may not be mirrored, and for nothing else.
    let never = problem(vec![part(1, Mirror::Never)], offcut());
    assert_eq!(verify(&never, &nest), Err(vec![Fault::TurnedOver { sheet: 0, piece: 0 }]));
}

/// Every corner of a copy turned over is that of the part with what is up below, then turned: worked out here anew.
#[test]
fn a_copy_turned_over_is_the_mirror_image() {
    for (turn, [right, up]) in [
        (Turn::NONE, [(1, 0), (0, -1)]),
        (Turn::QUARTER, [(0, 1), (1, 0)]),
        (Turn::HALF, [(-1, 0), (0, 1)]),
        (Turn::THREE_QUARTERS, [(0, -1), (-1, 0)]),
    ] {
        let posed = Pose { over: true, turn }.of(&leaning());
        let image = |p: &GridPoint| GridPoint::new(p.x * right.0 + p.y * up.0, p.x * right.1 + p.y * up.1);
        let mut expected: Vec<GridPoint> = leaning().outer().iter().map(image).collect();
        let mut found = posed.outer().to_vec();
        expected.sort_unstable();
        found.sort_unstable();
        assert_eq!(found, expected, "{turn:?}");
        assert!(0 < posed.doubled_area());
    }
}

/// What a part needs is told once, not again for its mirror image.
#[test]
fn a_misfit_tells_each_size_once() {
    let shape = || StockShape::Rectangle { length: 100_000, width: 100_000 };
    let needs = |mirror| match compare(&problem(vec![part(1, mirror)], shape()), &EFFORT) {
        Err(NestError::FitsNoSheet(misfits)) => misfits.into_iter().flat_map(|misfit| misfit.needs).collect(),
        _ => Vec::new(),
    };
    assert_eq!(needs(Mirror::Allowed), needs(Mirror::Never));
    assert!(!needs(Mirror::Never).is_empty());
}

/// A part that is its own mirror image gains nothing: the very same nest.
#[test]
fn a_part_alike_from_both_faces_is_nested_as_before() {
    let tee = outline(&[(0, 0), (300, 0), (300, 80), (200, 80), (200, 300), (100, 300), (100, 80), (0, 80)]);
    let nest = |mirror| {
        let part =
            Part { mark: "T".into(), outline: tee.clone(), quantity: 9, turns: Turns::Quarter, mirror };
        nested(&problem(vec![part], StockShape::Rectangle { length: 1_000_000, width: 700_000 })).unwrap()
    };
    assert_eq!(nest(Mirror::Never), nest(Mirror::Allowed));
}

/// Without permission, a piece of a sound nest that is laid on its face is always found.
#[test]
fn a_piece_laid_on_its_face_without_permission_is_found() {
    let problem =
        problem(vec![part(6, Mirror::Never)], StockShape::Rectangle { length: 1_000_000, width: 700_000 });
    let nest = nested(&problem).unwrap();
    for (sheet, laid) in nest.sheets.iter().enumerate() {
        for piece in 0..laid.placements.len() {
            let mut damaged = nest.clone();
            damaged.sheets[sheet].placements[piece].pose.over = true;
            let faults = verify(&problem, &damaged).unwrap_err();
            assert!(faults.contains(&Fault::TurnedOver { sheet, piece }), "{faults:?}");
        }
    }
    assert!(verify(&problem, &nest).is_ok());
}

/// With two copies on a sheet that leans both ways, one copy is turned over, in the same way on any number of threads.
#[test]
fn one_of_two_copies_is_turned_over_where_only_that_fits() {
    // Two that lean away from one another, with a notch between their tops.
    let arms = outline(&[(102, 0), (708, 0), (810, 204), (504, 204), (405, 6), (306, 204), (0, 204)]);
    let stock = || StockShape::Offcut(arms.clone());
    let never = nested(&problem(vec![part(2, Mirror::Never)], stock())).unwrap();
    let allowed = problem(vec![part(2, Mirror::Allowed)], stock());
    let laid = nested(&allowed).unwrap();
    assert_eq!((never.sheets.len(), laid.sheets.len()), (2, 1));
    let over = laid.sheets[0].placements.iter().filter(|placed: &&Placement| placed.pose.over).count();
    assert_eq!(over, 1);
    let on_threads = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| nested(&allowed).unwrap())
    };
    assert_eq!(on_threads(1), on_threads(8));
    let stray = Sheet { stock: 0, placements: laid.sheets[0].placements[..1].to_vec() };
    assert!(verify(&allowed, &Nest { sheets: vec![stray] }).is_err());
}

/// On a roll too: the nest has passed the verifier, is not below the proved length, and turns nothing over unless that is allowed.
#[test]
fn copies_are_turned_over_on_a_roll() {
    let rules = Rules { gap: GAP, edge_trim: 0, least_drop: 1 };
    let nest = |mirror| {
        let (compact_now, stop) = (AtomicBool::new(false), AtomicBool::new(false));
        let watch = RollWatch { progress: &|_| {}, compact_now: &compact_now, stop: &stop };
        let part = Part { turns: Turns::Half, ..part(4, mirror) };
        let (least, _) = least_roll_length(std::slice::from_ref(&part), 405_000, rules).unwrap();
        let effort = Effort { evaluations: 20_000, starts: 2, seed: 3 };
        let nest = nest_on_roll(&[part], 405_000, rules, &effort, &watch).unwrap();
        assert!(least <= nest.used_length);
        nest
    };
    assert!(nest(Mirror::Never).placements.iter().all(|placed| !placed.pose.over));
    assert_eq!(nest(Mirror::Allowed).placements.len(), 4);
}
