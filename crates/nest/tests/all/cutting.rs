//! Blanks for the shear, and the order of cuts by hand.

#![expect(clippy::unwrap_used, reason = "a test may stop at what should not happen")]

use std::sync::atomic::AtomicBool;

use geometry::grid::{GridOutline, GridPoint, Turn};

use nest::rect::{self, Axis, Shear};
use nest::shear::{self, Sheared};
use nest::{
    Choice, Drop, Effort, LeftOver, Mirror, Nest, NestError, NoNest, Part, Placement, Pose, Problem, Rules,
    Sheet, Step, Stock, StockShape, Turns, Watch, compare, cutting_order, verify,
};
use proptest::prelude::*;

const RULES: Rules = Rules { gap: 0, edge_trim: 0, least_drop: i64::MAX };

fn stock(length: i64, width: i64, price: u64) -> Stock {
    let shape = StockShape::Rectangle { length, width };
    Stock { name: format!("{width} x {length}"), shape, price: Some(price), limit: None }
}

fn part(outline: GridOutline, quantity: u32, turns: Turns) -> Part {
    Part { mark: "P".into(), outline, quantity, turns, mirror: Mirror::Never }
}

fn rectangle(length: i64, width: i64, quantity: u32) -> Part {
    part(GridOutline::rectangle(length, width).unwrap(), quantity, Turns::Half)
}

fn sheared(problem: &Problem, shear: Shear) -> Result<Sheared, NestError> {
    let stop = AtomicBool::new(false);
    let effort = Effort { evaluations: 4_000, starts: 2, seed: 1 };
    shear::compare(problem, shear, &effort, &Watch { progress: &|_| {}, stop: &stop })
}

/// Four 30 x 20 blanks fill a 60 x 40 sheet to the last step; a fifth takes the smaller sheet that just holds it.
#[test]
fn blanks_touch_on_the_shear_and_the_last_one_takes_the_cheaper_sheet() {
    let sheets = vec![stock(60, 40, 100), stock(30, 20, 30)];
    let problem = Problem::new(vec![rectangle(30, 20, 5)], sheets, RULES).unwrap();
    let sheared = sheared(&problem, Shear::default()).unwrap();
    let rows: Vec<_> =
        sheared.comparison.rows.iter().map(|row| row.outcome.as_ref().unwrap().take.clone()).collect();
    assert_eq!([&rows[0].sheets, &rows[1].sheets, &rows[2].sheets], [&[2, 0], &[0, 5], &[1, 1]]);
    assert_eq!(rows[2].money, Some(130));
    assert_eq!(sheared.comparison.rows[sheared.comparison.best].choice, Choice::Mix);
    // One cut halves the full sheet, one halves each half; the small sheet is the blank itself.
    let cuts = &sheared.cuts[sheared.comparison.best];
    assert_eq!(cuts.iter().map(Vec::len).collect::<Vec<_>>(), [3, 0]);
    assert_eq!(sheared.cuts[0].len(), 2, "the cuts of the other rows are there too");
}

/// Five 30 x 20 blanks: the one 60 x 40 sheet there is holds four, the fifth goes on the one 30 x 20. No size does by itself, nor
/// do both for six.
#[test]
fn sheets_that_run_out_by_themselves_do_together_on_the_shear() {
    let sheets =
        || [stock(60, 40, 100), stock(30, 20, 30)].map(|size| Stock { limit: Some(1), ..size }).to_vec();
    let blanks = |count| Problem::new(vec![rectangle(30, 20, count)], sheets(), RULES).unwrap();
    let Sheared { comparison, cuts } = sheared(&blanks(5), Shear::default()).unwrap();
    assert!(comparison.rows[..2].iter().all(|row| matches!(row.outcome, Err(NoNest::SheetsRunOut(_)))));
    assert_eq!(comparison.rows[comparison.best].choice, Choice::Mix);
    assert_eq!(comparison.rows[comparison.best].outcome.as_ref().unwrap().take.sheets, [1, 1]);
    assert_eq!(cuts[comparison.best].iter().map(Vec::len).collect::<Vec<_>>(), [3, 0]);
    assert!(sheared(&blanks(6), Shear::default()).is_err());
}

/// Thousandths of an inch, gap 1/4, trim 1/2: four B fill the one 36 x 96, 2 x 47 1/4 - 1/4 by 2 x 16 1/4 - 1/4, and A and C go side by side
/// on a 48 x 48, 12 + 1/4 + 23 3/8: 165 + 110. Three of 48 x 48 are 330.
#[test]
fn a_single_dearer_sheet_beside_a_cheap_one_is_found_on_the_shear() {
    let sheets = vec![
        Stock { limit: Some(4), ..stock(48_000, 48_000, 110) },
        Stock { limit: Some(1), ..stock(96_000, 36_000, 165) },
    ];
    let blank = |length, width, quantity| {
        part(GridOutline::rectangle(length, width).unwrap(), quantity, Turns::Quarter)
    };
    let parts = vec![blank(12_000, 44_000, 1), blank(16_000, 47_000, 4), blank(23_375, 47_000, 1)];
    let rules = Rules { gap: 250, edge_trim: 500, least_drop: 12_000 };
    let problem = Problem::new(parts, sheets, rules).unwrap();
    let table = sheared(&problem, Shear { kerf: 250, ..Shear::default() }).unwrap().comparison;
    assert_eq!(table.rows[table.best].outcome.as_ref().unwrap().take.money, Some(275));
}

/// A blank of 60 x 10 fits the long sheets alone, one of 20 x 30 the square ones alone.
#[test]
fn blanks_that_no_single_size_holds_are_sheared_from_several() {
    let parts = vec![rectangle(60, 10, 2), rectangle(20, 30, 3)];
    let problem = Problem::new(parts, vec![stock(60, 20, 70), stock(40, 40, 90)], RULES).unwrap();
    let table = sheared(&problem, Shear::default()).unwrap().comparison;
    assert!(table.rows[..2].iter().all(|row| matches!(row.outcome, Err(NoNest::Misfits(_)))));
    assert_eq!(table.rows[table.best].outcome.as_ref().unwrap().take.sheets, [1, 2]);
}

/// An L of 20 x 20 less a 10 x 10 corner is sheared as a 20 x 20 blank: two to a sheet where a saw gets them closer.
#[test]
fn a_notched_part_takes_its_whole_blank() {
    let p = |x, y| GridPoint::new(x, y);
    let ring = vec![p(0, 0), p(20, 0), p(20, 10), p(10, 10), p(10, 20), p(0, 20)];
    let ell = part(GridOutline::new(ring, Vec::new()).unwrap(), 3, Turns::Half);
    let problem = Problem::new(vec![ell], vec![stock(50, 20, 1)], RULES).unwrap();
    let sheared = sheared(&problem, Shear::default()).unwrap();
    assert_eq!(sheared.comparison.rows[0].outcome.as_ref().unwrap().take.sheets, [2]);
    assert_eq!(sheared.comparison.rows[0].outcome.as_ref().unwrap().bound.sheets, 2);
    let sawn = compare(&problem, &Effort { evaluations: 4_000, starts: 2, seed: 1 }).unwrap();
    assert_eq!(sawn.rows[0].outcome.as_ref().unwrap().take.sheets, [1]);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]
    /// A drop of a sheared sheet is what its cuts leave: no cut runs into one, none touches a part, none overlaps another.
    #[test]
    fn no_cut_of_the_shear_runs_through_a_drop(
        sizes in prop::collection::vec((8..60_i64, 8..40_i64, 1..4_u32), 1..6), trim in 0..3_i64, kerf in 0..2_i64,
    ) {
        let parts = sizes.iter().map(|&(length, width, quantity)| rectangle(length, width, quantity)).collect();
        let rules = Rules { gap: kerf, edge_trim: trim, least_drop: 5 };
        let problem = Problem::new(parts, vec![stock(100, 60, 1)], rules).unwrap();
        let found = sheared(&problem, Shear { kerf, ..Shear::default() });
        let Ok(Sheared { comparison, cuts }) = found else { return Ok(()) };
        let nested = comparison.rows[comparison.best].outcome.as_ref().unwrap();
        for ((sheet, drops), cuts) in nested.nest.sheets.iter().zip(&nested.drops).zip(&cuts[comparison.best]) {
            for (number, drop) in drops.iter().enumerate() {
                let meets = |low: GridPoint, high: GridPoint| {
                    drop.low.x < high.x && low.x < drop.high.x && drop.low.y < high.y && low.y < drop.high.y
                };
                for cut in cuts {
                    let [at, from, to] = [cut.at, cut.from, cut.to].map(|place| place + trim);
                    let inside = match cut.axis {
                        Axis::X => meets(GridPoint::new(at, from), GridPoint::new(at, to)),
                        Axis::Y => meets(GridPoint::new(from, at), GridPoint::new(to, at)),
                    };
                    prop_assert!(!inside, "{cut:?} through {drop:?}");
                }
                for placed in &sheet.placements {
                    let (low, high) = placed.outline(&problem).bounds();
                    prop_assert!(!meets(low, high), "{drop:?} over a part");
                }
                prop_assert!(drops[number + 1..].iter().all(|other| !meets(other.low, other.high)));
                prop_assert!(drop.high.x <= 100 - trim && drop.high.y <= 60 - trim && trim <= drop.low.x);
            }
        }
    }
}

/// Worked by hand: of 100 x 100 a saw of 3 takes off 50 x 50. The first cut leaves 47 x 100, the second 50 x 47.
#[test]
fn what_the_kerf_leaves_over_is_kept() {
    let rules = Rules { gap: 3, edge_trim: 0, least_drop: 5 };
    let problem = Problem::new(vec![rectangle(50, 50, 1)], vec![stock(100, 100, 1)], rules).unwrap();
    let found = sheared(&problem, Shear { kerf: 3, ..Shear::default() }).unwrap();
    let drops = &found.comparison.rows[found.comparison.best].outcome.as_ref().unwrap().drops[0];
    let mut sizes: Vec<[i64; 2]> =
        drops.iter().map(|drop| [drop.high.x - drop.low.x, drop.high.y - drop.low.y]).collect();
    sizes.iter_mut().for_each(|size| size.sort_unstable());
    assert_eq!(sizes, [[47, 100], [47, 50]]);
}

#[test]
fn limits_of_the_shear_are_said_and_not_passed() {
    let problem = Problem::new(vec![rectangle(30, 20, 1)], vec![stock(60, 40, 1)], RULES).unwrap();
    let shear = Shear { longest_cut: Some(25), ..Shear::default() };
    assert_eq!(sheared(&problem, shear), Err(NestError::BeyondTheShear));
    // Four blanks of 30 x 20 to the sheet, and one sheet.
    let one = Stock { limit: Some(1), ..stock(60, 40, 1) };
    let six = Problem::new(vec![rectangle(30, 20, 6)], vec![one], RULES).unwrap();
    let over = vec![LeftOver { part: 0, count: 2 }];
    assert_eq!(sheared(&six, Shear::default()), Err(NestError::SheetsRunOut(over)));
    let wide = Problem::new(vec![rectangle(30, 20, 1)], vec![stock(60, 40, 1), stock(31, 20, 1)], RULES);
    let found = sheared(&wide.unwrap(), shear).unwrap();
    assert_eq!(found.comparison.rows[0].outcome, Err(NoNest::BeyondTheShear));
    assert_eq!(found.cuts[found.comparison.best][0].len(), 1);
    assert_eq!(found.cuts[0], Vec::<Vec<rect::Cut>>::new());
}

#[test]
fn the_far_end_comes_off_first_and_cut_outs_before_outlines() {
    let p = |x, y| GridPoint::new(x, y);
    let frame = GridOutline::new(
        vec![p(0, 0), p(30, 0), p(30, 30), p(0, 30)],
        vec![vec![p(5, 5), p(5, 25), p(25, 25), p(25, 5)]],
    );
    let parts = vec![part(frame.unwrap(), 1, Turns::Half), rectangle(10, 10, 2)];
    let problem = Problem::new(parts, vec![stock(60, 40, 1)], RULES).unwrap();
    let at = |part, x, y| Placement { part, pose: Pose::turned(Turn::NONE), shift: p(x, y) };
    // The frame with a small part in its cut-out, and another one beyond it.
    let sheet = Sheet { stock: 0, placements: vec![at(0, 0, 0), at(1, 10, 10), at(1, 34, 0)] };
    assert_eq!(verify(&problem, &Nest { sheets: vec![sheet.clone()] }), Ok(()));
    let across = Step::Across {
        axis: Axis::X,
        within: [30, 34],
        from: 0,
        to: 40,
        finishes_both: false,
        frees: [None; 2],
    };
    let steps = cutting_order(&problem, &sheet, &[], 2);
    let expected = [across, Step::Outline(2), Step::Outline(1), Step::CutOuts(0), Step::Outline(0)];
    assert_eq!(steps, expected);
    let wide_kerf = cutting_order(&problem, &sheet, &[], 4);
    assert!(matches!(wide_kerf[0], Step::Across { finishes_both: true, .. }));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_straight_cut_touches_no_piece_and_every_piece_is_cut_once(
        sizes in prop::collection::vec((3_i64..40, 3_i64..30), 1..8), gap in 0_i64..4,
    ) {
        let parts = sizes.iter().map(|&(l, w)| rectangle(l, w, 1)).collect();
        let problem = Problem::new(parts, vec![stock(80, 50, 1)], Rules { gap, ..RULES }).unwrap();
        let found = compare(&problem, &Effort { evaluations: 200, starts: 1, seed: 3 }).unwrap();
        let nested = found.rows[found.best].outcome.as_ref().unwrap();
        for sheet in &nested.nest.sheets {
            let boxes: Vec<_> = sheet.placements.iter().map(|placed| placed.outline(&problem).bounds()).collect();
            let mut outlines = Vec::new();
            for step in cutting_order(&problem, sheet, &[], gap) {
                match step {
                    Step::Across { axis, within: [near, far], from, to, .. } => {
                        let at = near.midpoint(far);
                        prop_assert!(boxes.iter().all(|(low, high)| {
                            let [(a, b), (c, d)] = match axis {
                                Axis::X => [(low.x, high.x), (low.y, high.y)],
                                Axis::Y => [(low.y, high.y), (low.x, high.x)],
                            };
                            at <= a || b <= at || d <= from || to <= c
                        }), "{step:?} {boxes:?}");
                    }
                    Step::Outline(piece) => outlines.push(piece),
                    Step::CutOuts(_) | Step::Drop(_) | Step::FromCutOut { .. } | Step::Shared(_) => prop_assert!(false, "no cut-outs, nothing kept or shared: {step:?}"),
                }
            }
            outlines.sort_unstable();
            prop_assert_eq!(outlines, (0..sheet.placements.len()).collect::<Vec<_>>());
        }
    }

    /// A drop that comes off without a word is thrown away with the skeleton.
    #[test]
    fn every_drop_to_be_kept_is_said_once(
        sizes in prop::collection::vec((3_i64..40, 3_i64..30), 1..8), gap in 0_i64..4,
    ) {
        let parts = sizes.iter().map(|&(l, w)| rectangle(l, w, 1)).collect();
        let rules = Rules { gap, least_drop: 6, ..RULES };
        let problem = Problem::new(parts, vec![stock(80, 50, 1)], rules).unwrap();
        let found = compare(&problem, &Effort { evaluations: 200, starts: 1, seed: 3 }).unwrap();
        let nested = found.rows[found.best].outcome.as_ref().unwrap();
        for (sheet, drops) in nested.nest.sheets.iter().zip(&nested.drops) {
            let said = |step: Step| match step {
                Step::Across { frees: [near, beyond], .. } => vec![near, beyond],
                Step::Drop(drop) | Step::FromCutOut { drop, .. } => vec![Some(drop)],
                Step::CutOuts(_) | Step::Outline(_) | Step::Shared(_) => Vec::new(),
            };
            let mut said: Vec<usize> =
                cutting_order(&problem, sheet, drops, gap).into_iter().flat_map(said).flatten().collect();
            said.sort_unstable();
            prop_assert_eq!(said, (0..drops.len()).collect::<Vec<_>>());
        }
    }
}

/// Worked by hand: two parts stand side by side, 20 apart, a drop between them and one beyond. The far cut frees the one
/// beyond; the next two free the one in the middle, and the later of them says so.
#[test]
fn a_cut_says_which_drop_it_frees() {
    let rules = Rules { gap: 2, edge_trim: 0, least_drop: 16 };
    let problem = Problem::new(vec![rectangle(20, 40, 2)], vec![stock(100, 40, 1)], rules).unwrap();
    let at = |x| Placement { part: 0, pose: Pose::turned(Turn::NONE), shift: GridPoint::new(x, 0) };
    let sheet = Sheet { stock: 0, placements: vec![at(0), at(42)] };
    let drop = |from, to| Drop { low: GridPoint::new(from, 0), high: GridPoint::new(to, 40) };
    let cut = |within, drop| Step::Across {
        axis: Axis::X,
        within,
        from: 0,
        to: 40,
        finishes_both: false,
        frees: [None, drop],
    };
    let kept = [drop(22, 40), drop(64, 100)];
    let expected = [
        cut([62, 64], Some(1)),
        cut([40, 42], None),
        cut([20, 22], Some(0)),
        Step::Outline(1),
        Step::Outline(0),
    ];
    assert_eq!(cutting_order(&problem, &sheet, &kept, 1), expected);
    // A part with a bay: no straight cut frees a drop in it.
    let bay = [(0, 0), (60, 0), (60, 10), (20, 10), (20, 40), (0, 40)];
    let bay = GridOutline::new(bay.map(|(x, y)| GridPoint::new(x, y)).to_vec(), Vec::new()).unwrap();
    let bayed = Problem::new(vec![part(bay, 1, Turns::Half)], vec![stock(60, 40, 1)], rules).unwrap();
    let sheet = Sheet { stock: 0, placements: vec![at(0)] };
    let inner = Drop { low: GridPoint::new(22, 12), high: GridPoint::new(60, 40) };
    assert_eq!(cutting_order(&bayed, &sheet, &[inner], 1), [Step::Outline(0), Step::Drop(0)]);
}

/// Worked by hand: the part ends 10 up, so 40 − 10 − 4 = 26 are free right across the length of 60. What is left is 14
/// wide, too narrow to be kept.
#[test]
fn a_drop_that_is_free_right_across_comes_off_first() {
    let rules = Rules { gap: 4, edge_trim: 0, least_drop: 20 };
    let problem = Problem::new(vec![rectangle(30, 10, 1)], vec![stock(60, 40, 1)], rules).unwrap();
    let at = Placement { part: 0, pose: Pose::turned(Turn::NONE), shift: GridPoint::new(0, 0) };
    let sheet = Sheet { stock: 0, placements: vec![at] };
    let off = Step::Across {
        axis: Axis::Y,
        within: [10, 14],
        from: 0,
        to: 60,
        finishes_both: false,
        frees: [None, Some(0)],
    };
    let drop = Drop { low: GridPoint::new(0, 14), high: GridPoint::new(60, 40) };
    assert_eq!(cutting_order(&problem, &sheet, &[drop], 2), [off, Step::Outline(0)]);
    // Nothing is kept: so large an end comes off all the same, to saw the outline in a handy piece.
    let Step::Across { axis, within, from, to, finishes_both, .. } = off else { panic!("{off:?}") };
    let off = Step::Across { axis, within, from, to, finishes_both, frees: [None, None] };
    assert_eq!(cutting_order(&problem, &sheet, &[], 2), [off, Step::Outline(0)]);
}

/// A part with a long rising edge of many corners: the drop above it reaches right across all the same, since the height
/// just over its highest corner is always looked at.
#[test]
fn the_drop_over_a_part_of_many_corners_is_not_cut_short() {
    let rise = |x: i64| 200 + x * (2_000 - x) / 10_000;
    let mut ring = vec![GridPoint::new(0, 0), GridPoint::new(1_000, 0)];
    ring.extend((0..=100).rev().map(|step| GridPoint::new(10 * step, rise(10 * step))));
    let curved = part(GridOutline::new(ring, Vec::new()).unwrap(), 1, Turns::Half);
    let rules = Rules { gap: 4, edge_trim: 0, least_drop: 20 };
    let problem = Problem::new(vec![curved], vec![stock(1_000, 700, 1)], rules).unwrap();
    let found = compare(&problem, &Effort { evaluations: 10, starts: 1, seed: 1 }).unwrap();
    let drop = found.rows[found.best].outcome.as_ref().unwrap().drops[0][0];
    assert_eq!((drop.high.x - drop.low.x, drop.high.y - drop.low.y), (1_000, 396));
}

/// P and Q lie over one another beside a drop that is kept; a straight cut between them must not run on through the drop.
#[test]
fn no_straight_cut_runs_through_a_drop_to_be_kept() {
    let rules = Rules { gap: 4, edge_trim: 0, least_drop: 20 };
    let parts = vec![rectangle(40, 50, 1), rectangle(40, 6, 1), rectangle(100, 6, 1)];
    let problem = Problem::new(parts, vec![stock(100, 70, 1)], rules).unwrap();
    let at = |part, x, y| Placement { part, pose: Pose::turned(Turn::NONE), shift: GridPoint::new(x, y) };
    let sheet = Sheet { stock: 0, placements: vec![at(0, 0, 0), at(1, 0, 54), at(2, 0, 64)] };
    let drop = Drop { low: GridPoint::new(44, 0), high: GridPoint::new(100, 60) };
    let through = |steps: &[Step]| {
        let runs_through = |step: &&Step| match **step {
            Step::Across { axis: Axis::Y, within: [near, far], from, to, .. } => {
                near < drop.high.y && drop.low.y < far && from < drop.high.x && drop.low.x < to
            }
            Step::Across { axis: Axis::X, within: [near, far], from, to, .. } => {
                drop.low.x < near && far < drop.high.x && from < drop.high.y && drop.low.y < to
            }
            _ => false,
        };
        steps.iter().filter(runs_through).count()
    };
    assert_eq!(through(&cutting_order(&problem, &sheet, &[], 2)), 1, "the layout no longer shows the fault");
    let steps = cutting_order(&problem, &sheet, &[drop], 2);
    assert_eq!(through(&steps), 0, "{steps:?}");
    assert_eq!(steps.iter().filter(|step| matches!(step, Step::Outline(_))).count(), 3);
}

/// Worked by hand: a post of 30 × 90 and two blocks of 30 × 50 stand beside one another on 100 × 100. Sheared one from the other,
/// each block leaves 30 × 50 over itself. Over both and to the end of the sheet 70 × 50 come off in one piece: that takes a
/// cut at 30, one across what is beyond, and only then the two between the blocks, three rounds.
#[test]
fn what_is_left_over_beside_one_another_comes_off_in_one_piece() {
    let piece = |mark: &str, length, width, quantity| rect::Piece {
        mark: mark.into(),
        length,
        width,
        quantity,
        may_turn: false,
    };
    let placed = |piece, x| rect::Placed { piece, x, y: 0, turned: false };
    let sheet = [placed(0, 0), placed(1, 30), placed(1, 60)];
    let parted = |stages, kerf, least| {
        let shear = Shear { stages, kerf, ..Shear::default() };
        let pieces = vec![piece("POST", 30 - kerf, 90, 1), piece("BLOCK", 30 - kerf, 50, 2)];
        let problem = rect::Problem::new(pieces, (100, 100), kerf, rect::Cutting::Shear(shear)).unwrap();
        rect::parted_for_drops(&problem, &sheet, shear, least).unwrap()
    };
    let largest = |parted: &rect::Parted| {
        parted.left_over.iter().map(|[x, y]| (x.1 - x.0) * (y.1 - y.0)).max().unwrap()
    };
    let rounds = |parted: &rect::Parted| parted.cuts.iter().map(|cut| cut.stage).max().unwrap();
    let joined = parted(None, 0, 10);
    assert_eq!((largest(&joined), rounds(&joined)), (70 * 50, 3));
    assert_eq!(
        joined.left_over.iter().map(|[x, y]| (x.1 - x.0) * (y.1 - y.0)).sum::<i64>(),
        10_000 - 2700 - 3000
    );
    let two_rounds = parted(Some(2), 0, 10);
    assert_eq!((largest(&two_rounds), rounds(&two_rounds)), (30 * 50, 2));
    // A saw of 2 takes that off the post's side and off what is over the blocks.
    assert_eq!(largest(&parted(None, 2, 10)), 70 * 48);
    // Where only sides from 60 on are kept, there is no drop either way and no round more.
    assert_eq!(rounds(&parted(None, 0, 60)), 2);
}

/// The steps for one sheet with pieces of one outline at these places.
fn by_hand(outline: &[(i64, i64)], at: &[(i64, i64)], size: (i64, i64), gap: i64, kerf: i64) -> Vec<Step> {
    let corners = outline.iter().map(|&(x, y)| GridPoint::new(x, y)).collect();
    let outline = GridOutline::new(corners, Vec::new()).unwrap();
    let count = u32::try_from(at.len()).unwrap();
    let rules = Rules { gap, ..RULES };
    let parts = vec![part(outline, count, Turns::Half)];
    let problem = Problem::new(parts, vec![stock(size.0, size.1, 1)], rules).unwrap();
    let place = |&(x, y): &(i64, i64)| Placement {
        part: 0,
        pose: Pose::turned(Turn::default()),
        shift: GridPoint::new(x, y),
    };
    let sheet = Sheet { stock: 0, placements: at.iter().map(place).collect() };
    cutting_order(&problem, &sheet, &[], kerf)
}

fn across(steps: &[Step]) -> Vec<[i64; 2]> {
    let strip = |step: &Step| match *step {
        Step::Across { within, .. } => Some(within),
        _ => None,
    };
    steps.iter().filter_map(strip).collect()
}

/// Two pieces, each with a corner toward the other: a cut of 8 between corners 8 apart would graze both, one between corners
/// 12 apart leaves each a quarter of the kerf. Straight edges 8 apart are finished by the one cut.
#[test]
fn a_straight_cut_keeps_off_corners_that_it_only_passes() {
    let slanted = [(0, 0), (96, 0), (100, 40), (4, 40)];
    let square = [(0, 0), (100, 0), (100, 40), (0, 40)];
    assert!(across(&by_hand(&slanted, &[(0, 0), (108, 0)], (240, 50), 8, 8)).is_empty());
    assert_eq!(across(&by_hand(&slanted, &[(0, 0), (112, 0)], (240, 50), 8, 8)), [[102, 110]]);
    assert_eq!(across(&by_hand(&square, &[(0, 0), (108, 0)], (240, 50), 8, 8)), [[100, 108]]);
}

/// Pieces at the corner of a large sheet: free ends of a quarter of the sheet and more come off first.
#[test]
fn a_large_free_end_comes_off_by_the_first_straight_cut() {
    let square = [(0, 0), (100, 0), (100, 40), (0, 40)];
    let steps = by_hand(&square, &[(0, 0)], (220, 200), 8, 4);
    assert_eq!(across(&steps), [[40, 48]]);
    let Step::Across { axis, from, to, .. } = steps[0] else { panic!("{steps:?}") };
    assert_eq!((axis, from, to), (Axis::Y, 0, 220));
    let steps = by_hand(&square, &[(0, 0)], (1000, 90), 8, 4);
    assert_eq!(across(&steps), [[100, 108]]);
    let steps = by_hand(&square, &[(0, 0)], (160, 200), 8, 4);
    assert_eq!(across(&steps), [[40, 48]]);
    assert!(across(&by_hand(&square, &[(0, 0)], (130, 50), 8, 4)).is_empty());
}
