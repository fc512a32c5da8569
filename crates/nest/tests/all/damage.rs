//! Random damage to valid nests of random parts is always found, and a second library sees no overlap in them.

#![expect(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use geo::Area;
use geo_clipper::Clipper;
use geometry::grid::{GridOutline, GridPoint, Turn};
use nest::verify::keeps_gap;
use nest::{
    Effort, Fault, Mirror, Nest, Part, Placement, Problem, Rules, Stock, StockShape, Turns, clear, compare,
    verify,
};
use proptest::prelude::*;
use proptest::sample::Index;

use crate::second_geometry::{in_doubles, shared_area};

const GAP: i64 = 60;
const TRIM: i64 = 40;
const SHEET: (i64, i64) = (6_000, 4_000);

/// A figure with bays: columns of different heights on one foot, some with a hole in the foot.
fn figure() -> impl Strategy<Value = GridOutline> {
    let columns = prop::collection::vec((120_i64..500, 0_i64..900), 1..4);
    (columns, 200_i64..600, prop::bool::ANY).prop_filter_map("edges cross", |(columns, foot, holed)| {
        let length: i64 = columns.iter().map(|(width, _)| width).sum();
        let mut ring = vec![GridPoint::new(0, 0), GridPoint::new(length, 0)];
        let mut x = length;
        for (number, (width, rise)) in columns.iter().enumerate() {
            // A slanting top, so that not every edge is level or upright.
            let slant = 37 * i64::try_from(number).unwrap();
            ring.push(GridPoint::new(x, foot + rise));
            x -= width;
            ring.push(GridPoint::new(x, foot + rise + slant));
        }
        let hole = [(20, 30), (20, foot - 30), (length - 20, foot - 30), (length - 20, 30)];
        let hole: Vec<GridPoint> = hole.into_iter().map(|(x, y)| GridPoint::new(x, y)).collect();
        GridOutline::new(ring, if holed && 60 < foot { vec![hole] } else { Vec::new() }).ok()
    })
}

fn parts() -> impl Strategy<Value = Vec<Part>> {
    let turns = prop_oneof![Just(Turns::Half), Just(Turns::Quarter)];
    let part = (figure(), 1_u32..6, turns).prop_map(|(outline, quantity, turns)| Part {
        mark: String::from("P"),
        outline,
        quantity,
        turns,
        mirror: Mirror::Never,
    });
    prop::collection::vec(part, 2..5)
}

fn problem(parts: Vec<Part>, limit: Option<u32>) -> Problem {
    let shape = StockShape::Rectangle { length: SHEET.0, width: SHEET.1 };
    let stock = vec![Stock { name: String::from("S"), shape, price: None, limit }];
    Problem::new(parts, stock, Rules { gap: GAP, edge_trim: TRIM, least_drop: 300 }).unwrap()
}

fn nested(problem: &Problem) -> Nest {
    let table = compare(problem, &Effort { evaluations: 120, starts: 1, seed: 5 }).unwrap();
    table.rows[table.best].outcome.clone().unwrap().nest
}

fn outlines<'a>(problem: &'a Problem, placements: &'a [Placement]) -> Vec<GridOutline> {
    placements.iter().map(|placed| placed.outline(problem)).collect()
}

/// A sheet, and a piece on it, chosen by chance.
fn chosen<'a>(nest: &'a mut Nest, piece: &Index) -> &'a mut Placement {
    let all = nest.sheets.iter_mut().flat_map(|sheet| &mut sheet.placements).collect::<Vec<_>>();
    let number = piece.index(all.len());
    all.into_iter().nth(number).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn a_second_library_sees_the_gap_kept(parts in parts()) {
        let problem = problem(parts, None);
        for sheet in &nested(&problem).sheets {
            let outlines = outlines(&problem, &sheet.placements);
            for second in 1..outlines.len() {
                for first in 0..second {
                    // Round corners become chords, and both libraries round crossings: two steps in sixty.
                    let area = shared_area(&outlines[first], &outlines[second], GAP - 2);
                    prop_assert!(area <= 0.0, "{area} shared by {:?} and {:?}", outlines[first], outlines[second]);
                }
            }
        }
    }

    #[test]
    fn pieces_too_many_and_too_few_are_found(parts in parts(), piece: Index, other: Index) {
        let problem = problem(parts, None);
        let nest = nested(&problem);
        let counted = |nest: &Nest| {
            let faults = verify(&problem, nest).unwrap_err();
            faults.iter().any(|fault| matches!(fault, Fault::Count { .. }))
        };
        let mut fewer = nest.clone();
        let sheet = piece.index(fewer.sheets.len());
        let from = other.index(fewer.sheets[sheet].placements.len());
        let taken = fewer.sheets[sheet].placements.remove(from);
        prop_assert!(counted(&fewer), "a piece was taken away");
        let mut more = nest.clone();
        more.sheets[sheet].placements.push(taken);
        prop_assert!(counted(&more), "a piece was laid twice");
        let mut exchanged = nest;
        let placed = chosen(&mut exchanged, &piece);
        placed.part = (placed.part + 1) % problem.parts().len();
        prop_assert!(counted(&exchanged), "a piece was given out as another part");
    }

    #[test]
    fn one_step_beyond_the_trim_is_found(parts in parts(), piece: Index, side in 0_usize..4, beyond in 1_i64..500) {
        let problem = problem(parts, None);
        let mut nest = nested(&problem);
        let (low, high) = chosen(&mut nest, &piece).outline(&problem).bounds();
        let by = [
            GridPoint::new(TRIM - low.x - beyond, 0),
            GridPoint::new(SHEET.0 - TRIM - high.x + beyond, 0),
            GridPoint::new(0, TRIM - low.y - beyond),
            GridPoint::new(0, SHEET.1 - TRIM - high.y + beyond),
        ][side];
        let placed = chosen(&mut nest, &piece);
        placed.shift = placed.shift + by;
        let faults = verify(&problem, &nest).unwrap_err();
        prop_assert!(faults.iter().any(|fault| matches!(fault, Fault::Outside { .. })), "{faults:?}");
    }

    #[test]
    fn a_turn_off_the_lay_is_found(parts in parts(), piece: Index, off in 1_u32..90_000) {
        let problem = problem(parts, None);
        let mut nest = nested(&problem);
        let placed = chosen(&mut nest, &piece);
        placed.pose.turn = Turn::from_millidegrees(placed.pose.turn.millidegrees() + off);
        let faults = verify(&problem, &nest).unwrap_err();
        prop_assert!(faults.iter().any(|fault| matches!(fault, Fault::Turn { .. })), "{faults:?}");
    }

    #[test]
    fn a_sheet_too_many_is_found(parts in parts()) {
        let nest = nested(&problem(parts.clone(), None));
        let there = u32::try_from(nest.sheets.len()).unwrap() - 1;
        let faults = verify(&problem(parts, Some(there)), &nest).unwrap_err();
        prop_assert!(faults.iter().any(|fault| matches!(fault, Fault::Limit { .. })), "{faults:?}");
    }

    /// A piece is shifted anywhere. What is too near by the second library is found; where the library sees more than the gap,
    /// nothing is.
    #[test]
    fn a_shift_is_found_when_it_comes_too_near(parts in parts(), sheet: Index, piece: Index, dx in -900_i64..900, dy in -900_i64..900) {
        let problem = problem(parts, None);
        let mut nest = nested(&problem);
        let sheet = sheet.index(nest.sheets.len());
        let moved = piece.index(nest.sheets[sheet].placements.len());
        let placed = &mut nest.sheets[sheet].placements[moved];
        placed.shift = placed.shift + GridPoint::new(dx, dy);
        let (low, high) = placed.outline(&problem).bounds();
        let inside = TRIM <= low.x.min(low.y) && high.x <= SHEET.0 - TRIM && high.y <= SHEET.1 - TRIM;
        let outlines = outlines(&problem, &nest.sheets[sheet].placements);
        let others = (0..outlines.len()).filter(|&other| other != moved);
        let shared = |by: i64| {
            others.clone().any(|other| 0.0 < shared_area(&outlines[moved], &outlines[other], by))
        };
        let found = verify(&problem, &nest).is_err();
        if !inside || shared(GAP - 2) {
            prop_assert!(found, "moved by {dx}, {dy}");
        } else if !shared(GAP + 2) {
            prop_assert!(!found, "moved by {dx}, {dy}: {:?}", verify(&problem, &nest));
        }
    }

    /// Small figures on few places touch, share borders and lie in one another's holes all the time.
    #[test]
    fn judge_and_search_agree_where_pieces_touch(
        first in small_figure(), second in small_figure(), x in -9_i64..9, y in -9_i64..9, gap in 0_i64..4,
    ) {
        let moved = second.shifted(GridPoint::new(x, y));
        let judged = keeps_gap(&first, &moved, gap);
        prop_assert_eq!(judged, clear::apart(&first, &moved, gap));
        prop_assert_eq!(judged, keeps_gap(&moved, &first, gap));
        if gap == 0 {
            // Corners are whole steps from one another: what overlaps does so by a good part of a step's square.
            let area = in_doubles(&first).intersection(&in_doubles(&moved), 1024.0).unsigned_area();
            prop_assert_eq!(judged, area < 0.004, "{} shared", area);
        }
    }
}

/// Three to six corners on a lattice of nine by nine, some with a small hole.
fn small_figure() -> impl Strategy<Value = GridOutline> {
    let corner = || (0_i64..9, 0_i64..9).prop_map(|(x, y)| GridPoint::new(x, y));
    let hole = prop::option::of(prop::collection::vec(corner(), 3..5));
    (prop::collection::vec(corner(), 3..7), hole).prop_filter_map("edges cross", |(ring, hole)| {
        GridOutline::new(ring.clone(), hole.into_iter().collect())
            .or_else(|_| GridOutline::new(ring, Vec::new()))
            .ok()
    })
}
