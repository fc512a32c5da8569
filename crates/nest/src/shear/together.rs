//! Parts kept together, for the shear.
//!
//! The blanks of a group are packed on one sheet, groups share sheets where they can, the largest first; then single parts fill
//! what is left, and the others are packed by themselves.

use std::cmp::Reverse;

use geometry::grid::Turn;

use crate::choice::{NestError, NoNest};
use crate::rect;
use crate::search::Effort;
use crate::shear::Work;

/// The most groups of one lay whose lays are tried against one another; beyond it they lie as drawn.
const MOST_LAYS: usize = 3;

/// The share of the evaluations that one try at a sheet gets: one in so many.
const TRY_SHARE: u64 = 20;

/// How the blanks of parts lie that must not turn by themselves: true for a quarter turn; none for parts that may.
pub(super) type Lays = Vec<Option<bool>>;

/// A sheet and how many of each part lie on it.
type Filled = (Vec<u32>, rect::Sheet);

impl Work<'_> {
    /// Every choice of lays for the groups of one lay that some of the pieces belong to.
    pub(super) fn lays(&self, quantities: &[u32]) -> Vec<Lays> {
        let parts = self.problem.parts();
        let mut choices = vec![vec![None; parts.len()]];
        let own =
            |group: &&crate::Together| group.same_lay && group.parts.iter().any(|&part| 0 < quantities[part]);
        for (number, group) in self.problem.together().iter().filter(own).enumerate() {
            let may_turn = group.parts.iter().all(|&part| parts[part].turns.allows(Turn::QUARTER));
            let turns: &[bool] = if may_turn && number < MOST_LAYS { &[false, true] } else { &[false] };
            let laid = |lays: &Lays, turned: bool| {
                let mut lays = lays.clone();
                group.parts.iter().for_each(|&part| lays[part] = Some(turned));
                lays
            };
            choices =
                choices.iter().flat_map(|lays| turns.iter().map(|&turned| laid(lays, turned))).collect();
        }
        choices
    }

    /// Whether all groups lie whole, and in one lay where they must, on these sheets.
    pub(super) fn keeps_together(&self, sheets: &[rect::Sheet]) -> bool {
        self.problem.together().iter().all(|group| {
            let own = |placed: &&rect::Placed| group.parts.contains(&placed.piece);
            let holding = sheets.iter().filter(|sheet| sheet.iter().any(|placed| own(&placed))).count();
            let mut turns = sheets.iter().flatten().filter(own).map(|placed| placed.turned);
            let first = turns.next();
            holding <= 1 && (!group.same_lay || turns.all(|turned| Some(turned) == first))
        })
    }

    /// Sheets of one size on which all groups lie whole.
    pub(super) fn grouped(&self, stock: usize) -> Result<Result<Vec<rect::Sheet>, NoNest>, NestError> {
        let parts = self.problem.parts();
        let mut waiting: Vec<u32> = parts.iter().map(|part| part.quantity).collect();
        let mut groups: Vec<(usize, Vec<u32>)> = Vec::new();
        for (number, group) in self.problem.together().iter().enumerate() {
            let mut own = vec![0; parts.len()];
            group.parts.iter().for_each(|&part| own[part] = std::mem::take(&mut waiting[part]));
            groups.push((number, own));
        }
        groups.sort_by_key(|(_, own)| Reverse(self.blank_area(own)));
        let mut filled: Vec<Filled> = Vec::new();
        for (number, own) in groups {
            if !self.added(stock, &own, &mut filled)? {
                let Some(sheet) = self.on_one(stock, &own)? else {
                    return Ok(Err(NoNest::TooManyTogether(number)));
                };
                filled.push((own, sheet));
            }
        }
        self.fill_up(stock, &mut waiting, &mut filled)?;
        let mut sheets: Vec<rect::Sheet> = filled.into_iter().map(|(_, sheet)| sheet).collect();
        if waiting.iter().any(|&count| 0 < count) {
            match self.pack(stock, &waiting, self.effort)? {
                Some(packing) => sheets.extend(packing.sheets),
                None => return Ok(Err(NoNest::BeyondTheShear)),
            }
        }
        Ok(Ok(sheets))
    }

    /// Puts some more pieces on the first sheet that takes them all.
    fn added(&self, stock: usize, more: &[u32], filled: &mut [Filled]) -> Result<bool, NestError> {
        for (own, sheet) in filled {
            let sum: Vec<u32> = own.iter().zip(more).map(|(own, more)| own + more).collect();
            if let Some(fuller) = self.on_one(stock, &sum)? {
                (*own, *sheet) = (sum, fuller);
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// Puts single parts on the sheets of groups, the largest first, many of a part at once where they fit.
    fn fill_up(&self, stock: usize, waiting: &mut [u32], filled: &mut [Filled]) -> Result<(), NestError> {
        let mut order: Vec<usize> = (0..waiting.len()).collect();
        order.sort_by_key(|&part| (Reverse(self.problem.parts()[part].outline.doubled_area()), part));
        for sheet in filled {
            for &part in &order {
                let mut step = waiting[part];
                while 0 < step {
                    let mut more = vec![0; waiting.len()];
                    more[part] = step;
                    if step <= waiting[part] && self.added(stock, &more, std::slice::from_mut(sheet))? {
                        waiting[part] -= step;
                    } else {
                        step /= 2;
                    }
                }
            }
        }
        Ok(())
    }

    /// The pieces on one sheet; none where they were not got on it.
    pub(super) fn on_one(&self, stock: usize, quantities: &[u32]) -> Result<Option<rect::Sheet>, NestError> {
        let (length, width) = self.problem.stock()[stock].trimmed(self.problem.rules());
        if i128::from(length) * i128::from(width) < self.blank_area(quantities) {
            return Ok(None);
        }
        let effort = Effort { evaluations: self.effort.evaluations / TRY_SHARE, ..*self.effort };
        let packing = self.pack(stock, quantities, &effort)?;
        Ok(packing
            .and_then(|mut packing| (packing.sheets.len() == 1).then(|| packing.sheets.pop()).flatten()))
    }

    fn blank_area(&self, quantities: &[u32]) -> i128 {
        let area = |(part, &quantity): (&crate::Part, &u32)| {
            let (low, high) = part.outline.bounds();
            i128::from(quantity) * i128::from(high.x - low.x) * i128::from(high.y - low.y)
        };
        self.problem.parts().iter().zip(quantities).map(area).sum()
    }
}
