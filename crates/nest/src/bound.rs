//! How few sheets could ever do: proven lower limits.
//!
//! Each argument gives a number of sheets no nest can go below; the largest is reported with the argument that gave
//! it. The limit is on the number of sheets of any of the sizes allowed, and on their cost.

mod area;
mod inscribed;
mod money;
mod pairs;
mod room;
mod sets;
mod strip;
mod weights;
mod whole;

use std::cell::RefCell;
use std::collections::BTreeMap;

use crate::bound::area::Metal;
use crate::bound::pairs::Pairs;
use crate::bound::weights::Blocks;
use crate::bound::whole::Kinds;
use crate::problem::Problem;

pub use strip::RollReason;
pub(crate) use strip::least_length;

/// Which argument proves the limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reason {
    /// The parts, with half the gap around each, have more area than fewer sheets.
    Area,
    /// Parts too wide to lie beside one another on the sheet must lie in a row, and the row is too long.
    Row,
    /// Parts of which no two can share a sheet.
    Pairs,
    /// The largest parts, every way of sharing sheets looked at.
    Sets,
    /// Weights of the rectangles within the parts: large ones count full, small ones nothing.
    Weights,
    /// The blanks the parts are sheared from, weighed like large parts, or every arrangement of them looked at.
    Blanks,
}

/// A proven lower limit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bound {
    /// No nest has fewer sheets than this.
    pub sheets: u32,
    /// No nest costs less than this: money where every size has a price, else square steps of sheet.
    pub cost: i128,
    /// The argument for the number of sheets.
    pub reason: Reason,
    /// Where fewer than `sheets` is excluded: share of the sheets that the argument fills, in thousandths.
    pub filled_permille: u32,
    /// What the parts take up with half the gap around each, square steps, counted low.
    pub needed_area: i128,
    /// What the largest of the sheets has for that: all inside its edge trim, and half the gap around it.
    pub sheet_area: i128,
}

impl Bound {
    /// True when a nest of `sheets` sheets cannot be bettered in number.
    #[must_use]
    pub const fn proves(&self, sheets: u32) -> bool {
        sheets <= self.sheets
    }
}

/// The best limit for nesting on the sizes `stock`.
#[must_use]
pub fn bound(problem: &Problem, stock: &[usize]) -> Bound {
    Bounds::of(problem).on(stock)
}

/// The limits of a problem, with what does not hang on the choice of sheets worked out once.
pub(crate) struct Bounds<'a> {
    problem: &'a Problem,
    /// What the parts cover themselves, and grown by half the gap.
    metal: [Metal; 2],
    pairs: Pairs,
    blocks: Blocks,
    kinds: Kinds,
    /// By the sizes in order: many sets of sheets are of the same ones.
    fewest: RefCell<BTreeMap<Vec<usize>, Bound>>,
}

impl<'a> Bounds<'a> {
    /// For all choices of sheets.
    pub(crate) fn of(problem: &'a Problem) -> Self {
        let metal = [0, problem.least_apart()].map(|gap| Metal::of(problem, gap));
        let (pairs, blocks) = (Pairs::of(problem), Blocks::of(problem));
        Self { problem, metal, pairs, blocks, kinds: Kinds::default(), fewest: RefCell::default() }
    }

    /// The best limit for nesting on the sizes `stock`.
    pub(crate) fn on(&self, stock: &[usize]) -> Bound {
        let fewest = self.fewest_on(stock);
        Bound { cost: self.least_cost(stock, fewest.sheets), ..fewest }
    }

    /// The best limit on the number of sheets; on what they cost nothing is said.
    fn fewest_on(&self, stock: &[usize]) -> Bound {
        let mut sizes = stock.to_vec();
        sizes.sort_unstable();
        let known = self.fewest.borrow().get(&sizes).cloned();
        known.unwrap_or_else(|| {
            let found = self.fewest_anew(&sizes);
            self.fewest.borrow_mut().insert(sizes, found.clone());
            found
        })
    }

    fn fewest_anew(&self, stock: &[usize]) -> Bound {
        let [_, grown] = self.metal.map(|metal| metal.needed(self.problem, stock));
        let mut best = Bound {
            sheets: 1,
            cost: 0,
            reason: Reason::Area,
            filled_permille: 0,
            // Both are counted twice there.
            needed_area: grown.top / 2,
            sheet_area: grown.bottom / 2,
        };
        let mut candidates: Vec<(Needed, Reason)> =
            self.metal.map(|metal| (metal.needed(self.problem, stock), Reason::Area)).to_vec();
        candidates.extend(weights::needed(self.problem, &self.blocks, stock));
        candidates.push((self.pairs.needed(self.problem, stock), Reason::Pairs));
        for (needed, reason) in candidates {
            let sheets = needed.sheets();
            if best.sheets < sheets || (best.sheets == sheets && best.reason == reason) {
                let filled = 1000 * needed.top / (needed.bottom * i128::from(sheets)).max(1);
                let filled_permille = u32::try_from(filled).unwrap_or(1000);
                best = Bound { sheets, reason, filled_permille, ..best };
            }
        }
        while self.pairs.are_too_few(self.problem, stock, best.sheets) {
            let sheets = best.sheets + 1;
            best = Bound { sheets, reason: Reason::Sets, filled_permille: 1000, ..best };
        }
        best
    }

    /// What so many sheets at least of the sizes `stock` cost at least.
    pub(crate) fn least_cost(&self, stock: &[usize], sheets: u32) -> i128 {
        money::least_cost(self, stock, sheets)
    }
}

/// A number of sheets as a fraction, to be rounded up.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Needed {
    pub(crate) top: i128,
    pub(crate) bottom: i128,
}

impl Needed {
    pub(crate) fn sheets(self) -> u32 {
        let up = (self.top + self.bottom - 1).div_euclid(self.bottom.max(1));
        u32::try_from(up.max(1)).unwrap_or(u32::MAX)
    }
}
