//! Nests for the shear: every part is cut from a rectangular blank, and blanks are parted by cuts that go right
//! through. Parts kept together lie on one sheet.
//!
//! A blank is the part's enclosing rectangle; notches and slopes are cut from it afterwards. Sizes of sheet are
//! compared as in [`crate::compare`]; the mix starts from each single size in turn and takes a cheaper
//! sheet wherever the blanks of one sheet also fit on that. Where sheets of a size are limited, or no single size holds everything, one is filled after another as well.
//! Small sets are settled exactly, and of larger ones what lies on any two sheets.

mod by_turns;
mod settled;
mod together;

use geometry::grid::{GridPoint, Turn};

use crate::bound::{Bound, Bounds, Reason};
use crate::choice::{self, Choice, Comparison, LeftOver, NestError, Nested, NoNest, Row};
use crate::drop::{Drop, worth_keeping};
use crate::figure::Figures;
use crate::fits::{explained, misfits};
use crate::problem::{Pose, Problem};
use crate::rect::{self, Cut, Cutting, Packing, Parted, Piece, Shear};
use crate::search::{Effort, Progress, Watch};
use crate::shear::together::Lays;
use crate::sheet::{Nest, Placement, Sheet};
use crate::verify::verify;

/// The comparison, and the cuts of every row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheared {
    /// The table of choices.
    pub comparison: Comparison,
    /// For every row, and every sheet of it, its cuts in order, measured from the corner of the trimmed sheet; nothing for a
    /// row that holds no nest.
    pub cuts: Vec<Vec<Vec<Cut>>>,
}

/// A nest with the packing it came from and the cuts, sheet by sheet.
struct Packed {
    nested: Nested,
    sheets: Vec<rect::Sheet>,
    cuts: Vec<Vec<Cut>>,
}

/// Nests blanks on each size alone and on a mix. Deterministic as [`crate::compare`].
///
/// # Errors
/// [`NestError`] when parts fit no sheet or not within the shear's limits, the pieces of a group were got on no sheet
/// together, the sheets run out for every choice, or a nest fails its checks.
pub fn compare(
    problem: &Problem,
    shear: Shear,
    effort: &Effort,
    watch: &Watch<'_>,
) -> Result<Sheared, NestError> {
    let figures = Figures::new(problem);
    let all: Vec<usize> = (0..problem.stock().len()).collect();
    let nowhere = misfits(problem, &figures, &all);
    if !nowhere.is_empty() {
        return Err(NestError::FitsNoSheet(explained(problem, nowhere)));
    }
    let work = Work { problem, bounds: Bounds::of(problem), shear, effort, watch };
    let mut rows = Vec::new();
    let mut packed = Vec::new();
    for &stock in &all {
        let misfits = misfits(problem, &figures, &[stock]);
        let outcome = if problem.stock()[stock].offcut().is_some() {
            Err(NoNest::NotSquare)
        } else if misfits.is_empty() {
            work.alone(stock)?
        } else {
            Err(NoNest::Misfits(misfits))
        };
        let row = outcome.as_ref().map(|packed| packed.nested.clone()).map_err(Clone::clone);
        rows.push(Row { choice: Choice::Alone(stock), outcome: row });
        packed.push(outcome.ok());
    }
    let square: Vec<usize> =
        all.iter().copied().filter(|&stock| problem.stock()[stock].offcut().is_none()).collect();
    if 1 < square.len() {
        let mut mixes = Vec::new();
        let settled = work.settled(&square);
        let bound = work.bound_settled(&square, settled.as_ref());
        if let Some((_, sheets)) = settled.and_then(|settled| settled.cheapest) {
            mixes.push(work.checked(sheets, bound.clone())?);
        }
        for base in packed.iter().flatten() {
            mixes.push(work.cheaper_sheets(base, &square, bound.clone())?);
        }
        // A few sheets of one size and others of another do better than any size by itself may begin from.
        let limited = square.iter().any(|&stock| problem.stock()[stock].limit.is_some());
        if mixes.is_empty() || (limited && square.len() <= by_turns::FEW_SIZES) {
            mixes.extend(work.by_turns(&figures, &square, &bound)?);
        }
        let cost = |mix: &Packed| choice::cost_of_nest(problem, &mix.nested.nest, &mix.nested.take);
        if let Some(mix) = mixes.into_iter().min_by_key(cost) {
            let mix = work.settled_by_twos(mix, &square)?;
            rows.push(Row { choice: Choice::Mix, outcome: Ok(mix.nested.clone()) });
            packed.push(Some(mix));
        }
    }
    let too_many = rows.iter().find_map(|row| match row.outcome {
        Err(NoNest::TooManyTogether(group)) => Some(NestError::TooManyTogether(group)),
        _ => None,
    });
    let best = choice::best_of(problem, &rows).map_err(|error| too_many.unwrap_or(error))?;
    let cuts = packed.into_iter().map(|packed| packed.map_or_else(Vec::new, |packed| packed.cuts)).collect();
    Ok(Sheared { comparison: Comparison { rows, best }, cuts })
}

struct Work<'a> {
    problem: &'a Problem,
    bounds: Bounds<'a>,
    shear: Shear,
    effort: &'a Effort,
    watch: &'a Watch<'a>,
}

impl Work<'_> {
    /// The blanks of some of the pieces on one size of sheet; `quantities` as in [`Problem::parts`].
    fn blanks(
        &self,
        stock: usize,
        quantities: &[u32],
        lays: Option<&Lays>,
    ) -> Result<rect::Problem, Vec<rect::Fault>> {
        let rules = self.problem.rules();
        let sheet = self.problem.stock()[stock].trimmed(rules);
        rect::Problem::new(self.pieces(quantities, lays), sheet, rules.gap, Cutting::Shear(self.shear))
    }

    /// The blanks of some of the pieces, those that are there at all.
    fn pieces(&self, quantities: &[u32], lays: Option<&Lays>) -> Vec<Piece> {
        let parts = self.problem.parts().iter().zip(quantities).enumerate();
        let piece = |(number, (part, &quantity)): (usize, (&crate::Part, &u32))| {
            let (low, high) = part.outline.bounds();
            let lay = lays.and_then(|lays| lays[number]);
            let size = high - low;
            let (length, width) = if lay == Some(true) { (size.y, size.x) } else { (size.x, size.y) };
            let may_turn = lay.is_none() && part.turns.allows(Turn::QUARTER);
            Piece { mark: part.mark.clone(), length, width, quantity, may_turn }
        };
        parts.map(piece).filter(|piece| 0 < piece.quantity).collect()
    }

    /// Packs some of the pieces, groups of one lay in each lay that they may have, and takes the fewest sheets; `None` when
    /// they cannot be cut within the shear's limits. Groups need not lie whole.
    fn pack(&self, stock: usize, quantities: &[u32], effort: &Effort) -> Result<Option<Packing>, NestError> {
        let mut best: Option<Packing> = None;
        for lays in self.lays(quantities) {
            let Some(packing) = self.pack_laid(stock, quantities, Some(&lays), effort)? else { continue };
            let least = packing.sheets.len() <= 1;
            if best.as_ref().is_none_or(|known| packing.sheets.len() < known.sheets.len()) {
                best = Some(packing);
            }
            if least {
                break;
            }
        }
        Ok(best)
    }

    /// Packs some of the pieces in these lays, or in any.
    fn pack_laid(
        &self,
        stock: usize,
        quantities: &[u32],
        lays: Option<&Lays>,
        effort: &Effort,
    ) -> Result<Option<Packing>, NestError> {
        let Ok(blanks) = self.blanks(stock, quantities, lays) else { return Ok(None) };
        match rect::pack(&blanks, effort, rect::Watch { stop: self.watch.stop }) {
            Ok(mut packing) => {
                // Blanks leave out parts of quantity 0: their numbers become those of the parts again.
                let numbers = present(quantities);
                for placed in packing.sheets.iter_mut().flatten() {
                    placed.piece = numbers[placed.piece];
                    placed.turned |= lays.is_some_and(|lays| lays[placed.piece] == Some(true));
                }
                Ok(Some(packing))
            }
            Err(rect::PackError::NotOnTheShear { .. }) => Ok(None),
            Err(rect::PackError::Unsound(flaws)) => Err(NestError::UnsoundBlanks(flaws)),
        }
    }

    fn alone(&self, stock: usize) -> Result<Result<Packed, NoNest>, NestError> {
        let quantities: Vec<u32> = self.problem.parts().iter().map(|part| part.quantity).collect();
        // Without regard to groups: what that proves holds with them, too.
        let Some(mut packing) = self.pack_laid(stock, &quantities, None, self.effort)? else {
            return Ok(Err(NoNest::BeyondTheShear));
        };
        let least = if packing.proved { packing.sheets.len() } else { 0 };
        let least = u32::try_from(least).unwrap_or(u32::MAX).max(packing.bound.sheets);
        if !self.keeps_together(&packing.sheets) {
            match self.grouped(stock)? {
                Ok(sheets) => packing.sheets = sheets,
                Err(no_nest) => return Ok(Err(no_nest)),
            }
        }
        let count = u32::try_from(packing.sheets.len()).unwrap_or(u32::MAX);
        if let Some(limit) = self.problem.stock()[stock].limit.filter(|&limit| limit < count) {
            return Ok(Err(NoNest::SheetsRunOut(self.left_over(&packing.sheets, limit))));
        }
        let (choice, evaluations) = (Choice::Alone(stock), packing.evaluations);
        (self.watch.progress)(&Progress { choice, sheets: packing.sheets.len(), evaluations });
        let bound = self.bound(&[stock], least);
        self.checked(packing.sheets.into_iter().map(|sheet| (stock, sheet)).collect(), bound).map(Ok)
    }

    /// The blanks on sheets beyond those that there are, the emptiest ones.
    fn left_over(&self, sheets: &[rect::Sheet], there: u32) -> Vec<LeftOver> {
        let mut sheets: Vec<&rect::Sheet> = sheets.iter().collect();
        sheets.sort_by_key(|sheet| std::cmp::Reverse(self.doubled_area(sheet)));
        let over: Vec<&rect::Placed> = sheets.into_iter().skip(there as usize).flatten().collect();
        let count = |part: usize| over.iter().map(|placed| u32::from(placed.piece == part)).sum();
        let counts = (0..self.problem.parts().len()).map(|part| LeftOver { part, count: count(part) });
        counts.filter(|over| 0 < over.count).collect()
    }

    /// Twice the net area of the parts on a sheet.
    fn doubled_area(&self, sheet: &rect::Sheet) -> i128 {
        sheet.iter().map(|placed| self.problem.parts()[placed.piece].outline.doubled_area()).sum()
    }

    /// The bound on blanks, where it is better than that on the parts themselves.
    fn bound(&self, stock: &[usize], blanks: u32) -> Bound {
        let plain = self.bounds.on(stock);
        if blanks <= plain.sheets {
            return plain;
        }
        let cost = plain.cost.max(self.bounds.least_cost(stock, blanks));
        Bound { sheets: blanks, cost, reason: Reason::Blanks, filled_permille: 1000, ..plain }
    }

    /// Takes the cheapest size that holds the blanks of each sheet.
    fn cheaper_sheets(&self, base: &Packed, all: &[usize], bound: Bound) -> Result<Packed, NestError> {
        let price = |stock: usize| self.problem.price(stock);
        let mut used = vec![0_u32; self.problem.stock().len()];
        let mut sheets = Vec::new();
        // The emptiest sheets first: they have the best chance.
        for (old, sheet) in base.nested.nest.sheets.iter().zip(&base.sheets).rev() {
            let quantities = self.quantities(sheet);
            let mut sizes: Vec<usize> =
                all.iter().copied().filter(|&size| price(size) < price(old.stock)).collect();
            sizes.sort_by_key(|&size| price(size));
            let mut taken = (old.stock, sheet.clone());
            for size in sizes {
                let left = self.problem.stock()[size].limit.is_none_or(|limit| used[size] < limit);
                if left && let Some(only) = self.on_one(size, &quantities)? {
                    taken = (size, only);
                    break;
                }
            }
            used[taken.0] += 1;
            sheets.push(taken);
        }
        sheets.reverse();
        self.checked(sheets, bound)
    }

    fn checked(&self, sheets: Vec<(usize, rect::Sheet)>, bound: Bound) -> Result<Packed, NestError> {
        let trim = self.problem.rules().edge_trim;
        let placement = |placed: &rect::Placed| {
            let outline = &self.problem.parts()[placed.piece].outline;
            let turn = if placed.turned { Turn::QUARTER } else { Turn::NONE };
            let (low, _) = outline.turned(turn).bounds();
            let shift = GridPoint::new(placed.x + trim, placed.y + trim) - low;
            Placement { part: placed.piece, pose: Pose::turned(turn), shift }
        };
        let sheet = |(stock, sheet): &(usize, rect::Sheet)| Sheet {
            stock: *stock,
            placements: sheet.iter().map(placement).collect(),
        };
        let nest = Nest { sheets: sheets.iter().map(sheet).collect() };
        verify(self.problem, &nest).map_err(NestError::Unsound)?;
        let take = nest.take(self.problem);
        let (mut cuts, mut drops) = (Vec::new(), Vec::new());
        for (number, (sheet, (_, pieces))) in nest.sheets.iter().zip(&sheets).enumerate() {
            let (of_sheet, rests) = self.cuts(number, sheet.stock, pieces)?;
            cuts.push(of_sheet);
            drops.push(rests);
        }
        let sheets = sheets.into_iter().map(|(_, sheet)| sheet).collect();
        Ok(Packed { nested: Nested { nest, take, drops, bound }, sheets, cuts })
    }

    /// The cuts of a sheet, which also proves once more that they go through, and what they leave that is worth keeping:
    /// no drop is larger than the cuts leave it.
    fn cuts(
        &self,
        number: usize,
        stock: usize,
        pieces: &rect::Sheet,
    ) -> Result<(Vec<Cut>, Vec<Drop>), NestError> {
        let unsound = |flaw| NestError::UnsoundBlanks(vec![flaw]);
        let quantities = self.quantities(pieces);
        let blanks = self.blanks(stock, &quantities, None).map_err(|_| {
            unsound(rect::Flaw::Outside { sheet: number, piece: pieces.first().map_or(0, |p| p.piece) })
        })?;
        let numbers = present(&quantities);
        let renumbered = pieces.iter().map(|placed| {
            let piece = numbers.iter().position(|&part| part == placed.piece).unwrap_or(0);
            rect::Placed { piece, ..*placed }
        });
        let renumbered: Vec<rect::Placed> = renumbered.collect();
        let least = self.problem.rules().least_drop;
        let Parted { cuts, left_over } = rect::parted_for_drops(&blanks, &renumbered, self.shear, least)
            .map_err(|fault| unsound(rect::Flaw::Cuts { sheet: number, fault }))?;
        let rules = self.problem.rules();
        let trim = GridPoint::new(rules.edge_trim, rules.edge_trim);
        let rest = |[x, y]: [(i64, i64); 2]| Drop {
            low: GridPoint::new(x.0, y.0) + trim,
            high: GridPoint::new(x.1, y.1) + trim,
        };
        Ok((cuts, worth_keeping(left_over.into_iter().map(rest).collect(), rules)))
    }

    /// How often each part lies on a sheet.
    fn quantities(&self, sheet: &rect::Sheet) -> Vec<u32> {
        let mut quantities = vec![0; self.problem.parts().len()];
        sheet.iter().for_each(|placed| quantities[placed.piece] += 1);
        quantities
    }
}

/// The parts that are there at all: the order in which blanks are numbered.
fn present(quantities: &[u32]) -> Vec<usize> {
    (0..quantities.len()).filter(|&part| 0 < quantities[part]).collect()
}
