//! Random damage to nests on torn sheets and offcuts, of parts turned over, kept together and cut by shared cuts, is found.

#![expect(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use geometry::grid::{GridOutline, GridPoint, Turn};
use nest::{
    Effort, Fault, Mirror, Nest, Part, Placement, Problem, Rules, Sheet, Stock, StockShape, Together, Turns,
    compare, shared_cuts, verify,
};
use proptest::prelude::*;
use proptest::sample::Index;

use crate::second_geometry::shared_area;

const GAP: i64 = 60;
const TRIM: i64 = 40;
const KERF: i64 = 30;
const SHEET: (i64, i64) = (6_000, 4_000);

/// A triangle with a corner cut off: its mirror image is no turn of it.
fn figure() -> impl Strategy<Value = GridOutline> {
    (500_i64..1_600, 400_i64..1_200, 60_i64..200).prop_map(|(length, width, cut)| {
        ring_outline(&[(0, 0), (length, 0), (length, cut), (cut, width), (0, width)])
    })
}

fn ring(corners: &[(i64, i64)]) -> Vec<GridPoint> {
    corners.iter().map(|&(x, y)| GridPoint::new(x, y)).collect()
}

fn ring_outline(corners: &[(i64, i64)]) -> GridOutline {
    GridOutline::new(ring(corners), Vec::new()).unwrap()
}

fn rectangle(low: (i64, i64), high: (i64, i64)) -> Vec<GridPoint> {
    ring(&[low, (high.0, low.1), high, (low.0, high.1)])
}

fn parts() -> impl Strategy<Value = Vec<Part>> {
    let mirror = prop_oneof![Just(Mirror::Never), Just(Mirror::Allowed)];
    let part = (figure(), 1_u32..4, mirror).prop_map(|(outline, quantity, mirror)| Part {
        mark: String::from("P"),
        outline,
        quantity,
        turns: Turns::Quarter,
        mirror,
    });
    prop::collection::vec(part, 2..5)
}

/// A sheet that is torn at a corner, or an offcut with a bay and a hole; and what of its rectangle may not be used.
fn sheet(torn: bool) -> (StockShape, Vec<GridOutline>) {
    let (length, width) = SHEET;
    let solid = |corners| GridOutline::new(corners, Vec::new()).unwrap();
    if torn {
        let zone = ring_outline(&[(0, 0), (1_500, 0), (0, 1_200)]);
        let outline = solid(rectangle((0, 0), SHEET));
        return (StockShape::Torn { outline, zones: vec![zone.clone()] }, vec![zone]);
    }
    let hole = rectangle((2_600, 1_700), (3_100, 2_200));
    let bay = [(0, 0), (length, 0), (length, 2_500), (4_800, 2_500), (4_800, width), (0, width)];
    let outline = GridOutline::new(ring(&bay), vec![hole.clone()]).unwrap();
    (StockShape::Offcut(outline), vec![solid(hole), solid(rectangle((4_800, 2_500), SHEET))])
}

fn problem(parts: Vec<Part>, shape: StockShape) -> Problem {
    let stock = vec![Stock { name: String::from("S"), shape, price: None, limit: None }];
    Problem::new(parts, stock, Rules { gap: GAP, edge_trim: TRIM, least_drop: 300 }).unwrap()
}

fn nested(problem: &Problem) -> Nest {
    let table = compare(problem, &Effort { evaluations: 120, starts: 1, seed: 5 }).unwrap();
    let nest = table.rows[table.best].outcome.clone().unwrap().nest;
    assert_eq!(verify(problem, &nest), Ok(()));
    nest
}

/// Where a piece of a nest stands: sheet and place on it.
fn chosen(nest: &Nest, piece: &Index, is: impl Fn(&Placement) -> bool) -> Option<(usize, usize)> {
    let all = nest.sheets.iter().enumerate().flat_map(|(sheet, on)| {
        on.placements.iter().enumerate().map(move |(place, placed)| (sheet, place, placed))
    });
    let all: Vec<(usize, usize)> =
        all.filter(|(.., placed)| is(placed)).map(|(sheet, place, _)| (sheet, place)).collect();
    (!all.is_empty()).then(|| all[piece.index(all.len())])
}

/// Whether two pieces of a sheet come nearer than this, by the second library.
fn any_nearer(problem: &Problem, sheet: &Sheet, moved: usize, by: i64) -> bool {
    let outlines: Vec<GridOutline> = sheet.placements.iter().map(|placed| placed.outline(problem)).collect();
    (0..outlines.len())
        .any(|other| other != moved && 0.0 < shared_area(&outlines[moved], &outlines[other], by))
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(40) })]

    #[test]
    fn a_piece_on_its_face_is_found_unless_it_may(parts in parts(), piece: Index) {
        let problem = problem(parts, sheet(true).0);
        let mut nest = nested(&problem);
        let never = |placed: &Placement| problem.parts()[placed.part].mirror == Mirror::Never;
        let Some((sheet, place)) = chosen(&nest, &piece, never) else { return Ok(()) };
        let placed = &mut nest.sheets[sheet].placements[place];
        prop_assert!(!placed.pose.over);
        placed.pose.over = true;
        let faults = verify(&problem, &nest).unwrap_err();
        let is_it = |fault: &Fault| *fault == Fault::TurnedOver { sheet, piece: place };
        prop_assert!(faults.iter().any(is_it), "{faults:?}");
    }

    /// A piece is shifted anywhere on a torn sheet or an offcut: what reaches into a tear, a bay or a hole, or too near to another
    /// piece, by the second library, is found; where the library sees more than is asked, nothing is.
    #[test]
    fn a_shift_off_the_metal_is_found(parts in parts(), torn: bool, piece: Index, dx in -2_500_i64..2_500, dy in -2_500_i64..2_500) {
        let (shape, missing) = sheet(torn);
        let problem = problem(parts, shape);
        let mut nest = nested(&problem);
        let (sheet, place) = chosen(&nest, &piece, |_| true).unwrap();
        let placed = &mut nest.sheets[sheet].placements[place];
        placed.shift = placed.shift + GridPoint::new(dx, dy);
        let outline = placed.outline(&problem);
        let (low, high) = outline.bounds();
        let inside = TRIM <= low.x.min(low.y) && high.x <= SHEET.0 - TRIM && high.y <= SHEET.1 - TRIM;
        let off_metal = |by: i64| missing.iter().any(|missing| 0.0 < shared_area(missing, &outline, by));
        let nearer = |by: i64| any_nearer(&problem, &nest.sheets[sheet], place, by);
        let found = verify(&problem, &nest).is_err();
        if !inside || off_metal(TRIM - 2) || nearer(GAP - 2) {
            prop_assert!(found, "moved by {dx}, {dy}");
        } else if !off_metal(TRIM + 2) && !nearer(GAP + 2) {
            prop_assert!(!found, "moved by {dx}, {dy}: {:?}", verify(&problem, &nest));
        }
    }

    #[test]
    fn a_group_parted_or_turned_apart_is_found(parts in parts(), piece: Index) {
        let group = Together { parts: vec![0, 1], same_lay: true };
        let problem = problem(parts, sheet(true).0).keeping(vec![group]).unwrap();
        let nest = nested(&problem);
        let (sheet, place) = chosen(&nest, &piece, |placed| placed.part < 2).unwrap();
        let mut parted = nest.clone();
        let taken = parted.sheets[sheet].placements.remove(place);
        parted.sheets.push(Sheet { stock: 0, placements: vec![taken] });
        let faults = verify(&problem, &parted).unwrap_err();
        prop_assert!(faults.contains(&Fault::Parted { group: 0, sheets: 2 }), "{faults:?}");
        let mut turned = nest;
        let placed = &mut turned.sheets[sheet].placements[place];
        placed.pose.turn = Turn::from_millidegrees(placed.pose.turn.millidegrees() + 90_000);
        let faults = verify(&problem, &turned).unwrap_err();
        prop_assert!(faults.contains(&Fault::Lay { group: 0 }), "{faults:?}");
    }

    /// Pieces that share a cut lie a kerf apart, nearer than the gap. One of them shifted: nearer than the kerf is always found, and
    /// so is nearer than the gap once no side matches any more.
    #[test]
    fn a_shared_cut_out_of_place_is_found(
        size in (400_i64..1_200, 300_i64..900), quantity in 2_u32..7, piece: Index, dx in -80_i64..80, dy in -80_i64..80,
    ) {
        let block = Part {
            mark: String::from("B"),
            outline: GridOutline::rectangle(size.0, size.1).unwrap(),
            quantity,
            turns: Turns::Half,
            mirror: Mirror::Never,
        };
        let problem = problem(vec![block], sheet(true).0).sharing_cuts(KERF);
        let mut nest = nested(&problem);
        let (sheet, place) = chosen(&nest, &piece, |_| true).unwrap();
        let cuts = shared_cuts(&problem, &nest.sheets[sheet]);
        let shares = cuts.iter().any(|cut| cut.first == place || cut.second == place);
        let placed = &mut nest.sheets[sheet].placements[place];
        placed.shift = placed.shift + GridPoint::new(dx, dy);
        let (low, high) = placed.outline(&problem).bounds();
        let inside = TRIM <= low.x.min(low.y) && high.x <= SHEET.0 - TRIM && high.y <= SHEET.1 - TRIM;
        let nearer = |by: i64| any_nearer(&problem, &nest.sheets[sheet], place, by);
        let found = verify(&problem, &nest).is_err();
        if !inside || nearer(KERF - 2) {
            prop_assert!(found, "moved by {dx}, {dy}");
        }
        // A level or upright side that is shifted along matches no more, and may be no nearer than the gap.
        if shares && dx != 0 && dy != 0 && nearer(GAP - 2) {
            prop_assert!(found, "moved by {dx}, {dy}");
        }
    }
}
