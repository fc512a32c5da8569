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
        let mut mixes = Vec::new();
        // More sizes are more to fill in every order.
        let most = (MOST_ORDERS * FEW_SIZES / sizes.len().max(1)).clamp(2, MOST_ORDERS);
        for order in orders(sizes).into_iter().take(most) {
            if let Some(sheets) = self.filled_by_turns(figures, &order)? {
                mixes.push(self.checked(sheets, bound.clone())?);
            }
        }
        let cost = |mix: &Packed| choice::cost_of_nest(self.problem, &mix.nested.nest, &mix.nested.take);
        Ok(mixes.into_iter().min_by_key(cost))
    }

    fn filled_by_turns(
        &self,
        figures: &Figures,
        order: &[usize],
    ) -> Result<Option<Vec<(usize, rect::Sheet)>>, NestError> {
        let mut left: Vec<u32> = self.problem.parts().iter().map(|part| part.quantity).collect();
        let mut filled = Vec::new();
        for &stock in order {
            let mut own = left.clone();
            misfits(self.problem, figures, &[stock]).iter().for_each(|misfit| own[misfit.part] = 0);
            if own.iter().all(|&count| count == 0) {
                continue;
            }
            let few = Effort { evaluations: self.effort.evaluations / EFFORT_SHARE, ..*self.effort };
            let Some(packing) = self.pack_laid(stock, &own, None, &few)? else { continue };
            let mut sheets = packing.sheets;
            sheets.sort_by_key(|sheet| Reverse(self.doubled_area(sheet)));
            let there = self.problem.stock()[stock].limit.map_or(usize::MAX, |limit| limit as usize);
            for sheet in sheets.into_iter().take(there) {
                sheet.iter().for_each(|placed| left[placed.piece] -= 1);
                filled.push((stock, sheet));
            }
        }
        Ok(left.iter().all(|&count| count == 0).then_some(filled))
    }
}

/// Orders of the sizes, the one given first.
fn orders(sizes: &[usize]) -> Vec<Vec<usize>> {
    let mut orders: Vec<Vec<usize>> = vec![Vec::new()];
    for _ in sizes {
        let longer = orders.iter().flat_map(|order| {
            let others = sizes.iter().filter(|size| !order.contains(size));
            others.map(|&size| [&order[..], &[size]].concat())
        });
        orders = longer.take(MOST_ORDERS).collect();
    }
    orders
}
