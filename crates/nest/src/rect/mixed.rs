//! Rectangles on sheets of several sizes, each at its own price.
//!
//! As the search on one size does, each step takes up one to four sheets, the emptiest more often, and lays their pieces
//! again, now on sheets of sizes drawn by chance. A filling counts for what its sheets cost, less a share of it that grows
//! with the square of how full each sheet is: so full sheets and, at the end, cheap ones gather. It is kept when it does not
//! count for more than a falling threshold above the one before. Free cutting.

use std::cmp::Reverse;
use std::sync::atomic::Ordering;

use rayon::prelude::*;

use crate::random::Chance;
use crate::rect::Watch;
use crate::rect::ground::{Rule, Spaces};
use crate::rect::problem::{Problem, Sheet};
use crate::rect::search::{FULL, Items, Lie, taken_up};
use crate::search::Effort;

/// A size of sheet within the trims.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Size {
    pub(crate) length: i64,
    pub(crate) width: i64,
    /// What one counts for.
    pub(crate) cost: i128,
    /// How many there are.
    pub(crate) limit: u32,
}

/// What is asked of a packing on several sizes.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Ask<'a> {
    /// The sheet of the problem must be as long and as wide as any of them.
    pub(crate) problem: &'a Problem,
    pub(crate) sizes: &'a [Size],
    /// Nothing costs less, so that the search ends there.
    pub(crate) least: i128,
}

/// Filled sheets, each with its size.
pub(crate) type Laid = Vec<(usize, Sheet)>;

/// Share of a sheet's cost that a full one counts less for.
const FULL_SHARE: f64 = 0.6;
/// The greatest rise let pass at the start, in costs of a mean sheet.
const WARM: f64 = 0.08;
/// Rounds between which the starts see whether one has reached the least.
const ROUNDS: u64 = 20;

/// The cheapest packing found while so many boxes are laid; `None` where the pieces do not go on the sheets there are, as far
/// as tried.
pub(crate) fn pack_mixed(ask: Ask<'_>, boxes: u64, effort: &Effort, watch: Watch<'_>) -> Option<Laid> {
    let items = Items::new(ask.problem);
    let yard = Yard::new(&items, ask);
    let mut starts: Vec<Walk<'_>> =
        (0..effort.starts.max(1)).filter_map(|start| Walk::new(&yard, effort.seed, start)).collect();
    let share = boxes / u64::from(effort.starts.max(1));
    for round in 1..=ROUNDS {
        let reached = starts.iter().any(|walk| walk.best.0 <= ask.least);
        if reached || watch.stop.load(Ordering::Relaxed) {
            break;
        }
        starts.par_iter_mut().for_each(|walk| walk.run(share * round / ROUNDS, share));
    }
    // The earliest of equals, so that the number of threads cannot matter.
    let best = starts.into_iter().min_by_key(|walk| walk.best.0)?;
    Some(best.best.1)
}

/// The sheets to draw from.
struct Yard<'a> {
    items: &'a Items,
    ask: Ask<'a>,
    gap: i64,
    /// What a sheet of each size counts for.
    cost: Vec<f64>,
    /// Each size as a share of the problem's sheet.
    room: Vec<f64>,
    /// The cheapest for their area first.
    worth: Vec<usize>,
    mean: f64,
}

impl<'a> Yard<'a> {
    #[expect(clippy::cast_precision_loss, reason = "only a measure of what sheets count for")]
    fn new(items: &'a Items, ask: Ask<'a>) -> Self {
        let gap = ask.problem.gap();
        let area = |length: i64, width: i64| (length + gap) as f64 * (width + gap) as f64;
        let (length, width) = ask.problem.sheet();
        let whole = area(length, width);
        let cost: Vec<f64> = ask.sizes.iter().map(|size| size.cost as f64).collect();
        let room: Vec<f64> = ask.sizes.iter().map(|size| area(size.length, size.width) / whole).collect();
        let mut worth: Vec<usize> = (0..cost.len()).collect();
        worth.sort_by(|&a, &b| (cost[a] * room[b]).total_cmp(&(cost[b] * room[a])).then(a.cmp(&b)));
        let mean = cost.iter().sum::<f64>() / (cost.len().max(1)) as f64;
        Self { items, ask, gap, cost, room, worth, mean }
    }

    fn empty(&self, size: usize) -> Spaces {
        let size = &self.ask.sizes[size];
        Spaces::new(size.length + self.gap, size.width + self.gap)
    }

    /// Fills sheets with the items in their order, each on the first sheet that has a place; new sheets are of the first of
    /// the sizes asked for that holds the item. `left` is how many there are of each.
    /// `None` where there is none, or the sheets cost more than `most`.
    fn filled(
        &self,
        left: &[u32],
        order: &[usize],
        how: (Rule, Lie),
        asked: &mut dyn FnMut(usize) -> Vec<usize>,
        most: f64,
    ) -> Option<Vec<Filled>> {
        let mut left = left.to_vec();
        let mut sheets: Vec<(Spaces, Filled)> = Vec::new();
        let mut cost = 0.0;
        for &item in order {
            let area = self.items.area(item);
            let laid = sheets.iter_mut().any(|(ground, sheet)| {
                if self.room[sheet.size] * (1.0 + FULL) < sheet.area + area {
                    return false;
                }
                let placed = self.items.lay(ground, item, how);
                placed.inspect(|&placed| sheet.put(item, placed, area)).is_some()
            });
            if !laid {
                let sizes = asked(sheets.len());
                let opened = sizes.into_iter().filter(|&size| 0 < left[size]).find_map(|size| {
                    let mut ground = self.empty(size);
                    let placed = self.items.lay(&mut ground, item, how)?;
                    let mut sheet = Filled { size, items: Vec::new(), placed: Sheet::new(), area: 0.0 };
                    sheet.put(item, placed, area);
                    Some((ground, sheet))
                })?;
                left[opened.1.size] -= 1;
                cost += self.cost[opened.1.size];
                if most < cost {
                    return None;
                }
                sheets.push(opened);
            }
        }
        Some(sheets.into_iter().map(|(_, sheet)| sheet).collect())
    }

    /// What a filled sheet counts for.
    fn counts(&self, filled: &Filled) -> f64 {
        let full = filled.area / self.room[filled.size];
        self.cost[filled.size] * (1.0 - FULL_SHARE * full * full)
    }
}

/// A sheet with its items, in the same order as the places.
#[derive(Debug, Clone)]
struct Filled {
    size: usize,
    items: Vec<usize>,
    placed: Sheet,
    /// What the items take, as a share of the problem's sheet.
    area: f64,
}

struct Walk<'a> {
    yard: &'a Yard<'a>,
    chance: Chance,
    sheets: Vec<Filled>,
    left: Vec<u32>,
    best: (i128, Laid),
    /// Boxes laid so far.
    laid: u64,
}

impl<'a> Walk<'a> {
    /// All items on the sheets that are the cheapest for their area; `None` where they run out.
    fn new(yard: &'a Yard<'a>, seed: u64, start: u32) -> Option<Self> {
        let mut walk = Self {
            yard,
            chance: Chance::new(seed, u64::from(start)),
            sheets: Vec::new(),
            left: yard.ask.sizes.iter().map(|size| size.limit).collect(),
            best: (i128::MAX, Laid::new()),
            laid: 0,
        };
        let mut all: Vec<usize> = (0..yard.items.piece.len()).collect();
        all.sort_by(|&a, &b| yard.items.area(b).total_cmp(&yard.items.area(a)));
        let how = (Rule::Short, Lie::Either);
        walk.sheets = yard.filled(&walk.left, &all, how, &mut |_| yard.worth.clone(), f64::INFINITY)?;
        walk.take_away();
        walk.keep();
        Some(walk)
    }

    /// Counts the sheets in hand as taken.
    fn take_away(&mut self) {
        self.sheets.iter().for_each(|sheet| self.left[sheet.size] -= 1);
    }

    fn keep(&mut self) {
        let cost = self.sheets.iter().map(|sheet| self.yard.ask.sizes[sheet.size].cost).sum();
        if cost < self.best.0 {
            let laid = self.sheets.iter().map(|sheet| (sheet.size, sheet.placed.clone())).collect();
            self.best = (cost, laid);
        }
    }

    /// Steps until so many boxes of a share have been laid.
    #[expect(clippy::cast_precision_loss, reason = "only a share")]
    fn run(&mut self, until: u64, share: u64) {
        while self.laid < until && self.yard.ask.least < self.best.0 {
            let come = self.laid as f64 / share as f64;
            self.step(WARM * self.yard.mean * (1.0 - come));
        }
    }

    fn step(&mut self, threshold: f64) {
        let (yard, sheets) = (self.yard, &self.sheets);
        let full = |sheet: usize| sheets[sheet].area / yard.room[sheets[sheet].size];
        let mut picked = taken_up(&mut self.chance, sheets.len(), full);
        let mut order: Vec<usize> =
            picked.iter().flat_map(|&sheet| self.sheets[sheet].items.iter().copied()).collect();
        self.laid += order.len() as u64;
        self.yard.items.draw(&mut order, &mut self.chance);
        let how = self.yard.items.way(&mut self.chance);
        let before: f64 = picked.iter().map(|&sheet| self.yard.counts(&self.sheets[sheet])).sum();
        let may = before + threshold * self.chance.share();
        let sizes: Vec<usize> = picked.iter().map(|&sheet| self.sheets[sheet].size).collect();
        sizes.iter().for_each(|&size| self.left[size] += 1);
        let chance = &mut self.chance;
        let mut asked = |number: usize| drawn(yard, sizes.get(number).copied(), chance);
        // A full sheet counts for so much of its cost; more than that cannot be let pass.
        let new = yard.filled(&self.left, &order, how, &mut asked, may / (1.0 - FULL_SHARE));
        let kept = new.filter(|new| new.iter().map(|sheet| yard.counts(sheet)).sum::<f64>() <= may);
        let Some(new) = kept else {
            sizes.iter().for_each(|&size| self.left[size] -= 1);
            return;
        };
        new.iter().for_each(|sheet| self.left[sheet.size] -= 1);
        picked.sort_unstable_by_key(|&sheet| Reverse(sheet));
        picked.into_iter().for_each(|sheet| drop(self.sheets.swap_remove(sheet)));
        self.sheets.extend(new);
        self.keep();
    }
}

/// Sizes in the order in which a new sheet is asked for: as the one taken up before, or one drawn by chance, then the
/// cheapest for their area.
fn drawn(yard: &Yard<'_>, before: Option<usize>, chance: &mut Chance) -> Vec<usize> {
    let any = chance.below(yard.cost.len());
    let first = before.filter(|_| chance.below(2) == 0).unwrap_or(any);
    std::iter::once(first).chain(yard.worth.iter().copied().filter(|&size| size != first)).collect()
}

impl Filled {
    fn put(&mut self, item: usize, placed: crate::rect::Placed, area: f64) {
        self.items.push(item);
        self.placed.push(placed);
        self.area += area;
    }
}
