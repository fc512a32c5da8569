//! Drops: free rectangles of a nested sheet that are worth keeping, those in cut-outs of parts by themselves.
//!
//! The sheet is cut into level strips at the corners of the parts. Over each run of strips every part blocks the
//! stretches that its edges and its metal cover there, wider by the gap; the widest free stretch makes a rectangle, in a bay of a
//! part as well. That is on the safe side (corners are held off as sides are) and exact: no kept drop is nearer to a
//! part than the gap, and none reaches into the edge trim.
//!
//! Holes of an offcut and zones that may not be used block likewise. Where a rectangle has more metal when such are left in
//! it, whole, it comes off so: a plate with a hole is worth more than the strips beside the hole.

mod cut_outs;

use geometry::grid::{GridOutline, GridPoint, Place, cross, ring_edges};

use crate::clear::{apart, place_in_metal};
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
    /// Whether a rectangle may lie between edges of it: it has holes, or bays.
    has_room: bool,
}

impl Block {
    fn new(outline: GridOutline, keep: i64) -> Self {
        let has_room = !outline.holes().is_empty() || !is_convex(outline.outer());
        Self { outline, keep, has_room }
    }

    /// The stretches that no rectangle from one height to the other may reach into; room narrower than `least` is not told.
    fn blocked(&self, from: i64, to: i64, least: i64) -> Vec<(i64, i64)> {
        let (from, to) = (from - self.keep, to + self.keep);
        let wider = |(start, end): (i64, i64)| (start - self.keep, end + self.keep);
        let (low, high) = self.outline.bounds();
        if high.y <= from || to <= low.y {
            return Vec::new();
        }
        if !self.has_room {
            return reach_in(&self.outline, from, to).map(wider).into_iter().collect();
        }
        let edges = self.outline.rings().flat_map(ring_edges);
        let edges = edges.filter(|(a, b)| from < a.y.max(b.y) && a.y.min(b.y) < to);
        let mut covered: Vec<(i64, i64)> = edges.map(|(a, b)| clipped(a, b, from, to)).collect();
        covered.sort_unstable();
        let mut blocked: Vec<(i64, i64)> = Vec::new();
        for (start, end) in covered {
            match blocked.last_mut() {
                Some(last) if !self.is_room([last.1, start], [from, to], least) => last.1 = last.1.max(end),
                _ => blocked.push((start, end)),
            }
        }
        blocked.into_iter().map(wider).collect()
    }

    /// Whether what lies between two edges, with no edge in it, is wide enough and no metal.
    fn is_room(&self, [left, right]: [i64; 2], [from, to]: [i64; 2], least: i64) -> bool {
        let middle = GridPoint::new(left + (right - left) / 2, from + (to - from) / 2);
        least + 2 * self.keep <= right - left && place_in_metal(&self.outline, middle) == Place::Outside
    }
}

/// Whether a ring turns one way only.
fn is_convex(ring: &[GridPoint]) -> bool {
    let turn = |index: usize| {
        let [a, b, c] = [0, 1, 2].map(|next| ring[(index + next) % ring.len()]);
        cross(a, b, c).signum()
    };
    (0..ring.len()).all(|index| 0 <= turn(index)) || (0..ring.len()).all(|index| turn(index) <= 0)
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
/// shorter than the rules' least drop. What falls out of a cut-out is smaller than that by the saw's kerf alone
/// ([`Problem::sawn`]).
#[must_use]
pub fn drops(problem: &Problem, sheet: &Sheet) -> Vec<Drop> {
    let rules = problem.rules();
    let whole = trimmed(problem, sheet.stock);
    let Some(pockets) = problem.stock()[sheet.stock].pockets() else { return Vec::new() };
    if !whole.is_worth_keeping(rules) {
        return Vec::new();
    }
    let pocket = |outline: GridOutline| Block::new(outline, rules.edge_trim);
    let part = |outline: GridOutline| Block::new(outline, rules.gap);
    let mut blocks: Vec<Block> = pockets.into_iter().map(pocket).collect();
    blocks.extend(sheet.placements.iter().map(|placed| part(placed.outline(problem).filled())));
    let blemishes = problem.stock()[sheet.stock].blemishes();
    let next = |blocks: &mut Vec<Block>| {
        let free = blocks.len();
        blocks.extend(blemishes.iter().cloned().map(pocket));
        let clean = largest_kept(whole, blocks, rules);
        blocks.truncate(free);
        let clean = clean?;
        Some(with_blemishes(clean, &blemishes, whole, blocks, rules).unwrap_or(clean))
    };
    let mut drops = one_after_another(blocks, rules.gap, next);
    drops.extend(cut_outs::in_cut_outs(problem, sheet));
    worth_keeping(drops, rules)
}

/// The largest upright rectangle of the usable metal of a sheet with nothing on it, off its edges and blemishes by the edge trim.
pub(crate) fn largest_of_empty(problem: &Problem, stock: usize) -> Option<Drop> {
    let missing = problem.stock()[stock].pockets()?.into_iter().chain(problem.stock()[stock].blemishes());
    let trim = problem.rules().edge_trim;
    let blocks: Vec<Block> = missing.map(|outline| Block::new(outline, trim)).collect();
    largest(trimmed(problem, stock), &blocks, 1)
}

/// The rectangle inside the edge trim of a sheet.
fn trimmed(problem: &Problem, stock: usize) -> Drop {
    let (length, width) = problem.stock()[stock].trimmed(problem.rules());
    let trim = problem.rules().edge_trim;
    let low = GridPoint::new(trim, trim);
    Drop { low, high: low + GridPoint::new(length, width) }
}

/// The largest free rectangle, where it is worth keeping.
fn largest_kept(whole: Drop, blocks: &[Block], rules: &Rules) -> Option<Drop> {
    largest(whole, blocks, rules.least_drop.max(1)).filter(|drop| drop.is_worth_keeping(rules))
}

/// What `next` finds among the blocks, until it finds no more; each keeps the gap from those before it.
fn one_after_another(
    mut blocks: Vec<Block>,
    gap: i64,
    next: impl Fn(&mut Vec<Block>) -> Option<Drop>,
) -> Vec<Drop> {
    let mut drops = Vec::new();
    while drops.len() < DROP_LIMIT
        && let Some(drop) = next(&mut blocks)
    {
        let size = drop.high - drop.low;
        let Ok(block) = GridOutline::rectangle(size.x, size.y) else { break };
        blocks.push(Block::new(block.shifted(drop.low), gap));
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
    rules: &Rules,
) -> Option<Drop> {
    let keep = rules.edge_trim;
    if blemishes.is_empty() {
        return None;
    }
    let wide = largest(whole, blocks, rules.least_drop.max(1))?;
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

/// The largest free rectangle without a side below `least`.
fn largest(whole: Drop, blocks: &[Block], least: i64) -> Option<Drop> {
    let levels = levels(whole, blocks, least);
    let mut best: Option<Drop> = None;
    let length = i128::from(whole.high.x - whole.low.x);
    for (index, &from) in levels.iter().enumerate() {
        for &to in &levels[index + 1..] {
            let most = length * i128::from(to - from);
            if to - from < least || best.is_some_and(|known| most <= known.area()) {
                continue;
            }
            let Some((left, right)) = widest(whole, blocks, [from, to], least) else { continue };
            let drop = Drop { low: GridPoint::new(left, from), high: GridPoint::new(right, to) };
            if best.is_none_or(|known| known.area() < drop.area()) {
                best = Some(drop);
            }
        }
    }
    best
}

/// Heights at which a free rectangle may begin or end: above and below every block and every cut-out that has room for one, and at
/// their corners as far as they are few enough.
fn levels(whole: Drop, blocks: &[Block], least: i64) -> Vec<i64> {
    let inside = |mut levels: Vec<i64>| {
        levels.retain(|&y| whole.low.y < y && y < whole.high.y);
        levels.sort_unstable();
        levels.dedup();
        levels
    };
    let beside = |(y, keep): (i64, i64)| [y - keep, y + keep];
    let outers = || blocks.iter().map(|block| (block.outline.outer(), block.keep));
    let holes = || {
        let all =
            blocks.iter().flat_map(|block| block.outline.holes().iter().map(|hole| (&hole[..], block.keep)));
        all.filter(|&(ring, keep)| {
            let of = |axis: fn(&GridPoint) -> i64| {
                let all = || ring.iter().map(axis);
                all().max().unwrap_or(0) - all().min().unwrap_or(0)
            };
            least + 2 * keep <= of(|corner| corner.x).min(of(|corner| corner.y))
        })
    };
    let corners = |(ring, keep): (&[GridPoint], i64)| -> Vec<i64> {
        ring.iter().flat_map(|corner| beside((corner.y, keep))).collect()
    };
    let ends = outers().chain(holes()).flat_map(|(ring, keep)| {
        let all = || ring.iter().map(|corner| corner.y);
        [all().min().unwrap_or(0), all().max().unwrap_or(0)].map(|y| (y, keep))
    });
    let mut levels = thinned(inside(outers().flat_map(corners).collect()));
    levels.extend(thinned(inside(holes().flat_map(corners).collect())));
    levels.extend(thinned(inside(ends.flat_map(beside).collect())));
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

/// The widest stretch free of blocks over the strip from one height to the other, at least so wide.
fn widest(whole: Drop, blocks: &[Block], [from, to]: [i64; 2], least: i64) -> Option<(i64, i64)> {
    let mut blocked: Vec<(i64, i64)> =
        blocks.iter().flat_map(|block| block.blocked(from, to, least)).collect();
    blocked.sort_unstable();
    let mut best: Option<(i64, i64)> = None;
    let mut left = whole.low.x;
    for (start, end) in blocked.into_iter().chain([(whole.high.x, whole.high.x)]) {
        let right = start.min(whole.high.x);
        if least <= right - left && best.is_none_or(|(a, b)| b - a < right - left) {
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
