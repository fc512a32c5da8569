//! Drops: free rectangles of a nested sheet that are worth keeping.
//!
//! The sheet is cut into level strips at the corners of the parts. Over each run of strips every part blocks the
//! stretch it covers there, wider by the gap; the widest free stretch makes a rectangle. That is on the safe side
//! (a bay open to neither end of its part counts as blocked) and exact: no kept drop is nearer to a part than the
//! gap, and none reaches into the edge trim.
//!
//! Holes of an offcut and zones that may not be used block likewise. Where a rectangle has more metal when such are left in
//! it, whole, it comes off so: a plate with a hole is worth more than the strips beside the hole.

use geometry::grid::{GridOutline, GridPoint, ring_edges};

use crate::clear::apart;
use crate::problem::{Problem, Rules};
use crate::sheet::Sheet;

/// A free rectangle, corners in steps from the sheet's own lower left corner. Of an offcut it may have holes and zones in it
/// that may not be used, whole and off its sides by the edge trim.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Drop {
    /// Lower left corner.
    pub low: GridPoint,
    /// Upper right corner.
    pub high: GridPoint,
}

/// The most levels looked at on one sheet at corners, and above and below blocks; beyond it neighbouring ones are thinned.
const LEVEL_LIMIT: usize = 48;

/// The most drops reported for one sheet.
const DROP_LIMIT: usize = 4;

/// What a drop must stay off, and by how much.
struct Block {
    outline: GridOutline,
    keep: i64,
}

impl Drop {
    /// Area in square steps.
    #[must_use]
    pub const fn area(&self) -> i128 {
        (self.high.x - self.low.x) as i128 * (self.high.y - self.low.y) as i128
    }

    /// Whether no side is shorter than the rules' least drop.
    fn is_worth_keeping(&self, rules: &Rules) -> bool {
        let size = self.high - self.low;
        rules.least_drop.max(1) <= size.x.min(size.y)
    }
}

/// The drops of a sheet, largest first, apart from the parts and from one another by the gap, none with a side
/// shorter than the rules' least drop.
#[must_use]
pub fn drops(problem: &Problem, sheet: &Sheet) -> Vec<Drop> {
    let rules = problem.rules();
    let (length, width) = problem.stock()[sheet.stock].trimmed(rules);
    let low = GridPoint::new(rules.edge_trim, rules.edge_trim);
    let whole = Drop { low, high: low + GridPoint::new(length, width) };
    let Some(pockets) = problem.stock()[sheet.stock].pockets() else { return Vec::new() };
    let pocket = |outline: GridOutline| Block { outline, keep: rules.edge_trim };
    let part = |outline: GridOutline| Block { outline, keep: rules.gap };
    let mut blocks: Vec<Block> = pockets.into_iter().map(pocket).collect();
    blocks.extend(sheet.placements.iter().map(|placed| part(placed.outline(problem))));
    let blemishes = problem.stock()[sheet.stock].blemishes();
    let mut drops = Vec::new();
    while drops.len() < DROP_LIMIT {
        let free = blocks.len();
        blocks.extend(blemishes.iter().cloned().map(pocket));
        let clean = largest(whole, &blocks);
        blocks.truncate(free);
        let Some(clean) = clean.filter(|drop| drop.is_worth_keeping(rules)) else { break };
        let drop = with_blemishes(clean, &blemishes, whole, &blocks, rules.edge_trim).unwrap_or(clean);
        let size = drop.high - drop.low;
        let Ok(block) = GridOutline::rectangle(size.x, size.y) else { break };
        blocks.push(part(block.shifted(drop.low)));
        drops.push(drop);
    }
    drops
}

/// The largest free rectangle around a clean one when holes and zones may lie in it, each of them whole; none where that
/// gives no more metal that can be used.
fn with_blemishes(
    clean: Drop,
    blemishes: &[GridOutline],
    whole: Drop,
    blocks: &[Block],
    keep: i64,
) -> Option<Drop> {
    if blemishes.is_empty() {
        return None;
    }
    let wide = largest(whole, blocks)?;
    let holds = |low: GridPoint, high: GridPoint, keep: i64| {
        wide.low.x + keep <= low.x
            && wide.low.y + keep <= low.y
            && high.x + keep <= wide.high.x
            && high.y + keep <= wide.high.y
    };
    let size = wide.high - wide.low;
    let outline = GridOutline::rectangle(size.x, size.y).ok()?.shifted(wide.low);
    let (inside, others): (Vec<&GridOutline>, Vec<&GridOutline>) =
        blemishes.iter().partition(|blemish| holds(blemish.bounds().0, blemish.bounds().1, keep.max(1)));
    let lost: i128 = inside.into_iter().map(|blemish| blemish.doubled_area() / 2 + 1).sum();
    let is_better = holds(clean.low, clean.high, 0)
        && clean.area() < wide.area() - lost
        && others.into_iter().all(|blemish| apart(blemish, &outline, keep));
    is_better.then_some(wide)
}

/// The largest of free rectangles that lie apart, none with a side shorter than the rules' least drop.
pub(crate) fn worth_keeping(mut drops: Vec<Drop>, rules: &Rules) -> Vec<Drop> {
    drops.retain(|drop| drop.is_worth_keeping(rules));
    drops.sort_by_key(|drop| (std::cmp::Reverse(drop.area()), *drop));
    drops.truncate(DROP_LIMIT);
    drops
}

fn largest(whole: Drop, blocks: &[Block]) -> Option<Drop> {
    let levels = levels(whole, blocks);
    let mut best: Option<Drop> = None;
    for (index, &from) in levels.iter().enumerate() {
        for &to in &levels[index + 1..] {
            let Some((left, right)) = widest(whole, blocks, from, to) else { continue };
            let drop = Drop { low: GridPoint::new(left, from), high: GridPoint::new(right, to) };
            if best.is_none_or(|known| known.area() < drop.area()) {
                best = Some(drop);
            }
        }
    }
    best
}

/// Heights at which a free rectangle may begin or end: above and below every block, and at its corners as far as they are
/// few enough.
fn levels(whole: Drop, blocks: &[Block]) -> Vec<i64> {
    let inside = |mut levels: Vec<i64>| {
        levels.retain(|&y| whole.low.y < y && y < whole.high.y);
        levels.sort_unstable();
        levels.dedup();
        levels
    };
    let ends = blocks.iter().flat_map(|block| {
        let (low, high) = block.outline.bounds();
        [low.y - block.keep, high.y + block.keep]
    });
    let corners =
        blocks.iter().flat_map(|block| block.outline.outer().iter().map(|corner| (corner.y, block.keep)));
    let mut levels = thinned(inside(corners.flat_map(|(y, keep)| [y - keep, y + keep]).collect()));
    levels.extend(thinned(inside(ends.collect())));
    let mut levels = inside(levels);
    levels.insert(0, whole.low.y);
    levels.push(whole.high.y);
    levels
}

/// At most [`LEVEL_LIMIT`] of them.
fn thinned(levels: Vec<i64>) -> Vec<i64> {
    let keep_every = levels.len().div_ceil(LEVEL_LIMIT).max(1);
    levels.into_iter().step_by(keep_every).collect()
}

/// The widest stretch free of blocks over the strip from `from` to `to`.
fn widest(whole: Drop, blocks: &[Block], from: i64, to: i64) -> Option<(i64, i64)> {
    let reach = |block: &Block| {
        let (start, end) = reach_in(&block.outline, from - block.keep, to + block.keep)?;
        Some((start - block.keep, end + block.keep))
    };
    let mut blocked: Vec<(i64, i64)> = blocks.iter().filter_map(reach).collect();
    blocked.sort_unstable();
    let mut best: Option<(i64, i64)> = None;
    let mut left = whole.low.x;
    for (start, end) in blocked.into_iter().chain([(whole.high.x, whole.high.x)]) {
        let right = start.min(whole.high.x);
        if left < right && best.is_none_or(|(a, b)| b - a < right - left) {
            best = Some((left, right));
        }
        left = left.max(end);
    }
    best
}

/// How far a block reaches left and right within the open strip from `from` to `to`, rounded outward.
fn reach_in(block: &GridOutline, from: i64, to: i64) -> Option<(i64, i64)> {
    let mut reach: Option<(i64, i64)> = None;
    for (a, b) in ring_edges(block.outer()) {
        if a.y.max(b.y) <= from || to <= a.y.min(b.y) {
            continue;
        }
        let (least, greatest) = clipped(a, b, from, to);
        reach = Some(reach.map_or((least, greatest), |(l, g)| (l.min(least), g.max(greatest))));
    }
    reach
}

/// Least and greatest x of the edge between two heights, rounded outward.
pub(crate) fn clipped(a: GridPoint, b: GridPoint, from: i64, to: i64) -> (i64, i64) {
    let (low, high) = if a.y <= b.y { (a, b) } else { (b, a) };
    let rise = i128::from(high.y - low.y);
    let run = i128::from(high.x - low.x);
    let mut ends = Vec::with_capacity(4);
    for (y, corner) in [(from.max(low.y), low), (to.min(high.y), high)] {
        if rise == 0 || y == corner.y {
            ends.push(corner.x);
        } else {
            let scaled = run * i128::from(y - low.y);
            let floor = i64::try_from(scaled.div_euclid(rise)).unwrap_or(0);
            ends.extend([low.x + floor, low.x + floor + 1]);
        }
    }
    let ends_of = |pick: fn(i64, i64) -> i64| ends.iter().copied().reduce(pick).unwrap_or(low.x);
    (ends_of(i64::min), ends_of(i64::max))
}
