//! Proofs of least counts beside a small program that knows nothing of outlines: parts made of square cells, laid on a board of
//! cells in every way. Cells that do not overlap are outlines that keep the gap, so what that program lays is a nest.
#![allow(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use std::collections::BTreeSet;

use geometry::grid::{GridOutline, GridPoint};
use nest::{Choice, Effort, Mirror, Part, Problem, Rules, Stock, StockShape, Turns, compare};
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
fn places(cells: &Cells, Lies { quarters, either_face }: Lies, (length, width): (i64, i64)) -> Vec<u64> {
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
                        found
                            .insert(moved.iter().map(|cell| 1_u64 << (cell.0 * width + cell.1)).sum::<u64>());
                    }
                }
            }
        }
        now = turned(&now);
    }
    found.into_iter().collect()
}

fn fit(parts: &[Vec<u64>], taken: u64) -> bool {
    let Some((first, others)) = parts.split_first() else { return true };
    first.iter().any(|place| place & taken == 0 && fit(others, taken | place))
}

/// The fewest boards, by all ways of dealing the parts out.
fn fewest(parts: &[Vec<u64>]) -> u32 {
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
    let part = |(number, (corners, lies)): (usize, &(Corners, Lies))| Part {
        mark: format!("P{number}"),
        outline: outline(corners),
        quantity: 1,
        turns: if lies.quarters { Turns::Quarter } else { Turns::Half },
        mirror: if lies.either_face { Mirror::Allowed } else { Mirror::Never },
    };
    let parts = shapes.iter().enumerate().map(part).collect();
    let shape = StockShape::Rectangle { length: CELL * board.0 - GAP, width: CELL * board.1 - GAP };
    let stock = Stock { name: "S".into(), shape, price: None, limit: None };
    let problem =
        Problem::new(parts, vec![stock], Rules { gap: GAP, edge_trim: 0, least_drop: GAP }).unwrap();
    let table = compare(&problem, &Effort { evaluations: 20, starts: 1, seed: 1 }).unwrap();
    let row = table.rows.iter().find(|row| row.choice == Choice::Alone(0)).unwrap();
    let all: Vec<Vec<u64>> =
        shapes.iter().map(|(corners, lies)| places(&cells(corners), *lies, board)).collect();
    (row.outcome.as_ref().unwrap().bound.sheets, fewest(&all))
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
