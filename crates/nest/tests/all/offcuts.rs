//! Nesting on offcuts of any outline.

#![expect(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use geometry::grid::{GridOutline, GridPoint, Turn};
use nest::rect::Axis;
use nest::{
    Effort, Fault, Mirror, Nest, NoNest, Part, Placement, Pose, Problem, ProblemFault, Rules, Sheet, Step,
    Stock, StockShape, Turns, compare, cutting_order, verify,
};
use proptest::prelude::*;

const RULES: Rules = Rules { gap: 6, edge_trim: 10, least_drop: 100 };

fn ring(corners: &[(i64, i64)]) -> Vec<GridPoint> {
    corners.iter().map(|&(x, y)| GridPoint::new(x, y)).collect()
}

fn offcut(name: &str, outline: GridOutline) -> Stock {
    Stock { name: name.into(), shape: StockShape::Offcut(outline), price: None, limit: Some(1) }
}

fn sheet(length: i64, width: i64) -> Stock {
    let shape = StockShape::Rectangle { length, width };
    Stock { name: String::from("sheet"), shape, price: None, limit: None }
}

/// An L whose legs are 400 wide, with a torn hole in the long one.
fn angle() -> GridOutline {
    let outer = ring(&[(0, 0), (2000, 0), (2000, 400), (400, 400), (400, 1500), (0, 1500)]);
    GridOutline::new(outer, vec![ring(&[(900, 100), (1000, 100), (1000, 300), (900, 300)])]).unwrap()
}

fn rectangle(mark: &str, length: i64, width: i64, quantity: u32, turns: Turns) -> Part {
    let outline = GridOutline::rectangle(length, width).unwrap();
    Part { mark: mark.into(), outline, quantity, turns, mirror: Mirror::Never }
}

fn problem(parts: Vec<Part>, stock: Vec<Stock>) -> Problem {
    Problem::new(parts, stock, RULES).unwrap()
}

const EFFORT: Effort = Effort { evaluations: 400, starts: 2, seed: 1 };

/// Worked by hand: the leg is 400 wide, less a trim of 10 on both edges 380, and reaches up from 10 to 1490; beside
/// the hole, from 1010 to 1990, there are 980.
#[test]
fn parts_that_just_fit_the_legs_of_an_angle_lie_there() {
    let parts = || {
        vec![
            rectangle("LEG", 380, 1480, 1, Turns::Half),
            rectangle("FOOT", 980, 380, 1, Turns::Half),
            rectangle("BEFORE", 484, 380, 1, Turns::Half),
        ]
    };
    let found = compare(&problem(parts(), vec![offcut("L", angle())]), &EFFORT).unwrap();
    let nested = found.rows[0].outcome.as_ref().unwrap();
    assert_eq!(nested.take.count(), 1);
    assert_eq!(nested.take.area, angle().doubled_area() / 2, "an offcut counts for the metal it has");
    let mut wider = parts();
    wider[1] = rectangle("FOOT", 981, 380, 1, Turns::Half);
    assert!(compare(&problem(wider, vec![offcut("L", angle())]), &EFFORT).is_err());
}

#[test]
fn what_does_not_fit_the_offcut_goes_on_a_sheet() {
    let parts =
        vec![rectangle("WIDE", 390, 390, 1, Turns::Quarter), rectangle("LEG", 300, 900, 1, Turns::Half)];
    let found = compare(&problem(parts, vec![offcut("L", angle()), sheet(1000, 500)]), &EFFORT).unwrap();
    assert!(matches!(&found.rows[0].outcome, Err(NoNest::Misfits(misfits)) if misfits[0].mark == "WIDE"));
    let mix = found.rows.last().unwrap().outcome.as_ref().unwrap();
    assert_eq!(
        mix.take.sheets,
        vec![1, 1],
        "the leg is too long for the sheet, the square too wide for the leg"
    );
}

/// One sheet is bought in any case, and all parts go on it; the small ones lie on what costs nothing all the same.
#[test]
fn what_is_there_already_goes_first_where_just_as_much_is_paid() {
    let parts =
        || vec![rectangle("BIG", 900, 400, 1, Turns::Half), rectangle("SMALL", 70, 60, 2, Turns::Half)];
    let priced = |stock: Stock, price| Stock { price: Some(price), ..stock };
    let bought = || priced(sheet(1000, 500), 210);
    let left = |outline| priced(offcut("rack", outline), 0);
    for outline in [GridOutline::rectangle(300, 200).unwrap(), angle()] {
        let problem = problem(parts(), vec![bought(), left(outline)]);
        let found = compare(&problem, &EFFORT).unwrap();
        assert_eq!(found.rows[0].outcome.as_ref().unwrap().take.sheets, [1, 0]);
        let best = found.rows[found.best].outcome.as_ref().unwrap();
        assert_eq!((&best.take.sheets[..], best.take.money), (&[1, 1][..], Some(210)));
        let on_offcut = best.nest.sheets.iter().find(|sheet| sheet.stock == 1).unwrap();
        assert!(on_offcut.placements.iter().filter(|placed| placed.part == 1).count() == 2, "{best:?}");
    }
}

#[test]
fn the_verifier_sees_pieces_in_the_notch_in_the_hole_and_in_the_trim() {
    let problem = problem(vec![rectangle("A", 60, 60, 1, Turns::Half)], vec![offcut("L", angle())]);
    let at = |x: i64, y: i64| {
        let placement = Placement { part: 0, pose: Pose::turned(Turn::NONE), shift: GridPoint::new(x, y) };
        verify(&problem, &Nest { sheets: vec![Sheet { stock: 0, placements: vec![placement] }] })
    };
    let outside = Err(vec![Fault::Outside { sheet: 0, piece: 0 }]);
    assert_eq!(at(10, 10), Ok(()));
    assert_eq!(at(9, 10), outside, "in the trim of the edge");
    assert_eq!(at(600, 330), Ok(()));
    assert_eq!(at(600, 331), outside, "in the trim of the notch");
    assert_eq!(at(600, 600), outside, "in the notch");
    assert_eq!(at(920, 200), outside, "in the hole");
    assert_eq!(at(830, 200), Ok(()));
    assert_eq!(at(831, 200), outside, "in the trim of the hole");
}

/// A U with a bay of 600 between its legs, parts on both: the saw is in metal over the legs only.
#[test]
fn a_straight_cut_does_not_count_the_bay_that_it_crosses() {
    let outer = [(0, 0), (1000, 0), (1000, 900), (800, 900), (800, 200), (200, 200), (200, 900), (0, 900)];
    let outline = GridOutline::new(ring(&outer), Vec::new()).unwrap();
    let problem = problem(vec![rectangle("A", 150, 100, 3, Turns::Half)], vec![offcut("U", outline)]);
    let at = |x, y| Placement { part: 0, pose: Pose::turned(Turn::NONE), shift: GridPoint::new(x, y) };
    let sheet = Sheet { stock: 0, placements: vec![at(20, 300), at(820, 500), at(20, 700)] };
    verify(&problem, &Nest { sheets: vec![sheet.clone()] }).unwrap();
    let cut = |within, from, to| Step::Across {
        axis: Axis::Y,
        within,
        from,
        to,
        finishes_both: false,
        frees: [None; 2],
    };
    let far = [cut([600, 700], 0, 200), cut([600, 700], 800, 1000)];
    let near = [cut([400, 500], 0, 200), cut([400, 500], 800, 1000)];
    let outlines = [2, 1, 0].map(Step::Outline);
    assert_eq!(cutting_order(&problem, &sheet, &[], 2), [&far[..], &near, &outlines].concat());
}

#[test]
fn an_offcut_begins_at_the_origin() {
    let outline = angle().shifted(GridPoint::new(5, 0));
    let part = rectangle("A", 60, 60, 1, Turns::Half);
    let faults = Problem::new(vec![part], vec![offcut("L", outline)], RULES).unwrap_err();
    assert_eq!(faults, vec![ProblemFault::NotAtOrigin { name: String::from("L") }]);
}

/// A hand-worked drop: above the foot of the angle, nothing lies in the upper leg.
#[test]
fn a_drop_of_an_offcut_lies_in_its_metal() {
    let parts = vec![rectangle("FOOT", 980, 380, 1, Turns::Half)];
    let found = compare(&problem(parts, vec![offcut("L", angle())]), &EFFORT).unwrap();
    let drops = &found.rows[0].outcome.as_ref().unwrap().drops[0];
    let (low, high) = (GridPoint::new(10, 10), GridPoint::new(390, 1490));
    assert_eq!((drops[0].low, drops[0].high), (low, high));
}

/// A plate of 1000 × 600 that is torn along its lower edge, from 300 to 500, as far up as 150.
fn torn() -> Stock {
    let outline = GridOutline::rectangle(1000, 600).unwrap();
    let zone = GridOutline::new(ring(&[(300, 0), (500, 0), (450, 150), (350, 150)]), Vec::new()).unwrap();
    Stock {
        shape: StockShape::Torn { outline: outline.clone(), zones: vec![zone] },
        ..offcut("torn", outline)
    }
}

/// Worked by hand: off the tear by the trim, a part that is 60 high lies on it from 160 up; beside it up to 290 on the left.
#[test]
fn parts_keep_off_a_torn_zone_and_its_metal_is_counted() {
    let torn = torn();
    assert_eq!(torn.area(), 600_000, "the metal is there, it only cannot be used");
    let problem = problem(vec![rectangle("A", 200, 60, 1, Turns::Half)], vec![torn]);
    let at = |x: i64, y: i64| {
        let placement = Placement { part: 0, pose: Pose::turned(Turn::NONE), shift: GridPoint::new(x, y) };
        verify(&problem, &Nest { sheets: vec![Sheet { stock: 0, placements: vec![placement] }] })
    };
    let outside = Err(vec![Fault::Outside { sheet: 0, piece: 0 }]);
    assert_eq!(at(300, 160), Ok(()));
    assert_eq!(at(300, 159), outside);
    // The corner (292, 10) lies 1700 / √25000 = 10.75 off the slanted side of the tear, (293, 10) only 9.80.
    assert_eq!(at(92, 10), Ok(()));
    assert_eq!(at(93, 10), outside);
    assert_eq!(at(400, 20), outside, "in the torn zone");
    let whole = compare(&problem, &EFFORT).unwrap();
    assert_eq!(whole.rows[0].outcome.as_ref().unwrap().take.count(), 1);
    // 980 × 430 is all that is left above the tear.
    let one = |width| {
        compare(&self::problem(vec![rectangle("A", 980, width, 1, Turns::Half)], vec![self::torn()]), &EFFORT)
    };
    assert!(one(430).is_ok());
    assert!(one(431).is_err());
}

/// Worked by hand: under a part across the upper end there are 980 × 474 for a drop; a hole in the middle of it leaves at most
/// 980 × 217 without the hole, and a rectangle with the hole in it has more metal.
#[test]
fn a_drop_takes_a_hole_with_it_that_lies_in_it_whole() {
    let sheet_with = |hole: &[(i64, i64)]| {
        let outer = ring(&[(0, 0), (1000, 0), (1000, 600), (0, 600)]);
        let outline = GridOutline::new(outer, vec![ring(hole)]).unwrap();
        let problem = problem(vec![rectangle("A", 980, 100, 1, Turns::Half)], vec![offcut("holed", outline)]);
        let placement = Placement { part: 0, pose: Pose::turned(Turn::NONE), shift: GridPoint::new(10, 490) };
        let sheet = Sheet { stock: 0, placements: vec![placement] };
        verify(&problem, &Nest { sheets: vec![sheet.clone()] }).unwrap();
        nest::drop::drops(&problem, &sheet)
    };
    let found = sheet_with(&[(480, 237), (520, 237), (520, 257), (480, 257)]);
    assert_eq!((found[0].low, found[0].high), (GridPoint::new(10, 10), GridPoint::new(990, 484)));
    assert_eq!(found.len(), 1);
    // A hole nearer to the side of the drop than the trim stays out of it.
    let found = sheet_with(&[(480, 12), (520, 12), (520, 32), (480, 32)]);
    assert_eq!((found[0].low, found[0].high), (GridPoint::new(10, 42), GridPoint::new(990, 484)));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Whatever the offcut, a nest that is found has passed the verifier, and the verifier agrees with a plain walk
    /// over sample points: none of a piece lies off the metal.
    #[test]
    fn pieces_lie_in_the_metal(notch in (200_i64..900, 200_i64..900), slope in 0_i64..500, size in (60_i64..300, 60_i64..300), quantity in 1_u32..6) {
        let corners = [(0, 0), (1600, 0), (1600, notch.1), (1600 - notch.0, notch.1), (1600 - notch.0, 1200), (slope, 1200), (0, 1200 - slope)];
        let outline = GridOutline::new(ring(&corners), Vec::new()).unwrap();
        let parts = vec![rectangle("A", size.0, size.1, quantity, Turns::Quarter)];
        let problem = problem(parts, vec![offcut("rack", outline.clone()), sheet(1600, 1200)]);
        let found = compare(&problem, &EFFORT).unwrap();
        for row in found.rows.iter().filter_map(|row| row.outcome.as_ref().ok()) {
            for used in row.nest.sheets.iter().filter(|used| used.stock == 0) {
                for placed in &used.placements {
                    let piece = placed.outline(&problem);
                    let (low, high) = piece.bounds();
                    for step in 0..=8_i64 {
                        let along = GridPoint::new(low.x + (high.x - low.x) * step / 8, low.y);
                        let up = GridPoint::new(high.x, low.y + (high.y - low.y) * step / 8);
                        for point in [along, up, GridPoint::new(along.x, high.y), GridPoint::new(low.x, up.y)] {
                            let place = geometry::grid::place_in_ring(outline.outer(), point);
                            prop_assert_eq!(place, geometry::grid::Place::Inside);
                        }
                    }
                }
            }
        }
    }
}
