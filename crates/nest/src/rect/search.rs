//! The search: sheets are taken up a few at a time and filled anew, so that free room gathers on one sheet until it
//! is empty.
//!
//! Each step takes up one to four sheets, the emptiest more often, and lays their pieces again in an order drawn
//! around their size. The new filling is kept when the squares of the sheets' fillings do not fall by more than a
//! falling threshold: squares grow when full sheets get fuller. (Threshold accepting, Dueck, Scheuer, *J. Comput.
//! Phys.* 90 (1990); the goal is Falkenauer's, *J. Heuristics* 2 (1996); both from memory.)

use std::sync::atomic::{AtomicBool, Ordering};

use rayon::prelude::*;
use thiserror::Error;

use crate::random::Chance;
use crate::rect::bound::{Bound, bound};
use crate::rect::exact;
use crate::rect::ground::{Ground, Panels, RULES, Rule, Spaces};
use crate::rect::problem::{Cutting, Placed, Problem, Sheet};
use crate::rect::verify::{Flaw, verify};
use crate::search::Effort;

/// Steps between two looks at what the other starts have found.
const ROUND: u64 = 4_000;
/// The most sheets taken up at once.
const TAKEN: usize = 4;

/// News and the way to stop.
#[derive(Clone, Copy)]
pub struct Watch<'a> {
    /// Set to end the search early with the best found so far.
    pub stop: &'a AtomicBool,
}

/// A packing that has passed [`verify`].
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Packing {
    /// The sheets, the fullest first.
    pub sheets: Vec<Sheet>,
    /// How few sheets could ever do.
    pub bound: Bound,
    /// True when no packing has fewer sheets: by the bound, or because every packing was looked at.
    pub proved: bool,
    /// Fillings tried.
    pub evaluations: u64,
}

/// Why there is no packing.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum PackError {
    /// A piece fits the sheet, but not within the shear's limits.
    #[error("piece {piece} cannot be cut from a whole sheet within the shear's limits")]
    NotOnTheShear {
        /// Which piece.
        piece: usize,
    },
    /// A packing found is wrong: a fault of this program. Nothing may be written.
    #[error("a packing failed its own check ({} flaw(s)); please report this", .0.len())]
    Unsound(Vec<Flaw>),
}

/// Packs rectangles on as few sheets as can be found. The same problem, effort and seed give the same packing on any
/// number of threads, unless stopped early.
///
/// # Errors
/// [`PackError`] when a piece cannot be cut, or the packing fails [`verify`].
pub fn pack(problem: &Problem, effort: &Effort, watch: Watch<'_>) -> Result<Packing, PackError> {
    let (length, width) = problem.sheet();
    let (length, width) = (length + problem.gap(), width + problem.gap());
    match problem.cutting() {
        Cutting::Free => packed(problem, effort, watch, &|| Spaces::new(length, width)),
        Cutting::Shear(shear) => {
            packed(problem, effort, watch, &|| Panels::new(length, width, problem.gap(), shear))
        }
    }
}

fn packed<G: Ground>(
    problem: &Problem,
    effort: &Effort,
    watch: Watch<'_>,
    empty: &(impl Fn() -> G + Sync),
) -> Result<Packing, PackError> {
    let items = Items::new(problem);
    if let Some(item) = (0..items.sizes.len()).find(|&item| items.alone(item, empty).is_none()) {
        return Err(PackError::NotOnTheShear { piece: items.piece[item] });
    }
    let bound = bound(problem);
    let least = usize::try_from(bound.sheets).unwrap_or(usize::MAX);
    let mut starts: Vec<State<'_, G, _>> =
        (0..effort.starts.max(1)).map(|start| State::new(&items, empty, effort.seed, start)).collect();
    let share = effort.evaluations / u64::from(effort.starts.max(1));
    let mut spent = 0;
    while spent < share && !watch.stop.load(Ordering::Relaxed) {
        let steps = ROUND.min(share - spent);
        starts.par_iter_mut().for_each(|state| state.walk(steps, least, (spent, share), watch));
        spent += steps;
        if starts.iter().any(|state| state.best.len() <= least) {
            break;
        }
    }
    let evaluations = starts.iter().map(|state| state.evaluations).sum();
    let best = starts.iter().min_by_key(|state| state.best.len());
    let mut sheets = best.map(|state| state.best.clone()).unwrap_or_default();
    let mut proved = sheets.len() <= least;
    // What the exact search lays is looked at like all else: where the order of cuts wants more, it proves nothing.
    if !proved && let Some(exact) = exact::fewest(problem).filter(|sheets| verify(problem, sheets).is_ok()) {
        proved = exact.len() == sheets.len();
        if exact.len() < sheets.len() {
            (sheets, proved) = (exact, true);
        }
    }
    let area = |sheet: &Sheet| {
        let each = sheet.iter().map(|&placed| problem.size(placed));
        each.map(|(l, w)| i128::from(l) * i128::from(w)).sum::<i128>()
    };
    sheets.sort_by_key(|sheet| std::cmp::Reverse(area(sheet)));
    verify(problem, &sheets).map_err(PackError::Unsound)?;
    Ok(Packing { sheets, bound, proved, evaluations })
}

/// Which way items that may be turned are laid where that is possible.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Lie {
    /// Each as is best for itself.
    Either,
    /// The longer side along x.
    Along,
    /// The longer side along y.
    Across,
}

const LIES: [Lie; 3] = [Lie::Either, Lie::Along, Lie::Across];

/// Every single piece with the sizes it may have, grown by the gap.
pub(super) struct Items {
    pub(super) piece: Vec<usize>,
    /// Length and width, and whether it may be turned to another size.
    sizes: Vec<(i64, i64, bool)>,
    /// Share of a sheet.
    area: Vec<f64>,
}

impl Items {
    #[expect(clippy::cast_precision_loss, reason = "only a measure of fullness")]
    pub(super) fn new(problem: &Problem) -> Self {
        let mut items = Self { piece: Vec::new(), sizes: Vec::new(), area: Vec::new() };
        let gap = problem.gap();
        let (length, width) = problem.sheet();
        let sheet = (length + gap) as f64 * (width + gap) as f64;
        for (number, piece) in problem.pieces().iter().enumerate() {
            let (l, w) = (piece.length + gap, piece.width + gap);
            for _ in 0..piece.quantity {
                items.piece.push(number);
                items.sizes.push((l, w, piece.may_turn && l != w));
                items.area.push(l as f64 * w as f64 / sheet);
            }
        }
        items
    }

    /// The best place for an item, as given or turned; where it lies only as it may not be preferred, so.
    fn spot(
        &self,
        ground: &impl Ground,
        item: usize,
        (rule, lie): (Rule, Lie),
    ) -> Option<(crate::rect::ground::Spot, bool)> {
        let (length, width, may_turn) = self.sizes[item];
        let plain = || ground.spot(length, width, rule).map(|spot| (spot, false));
        let turned =
            || if may_turn { ground.spot(width, length, rule).map(|spot| (spot, true)) } else { None };
        let across = length < width;
        match lie {
            Lie::Either => plain().into_iter().chain(turned()).min(),
            Lie::Along if across => turned().or_else(plain),
            Lie::Across if !across => turned().or_else(plain),
            Lie::Along | Lie::Across => plain().or_else(turned),
        }
    }

    pub(super) fn lay(
        &self,
        ground: &mut impl Ground,
        item: usize,
        (rule, lie): (Rule, Lie),
    ) -> Option<Placed> {
        let (spot, turned) = self.spot(ground, item, (rule, lie))?;
        let (length, width, _) = self.sizes[item];
        let (length, width) = if turned { (width, length) } else { (length, width) };
        ground.take(spot, length, width);
        Some(Placed { piece: self.piece[item], x: spot.x, y: spot.y, turned })
    }

    /// Whether any item may be turned to another size.
    fn may_turn(&self) -> bool {
        self.sizes.iter().any(|&(_, _, may_turn)| may_turn)
    }

    /// How the next sheets are filled.
    pub(super) fn way(&self, chance: &mut Chance) -> (Rule, Lie) {
        let rule = RULES[chance.below(RULES.len())];
        // Half of all fillings let every item lie as is best for itself.
        let lie = if self.may_turn() { LIES.get(chance.below(2 * LIES.len() - 2)).copied() } else { None };
        (rule, lie.unwrap_or(Lie::Either))
    }

    /// Orders items by a measure of size, drawn around its true value.
    #[expect(clippy::cast_precision_loss, reason = "only a measure of size")]
    pub(super) fn draw(&self, order: &mut [usize], chance: &mut Chance) {
        let measure = chance.below(4);
        let spread: f64 = [0.0, 0.1, 0.3, 1.0, 4.0][chance.below(5)];
        let mut keyed: Vec<(f64, usize)> = order
            .iter()
            .map(|&item| {
                let (length, width, _) = self.sizes[item];
                let size = match measure {
                    0 => length as f64 * width as f64,
                    1 => length as f64,
                    2 => width as f64,
                    _ => length.max(width) as f64,
                };
                (-size * spread.mul_add(chance.share(), 1.0), item)
            })
            .collect();
        keyed.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        order.iter_mut().zip(keyed).for_each(|(place, (_, item))| *place = item);
    }

    /// Share of the problem's sheet that an item takes.
    pub(super) fn area(&self, item: usize) -> f64 {
        self.area[item]
    }

    fn alone<G: Ground>(&self, item: usize, empty: &impl Fn() -> G) -> Option<Placed> {
        self.lay(&mut empty(), item, (Rule::Low, Lie::Either))
    }
}

/// A sheet with its items, in the same order as the places.
#[derive(Debug, Clone, Default)]
struct Filled {
    items: Vec<usize>,
    placed: Sheet,
    /// Share of the sheet taken.
    full: f64,
}

struct State<'a, G, E> {
    items: &'a Items,
    empty: &'a E,
    chance: Chance,
    sheets: Vec<Filled>,
    best: Vec<Sheet>,
    evaluations: u64,
    ground: std::marker::PhantomData<fn() -> G>,
}

impl<'a, G: Ground, E: Fn() -> G> State<'a, G, E> {
    fn new(items: &'a Items, empty: &'a E, seed: u64, start: u32) -> Self {
        let mut state = Self {
            items,
            empty,
            chance: Chance::new(seed, u64::from(start)),
            sheets: Vec::new(),
            best: Vec::new(),
            evaluations: 0,
            ground: std::marker::PhantomData,
        };
        let mut all: Vec<usize> = (0..items.piece.len()).collect();
        all.sort_by(|&a, &b| items.area[b].total_cmp(&items.area[a]));
        // Equal pieces that all lie one way fill sheets in rows and columns; laid one by one where each lies best they
        // may never come to it.
        let lies = if items.may_turn() { &LIES[..] } else { &LIES[..1] };
        let first = lies.iter().filter_map(|&lie| state.filled(&all, (Rule::Short, lie), usize::MAX));
        let first: Vec<Vec<Filled>> = first.collect();
        state.sheets = first.into_iter().min_by_key(Vec::len).unwrap_or_default();
        state.keep();
        state
    }

    fn keep(&mut self) {
        self.best = self.sheets.iter().map(|sheet| sheet.placed.clone()).collect();
    }

    /// Fills sheets with the items in their order, each on the first sheet that has a place; `None` when more than
    /// `most` sheets are needed.
    fn filled(&mut self, order: &[usize], how: (Rule, Lie), most: usize) -> Option<Vec<Filled>> {
        self.evaluations += 1;
        let mut sheets: Vec<(G, Filled)> = Vec::new();
        for &item in order {
            let area = self.items.area[item];
            let laid = sheets.iter_mut().any(|(ground, sheet)| {
                if 1.0 + FULL < sheet.full + area {
                    return false;
                }
                let placed = self.items.lay(ground, item, how);
                placed.inspect(|&placed| sheet.put(item, placed, area)).is_some()
            });
            if !laid {
                if sheets.len() == most {
                    return None;
                }
                let mut ground = (self.empty)();
                let mut sheet = Filled::default();
                let placed = self.items.lay(&mut ground, item, how)?;
                sheet.put(item, placed, area);
                sheets.push((ground, sheet));
            }
        }
        Some(sheets.into_iter().map(|(_, sheet)| sheet).collect())
    }

    /// So many steps; stops at `least` sheets. `spent` of a share of the effort tells how far the search has come.
    #[expect(clippy::cast_precision_loss, reason = "only a share")]
    fn walk(&mut self, steps: u64, least: usize, (spent, share): (u64, u64), watch: Watch<'_>) {
        for step in 0..steps {
            if self.best.len() <= least || (step % 256 == 0 && watch.stop.load(Ordering::Relaxed)) {
                return;
            }
            let come = (spent + step) as f64 / share.min(COOLING) as f64;
            self.step(WARM * (1.0 - come.fract()));
        }
    }

    fn step(&mut self, threshold: f64) {
        let sheets = &self.sheets;
        let full = |sheet: usize| sheets[sheet].full;
        let mut picked = taken_up(&mut self.chance, sheets.len(), full);
        let mut order: Vec<usize> =
            picked.iter().flat_map(|&sheet| self.sheets[sheet].items.iter().copied()).collect();
        self.items.draw(&mut order, &mut self.chance);
        let how = self.items.way(&mut self.chance);
        let Some(new) = self.filled(&order, how, picked.len()) else { return };
        let square = |sheet: &Filled| sheet.full * sheet.full;
        let before: f64 = picked.iter().map(|&sheet| square(&self.sheets[sheet])).sum();
        let after: f64 = new.iter().map(square).sum();
        if after + threshold * self.chance.share() < before {
            return;
        }
        picked.sort_unstable_by(|a, b| b.cmp(a));
        picked.into_iter().for_each(|sheet| drop(self.sheets.swap_remove(sheet)));
        self.sheets.extend(new);
        if self.sheets.len() < self.best.len() {
            self.keep();
        }
    }
}

/// One to [`TAKEN`] of so many sheets, by chance, the emptiest more often; `full` tells how full each is.
pub(super) fn taken_up(chance: &mut Chance, count: usize, full: impl Fn(usize) -> f64) -> Vec<usize> {
    let emptiest = || (0..count).min_by(|&a, &b| full(a).total_cmp(&full(b))).unwrap_or(0);
    let taken = (1 + chance.below(TAKEN)).min(count);
    let mut picked = Vec::with_capacity(taken);
    while picked.len() < taken {
        let sheet = if picked.is_empty() && chance.below(2) == 0 { emptiest() } else { chance.below(count) };
        if !picked.contains(&sheet) {
            picked.push(sheet);
        }
    }
    picked
}

/// Slack of the sum of shares.
pub(super) const FULL: f64 = geometry::tolerance::SAME_POINT_MM;
/// The greatest loss of squares let pass at the start.
const WARM: f64 = 0.05;
/// Fillings until the threshold starts afresh.
const COOLING: u64 = 200_000;

impl Filled {
    fn put(&mut self, item: usize, placed: Placed, area: f64) {
        self.items.push(item);
        self.placed.push(placed);
        self.full += area;
    }
}
