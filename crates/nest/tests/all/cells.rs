//! Proofs of least counts beside a small program that knows nothing of outlines: parts made of square cells, laid on a board of
//! cells in every way. Cells that do not overlap are outlines that keep the gap, so what that program lays is a nest.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use std::collections::BTreeSet;
use std::sync::atomic::AtomicBool;

use geometry::grid::{GridOutline, GridPoint};
use nest::bound::Reason;
use nest::{
    Bound, Choice, Effort, Mirror, Part, Problem, RollReason, Rules, Stock, StockShape, Turns, Watch,
    compare, least_roll_length, rect, shear,
};
use proptest::prelude::*;

const GAP: i64 = 10_000;
const CELL: i64 = 100_000;

type Cells = BTreeSet<(i64, i64)>;

/// Corners of a shape counter-clockwise, in cells.
type Corners = Vec<(i64, i64)>;

/// How a part may lie: at quarter turns or half turns, on either face or not.
#[derive(Debug, Clone, Copy)]
struct Lies {
    quarters: bool,
    either_face: bool,
}

const UPRIGHT: Lies = Lies { quarters: false, either_face: false };

fn angle(a: i64, b: i64) -> Corners {
    vec![(0, 0), (a, 0), (a, 1), (1, 1), (1, b), (0, b)]
}

fn tee(a: i64, b: i64) -> Corners {
    vec![(0, 0), (2 * a + 1, 0), (2 * a + 1, 1), (a + 1, 1), (a + 1, b), (a, b), (a, 1), (0, 1)]
}

fn channel(a: i64, b: i64) -> Corners {
    vec![(0, 0), (a + 2, 0), (a + 2, b), (a + 1, b), (a + 1, 1), (1, 1), (1, b), (0, b)]
}

/// Two bars one above the other, the upper one further to the right by all but one cell: none of its turns is its mirror image.
fn zed(a: i64, b: i64) -> Corners {
    vec![(0, 0), (a, 0), (a, b), (2 * a - 1, b), (2 * a - 1, b + 1), (a - 1, b + 1), (a - 1, 1), (0, 1)]
}

fn block(a: i64, b: i64) -> Corners {
    vec![(0, 0), (a, 0), (a, b), (0, b)]
}

/// The outline, half a gap within the cells.
fn outline(corners: &Corners) -> GridOutline {
    let count = corners.len();
    let step = |from: (i64, i64), to: (i64, i64)| ((to.0 - from.0).signum(), (to.1 - from.1).signum());
    let inset = |at: usize| {
        let (before, here, after) =
            (corners[(at + count - 1) % count], corners[at], corners[(at + 1) % count]);
        let (into, out) = (step(before, here), step(here, after));
        // The metal lies to the left of an edge.
        let x = CELL * here.0 - GAP / 2 * (into.1 + out.1);
        GridPoint::new(x, CELL * here.1 + GAP / 2 * (into.0 + out.0))
    };
    GridOutline::new((0..count).map(inset).collect(), Vec::new()).unwrap()
}

/// The cells of a shape, by counting the edges to the left of each cell's middle.
fn cells(corners: &Corners) -> Cells {
    let upright = |x: i64, y: i64| {
        let edges = corners.iter().zip(corners.iter().cycle().skip(1));
        edges.filter(|(a, b)| a.0 == b.0 && a.0 <= x && a.1.min(b.1) <= y && y < a.1.max(b.1)).count()
    };
    let all = (0..8).flat_map(|x| (0..8).map(move |y| (x, y)));
    all.filter(|&(x, y)| upright(x, y) % 2 == 1).collect()
}

fn turned(cells: &Cells) -> Cells {
    let rise = cells.iter().map(|cell| cell.1).max().unwrap();
    cells.iter().map(|&(x, y)| (rise - y, x)).collect()
}

fn turned_over(cells: &Cells) -> Cells {
    let reach = cells.iter().map(|cell| cell.0).max().unwrap();
    cells.iter().map(|&(x, y)| (reach - x, y)).collect()
}

/// All places of a part on a board, as bits.
fn places(cells: &Cells, Lies { quarters, either_face }: Lies, (length, width): (i64, i64)) -> Vec<u128> {
    let mut found = BTreeSet::new();
    let mut now = cells.clone();
    for turn in 0..if either_face { 8 } else { 4 } {
        if turn == 4 {
            now = turned_over(&now);
        }
        if quarters || turn % 2 == 0 {
            for x in 0..length {
                for y in 0..width {
                    let moved: Vec<(i64, i64)> = now.iter().map(|cell| (cell.0 + x, cell.1 + y)).collect();
                    if moved.iter().all(|cell| cell.0 < length && cell.1 < width) {
                        found.insert(
                            moved.iter().map(|cell| 1_u128 << (cell.0 * width + cell.1)).sum::<u128>(),
                        );
                    }
                }
            }
        }
        now = turned(&now);
    }
    found.into_iter().collect()
}

fn fit(parts: &[Vec<u128>], taken: u128) -> bool {
    let Some((first, others)) = parts.split_first() else { return true };
    first.iter().any(|place| place & taken == 0 && fit(others, taken | place))
}

/// The fewest boards, by all ways of dealing the parts out.
fn fewest(parts: &[Vec<u128>]) -> u32 {
    let all = (1_usize << parts.len()) - 1;
    let own = |set: usize| {
        (0..parts.len()).filter(|at| set >> at & 1 == 1).map(|at| parts[at].clone()).collect::<Vec<_>>()
    };
    let fits: Vec<bool> = (0..=all).map(|set| fit(&own(set), 0)).collect();
    let mut least = vec![0_u32; all + 1];
    for set in 1..=all {
        let subsets = (1..=set).filter(|sub| sub & !set == 0 && fits[*sub]);
        least[set] = subsets.map(|sub| least[set & !sub] + 1).min().unwrap();
    }
    least[all]
}

/// Sheets proved to be needed, and the fewest boards.
fn judged(shapes: &[(Corners, Lies)], board: (i64, i64)) -> (u32, u32) {
    let (bound, fewest) = judged_by(shapes, board);
    (bound.sheets, fewest)
}

fn parts_of(shapes: &[(Corners, Lies)]) -> Vec<Part> {
    let part = |(number, (corners, lies)): (usize, &(Corners, Lies))| Part {
        mark: format!("P{number}"),
        outline: outline(corners),
        quantity: 1,
        turns: if lies.quarters { Turns::Quarter } else { Turns::Half },
        mirror: if lies.either_face { Mirror::Allowed } else { Mirror::Never },
    };
    shapes.iter().enumerate().map(part).collect()
}

fn sheet_of(board: (i64, i64), price: Option<u64>) -> Stock {
    let shape = StockShape::Rectangle { length: CELL * board.0 - GAP, width: CELL * board.1 - GAP };
    Stock { name: "S".into(), shape, price, limit: None }
}

const RULES: Rules = Rules { gap: GAP, edge_trim: 0, least_drop: GAP };
const EFFORT: Effort = Effort { evaluations: 20, starts: 1, seed: 1 };

fn all_places(shapes: &[(Corners, Lies)], board: (i64, i64)) -> Vec<Vec<u128>> {
    shapes.iter().map(|(corners, lies)| places(&cells(corners), *lies, board)).collect()
}

/// What is proved, and the fewest boards.
fn judged_by(shapes: &[(Corners, Lies)], board: (i64, i64)) -> (Bound, u32) {
    let problem = Problem::new(parts_of(shapes), vec![sheet_of(board, None)], RULES).unwrap();
    let table = compare(&problem, &EFFORT).unwrap();
    let row = table.rows.iter().find(|row| row.choice == Choice::Alone(0)).unwrap();
    (row.outcome.as_ref().unwrap().bound.clone(), fewest(&all_places(shapes, board)))
}

/// Numbers that look drawn by chance and are the same everywhere: a plain congruential generator, its upper bits.
struct Drawn(u64);

impl Drawn {
    fn below(&mut self, count: i64) -> i64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        i64::try_from(self.0 >> 33).unwrap() % count
    }

    fn shape(&mut self) -> (Corners, Lies) {
        let (a, b) = (2 + self.below(3), 2 + self.below(3));
        let corners = match self.below(6) {
            0 => angle(a + 1, b + 1),
            1 => tee(a / 2, b),
            2 => channel(a - 1, b),
            3 => zed(a - 1, b - 1),
            _ => block(a, b),
        };
        (corners, Lies { quarters: self.below(2) == 0, either_face: self.below(4) == 0 })
    }
}

/// Every kind of proof that is ever claimed of a number of sheets is met, each many times, and none is above the fewest boards.
#[test]
fn every_kind_of_proof_is_met_and_none_is_above_the_fewest_boards() {
    let mut drawn = Drawn(20_261_130);
    let mut met: Vec<(String, u32)> = Vec::new();
    for _ in 0..500 {
        let board = (4 + drawn.below(3), 4 + drawn.below(2));
        let shapes: Vec<(Corners, Lies)> = (0..2 + drawn.below(5))
            .map(|_| drawn.shape())
            .filter(|(corners, lies)| !places(&cells(corners), *lies, board).is_empty())
            .collect();
        if shapes.len() < 2 {
            continue;
        }
        let (bound, least) = judged_by(&shapes, board);
        assert!(bound.sheets <= least, "{bound:?}, {least} needed on {board:?}: {shapes:?}");
        if 1 < bound.sheets {
            let name = format!("{:?}", bound.reason);
            match met.iter_mut().find(|(known, _)| *known == name) {
                Some((_, count)) => *count += 1,
                None => met.push((name, 1)),
            }
        }
    }
    for reason in ["Area", "Row", "Pairs", "Sets", "Weights"] {
        assert!(
            met.iter().any(|(name, count)| name == reason && 3 <= *count),
            "{reason} is not met: {met:?}"
        );
    }
}

/// The least money for boards of two sizes, of the first no more than `most`, by all ways of dealing the parts out.
fn least_money(parts: [&[Vec<u128>]; 2], prices: [u64; 2], most: usize) -> Option<u64> {
    let count = parts[0].len();
    let all = (1_usize << count) - 1;
    let own = |size: usize, set: usize| {
        (0..count).filter(|at| set >> at & 1 == 1).map(|at| parts[size][at].clone()).collect::<Vec<_>>()
    };
    let fits = [0, 1].map(|size| (0..=all).map(|set| fit(&own(size, set), 0)).collect::<Vec<bool>>());
    let most = most.min(count);
    // By how many boards of the first size are left, then by the parts on all boards.
    let mut least = vec![vec![None; all + 1]; most + 1];
    for left in 0..=most {
        least[left][0] = Some(0);
        for set in 1..=all {
            let of = |sub: usize| {
                let second =
                    fits[1][sub].then(|| least[left][set & !sub]).flatten().map(|sum| sum + prices[1]);
                let first = (0 < left && fits[0][sub]).then(|| least[left - 1][set & !sub]).flatten();
                first.map(|sum| sum + prices[0]).into_iter().chain(second).min()
            };
            least[left][set] = (1..=set).filter(|sub| sub & !set == 0).filter_map(of).min();
        }
    }
    least[most][all]
}

/// No claim about money is above what the cheapest boards cost, and some are just that.
#[test]
fn no_claim_of_money_is_above_the_cheapest_boards() {
    let mut drawn = Drawn(9);
    let mut just = 0;
    for number in 0..150 {
        let (small, large) = ((4, 4), (6, 5));
        // Every other time some shapes may go on the larger boards alone.
        let held = if number % 2 == 0 { small } else { large };
        let shapes: Vec<(Corners, Lies)> = (0..2 + drawn.below(4))
            .map(|_| drawn.shape())
            .filter(|(corners, lies)| !places(&cells(corners), *lies, held).is_empty())
            .collect();
        if shapes.is_empty() {
            continue;
        }
        let prices = [1000, 1200 + u64::try_from(drawn.below(900)).unwrap()];
        let stock = vec![sheet_of(small, Some(prices[0])), sheet_of(large, Some(prices[1]))];
        let problem = Problem::new(parts_of(&shapes), stock, RULES).unwrap();
        let table = compare(&problem, &EFFORT).unwrap();
        let row = table.rows.iter().find(|row| row.choice == Choice::Mix).unwrap();
        let claimed = row.outcome.as_ref().unwrap().bound.cost;
        let places = [&all_places(&shapes, small)[..], &all_places(&shapes, large)[..]];
        let least = least_money(places, prices, shapes.len()).unwrap();
        assert!(claimed <= i128::from(least), "{claimed} claimed, {least} needed: {prices:?} {shapes:?}");
        just += u32::from(claimed == i128::from(least));
    }
    assert!(30 < just, "{just}");
}

/// Boards that are there already cost nothing, but there are one or two of them: no claim about the money for the others is above what
/// the cheapest choice takes, and many are above nothing.
#[test]
fn no_claim_of_money_is_above_what_must_be_bought_beside_boards_that_are_there() {
    let mut drawn = Drawn(41);
    let (mut just, mut some) = (0, 0);
    for number in 0..150 {
        let (small, large) = ((4, 3), (6, 5));
        let shapes: Vec<(Corners, Lies)> = (0..2 + drawn.below(4))
            .map(|_| drawn.shape())
            .filter(|(corners, lies)| !places(&cells(corners), *lies, large).is_empty())
            .collect();
        if shapes.is_empty() {
            continue;
        }
        let there = 1 + number % 2;
        let mut stock = vec![sheet_of(small, Some(0)), sheet_of(large, Some(1500))];
        stock[0].limit = Some(there);
        let problem = Problem::new(parts_of(&shapes), stock, RULES).unwrap();
        let table = compare(&problem, &EFFORT).unwrap();
        let row = table.rows.iter().find(|row| row.choice == Choice::Mix).unwrap();
        let claimed = row.outcome.as_ref().unwrap().bound.cost;
        let places = [&all_places(&shapes, small)[..], &all_places(&shapes, large)[..]];
        let least = least_money(places, [0, 1500], usize::try_from(there).unwrap()).unwrap();
        assert!(claimed <= i128::from(least), "{claimed} claimed, {least} needed, {there} there: {shapes:?}");
        just += u32::from(claimed == i128::from(least));
        some += u32::from(0 < claimed);
    }
    assert!(60 < just && 40 < some, "{just} {some}");
}

/// The shortest strip of a width that holds all parts, in cells.
fn shortest(shapes: &[(Corners, Lies)], width: i64) -> i64 {
    (1..).find(|&length| fit(&all_places(shapes, (length, width)), 0)).unwrap()
}

/// Every kind of proof of a length of roll is met, and none is above the shortest strip of cells.
#[test]
fn no_claim_of_a_length_is_above_the_shortest_strip() {
    let mut drawn = Drawn(77);
    let mut met: Vec<RollReason> = Vec::new();
    let mut just = 0;
    for _ in 0..250 {
        let width = 4 + drawn.below(2);
        let shapes: Vec<(Corners, Lies)> = (0..1 + drawn.below(4))
            .map(|_| drawn.shape())
            .filter(|(corners, lies)| !places(&cells(corners), *lies, (12, width)).is_empty())
            .collect();
        let cells_in_all: usize = shapes.iter().map(|(corners, _)| cells(corners).len()).sum();
        if shapes.is_empty() || 36 < cells_in_all {
            continue;
        }
        let (claimed, reason) = least_roll_length(&parts_of(&shapes), CELL * width - GAP, RULES).unwrap();
        let least = CELL * shortest(&shapes, width) - GAP;
        assert!(claimed <= least, "{claimed} claimed by {reason:?}, {least} needed: {shapes:?}");
        just += u32::from(claimed == least);
        if !met.contains(&reason) {
            met.push(reason);
        }
    }
    assert!(20 < just, "{just}");
    assert_eq!(met.len(), 4, "{met:?}");
}

/// Whether boxes come out of a board by through cuts: each cut parts the boxes in two, at a whole place.
fn is_guillotined(boxes: &[Vec<(i64, i64)>], set: usize, board: (i64, i64)) -> bool {
    if set.is_power_of_two() {
        let own = &boxes[usize::try_from(set.trailing_zeros()).unwrap()];
        return own.iter().any(|&(l, w)| l <= board.0 && w <= board.1);
    }
    let parts = || (1..set).filter(|part| part & !set == 0);
    parts().any(|part| {
        let rest = set & !part;
        (1..board.0).any(|x| {
            is_guillotined(boxes, part, (x, board.1)) && is_guillotined(boxes, rest, (board.0 - x, board.1))
        }) || (1..board.1).any(|y| {
            is_guillotined(boxes, part, (board.0, y)) && is_guillotined(boxes, rest, (board.0, board.1 - y))
        })
    })
}

/// Claims about blanks on the shear, beside a program that makes every cut.
#[test]
fn no_claim_about_blanks_is_above_the_fewest_sheared_boards() {
    let mut drawn = Drawn(3);
    let (mut just, mut by_blanks) = (0, 0);
    for _ in 0..80 {
        let board = (5, 4);
        let shapes: Vec<(Corners, Lies)> = (0..2 + drawn.below(4))
            .map(|_| drawn.shape())
            .filter(|(corners, lies)| !places(&cells(corners), *lies, board).is_empty())
            .collect();
        if shapes.len() < 2 {
            continue;
        }
        let problem = Problem::new(parts_of(&shapes), vec![sheet_of(board, None)], RULES).unwrap();
        let stop = AtomicBool::new(false);
        let watch = Watch { progress: &|_| {}, stop: &stop };
        let Ok(sheared) = shear::compare(&problem, rect::Shear::default(), &EFFORT, &watch) else { continue };
        let bound = &sheared.comparison.rows[0].outcome.as_ref().unwrap().bound;
        let around = |(corners, lies): &(Corners, Lies)| {
            let most = |side: fn(&(i64, i64)) -> i64| corners.iter().map(side).max().unwrap();
            let size = (most(|corner| corner.0), most(|corner| corner.1));
            if lies.quarters { vec![size, (size.1, size.0)] } else { vec![size] }
        };
        let boxes: Vec<Vec<(i64, i64)>> = shapes.iter().map(around).collect();
        let all = (1_usize << boxes.len()) - 1;
        let mut least = vec![0_u32; all + 1];
        for set in 1..=all {
            let fits = (1..=set).filter(|part| part & !set == 0 && is_guillotined(&boxes, *part, board));
            least[set] = fits.map(|part| least[set & !part] + 1).min().unwrap();
        }
        assert!(bound.sheets <= least[all], "{bound:?}, {} needed: {shapes:?}", least[all]);
        just += u32::from(bound.sheets == least[all]);
        by_blanks += u32::from(bound.reason == Reason::Blanks);
    }
    assert!(20 < just && 3 < by_blanks, "{just} {by_blanks}");
}

/// The checking program itself, on what can be counted by hand.
#[test]
fn boards_are_counted() {
    assert_eq!(cells(&angle(3, 2)), [(0, 0), (1, 0), (2, 0), (0, 1)].into_iter().collect());
    assert_eq!(cells(&channel(1, 2)), [(0, 0), (1, 0), (2, 0), (0, 1), (2, 1)].into_iter().collect());
    assert_eq!(places(&cells(&block(2, 1)), Lies { quarters: true, ..UPRIGHT }, (2, 2)).len(), 4);
    let one = |corners: Corners| places(&cells(&corners), UPRIGHT, (4, 4));
    assert_eq!(fewest(&[one(block(2, 4)), one(block(2, 4)), one(block(1, 1))]), 2);
    assert_eq!(fewest(&[one(angle(4, 4)), one(angle(3, 3)), one(block(2, 2))]), 1);
}

/// Two bars of 2 cells, the upper one a cell further to the right, fill 3 × 2 one way, and another when turned over.
#[test]
fn boards_are_counted_with_parts_turned_over() {
    let either = |either_face| Lies { quarters: false, either_face };
    assert_eq!(cells(&zed(2, 1)), [(0, 0), (1, 0), (1, 1), (2, 1)].into_iter().collect());
    assert_eq!(places(&cells(&zed(2, 1)), either(false), (3, 2)).len(), 1);
    assert_eq!(places(&cells(&zed(2, 1)), either(true), (3, 2)).len(), 2);
    // An angle of 3 × 2 takes all four corners of it then.
    assert_eq!(places(&cells(&angle(3, 2)), either(true), (3, 2)).len(), 4);
}

/// Three channels of 4 × 3 on 5 × 5, each with a bay of 2 × 2: any two of them share a board, the three of 8 cells each do not,
/// though they have fewer cells than it. Nor do three angles of 5 × 5
/// on 6 × 6, where two lie within one another.
#[test]
fn sets_of_three_are_proved_to_be_too_many() {
    let three = |corners: &Corners| vec![(corners.clone(), UPRIGHT); 3];
    for (shape, board) in [(channel(2, 3), (5, 5)), (angle(5, 5), (6, 6))] {
        assert_eq!(judged(&three(&shape)[..2], board), (1, 1), "{shape:?}");
        assert_eq!(judged(&three(&shape), board), (2, 2), "{shape:?}");
    }
}

fn shape() -> impl Strategy<Value = (Corners, Lies)> {
    let kind = (0..5, 2_i64..5, 2_i64..5);
    (kind, any::<bool>(), any::<bool>()).prop_map(|((kind, a, b), quarters, either_face)| {
        let corners = match kind {
            0 => angle(a + 1, b + 1),
            1 => tee(a / 2, b),
            2 => channel(a - 1, b),
            3 => zed(a - 1, b - 1),
            _ => block(a, b - 1),
        };
        (corners, Lies { quarters, either_face })
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// No claim of proof is above what the boards need.
    #[test]
    fn no_claim_is_above_the_fewest_boards(shapes in prop::collection::vec(shape(), 2..6)) {
        let (proved, least) = judged(&shapes, (6, 5));
        prop_assert!(proved <= least, "{proved} proved, {least} needed: {shapes:?}");
    }
}
