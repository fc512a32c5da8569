//! Sheet counts a shop can check with a tape.

#![expect(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use geometry::grid::{GridOutline, Turn};
use nest::{
    Choice, Comparison, Effort, LeftOver, Mirror, NestError, Part, Problem, ProblemFault, Rules, Stock,
    StockShape, Turns, compare,
};

/// Inches to steps, rounded up.
fn steps(thousandths_of_an_inch: i64) -> i64 {
    (thousandths_of_an_inch * 254 + 9) / 10
}

fn rules() -> Rules {
    Rules { gap: steps(250), edge_trim: steps(500), least_drop: steps(6000) }
}

fn stock(name: &str, length: i64, width: i64, price: Option<u64>) -> Stock {
    let shape = StockShape::Rectangle { length: steps(1000 * length), width: steps(1000 * width) };
    Stock { name: name.into(), shape, price, limit: None }
}

fn rectangle(mark: &str, length: i64, width: i64, quantity: u32, turns: Turns) -> Part {
    let outline = GridOutline::rectangle(steps(length), steps(width)).unwrap();
    Part { mark: mark.into(), outline, quantity, turns, mirror: Mirror::Never }
}

fn nested(parts: Vec<Part>, stock: Vec<Stock>) -> Comparison {
    let effort = Effort { evaluations: 400, starts: 2, seed: 1 };
    compare(&Problem::new(parts, stock, rules()).unwrap(), &effort).unwrap()
}

/// Sheets taken and sheets proved needed.
fn count(comparison: &Comparison, row: usize) -> (u32, u32) {
    let nested = comparison.rows[row].outcome.as_ref().unwrap();
    (nested.take.count(), nested.bound.sheets)
}

/// Cull tray blanks 37.293 x 29.543 in, gap 1/4, trim 1/2: worked with a tape, three to a 48 x 96 and four to a
/// 60 x 120 (two abreast need 59.336 and the trimmed sheet has 59).
#[test]
fn trays_go_three_to_a_small_sheet_and_four_to_a_large_one() {
    let small = || stock("48 x 96", 96, 48, None);
    let large = || stock("60 x 120", 120, 60, None);
    let trays = |quantity| vec![rectangle("T", 37_293, 29_543, quantity, Turns::Quarter)];
    assert_eq!(count(&nested(trays(3), vec![small()]), 0), (1, 1));
    assert_eq!(count(&nested(trays(4), vec![small()]), 0).0, 2);
    assert_eq!(count(&nested(trays(4), vec![large()]), 0), (1, 1));
    assert_eq!(count(&nested(trays(5), vec![large()]), 0), (2, 2));
    let six = nested(trays(6), vec![small(), large()]);
    assert_eq!((count(&six, 0), count(&six, 1)), ((2, 2), (2, 2)));
    assert_eq!(six.rows[six.best].choice, Choice::Alone(0), "two of 48 x 96 are the least area");
}

#[test]
fn money_decides_where_every_size_has_a_price() {
    let trays = vec![rectangle("T", 37_293, 29_543, 4, Turns::Quarter)];
    let dear = vec![stock("48 x 96", 96, 48, Some(20_000)), stock("60 x 120", 120, 60, Some(33_000))];
    let table = nested(trays, dear);
    assert_eq!(table.rows[table.best].choice, Choice::Alone(1));
    assert_eq!(table.rows[table.best].outcome.as_ref().unwrap().take.money, Some(33_000));
}

#[test]
fn a_deck_142_long_fits_no_120_sheet_and_says_why() {
    let deck = rectangle("D", 142_000, 14_000, 1, Turns::Half);
    let problem = Problem::new(vec![deck], vec![stock("60 x 120", 120, 60, None)], rules()).unwrap();
    let Err(NestError::FitsNoSheet(misfits)) = compare(&problem, &Effort::default()) else {
        unreachable!("a part longer than the sheet was nested")
    };
    assert_eq!(misfits[0].mark, "D");
    assert_eq!(misfits[0].needs[0], (Turn::NONE, steps(142_000), steps(14_000)));
    assert_eq!(misfits[0].sheets[0].size.0, steps(120_000) - 2 * steps(500));
}

#[test]
fn lay_forbids_the_quarter_turn_that_would_fit() {
    let across = |turns| vec![rectangle("P", 30_000, 90_000, 1, turns)];
    let sheet = || vec![stock("48 x 96", 96, 48, None)];
    assert_eq!(count(&nested(across(Turns::Quarter), sheet()), 0).0, 1);
    let problem = Problem::new(across(Turns::Half), sheet(), rules()).unwrap();
    assert!(matches!(compare(&problem, &Effort::default()), Err(NestError::FitsNoSheet(_))));
}

#[test]
fn a_small_part_goes_into_a_cut_out() {
    let ring = |inch: i64| {
        let corner = |low: i64, high: i64| {
            [(low, low), (high, low), (high, high), (low, high)]
                .map(|(x, y)| geometry::grid::GridPoint::new(steps(x), steps(y)))
                .to_vec()
        };
        GridOutline::new(corner(0, inch), vec![corner(4000, inch - 4000)]).unwrap()
    };
    let frame = Part {
        mark: "F".into(),
        outline: ring(46_000),
        quantity: 1,
        turns: Turns::Quarter,
        mirror: Mirror::Never,
    };
    let lid = rectangle("L", 37_000, 36_000, 1, Turns::Quarter);
    let table = nested(vec![frame, lid], vec![stock("48 x 48", 48, 48, None)]);
    assert_eq!(count(&table, 0), (1, 1));
}

#[test]
fn the_drop_is_clear_of_the_parts_by_the_gap() {
    let table =
        nested(vec![rectangle("P", 40_000, 40_000, 1, Turns::Quarter)], vec![stock("48 x 96", 96, 48, None)]);
    let drop = table.rows[0].outcome.as_ref().unwrap().drops[0][0];
    assert_eq!(drop.low.x, steps(500) + steps(40_000) + steps(250));
    assert_eq!(drop.high.x, steps(96_000) - steps(500));
    assert_eq!((drop.low.y, drop.high.y), (steps(500), steps(48_000) - steps(500)));
}

#[test]
fn every_fault_of_a_problem_is_named_at_once() {
    let part = rectangle("P", 1000, 1000, 0, Turns::Listed(Vec::new()));
    let sheet = Stock { shape: StockShape::Rectangle { length: 100, width: 100 }, ..stock("S", 1, 1, None) };
    let faults = Problem::new(vec![part], vec![sheet], rules()).unwrap_err();
    assert!(faults.iter().any(|fault| matches!(fault, ProblemFault::Quantity { quantity: 0, .. })));
    assert!(faults.iter().any(|fault| matches!(fault, ProblemFault::NoTurn { .. })));
    assert!(faults.iter().any(|fault| matches!(fault, ProblemFault::TrimmedAway { .. })));
    assert_eq!(faults.len(), 3);
}

#[test]
fn a_gap_wider_than_a_sheet_is_named() {
    let part = || vec![rectangle("P", 1000, 1000, 1, Turns::Half)];
    let faults = |gap: i64| {
        let narrow = Stock { name: "strip".into(), ..stock("strip", 96, 3, None) };
        let (_, width) = narrow.trimmed(&rules());
        let rules = Rules { gap: width + gap, ..rules() };
        Problem::new(part(), vec![stock("48 x 96", 96, 48, None), narrow], rules).err()
    };
    assert_eq!(faults(0), None);
    assert_eq!(faults(1), Some(vec![ProblemFault::GapTooWide { name: "strip".into() }]));
}

#[test]
fn sheets_that_run_out_are_an_error() {
    let sheet = Stock { limit: Some(1), ..stock("48 x 96", 96, 48, None) };
    let parts = || {
        let trays = rectangle("T", 37_293, 29_543, 4, Turns::Quarter);
        vec![rectangle("S", 5_000, 5_000, 1, Turns::Quarter), trays]
    };
    let problem = Problem::new(parts(), vec![sheet.clone()], rules()).unwrap();
    let effort = Effort { evaluations: 100, ..Effort::default() };
    // Three trays lie on one sheet, and the small plate beside them.
    let over = vec![LeftOver { part: 1, count: 1 }];
    assert_eq!(compare(&problem, &effort), Err(NestError::SheetsRunOut(over.clone())));
    // Of a strip on which no tray lies, it is said of the mix of both.
    let strip = Stock { limit: Some(1), ..stock("6 x 96", 96, 6, None) };
    let problem = Problem::new(parts(), vec![sheet, strip], rules()).unwrap();
    assert_eq!(compare(&problem, &effort), Err(NestError::SheetsRunOut(over)));
}
