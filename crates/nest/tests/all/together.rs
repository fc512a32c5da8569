//! Parts kept together on one sheet.

#![expect(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use std::sync::atomic::AtomicBool;

use geometry::grid::{GridOutline, GridPoint, Turn};
use nest::rect::Shear;
use nest::shear;
use nest::{
    Effort, Fault, Mirror, Nest, NestError, NoNest, Part, Placement, Pose, Problem, ProblemFault, Rules,
    Sheet, Stock, StockShape, Together, Turns, Watch, compare, verify,
};
use proptest::prelude::*;

const RULES: Rules = Rules { gap: 2, edge_trim: 0, least_drop: 0 };
const EFFORT: Effort = Effort { evaluations: 300, starts: 2, seed: 1 };

fn part(mark: &str, length: i64, width: i64, quantity: u32, turns: Turns) -> Part {
    let outline = GridOutline::rectangle(length, width).unwrap();
    Part { mark: mark.into(), outline, quantity, turns, mirror: Mirror::Never }
}

fn sheet(length: i64, width: i64) -> Stock {
    let shape = StockShape::Rectangle { length, width };
    Stock { name: String::from("sheet"), shape, price: None, limit: None }
}

fn problem(parts: Vec<Part>, stock: Stock, groups: Vec<Together>) -> Problem {
    Problem::new(parts, vec![stock], RULES).unwrap().keeping(groups).unwrap()
}

fn sheets_of(problem: &Problem, part: usize) -> Vec<usize> {
    let found = compare(problem, &EFFORT).unwrap();
    let nest = &found.rows[0].outcome.as_ref().unwrap().nest;
    let holds = |sheet: &Sheet| sheet.placements.iter().any(|placed| placed.part == part);
    (0..nest.sheets.len()).filter(|&sheet| holds(&nest.sheets[sheet])).collect()
}

/// Worked by hand: by size alone the two wide parts share a sheet and each narrow one takes what is left of another.
#[test]
fn a_narrow_part_goes_with_its_mate() {
    let parts = || vec![part("W", 100, 50, 2, Turns::Half), part("N", 100, 40, 2, Turns::Half)];
    let free = problem(parts(), sheet(100, 102), Vec::new());
    assert_eq!(sheets_of(&free, 0).len(), 1);
    let group = Together { parts: vec![1], same_lay: false };
    let kept = problem(parts(), sheet(100, 94), vec![group]);
    assert_eq!(sheets_of(&kept, 1).len(), 1);
}

/// A sheet of 100 × 60: upright and lying the two fit; both the same way they do not.
#[test]
fn the_same_lay_costs_a_sheet_or_is_told_not_to_fit() {
    let parts = || vec![part("A", 60, 40, 1, Turns::Quarter), part("B", 58, 58, 1, Turns::Half)];
    let together = |same_lay| vec![Together { parts: vec![0, 1], same_lay }];
    let free = compare(&problem(parts(), sheet(100, 60), together(false)), &EFFORT).unwrap();
    assert_eq!(free.rows[0].outcome.as_ref().unwrap().take.count(), 1, "A is turned beside B");
    let same = compare(&problem(parts(), sheet(100, 60), together(true)), &EFFORT);
    assert_eq!(same.unwrap_err(), NestError::TooManyTogether(0));
    let wide = Problem::new(parts(), vec![sheet(100, 60), sheet(120, 60)], RULES).unwrap();
    let same = compare(&wide.keeping(together(true)).unwrap(), &EFFORT).unwrap();
    assert_eq!(same.rows[0].outcome, Err(NoNest::TooManyTogether(0)));
    assert_eq!(same.rows[1].outcome.as_ref().unwrap().take.count(), 1);
}

#[test]
fn the_verifier_sees_parted_groups_and_crossed_lay() {
    let parts = vec![part("A", 60, 40, 2, Turns::Quarter)];
    let problem = problem(parts, sheet(200, 200), vec![Together { parts: vec![0], same_lay: true }]);
    let at = |turn, x| Placement { part: 0, pose: Pose::turned(turn), shift: GridPoint::new(x, 0) };
    let on = |placements| Sheet { stock: 0, placements };
    let parted = Nest { sheets: vec![on(vec![at(Turn::NONE, 0)]), on(vec![at(Turn::NONE, 0)])] };
    assert_eq!(verify(&problem, &parted), Err(vec![Fault::Parted { group: 0, sheets: 2 }]));
    let crossed = Nest { sheets: vec![on(vec![at(Turn::NONE, 0), at(Turn::QUARTER, 110)])] };
    assert_eq!(verify(&problem, &crossed), Err(vec![Fault::Lay { group: 0 }]));
}

#[test]
fn a_part_is_in_one_group_only() {
    let problem = Problem::new(vec![part("A", 5, 5, 1, Turns::Half)], vec![sheet(10, 10)], RULES).unwrap();
    let group = |parts: Vec<usize>| Together { parts, same_lay: false };
    let faults = problem.keeping(vec![group(vec![0]), group(vec![0, 7])]).unwrap_err();
    let fault = |part| ProblemFault::Together { group: 1, part };
    assert_eq!(faults, vec![fault(0), fault(7)]);
}

fn sheared(problem: &Problem) -> Result<shear::Sheared, NestError> {
    let stop = AtomicBool::new(false);
    shear::compare(
        problem,
        Shear { kerf: 2, ..Shear::default() },
        &EFFORT,
        &Watch { progress: &|_| {}, stop: &stop },
    )
}

/// As by saw: the two narrow blanks share a sheet of 100 × 94 with nothing else, each wide one fits beside one narrow one only.
#[test]
fn groups_are_kept_together_on_the_shear() {
    let parts = || vec![part("W", 100, 50, 2, Turns::Half), part("N", 100, 40, 2, Turns::Half)];
    let count = |groups| {
        let found = sheared(&problem(parts(), sheet(100, 94), groups)).unwrap();
        let nested = found.comparison.rows[0].outcome.clone().unwrap();
        (nested.take.count(), nested.bound.sheets)
    };
    assert_eq!(count(Vec::new()).0, 2);
    assert_eq!(count(vec![Together { parts: vec![1], same_lay: false }]), (3, 2));
    let wide = sheared(&problem(parts(), sheet(100, 94), vec![Together { parts: vec![0], same_lay: false }]));
    assert_eq!(wide.unwrap_err(), NestError::TooManyTogether(0));
    // One upright, one lying fit 102 × 60 beside one another; both in one lay they do not.
    let crossed = |same_lay| {
        let parts = vec![part("A", 60, 40, 1, Turns::Quarter), part("B", 60, 58, 1, Turns::Half)];
        sheared(&problem(parts, sheet(102, 60), vec![Together { parts: vec![0, 1], same_lay }]))
    };
    assert_eq!(crossed(false).unwrap().comparison.rows[0].outcome.as_ref().unwrap().take.count(), 1);
    assert_eq!(crossed(true).unwrap_err(), NestError::TooManyTogether(0));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// The same on the shear: the verifier judges groups there, too, and no claim of proof is above what was found.
    #[test]
    fn groups_of_chance_stay_together_on_the_shear(sizes in prop::collection::vec((10_i64..60, 10_i64..50, 1_u32..4), 2..7), cut in 1_usize..7, same_lay: bool) {
        let parts: Vec<Part> = sizes.iter().map(|&(length, width, quantity)| part("P", length, width, quantity, Turns::Quarter)).collect();
        let cut = cut.min(parts.len() - 1);
        let groups = vec![Together { parts: (0..cut).collect(), same_lay }];
        let problem = Problem::new(parts, vec![sheet(120, 80), sheet(160, 100)], RULES).unwrap().keeping(groups).unwrap();
        match sheared(&problem) {
            Ok(found) => for row in found.comparison.rows.iter().filter_map(|row| row.outcome.as_ref().ok()) {
                prop_assert_eq!(verify(&problem, &row.nest), Ok(()));
                prop_assert!(row.bound.sheets <= row.take.count());
            },
            Err(error) => prop_assert_eq!(error, NestError::TooManyTogether(0)),
        }
    }

    /// Every nest handed out has passed the verifier; here it is asked about groups of chance.
    #[test]
    fn groups_of_chance_stay_together(sizes in prop::collection::vec((10_i64..60, 10_i64..50, 1_u32..4), 2..7), cut in 0_usize..7, same_lay: bool) {
        let parts: Vec<Part> = sizes.iter().map(|&(l, w, n)| part("P", l, w, n, Turns::Quarter)).collect();
        let group = Together { parts: (0..cut.min(parts.len())).collect(), same_lay };
        let problem = problem(parts, sheet(120, 100), vec![group]);
        let Ok(found) = compare(&problem, &EFFORT) else { return Ok(()) };
        let nest = &found.rows[0].outcome.as_ref().unwrap().nest;
        prop_assert_eq!(verify(&problem, nest), Ok(()));
    }
}
