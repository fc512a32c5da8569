//! Weighing the rectangles within the parts.
//!
//! Source: dual feasible functions, Fekete, Schepers, *Math. Programming* 91 (2001) and *Math. Oper. Res.* 29 (2004)
//! (from memory): when f keeps every set of lengths that fits a stretch within weight 1, and g likewise for widths,
//! the rectangles on one sheet weigh f(length)·g(width) ≤ 1 in sum. Here f and g are the plain share, or the
//! share with lengths above 1 − ε counted full and below ε not at all. Each part counts the least it can weigh
//! over its allowed turns, so the choice of turns cannot break the proof. A part that is no rectangle counts for one within
//! it, at every turn that which weighs most there: whatever lies in the part takes no more room than the part.
//!
//! The gap: two rectangles a distance apart differ by more than seven tenths of it along one axis, so sizes grow by
//! that much (as does the sheet). Where all parts are wider than half the sheet at every turn, they lie in a row
//! and are apart by the whole gap along it.

use geometry::grid::{GridOutline, Turn};

use crate::bound::inscribed::inscribed;
use crate::bound::{Needed, Reason};
use crate::problem::{Pose, Problem, Turns};

/// Weights are whole numbers out of this many.
const FULL: i128 = 1_000_000_000;

/// Steps by which a rectangle in an outline that was turned is taken smaller: such outlines are rounded outward.
const SLACK_STEPS: i64 = 20;

/// The rectangles within the parts, largest parts or not, worked out once for all choices of sheets.
pub(crate) struct Blocks(Vec<Block>);

/// Rectangles within a part, and how many parts.
struct Block {
    at_turns: Vec<AtTurn>,
    quantity: i128,
}

/// A part at one turn that it may take.
struct AtTurn {
    /// Length and width of the part.
    around: (i64, i64),
    /// Length and width of rectangles within it: one of them lies there, whichever is chosen.
    within: Vec<(i64, i64)>,
}

impl Blocks {
    /// Of all parts whose turns are known.
    pub(crate) fn of(problem: &Problem) -> Self {
        Self(problem.parts().iter().filter_map(block).collect())
    }
}

/// The limits from weights, each with its reason.
pub(crate) fn needed(problem: &Problem, blocks: &Blocks, stock: &[usize]) -> Vec<(Needed, Reason)> {
    let blocks = &blocks.0;
    let trimmed = stock.iter().map(|&size| problem.stock()[size].trimmed(problem.rules()));
    let (mut length, mut width) = (0, 0);
    for (l, w) in trimmed {
        (length, width) = (length.max(l), width.max(w));
    }
    let gap = problem.least_apart();
    let mut limits = Vec::new();
    for flipped in [false, true] {
        let (along, across) = if flipped { (width, length) } else { (length, width) };
        limits.extend(rows(blocks, along, across, gap, flipped).into_iter().map(|row| (row, Reason::Row)));
    }
    limits.push((weighed(blocks, length, width, gap), Reason::Weights));
    limits
}

/// The rectangles within a part at each turn; none for parts of any turn. Half a turn changes no rectangle.
fn block(part: &crate::problem::Part) -> Option<Block> {
    if part.turns == Turns::Any {
        return None;
    }
    let half = |pose: Pose| {
        let turn = Turn::from_millidegrees(pose.turn.millidegrees() % Turn::HALF.millidegrees());
        // At quarter turns the mirror image has the same rectangles.
        Pose { over: pose.over && turn.quarters().is_none(), turn }
    };
    let mut poses: Vec<Pose> = part.poses().into_iter().map(half).collect();
    poses.sort_unstable();
    poses.dedup();
    let as_drawn = rectangle(&part.outline).map_or_else(|| inscribed(&part.outline), |whole| vec![whole]);
    let at_turn = |pose: Pose| {
        let turn = pose.turn;
        let turned = pose.of(&part.outline);
        let (low, high) = turned.bounds();
        let within = match turn.quarters() {
            Some(quarters) if quarters % 2 == 1 => as_drawn.iter().map(|&(l, w)| (w, l)).collect(),
            Some(_) => as_drawn.clone(),
            None => {
                let smaller = |(l, w): (i64, i64)| (l - SLACK_STEPS, w - SLACK_STEPS);
                inscribed(&turned).into_iter().map(smaller).filter(|&(l, w)| 0 < l.min(w)).collect()
            }
        };
        // What is rounded outward may reach beyond a sheet that holds the part.
        let slack = if turn.quarters().is_some() { 0 } else { SLACK_STEPS };
        AtTurn { around: (high.x - low.x - slack, high.y - low.y - slack), within }
    };
    Some(Block { at_turns: poses.into_iter().map(at_turn).collect(), quantity: i128::from(part.quantity) })
}

fn rectangle(outline: &GridOutline) -> Option<(i64, i64)> {
    let (low, high) = outline.bounds();
    let (length, width) = (high.x - low.x, high.y - low.y);
    let fills = outline.doubled_area() == 2 * i128::from(length) * i128::from(width);
    fills.then_some((length, width))
}

/// Blocks that are more than half as wide as the sheet at every turn lie in a row: all of them, and each kind alone, of which
/// a sheet holds a whole number.
fn rows(blocks: &[Block], along: i64, across: i64, gap: i64, flipped: bool) -> Vec<Needed> {
    let least = |block: &Block| least_in_row(block, along, across, gap, flipped);
    let bottom = i128::from(along + gap);
    let each: Vec<(i128, i128)> = blocks.iter().map(|block| (block.quantity, least(block))).collect();
    let all = Needed { top: each.iter().map(|(quantity, least)| quantity * least).sum(), bottom };
    let alone = each.iter().filter(|(_, least)| 0 < *least);
    let alone = alone.map(|&(quantity, least)| Needed { top: quantity, bottom: (bottom / least).max(1) });
    std::iter::once(all).chain(alone).collect()
}

/// What a block takes up of the row at least, with a gap behind it; nothing where it need not lie in it.
fn least_in_row(block: &Block, along: i64, across: i64, gap: i64, flipped: bool) -> i128 {
    let oriented = |&(length, width): &(i64, i64)| if flipped { (width, length) } else { (length, width) };
    let fits = |turn: &&AtTurn| {
        let (l, w) = oriented(&turn.around);
        l <= along && w <= across
    };
    // Two of them cannot pass one another, so they are apart by the whole gap along the row.
    let wide = |turn: &AtTurn| {
        let wide = turn.within.iter().map(oriented).filter(|&(_, w)| across < 2 * w);
        wide.map(|(l, _)| l).max().unwrap_or(-gap)
    };
    block.at_turns.iter().filter(fits).map(wide).min().map_or(0, |shortest| i128::from(shortest + gap))
}

/// Length of the longest part, each at the pose at which it is shortest.
pub(super) fn longest_lengths(blocks: &Blocks, across: i64) -> i128 {
    let shortest = |block: &Block| {
        let fitting = block.at_turns.iter().filter(|turn| turn.around.1 <= across);
        fitting.map(|turn| turn.around.0).min().unwrap_or(0)
    };
    blocks.0.iter().map(|block| i128::from(shortest(block))).max().unwrap_or(0)
}

/// Length of the row of all parts that are more than half as wide as a roll of that width.
pub(super) fn row_length(blocks: &Blocks, across: i64, gap: i64) -> i128 {
    let least = |block: &Block| least_in_row(block, i64::MAX, across, gap, false);
    let all: i128 = blocks.0.iter().map(|block| block.quantity * least(block)).sum();
    all - i128::from(gap)
}

/// The greatest sum of lengths times weights of widths on a roll of that width.
pub(super) fn heaviest_lengths(blocks: &Blocks, across: i64, gap: i64) -> i128 {
    let grown = gap * 70 / 99;
    let whole = across + grown;
    let least = |block: &Block, cut: i64| {
        let heaviest = |turn: &AtTurn| {
            let each =
                turn.within.iter().map(|&(l, w)| i128::from(l + grown) * weight(w + grown, (whole, cut)));
            each.max().unwrap_or(0)
        };
        let fitting = block.at_turns.iter().filter(|turn| turn.around.1 <= across);
        fitting.map(heaviest).min().unwrap_or(0)
    };
    let sum = |cut: i64| blocks.0.iter().map(|block| block.quantity * least(block, cut)).sum::<i128>();
    let most = cuts(&blocks.0, grown, whole).into_iter().map(sum).max().unwrap_or(0);
    (most + FULL - 1).div_euclid(FULL) - i128::from(grown)
}

fn weighed(blocks: &[Block], length: i64, width: i64, gap: i64) -> Needed {
    // 70/99 is a little below the half of the root of two, so the growth errs on the safe side.
    let grown = gap * 70 / 99;
    let (length, width) = (length + grown, width + grown);
    let mut best = Needed { top: 0, bottom: FULL };
    for cut_x in cuts(blocks, grown, length) {
        for cut_y in cuts(blocks, grown, width) {
            let sum = blocks
                .iter()
                .map(|block| block.quantity * lightest(block, grown, (length, cut_x), (width, cut_y)));
            best.top = best.top.max(sum.sum());
        }
    }
    best
}

/// Values of ε worth trying: 0, and sizes up to half the sheet, a few at most.
fn cuts(blocks: &[Block], grown: i64, whole: i64) -> Vec<i64> {
    const CUT_LIMIT: usize = 40;
    let rectangles = blocks.iter().flat_map(|block| &block.at_turns).flat_map(|turn| &turn.within);
    let sizes = rectangles.flat_map(|&(l, w)| [l + grown, w + grown]);
    let mut cuts: Vec<i64> = sizes.flat_map(|size| [size, whole - size + 1]).collect();
    cuts.retain(|&cut| 0 < cut && 2 * cut <= whole);
    cuts.sort_unstable();
    cuts.dedup();
    let every = cuts.len().div_ceil(CUT_LIMIT).max(1);
    std::iter::once(0).chain(cuts.into_iter().step_by(every)).collect()
}

/// The least that a part can weigh: at every turn that the sheet holds, the heaviest rectangle within it.
fn lightest(block: &Block, grown: i64, x: (i64, i64), y: (i64, i64)) -> i128 {
    let fits = |turn: &&AtTurn| turn.around.0 + grown <= x.0 && turn.around.1 + grown <= y.0;
    let heaviest = |turn: &AtTurn| {
        let weights = turn.within.iter().map(|&(l, w)| weight(l + grown, x) * weight(w + grown, y) / FULL);
        weights.max().unwrap_or(0)
    };
    block.at_turns.iter().filter(fits).map(heaviest).min().unwrap_or(0)
}

/// The weight of a size on a whole of `whole` with the cut ε, rounded down.
fn weight(size: i64, (whole, cut): (i64, i64)) -> i128 {
    if whole - cut < size {
        FULL
    } else if size < cut {
        0
    } else {
        i128::from(size) * FULL / i128::from(whole)
    }
}
