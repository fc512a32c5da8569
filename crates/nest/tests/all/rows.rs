//! Pieces that fit only when they share a cut are laid so from the start.

#![expect(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use geometry::grid::{GridOutline, GridPoint, Turn};
use nest::{
    Effort, Mirror, Nested, Part, Problem, Rules, Stock, StockShape, Turns, compare, shared_cuts, verify,
};

/// Thousandths of an inch: a gap of 1/4, a kerf of 1/8, edges used as they come.
const RULES: Rules = Rules { gap: 250, edge_trim: 0, least_drop: i64::MAX };
const KERF: i64 = 125;

/// 24 wide, one end square, the other slanted by 7 in 24: its length is 25.
const PLATE: [(i64, i64); 4] = [(0, 0), (33_500, 0), (26_500, 24_000), (0, 24_000)];

fn part(corners: &[(i64, i64)], quantity: u32, turns: Turns) -> Part {
    let ring = corners.iter().map(|&(x, y)| GridPoint::new(x, y)).collect();
    let outline = GridOutline::new(ring, Vec::new()).unwrap();
    Part { mark: "P".into(), outline, quantity, turns, mirror: Mirror::Never }
}

fn nested(parts: Vec<Part>, length: i64, width: i64) -> (Problem, Nested) {
    let shape = StockShape::Rectangle { length, width };
    let stock = Stock { name: "sheet".into(), shape, price: Some(1), limit: None };
    let sharing = Problem::new(parts, vec![stock], RULES).unwrap().sharing_cuts(KERF);
    let effort = Effort { evaluations: 500, starts: 1, seed: 1 };
    let nested = compare(&sharing, &effort).unwrap().rows.swap_remove(0).outcome.unwrap();
    verify(&sharing, &nested.nest).unwrap();
    (sharing, nested)
}

/// Sheets and shared cuts.
fn counts(parts: Vec<Part>, length: i64, width: i64) -> (usize, usize) {
    let (sharing, nested) = nested(parts, length, width);
    let cuts = nested.nest.sheets.iter().map(|sheet| shared_cuts(&sharing, sheet).len()).sum();
    (nested.nest.sheets.len(), cuts)
}

/// Square to the slanted side a kerf of 125 is 125 · 25/24 = 130.2 along the sheet, rounded up to 131.
const PAIR: i64 = 33_500 + 26_500 + 131;

#[test]
fn a_slanted_pair_that_just_fits_lies_on_one_sheet() {
    assert_eq!(counts(vec![part(&PLATE, 2, Turns::Half)], PAIR, 24_000), (1, 1));
    assert_eq!(counts(vec![part(&PLATE, 2, Turns::Half)], PAIR + 100, 24_000), (1, 1));
    // A step less, and there is no room for the cut.
    assert_eq!(counts(vec![part(&PLATE, 2, Turns::Half)], PAIR - 1, 24_000), (2, 0));
}

#[test]
fn a_pair_is_turned_as_a_whole() {
    assert_eq!(counts(vec![part(&PLATE, 2, Turns::Quarter)], 24_000, PAIR), (1, 1));
    let turns = Turns::Listed([90_000, 270_000].map(Turn::from_millidegrees).to_vec());
    assert_eq!(counts(vec![part(&PLATE, 2, turns)], 24_000, PAIR), (1, 1));
    assert_eq!(counts(vec![part(&PLATE, 2, Turns::Any)], PAIR, 24_000), (1, 1));
}

#[test]
fn rows_run_on_over_slanted_and_upright_sides() {
    assert_eq!(counts(vec![part(&PLATE, 4, Turns::Half)], 2 * PAIR + KERF, 24_000), (1, 3));
    assert_eq!(counts(vec![part(&PLATE, 6, Turns::Half)], 2 * PAIR + KERF, 24_000), (2, 4));
}

/// One end slanted the other way round, so that neither is turned; the square ends are of another height and match nothing.
#[test]
fn different_plates_with_sides_that_match_lie_side_by_side() {
    let plates = || {
        let second = [(7_000, 0), (20_000, 0), (21_000, 23_000), (20_000, 24_000), (0, 24_000)];
        let turns = || Turns::Listed(vec![Turn::NONE]);
        vec![part(&PLATE, 1, turns()), part(&second, 1, turns())]
    };
    assert_eq!(counts(plates(), 26_500 + 21_000 + 131, 24_000), (1, 1));
    assert_eq!(counts(plates(), 26_500 + 21_000 + 130, 24_000), (2, 0));
    let upright = || {
        let wide = [(0, 0), (30_000, 0), (30_000, 24_000), (4_000, 24_000), (0, 12_000)];
        let blunt = [(0, 0), (20_000, 0), (26_000, 12_000), (20_000, 24_000), (0, 24_000)];
        let turns = || Turns::Listed(vec![Turn::NONE]);
        vec![part(&wide, 1, turns()), part(&blunt, 1, turns())]
    };
    assert_eq!(counts(upright(), 56_000 + KERF, 24_000), (1, 1));
    assert_eq!(counts(upright(), 56_000 + KERF - 1, 24_000), (2, 0));
}

/// The pair lies among other parts, which keep the gap from it.
#[test]
fn a_pair_leaves_room_for_other_parts() {
    let small = [(0, 0), (9_000, 0), (9_000, 5_000), (0, 5_000)];
    let parts = vec![part(&small, 3, Turns::Half), part(&PLATE, 2, Turns::Half)];
    assert_eq!(counts(parts, PAIR, 24_000 + 250 + 5_000).0, 1);
}
