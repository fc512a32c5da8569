//! How few sheets could ever do.
//!
//! Dual feasible functions f keep every row of pieces that fits the sheet within the weight f(sheet); with one for
//! lengths and one for widths, the pieces of a sheet weigh at most f(length)·g(width). Families after Carlier,
//! Clautiaux, Moukrim, *Computers & Operations Research* 34 (2007) and Fekete, Schepers, *Math. Programming* 91
//! (2001) (from memory). First every piece is grown to what it hinders anyway: where the sizes that fit beside it
//! never fill the sheet, the rest is counted to the piece (Boschetti, Mingozzi, *4OR* 1 (2003), from memory).
//!
//! A piece that may be turned counts the least it weighs either way.

mod families;
mod grow;

use crate::rect::problem::Problem;

/// A proven lower limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bound {
    /// No packing has fewer sheets than this.
    pub sheets: u32,
    /// True when the plain area of the pieces already proves it.
    pub by_area: bool,
}

/// A piece grown by the gap, at each turn allowed that fits the sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Block {
    pub(crate) sizes: Vec<(i64, i64)>,
    pub(crate) quantity: i64,
}

/// The best limit known for the problem; it holds for free cutting and so for the shear.
#[must_use]
pub fn bound(problem: &Problem) -> Bound {
    let gap = problem.gap();
    let (length, width) = (problem.sheet().0 + gap, problem.sheet().1 + gap);
    let blocks: Vec<Block> = problem
        .pieces()
        .iter()
        .map(|piece| {
            let size = (piece.length + gap, piece.width + gap);
            let mut sizes = vec![size];
            if piece.may_turn {
                sizes.push((size.1, size.0));
            }
            sizes.retain(|&(l, w)| l <= length && w <= width);
            Block { sizes, quantity: i64::from(piece.quantity) }
        })
        .collect();
    let area = weighed(&blocks, &[families::plain(length)], &[families::plain(width)]);
    let grown = grow::grown(blocks, (length, width));
    let lengths = families::functions(&grown, length, |size| size.0);
    let widths = families::functions(&grown, width, |size| size.1);
    let sheets = weighed(&grown, &lengths, &widths).max(area);
    Bound { sheets, by_area: sheets == area }
}

/// The greatest number of sheets that a pair of functions proves.
fn weighed(blocks: &[Block], lengths: &[families::Function], widths: &[families::Function]) -> u32 {
    let table = |functions: &[families::Function], side: fn(&(i64, i64)) -> i64| -> Vec<Vec<i64>> {
        let sizes = || blocks.iter().flat_map(|block| block.sizes.iter());
        functions.iter().map(|function| sizes().map(|size| function.of(side(size))).collect()).collect()
    };
    let (along, across) = (table(lengths, |size| size.0), table(widths, |size| size.1));
    let mut best = 1;
    for (f, function_f) in along.iter().zip(lengths) {
        for (g, function_g) in across.iter().zip(widths) {
            let mut at = 0;
            let mut sum: i128 = 0;
            for block in blocks {
                let turns = at..at + block.sizes.len();
                at = turns.end;
                let least = turns.map(|turn| i128::from(f[turn]) * i128::from(g[turn])).min();
                sum += i128::from(block.quantity) * least.unwrap_or(0);
            }
            let full = i128::from(function_f.full()) * i128::from(function_g.full());
            best = best.max(u32::try_from((sum + full - 1) / full).unwrap_or(u32::MAX));
        }
    }
    best
}
