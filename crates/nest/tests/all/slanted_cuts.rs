//! One cut for two parts along a slanted side: at least a kerf wide, hardly more, and judged to the step.

#![expect(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use geometry::grid::{GridOutline, GridPoint, Turn};
use geometry::trig;
use nest::verify::{Fault, keeps_gap};
use nest::{
    Effort, Mirror, Nest, Part, Placement, Pose, Problem, Rules, Sheet, Step, Stock, StockShape, Turns,
    compare, cutting_order, shared_cuts, verify,
};
use proptest::prelude::*;

const KERF: i64 = 50;
const RULES: Rules = Rules { gap: 200, edge_trim: 100, least_drop: i64::MAX };

fn problem(parts: Vec<Part>, length: i64, width: i64) -> Problem {
    let shape = StockShape::Rectangle { length, width };
    let stock = Stock { name: "sheet".into(), shape, price: Some(1), limit: None };
    Problem::new(parts, vec![stock], RULES).unwrap().sharing_cuts(KERF)
}

fn part(corners: &[(i64, i64)], quantity: u32) -> Part {
    let ring = corners.iter().map(|&(x, y)| GridPoint::new(x, y)).collect();
    let outline = GridOutline::new(ring, Vec::new()).unwrap();
    Part { mark: "P".into(), outline, quantity, turns: Turns::Half, mirror: Mirror::Never }
}

/// Pieces of part 0, turned half over or not, at these places.
fn laid(pieces: &[(bool, i64, i64)]) -> Nest {
    let at = |&(turned, x, y): &(bool, i64, i64)| Placement {
        part: 0,
        pose: Pose::turned(if turned { Turn::HALF } else { Turn::NONE }),
        shift: GridPoint::new(x, y),
    };
    Nest { sheets: vec![Sheet { stock: 0, placements: pieces.iter().map(at).collect() }] }
}

fn nested(problem: &Problem) -> Nest {
    let effort = Effort { evaluations: 500, starts: 1, seed: 1 };
    compare(problem, &effort).unwrap().rows[0].outcome.as_ref().unwrap().nest.clone()
}

fn slanted(problem: &Problem, nest: &Nest) -> usize {
    let cuts = nest.sheets.iter().flat_map(|sheet| shared_cuts(problem, sheet));
    cuts.filter(|cut| cut.straight().is_none()).count()
}

/// Sides of 3, 4 and 5: square to the slanted one, which runs from (4000, 0) to (0, 3000), a kerf of 50 is a shift by exactly
/// (30, 40), and 50 along it one by (40, -30). With its upper end on (4000, 0), the half-turned triangle lies at (4000, 3000).
const TRIANGLE: [(i64, i64); 3] = [(0, 0), (4000, 0), (0, 3000)];

fn judged(x: i64, y: i64) -> Result<(), Vec<Fault>> {
    let pair = problem(vec![part(&TRIANGLE, 2)], 9000, 9000);
    let nest = laid(&[(false, 1000, 1000), (true, 5000 + x, 4000 + y)]);
    let judged = verify(&pair, &nest);
    assert_eq!(slanted(&pair, &nest), usize::from(judged.is_ok()), "listed and judged otherwise: {x} {y}");
    judged
}

#[test]
fn a_slanted_cut_is_at_least_a_kerf_wide_and_hardly_more() {
    let near = [Fault::TooNear { sheet: 0, first: 0, second: 1 }];
    assert_eq!(judged(30, 40), Ok(()));
    // One step less along x is .6 less, one more .6 more.
    for (x, y) in [(29, 40), (30, 39), (0, 0), (-3, -4), (60, 80)] {
        assert_eq!(judged(x, y).unwrap_err(), near, "{x} {y}");
    }
    // Four steps more than the kerf are taken for rounding, five are not.
    assert_eq!(judged(36, 40), Ok(()));
    assert_eq!(judged(37, 40).unwrap_err(), near);
    assert_eq!(judged(33, 44).unwrap_err(), near);
}

#[test]
fn the_ends_of_a_slanted_cut_lie_opposite_one_another_within_the_kerf() {
    for way in [1, -1] {
        assert_eq!(judged(30 + 40 * way, 40 - 30 * way), Ok(()));
        assert!(judged(30 + 44 * way, 40 - 33 * way).is_err());
        assert!(judged(30 + 400 * way, 40 - 300 * way).is_err());
    }
}

/// Triangles with a foot that reaches past the slanted side: a cut along it would run into the foot, so it serves nothing.
#[test]
fn all_of_both_pieces_lies_on_its_own_side_of_the_cut() {
    let nest = laid(&[(false, 3000, 5000), (true, 7030, 8040)]);
    let pair = |foot: [(i64, i64); 3]| {
        problem(vec![part(&[&foot[..], &[(4000, 0), (0, 3000)]].concat(), 2)], 20_000, 20_000)
    };
    let footed = pair([(0, -2000), (6000, -2000), (6000, 1000)]);
    assert_eq!(verify(&footed, &nest).unwrap_err(), [Fault::TooNear { sheet: 0, first: 0, second: 1 }]);
    assert_eq!(slanted(&footed, &nest), 0);
    // A foot behind the line of the side does no harm.
    let behind = pair([(0, -2500), (2000, -2500), (5000, -2000)]);
    assert_eq!((verify(&behind, &nest), slanted(&behind, &nest)), (Ok(()), 1));
}

/// Rounds made of 32 chords, each 980 long, come as near as a kerf, chord beside chord: a chord is no side.
#[test]
fn chords_of_rounds_are_no_sides() {
    let corner = |number: u32| {
        let angle = (f64::from(number) + 0.5) * std::f64::consts::PI / 16.0;
        // To the step, as rounding to text goes.
        let step = |share: f64| format!("{:.0}", 5000.0 * share).parse::<i64>().unwrap();
        (step(trig::cos(angle)), step(trig::sin(angle)))
    };
    let corners: Vec<(i64, i64)> = (0..32).map(corner).collect();
    let pair = problem(vec![part(&corners, 2)], 30_000, 30_000);
    let side_by_side = |x: i64, y: i64| laid(&[(false, 6000, 6000), (true, 6000 + x, 6000 + y)]);
    // Chords are 5000 · cos 5.625° = 4975.9 from the middle, the upright ones 4976.
    for nest in [side_by_side(7073, 7073), side_by_side(10_002, 0)] {
        assert!(verify(&pair, &nest).is_err());
        assert_eq!(shared_cuts(&pair, &nest.sheets[0]), []);
    }
}

/// Up, down, up: the lower corners of the outer two come near one another under the point of the middle one, where both cuts
/// cross. Without the middle one they are too near.
#[test]
fn pieces_beside_a_point_may_be_near_where_two_slanted_cuts_cross() {
    let triangle = [(0, 0), (4000, 0), (2000, 3000)];
    let sharing = |quantity| problem(vec![part(&triangle, quantity)], 20_000, 9000);
    // A kerf square to a side of (-2000, 3000), 3605.6 long, is 60.1 along x.
    let row = [(false, 100, 100), (true, 6100 + 61, 3100), (false, 4100 + 122, 100)];
    assert_eq!(verify(&sharing(3), &laid(&row)), Ok(()));
    assert_eq!(slanted(&sharing(3), &laid(&row)), 2);
    assert!(verify(&sharing(2), &laid(&[row[0], row[2]])).is_err());
    // A step nearer, one cut is too narrow.
    assert!(verify(&sharing(3), &laid(&[row[0], row[1], (false, 4100 + 121, 100)])).is_err());
}

/// Four tapered plates close up to a row with three slanted cuts; each is told before the first outline that it finishes.
#[test]
fn tapered_plates_close_up_head_to_tail() {
    let sharing = problem(vec![part(&[(0, 0), (9000, 0), (7000, 4000), (1500, 4000)], 4)], 40_000, 4300);
    let nest = nested(&sharing);
    verify(&sharing, &nest).unwrap();
    assert_eq!(slanted(&sharing, &nest), 3, "{nest:?}");
    let order = cutting_order(&sharing, &nest.sheets[0], &[], KERF);
    let told = |step: &Step| matches!(step, Step::Shared(_));
    assert_eq!(order.iter().filter(|step| told(step)).count(), 3, "{order:?}");
    for (at, step) in order.iter().enumerate() {
        let Step::Shared(cut) = step else { continue };
        let outline = |piece: usize| order.iter().position(|step| *step == Step::Outline(piece)).unwrap();
        assert!(at < outline(cut.first) && at < outline(cut.second), "{order:?}");
    }
}

/// Triangles that all lie the same way up, as an upper row would have them laid: some are turned to lie beside others.
#[test]
fn a_piece_is_turned_to_lie_beside_another() {
    let sharing = problem(vec![part(&TRIANGLE, 2)], 4300 + 300, 3200 + 300);
    let nest = nested(&sharing);
    assert_eq!((nest.sheets.len(), slanted(&sharing, &nest)), (1, 1), "{nest:?}");
}

/// Outlines that were turned are rounded outward, each its own way: their slanted sides are parallel to a step or so. Steps are as many
/// to the kerf here as they are on a real sheet.
#[test]
fn sides_of_turned_outlines_match_to_the_rounding() {
    let corners = TRIANGLE.map(|(x, y)| (1000 * x, 1000 * y));
    let mut shared = 0;
    for turn in [11_300, 37_000, 64_777, 101_010, 150_001, 170_003] {
        let turns = Turns::Listed([turn, turn + 180_000].map(Turn::from_millidegrees).to_vec());
        let pieces = Part { turns, ..part(&corners, 4) };
        let shape = StockShape::Rectangle { length: 24_000_000, width: 12_000_000 };
        let stock = Stock { name: "sheet".into(), shape, price: Some(1), limit: None };
        let rules = Rules { gap: 50_000, edge_trim: 100_000, least_drop: i64::MAX };
        let sharing = Problem::new(vec![pieces], vec![stock], rules).unwrap().sharing_cuts(25_000);
        let nest = nested(&sharing);
        verify(&sharing, &nest).unwrap();
        shared += slanted(&sharing, &nest);
    }
    // At some turns they are all laid alike.
    assert!(5 <= shared, "{shared}");
}

/// Corners of a plate, and how many.
type Plates = (Vec<(i64, i64)>, u32);

/// A plate tapered at both ends.
fn tapered() -> impl Strategy<Value = Plates> {
    (2000_i64..9000, 1500_i64..6000, 0_i64..2500, 0_i64..2500, 2_u32..6)
        .prop_map(|(top, h, a, b, quantity)| (vec![(0, 0), (top + a + b, 0), (top + b, h), (b, h)], quantity))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// Whatever is nested passes the judge; what shares no cut keeps the gap, unless two cuts cross beside it; and nothing is nearer
    /// than the kerf.
    #[test]
    fn slanted_nests_are_sound(plates in proptest::collection::vec((tapered(), 0..4), 1..4)) {
        let turned = |((corners, quantity), turns): &(Plates, i32)| {
            let turns = match turns {
                0 => Turns::Half,
                1 => Turns::Quarter,
                2 => Turns::Any,
                _ => Turns::Listed([33_300, 123_300, 213_300].map(Turn::from_millidegrees).to_vec()),
            };
            Part { turns, ..part(corners, *quantity) }
        };
        let sharing = problem(plates.iter().map(turned).collect(), 40_000, 20_000);
        let nest = nested(&sharing);
        prop_assert_eq!(verify(&sharing, &nest), Ok(()));
        for sheet in &nest.sheets {
            let cuts = shared_cuts(&sharing, sheet);
            let outlines: Vec<GridOutline> = sheet.placements.iter().map(|placed| placed.outline(&sharing)).collect();
            let shared = |a: usize, b: usize| cuts.iter().any(|cut| [cut.first, cut.second] == [a, b] || [cut.first, cut.second] == [b, a]);
            for second in 1..outlines.len() {
                for first in 0..second {
                    prop_assert!(keeps_gap(&outlines[first], &outlines[second], KERF));
                    let third = (0..outlines.len()).any(|third| shared(first, third) && shared(third, second));
                    let near = shared(first, second) || third;
                    prop_assert!(near || keeps_gap(&outlines[first], &outlines[second], RULES.gap));
                }
            }
        }
    }

    /// Equal plates tapered at one end at least, on a sheet just as wide: the slanted sides lie beside one another, and cuts are shared.
    #[test]
    fn tapered_plates_share_cuts((corners, quantity) in tapered()) {
        let slants = corners[1].0 != corners[2].0 || corners[3].0 != 0;
        prop_assume!(slants && 500 <= (corners[1].0 - corners[2].0).max(corners[3].0));
        let sharing = problem(vec![part(&corners, quantity)], 80_000, corners[2].1 + 300);
        let nest = nested(&sharing);
        prop_assert_eq!(verify(&sharing, &nest), Ok(()));
        prop_assert!(1 <= slanted(&sharing, &nest), "{:?}", nest);
    }

    /// One of a pair that shares a cut is moved anywhere near. By reckoning in floating point, kept off the limits by a step, the judge
    /// finds all that is nearer than the gap and no such cut any more, and nothing else.
    #[test]
    fn a_shift_off_a_shared_cut_is_found((corners, _) in tapered(), x in -400_i64..400, y in -400_i64..400) {
        prop_assume!(500 <= corners[1].0 - corners[2].0);
        let pair = problem(vec![part(&corners, 2)], 80_000, 20_000);
        let float = |n: i64| f64::from(i32::try_from(n).unwrap());
        let (from, to) = (corners[1], corners[2]);
        let (wx, wy) = (float(to.0 - from.0), float(to.1 - from.1));
        let long = (wx * wx + wy * wy).sqrt();
        // The half-turned one, its slanted side on that of the first, then off by the kerf, rounded, then as drawn by chance.
        let at = (from.0 + to.0, from.1 + to.1);
        let nest = laid(&[(false, 1000, 1000), (true, 1000 + at.0 + x, 1000 + at.1 + y)]);
        let off = (float(x) * wy - float(y) * wx) / long;
        let along = (float(x) * wx + float(y) * wy) / long;
        let judged = verify(&pair, &nest);
        let outlines: Vec<GridOutline> = nest.sheets[0].placements.iter().map(|placed| placed.outline(&pair)).collect();
        let shares = (50.0..=54.0).contains(&off) && along.abs() <= 50.0;
        let at_a_limit = (off - 50.0).abs() < 0.001 || (off - 54.0).abs() < 0.001 || (along.abs() - 50.0).abs() < 0.001;
        prop_assume!(!at_a_limit);
        prop_assert_eq!(judged.is_ok(), shares || keeps_gap(&outlines[0], &outlines[1], RULES.gap), "{} {}", off, along);
    }
}
