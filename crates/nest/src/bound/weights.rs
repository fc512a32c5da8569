//! Weighing the rectangles within the parts.
//!
//! Source: dual feasible functions, Fekete, Schepers, *Math. Programming* 91 (2001) and *Math. Oper. Res.* 29 (2004)
//! (from memory): when f keeps every set of lengths that fits a stretch within weight 1, and g likewise for widths,
//! the rectangles on one sheet weigh f(length)·g(width) ≤ 1 in sum. Here f and g are the plain share, or the
//! share with lengths above 1 − ε counted full and below ε not at all. Each part counts the least it can weigh
//! over its allowed turns, so the choice of turns cannot break the proof.
//!
//! The gap: two rectangles a distance apart differ by more than seven tenths of it along one axis, so sizes grow by
//! that much (as does the sheet). Where all parts are wider than half the sheet at every turn, they lie in a row
//! and are apart by the whole gap along it.

use geometry::grid::GridOutline;

use crate::bound::{Needed, Reason};
use crate::problem::{Problem, Turns};

/// Weights are whole numbers out of this many.
const FULL: i128 = 1_000_000_000;

/// A rectangle within a part at one turn, and how many.
struct Block {
    /// Length and width at each allowed turn.
    sizes: Vec<(i64, i64)>,
    quantity: i128,
}

/// The limits from weights, each with its reason.
pub(crate) fn needed(problem: &Problem, stock: &[usize]) -> Vec<(Needed, Reason)> {
    let trimmed = stock.iter().map(|&size| problem.stock()[size].trimmed(problem.rules()));
    let (mut length, mut width) = (0, 0);
    for (l, w) in trimmed {
        (length, width) = (length.max(l), width.max(w));
    }
    let blocks: Vec<Block> = problem.parts().iter().filter_map(block).collect();
    let gap = problem.least_apart();
    let mut limits = Vec::new();
    for flipped in [false, true] {
        let (along, across) = if flipped { (width, length) } else { (length, width) };
        limits.push((row(&blocks, along, across, gap, flipped), Reason::Row));
    }
    limits.push((weighed(&blocks, length, width, gap), Reason::Weights));
    limits
}

/// The rectangle within a part: only parts that are themselves rectangles at quarter turns are weighed.
fn block(part: &crate::problem::Part) -> Option<Block> {
    let quarter = match &part.turns {
        Turns::Half => false,
        Turns::Quarter => true,
        Turns::Listed(turns) => {
            let quarters: Option<Vec<u32>> = turns.iter().map(|turn| turn.quarters()).collect();
            quarters?.iter().any(|quarters| quarters % 2 == 1)
        }
        Turns::Any => return None,
    };
    let (length, width) = rectangle(&part.outline)?;
    let mut sizes = vec![(length, width)];
    if quarter {
        sizes.push((width, length));
    }
    Some(Block { sizes, quantity: i128::from(part.quantity) })
}

fn rectangle(outline: &GridOutline) -> Option<(i64, i64)> {
    let (low, high) = outline.bounds();
    let (length, width) = (high.x - low.x, high.y - low.y);
    let fills = outline.doubled_area() == 2 * i128::from(length) * i128::from(width);
    fills.then_some((length, width))
}

/// Blocks that are more than half as wide as the sheet at every turn lie in a row.
fn row(blocks: &[Block], along: i64, across: i64, gap: i64, flipped: bool) -> Needed {
    let oriented = |&(length, width): &(i64, i64)| if flipped { (width, length) } else { (length, width) };
    let mut top = 0;
    for block in blocks {
        let sizes = block.sizes.iter().map(oriented).filter(|&(l, w)| l <= along && w <= across);
        let (mut shortest, mut narrowest) = (i64::MAX, i64::MAX);
        for (l, w) in sizes {
            (shortest, narrowest) = (shortest.min(l), narrowest.min(w));
        }
        // Two of them cannot pass one another, so they are apart by the whole gap along the row.
        if shortest < i64::MAX && across < 2 * narrowest {
            top += block.quantity * i128::from(shortest + gap);
        }
    }
    whole_rows(blocks, Needed { top, bottom: i128::from(along + gap) })
}

/// A row of equal blocks holds a whole number of them; with one kind of block the limit is sharper.
fn whole_rows(blocks: &[Block], needed: Needed) -> Needed {
    let [only] = blocks else { return needed };
    if needed.top == 0 {
        return needed;
    }
    let each = needed.top / only.quantity;
    let in_a_row = (needed.bottom / each).max(1);
    Needed { top: only.quantity, bottom: in_a_row }
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
    let sizes = blocks.iter().flat_map(|block| block.sizes.iter()).flat_map(|&(l, w)| [l + grown, w + grown]);
    let mut cuts: Vec<i64> = sizes.flat_map(|size| [size, whole - size + 1]).collect();
    cuts.retain(|&cut| 0 < cut && 2 * cut <= whole);
    cuts.sort_unstable();
    cuts.dedup();
    let every = cuts.len().div_ceil(CUT_LIMIT).max(1);
    std::iter::once(0).chain(cuts.into_iter().step_by(every)).collect()
}

fn lightest(block: &Block, grown: i64, x: (i64, i64), y: (i64, i64)) -> i128 {
    let weights = block.sizes.iter().filter(|&&(l, w)| l + grown <= x.0 && w + grown <= y.0);
    weights.map(|&(l, w)| weight(l + grown, x) * weight(w + grown, y) / FULL).min().unwrap_or(0)
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
