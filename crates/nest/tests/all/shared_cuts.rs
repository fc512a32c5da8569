//! One cut for two parts: made where sides match, judged, and never a step off.

#![expect(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use geometry::grid::{GridOutline, GridPoint, Turn};
use nest::bound::bound;
use nest::verify::Fault;
use nest::{
    Effort, Mirror, Nest, Part, Placement, Pose, Problem, Rules, SharedCut, Sheet, Stock, StockShape,
    StraightCut, Turns, compare, shared_cuts, verify,
};
use proptest::prelude::*;

const KERF: i64 = 3;
const RULES: Rules = Rules { gap: 8, edge_trim: 5, least_drop: i64::MAX };

fn problem(parts: Vec<Part>, length: i64, width: i64) -> Problem {
    let shape = StockShape::Rectangle { length, width };
    let stock = Stock { name: "sheet".into(), shape, price: Some(1), limit: None };
    Problem::new(parts, vec![stock], RULES).unwrap()
}

fn part(corners: &[(i64, i64)], quantity: u32) -> Part {
    let ring = corners.iter().map(|&(x, y)| GridPoint::new(x, y)).collect();
    let outline = GridOutline::new(ring, Vec::new()).unwrap();
    Part { mark: "P".into(), outline, quantity, turns: Turns::Half, mirror: Mirror::Never }
}

fn rectangle(length: i64, width: i64, quantity: u32) -> Part {
    part(&[(0, 0), (length, 0), (length, width), (0, width)], quantity)
}

fn nested(problem: &Problem) -> Nest {
    let effort = Effort { evaluations: 500, starts: 1, seed: 1 };
    compare(problem, &effort).unwrap().rows[0].outcome.as_ref().unwrap().nest.clone()
}

fn laid(places: &[(i64, i64)]) -> Nest {
    let at = |&(x, y): &(i64, i64)| Placement {
        part: 0,
        pose: Pose::turned(Turn::NONE),
        shift: GridPoint::new(x, y),
    };
    Nest { sheets: vec![Sheet { stock: 0, placements: places.iter().map(at).collect() }] }
}

/// Six equal rectangles in two columns of three: four cuts between rows and three between the columns serve two parts each.
#[test]
fn equal_rectangles_close_up_to_a_grid_of_shared_cuts() {
    let problem = problem(vec![rectangle(100, 50, 6)], 300, 200);
    let apart = nested(&problem);
    assert_eq!(shared_cuts(&problem, &apart.sheets[0]), [], "cuts are shared though nobody said so");
    let sharing = problem.sharing_cuts(KERF);
    let nest = nested(&sharing);
    let cuts = shared_cuts(&sharing, &nest.sheets[0]);
    assert_eq!((nest.sheets.len(), cuts.len()), (1, 7), "{cuts:?}");
    let cuts: Vec<StraightCut> = cuts.iter().filter_map(SharedCut::straight).collect();
    assert!(cuts.iter().all(|cut| cut.within[1] - cut.within[0] == KERF), "{cuts:?}");
    let length: i64 = cuts.iter().map(|cut| cut.to - cut.from).sum();
    assert_eq!(length, 4 * 100 + 3 * 50);
}

/// Twelve rectangles that fill a sheet when only the kerf lies between them, two columns of six: 2·100 + 3 by 6·50 + 5·3,
/// with the trim of 5 all round. No limit may exclude what is there.
#[test]
fn limits_count_the_kerf_where_cuts_are_shared() {
    let plain = problem(vec![rectangle(100, 50, 12)], 213, 325);
    let places: Vec<(i64, i64)> =
        (0..12).map(|n| (5 + (n % 2) * (100 + KERF), 5 + (n / 2) * (50 + KERF))).collect();
    let full = laid(&places);
    assert!(verify(&plain, &full).is_err() && 1 < bound(&plain, &[0]).sheets);
    let sharing = plain.sharing_cuts(KERF);
    verify(&sharing, &full).unwrap();
    assert_eq!(bound(&sharing, &[0]).sheets, 1);
}

/// The same is found, and so is a grid with a short row, and one with another part a gap beside it: 5 + 203 + 8 + 40 + 5.
#[test]
fn grids_that_only_fit_with_shared_cuts_are_found() {
    let sheets = |parts: Vec<Part>, length: i64| {
        let problem = problem(parts, length, 325).sharing_cuts(KERF);
        let nest = nested(&problem);
        verify(&problem, &nest).unwrap();
        nest.sheets.len()
    };
    assert_eq!(sheets(vec![rectangle(100, 50, 12)], 213), 1);
    assert_eq!(sheets(vec![rectangle(100, 50, 13)], 213), 2);
    assert_eq!(sheets(vec![rectangle(100, 50, 11)], 213), 1);
    let slanted = part(&[(0, 0), (40, 0), (40, 315), (9, 315)], 1);
    assert_eq!(sheets(vec![slanted, rectangle(100, 50, 12)], 261), 1);
}

/// Every other piece would be nearer than the gap: such a grid is none, and the third piece lies a gap from the other two, which
/// takes 1 + 3 + 1 + 8 + 1 between trims of 5.
#[test]
fn pieces_smaller_than_the_gap_make_no_grid() {
    for (length, sheets) in [(24, 1), (23, 2)] {
        let sharing = problem(vec![rectangle(1, 30, 3)], length, 40).sharing_cuts(KERF);
        let nest = nested(&sharing);
        verify(&sharing, &nest).unwrap();
        assert_eq!(nest.sheets.len(), sheets, "{length}");
    }
}

#[test]
fn a_shared_cut_is_exact_in_width_and_place_or_the_pieces_are_too_near() {
    let sharing = problem(vec![rectangle(100, 50, 2)], 300, 200).sharing_cuts(KERF);
    let near = [Fault::TooNear { sheet: 0, first: 0, second: 1 }];
    for (x, y) in [(107, 5), (105 + KERF, 5), (113, 5), (5, 55 + KERF)] {
        let judged = verify(&sharing, &laid(&[(5, 5), (x, y)]));
        let is_right = x == 105 + KERF || x == 113 || y == 55 + KERF;
        assert_eq!(judged.is_ok(), is_right, "{x} {y}: {judged:?}");
    }
    for (x, y) in [(104 + KERF, 5), (106 + KERF, 5), (105 + KERF, 6), (105, 5), (112, 5)] {
        assert_eq!(verify(&sharing, &laid(&[(5, 5), (x, y)])).unwrap_err(), near, "{x} {y}");
    }
    // Without the word of the shop the same place is too near.
    let plain = problem(vec![rectangle(100, 50, 2)], 300, 200);
    assert_eq!(verify(&plain, &laid(&[(5, 5), (105 + KERF, 5)])).unwrap_err(), near);
}

/// Corner to corner, with a third piece beside one and over the other, two cuts cross; without it the two are too near.
#[test]
fn corners_may_be_near_only_where_two_shared_cuts_cross() {
    let places = [(5, 5), (105 + KERF, 5), (105 + KERF, 55 + KERF)];
    let sharing = |quantity| problem(vec![rectangle(100, 50, quantity)], 300, 200).sharing_cuts(KERF);
    assert_eq!(verify(&sharing(3), &laid(&places)), Ok(()));
    let near = [Fault::TooNear { sheet: 0, first: 0, second: 1 }];
    assert_eq!(verify(&sharing(2), &laid(&[places[0], places[2]])).unwrap_err(), near);
    let off = [(5, 5), (105 + KERF, 5), (105 + KERF, 56 + KERF)];
    assert!(verify(&sharing(3), &laid(&off)).is_err());
}

/// The side of a C is as long as its piece, but is two sides with a bay between them; a cut along it would meet nothing there.
#[test]
fn a_side_with_a_bay_in_it_is_no_full_side() {
    let bayed = [(0, 0), (60, 0), (60, 15), (30, 15), (30, 35), (60, 35), (60, 50), (0, 50)];
    let sharing = problem(vec![part(&bayed, 2)], 300, 200).sharing_cuts(KERF);
    let near = Nest {
        sheets: vec![Sheet {
            stock: 0,
            placements: [(Turn::NONE, 5, 5), (Turn::from_millidegrees(180_000), 125 + KERF, 55)]
                .map(|(turn, x, y)| Placement {
                    part: 0,
                    pose: Pose::turned(turn),
                    shift: GridPoint::new(x, y),
                })
                .to_vec(),
        }],
    };
    assert!(verify(&sharing, &near).is_err());
    assert_eq!(shared_cuts(&sharing, &near.sheets[0]), []);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// Whatever is nested with shared cuts passes the judge, who has a rule of his own, and all level and upright cuts are one kerf wide.
    #[test]
    fn shared_nests_are_sound(sizes in proptest::collection::vec((20_i64..90, 20_i64..90, 1_u32..5, 0_i64..15), 1..5)) {
        let parts = sizes.iter().map(|&(a, b, quantity, slant)| {
            part(&[(0, 0), (a, 0), (a, b), (slant, b)], quantity)
        });
        let sharing = problem(parts.collect(), 260, 200).sharing_cuts(KERF);
        let nest = nested(&sharing);
        prop_assert_eq!(verify(&sharing, &nest), Ok(()));
        for sheet in &nest.sheets {
            for shared in shared_cuts(&sharing, sheet) {
                prop_assert!(shared.first != shared.second);
                if let Some(cut) = shared.straight() {
                    prop_assert_eq!(cut.within[1] - cut.within[0], KERF);
                    prop_assert!(cut.from < cut.to);
                }
            }
        }
    }
}
