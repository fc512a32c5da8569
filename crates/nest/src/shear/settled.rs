//! The cheapest sheets for small sets of blanks, exactly; and for what lies on one or two sheets of a larger set.

use std::cmp::Reverse;

use crate::bound::{Bound, Reason};
use crate::choice::NestError;
use crate::rect::{self, Cutting, Settled, Size, Steps};
use crate::shear::{Packed, Work, present};

/// What all blanks may take.
const ALL: Steps = Steps(20_000_000);

/// What the blanks of two sheets may take.
const TWO: Steps = Steps(300_000);

/// How often the blanks of one or two sheets are laid anew.
const MOST_TRIES: usize = 60;

impl Work<'_> {
    /// The cheapest sheets of these sizes; none where there are too many blanks to be settled, or groups, which must lie whole.
    pub(super) fn settled(&self, stock: &[usize]) -> Option<Settled> {
        let all: Vec<u32> = self.problem.parts().iter().map(|part| part.quantity).collect();
        let limits: Vec<u32> = stock.iter().map(|&size| self.there(size)).collect();
        self.settled_on((stock, &limits), &all, ALL)
    }

    /// How many sheets of a size there are.
    fn there(&self, size: usize) -> u32 {
        self.problem.stock()[size].limit.unwrap_or(u32::MAX)
    }

    /// The bound of a mix, raised by what is settled.
    pub(super) fn bound_settled(&self, stock: &[usize], settled: Option<&Settled>) -> Bound {
        let bound = self.bound(stock, 0);
        let Some(settled) = settled else { return bound };
        let (cost, sheets) = (settled.least.max(bound.cost), settled.fewest);
        if sheets <= bound.sheets {
            return Bound { cost, ..bound };
        }
        Bound { sheets, cost, reason: Reason::Blanks, filled_permille: 1000, ..bound }
    }

    /// The cheapest sheets for some of the blanks, so many of each size at most. What the order of cuts does not part as it
    /// was laid is no answer.
    fn settled_on(
        &self,
        (stock, limits): (&[usize], &[u32]),
        quantities: &[u32],
        steps: Steps,
    ) -> Option<Settled> {
        if !self.problem.together().is_empty() {
            return None;
        }
        let rules = self.problem.rules();
        let size = |(&size, &limit): (&usize, &u32)| {
            let (length, width) = self.problem.stock()[size].trimmed(rules);
            Size { length, width, cost: self.problem.price(size), limit }
        };
        let sizes: Vec<Size> = stock.iter().zip(limits).map(size).collect();
        let around = (sizes.iter().map(|s| s.length).max()?, sizes.iter().map(|s| s.width).max()?);
        let cutting = Cutting::Shear(self.shear);
        let blanks = rect::Problem::new(self.pieces(quantities, None), around, rules.gap, cutting).ok()?;
        let mut settled = rect::settled(&blanks, &sizes, steps)?;
        let numbers = present(quantities);
        if let Some((_, sheets)) = &mut settled.cheapest {
            for (number, (size, sheet)) in sheets.iter_mut().enumerate() {
                *size = stock[*size];
                sheet.iter_mut().for_each(|placed| placed.piece = numbers[placed.piece]);
                self.cuts(number, *size, sheet).ok()?;
            }
            sheets.sort_by_key(|(size, sheet)| (*size, Reverse(self.doubled_area(sheet))));
        }
        Some(settled)
    }

    /// A mix with the blanks of any sheet or any two laid anew on the cheapest sheets for them, until none gets cheaper.
    pub(super) fn settled_by_twos(&self, mix: Packed, stock: &[usize]) -> Result<Packed, NestError> {
        let bound = mix.nested.bound.clone();
        let sizes = mix.nested.nest.sheets.iter().map(|sheet| sheet.stock);
        let mut sheets: Vec<(usize, rect::Sheet)> = sizes.zip(mix.sheets.iter().cloned()).collect();
        let (mut tries, mut is_better) = (0, false);
        while let Some(better) = self.cheaper_by_two(&sheets, stock, &mut tries) {
            (sheets, is_better) = (better, true);
        }
        if is_better { self.checked(sheets, bound) } else { Ok(mix) }
    }

    /// The sheets with one or two of them exchanged for cheaper ones, the emptiest first.
    fn cheaper_by_two(
        &self,
        sheets: &[(usize, rect::Sheet)],
        stock: &[usize],
        tries: &mut usize,
    ) -> Option<Vec<(usize, rect::Sheet)>> {
        let mut order: Vec<usize> = (0..sheets.len()).collect();
        order.sort_by_key(|&at| self.doubled_area(&sheets[at].1));
        let twos = (0..order.len()).flat_map(|one| (0..=one).map(move |other| (other, one)));
        for (one, other) in twos {
            if MOST_TRIES <= *tries {
                return None;
            }
            *tries += 1;
            let mut taken = vec![order[one], order[other]];
            taken.dedup();
            let (mut kept, mut quantities, mut cost) = (Vec::new(), vec![0; self.problem.parts().len()], 0);
            for (at, (size, sheet)) in sheets.iter().enumerate() {
                if taken.contains(&at) {
                    cost += self.problem.price(*size);
                    sheet.iter().for_each(|placed| quantities[placed.piece] += 1);
                } else {
                    kept.push((*size, sheet.clone()));
                }
            }
            let left = |&size: &usize| {
                let used = kept.iter().filter(|(own, _)| *own == size).count();
                self.there(size).saturating_sub(u32::try_from(used).unwrap_or(u32::MAX))
            };
            let limits: Vec<u32> = stock.iter().map(left).collect();
            let settled = self.settled_on((stock, &limits), &quantities, TWO);
            if let Some((cheaper, found)) = settled.and_then(|settled| settled.cheapest)
                && cheaper < cost
            {
                kept.extend(found);
                return Some(kept);
            }
        }
        None
    }
}
