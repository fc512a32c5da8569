//! One size of sheet after another, where none holds everything by itself, or some are limited.

use std::cmp::Reverse;

use crate::bound::Bound;
use crate::choice::{self, NestError};
use crate::figure::Figures;
use crate::fits::misfits;
use crate::rect;
use crate::search::Effort;
use crate::shear::{Packed, Work};

/// The most orders of sizes that are tried: all of four.
const MOST_ORDERS: usize = 24;

/// With more sizes than this, as from a rack, filling by turns takes long and is left to where nothing else does.
pub(super) const FEW_SIZES: usize = 5;

/// One of so many parts of the effort is for one size in one order.
const EFFORT_SHARE: u64 = 8;

/// Sheets filled so far.
type Filled = Vec<(usize, rect::Sheet)>;

impl Work<'_> {
    /// Fills the sheets there are of one size, the fullest first, then of the next with what is left, in every order of the
    /// sizes up to a limit; the cheapest of what comes out, `None` where something is left in every order. Groups must lie
    /// whole, so nothing is tried where there are any.
    pub(super) fn by_turns(
        &self,
        figures: &Figures,
        sizes: &[usize],
        bound: &Bound,
    ) -> Result<Option<Packed>, NestError> {
        if !self.problem.together().is_empty() {
            return Ok(None);
        }
        // More sizes are more to fill in every order.
        let most = (MOST_ORDERS * FEW_SIZES / sizes.len().max(1)).clamp(2, MOST_ORDERS);
        let left: Vec<u32> = self.problem.parts().iter().map(|part| part.quantity).collect();
        let mut orders = Orders { work: self, figures, most, ended: Vec::new() };
        orders.fill(left, &Vec::new(), sizes)?;
        let whole = orders.ended.into_iter().flatten();
        let mixes = whole.map(|sheets| self.checked(sheets, bound.clone())).collect::<Result<Vec<_>, _>>()?;
        let cost = |mix: &Packed| choice::cost_of_nest(self.problem, &mix.nested.nest, &mix.nested.take);
        Ok(mixes.into_iter().min_by_key(cost))
    }
}

/// The orders of the sizes, one after another; those that begin alike are filled once as far as they do.
struct Orders<'a> {
    work: &'a Work<'a>,
    figures: &'a Figures,
    most: usize,
    /// What came out of every order at its end; `None` where something is left.
    ended: Vec<Option<Filled>>,
}

impl Orders<'_> {
    /// Goes on with each of these sizes in turn.
    fn fill(&mut self, left: Vec<u32>, filled: &Filled, sizes: &[usize]) -> Result<(), NestError> {
        if sizes.is_empty() {
            self.ended.push(left.iter().all(|&count| count == 0).then(|| filled.clone()));
        }
        for &stock in sizes {
            if self.most <= self.ended.len() {
                break;
            }
            let (mut left, mut filled) = (left.clone(), filled.clone());
            self.fill_size(stock, &mut left, &mut filled)?;
            let others: Vec<usize> = sizes.iter().copied().filter(|&other| other != stock).collect();
            self.fill(left, &filled, &others)?;
        }
        Ok(())
    }

    /// Fills the sheets there are of one size from what is left.
    fn fill_size(&self, stock: usize, left: &mut [u32], filled: &mut Filled) -> Result<(), NestError> {
        let Work { problem, effort, .. } = *self.work;
        let mut own = left.to_vec();
        misfits(problem, self.figures, &[stock]).iter().for_each(|misfit| own[misfit.part] = 0);
        if own.iter().all(|&count| count == 0) {
            return Ok(());
        }
        let few = Effort { evaluations: effort.evaluations / EFFORT_SHARE, ..*effort };
        let Some(packing) = self.work.pack_laid(stock, &own, None, &few)? else { return Ok(()) };
        let mut sheets = packing.sheets;
        sheets.sort_by_key(|sheet| Reverse(self.work.doubled_area(sheet)));
        let there = problem.stock()[stock].limit.map_or(usize::MAX, |limit| limit as usize);
        for sheet in sheets.into_iter().take(there) {
            sheet.iter().for_each(|placed| left[placed.piece] -= 1);
            filled.push((stock, sheet));
        }
        Ok(())
    }
}
