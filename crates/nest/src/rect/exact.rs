//! The fewest sheets on the shear, exactly, for small sets.
//!
//! Every blank that comes off a shear in one lump of pieces is two lumps side by side or one above the other, so the
//! least outlines of all sets of pieces follow from those of their halves; then sets that fit a sheet are put
//! together. Source: the bottom-up form of Christofides, Whitlock, *Operations Research* 25 (1977), applied to sets
//! of single pieces (from memory).

mod limited;

use crate::rect::problem::{Cutting, Placed, Problem, Shear, Sheet};

/// The most single pieces looked at.
const MOST: usize = 10;

/// The least outline of a set, and how it is made.
#[derive(Debug, Clone, Copy)]
struct Lump {
    length: i64,
    width: i64,
    made: Made,
}

#[derive(Debug, Clone, Copy)]
enum Made {
    /// One piece, turned or not.
    Single(usize, bool),
    /// Two lumps: the sets and the numbers in their lists; the second beside the first, or above it.
    Joined { first: (usize, usize), second: (usize, usize), beside: bool },
}

/// A packing with the fewest sheets; `None` when there are too many pieces, or they are cut freely, or a shear with limits holds
/// them in more ways than are looked at.
pub(crate) fn fewest(problem: &Problem) -> Option<Vec<Sheet>> {
    let count: usize = problem.pieces().iter().map(|piece| piece.quantity as usize).sum();
    let Cutting::Shear(shear) = problem.cutting() else { return None };
    let has_limits = shear.stages.is_some() || shear.longest_cut.is_some();
    if (if has_limits { limited::MOST } else { MOST }) < count {
        return None;
    }
    let singles = singles(problem);
    if has_limits { with_limits(problem, shear, &singles) } else { without_limits(problem, &singles) }
}

fn without_limits(problem: &Problem, singles: &[usize]) -> Option<Vec<Sheet>> {
    let lumps = lumps(problem, singles);
    let lay = |part: usize| {
        let mut sheet = Vec::new();
        lay(&lumps, problem.gap(), (part, 0), (0, 0), &mut sheet);
        sheet
    };
    let fits: Vec<bool> = lumps.iter().map(|lumps| !lumps.is_empty()).collect();
    Some(put_together(&fits)?.into_iter().map(lay).collect())
}

fn with_limits(problem: &Problem, shear: Shear, singles: &[usize]) -> Option<Vec<Sheet>> {
    let mut cutter = limited::Cutter::new(problem, shear, singles);
    let mut laid = vec![None];
    for set in 1..1_usize << singles.len() {
        laid.push(cutter.laid(set)?);
    }
    let fits: Vec<bool> = laid.iter().map(Option::is_some).collect();
    put_together(&fits)?.into_iter().map(|part| laid[part].clone()).collect()
}

/// The fewest sets, of those that fit a sheet, that make up the last one, which holds all.
fn put_together(fits: &[bool]) -> Option<Vec<usize>> {
    let mut fewest: Vec<Option<(u32, usize)>> = vec![None; fits.len()];
    fewest[0] = Some((0, 0));
    for set in 1..fits.len() {
        let lowest = set & set.wrapping_neg();
        for part in halves(set).chain([set]) {
            if part & lowest != 0
                && fits[part]
                && let Some((sheets, _)) = fewest[set & !part]
                && fewest[set].is_none_or(|(known, _)| sheets + 1 < known)
            {
                fewest[set] = Some((sheets + 1, part));
            }
        }
    }
    let mut sets = Vec::new();
    let mut set = fits.len() - 1;
    while set != 0 {
        let (_, part) = fewest[set]?;
        sets.push(part);
        set &= !part;
    }
    Some(sets)
}

fn singles(problem: &Problem) -> Vec<usize> {
    let pieces = problem.pieces().iter().enumerate();
    pieces.flat_map(|(number, piece)| std::iter::repeat_n(number, piece.quantity as usize)).collect()
}

/// All parts of a set but none and all.
fn halves(set: usize) -> impl Iterator<Item = usize> {
    std::iter::successors(Some((set - 1) & set), move |&part| Some((part.wrapping_sub(1)) & set))
        .take_while(|&part| part != 0)
}

/// For every set of pieces the outlines that fit the sheet and hide no smaller one.
fn lumps(problem: &Problem, singles: &[usize]) -> Vec<Vec<Lump>> {
    let (length, width) = problem.sheet();
    let gap = problem.gap();
    let mut all: Vec<Vec<Lump>> = vec![Vec::new(); 1 << singles.len()];
    for set in 1..all.len() {
        let mut found = Vec::new();
        if set.is_power_of_two() {
            let piece = singles[set.trailing_zeros() as usize];
            let Some(size) = problem.pieces().get(piece) else { continue };
            found.push(Lump { length: size.length, width: size.width, made: Made::Single(piece, false) });
            if size.may_turn {
                found.push(Lump { length: size.width, width: size.length, made: Made::Single(piece, true) });
            }
        }
        let lowest = set & set.wrapping_neg();
        for one in halves(set).filter(|part| part & lowest != 0) {
            let other = set & !one;
            for (at, a) in all[one].iter().enumerate() {
                for (to, b) in all[other].iter().enumerate() {
                    let joined = |beside| Made::Joined { first: (one, at), second: (other, to), beside };
                    let beside = (a.length + gap + b.length, a.width.max(b.width));
                    let above = (a.length.max(b.length), a.width + gap + b.width);
                    found.push(Lump { length: beside.0, width: beside.1, made: joined(true) });
                    found.push(Lump { length: above.0, width: above.1, made: joined(false) });
                }
            }
        }
        found.retain(|lump| lump.length <= length && lump.width <= width);
        all[set] = least(found);
    }
    all
}

/// The outlines that no other one fits within.
fn least(mut lumps: Vec<Lump>) -> Vec<Lump> {
    lumps.sort_by_key(|lump| (lump.length, lump.width));
    let mut narrowest = i64::MAX;
    lumps.retain(|lump| {
        let kept = lump.width < narrowest;
        narrowest = narrowest.min(lump.width);
        kept
    });
    lumps
}

fn lay(lumps: &[Vec<Lump>], gap: i64, (set, number): (usize, usize), (x, y): (i64, i64), sheet: &mut Sheet) {
    match lumps[set][number].made {
        Made::Single(piece, turned) => sheet.push(Placed { piece, x, y, turned }),
        Made::Joined { first, second, beside } => {
            lay(lumps, gap, first, (x, y), sheet);
            let lump = lumps[first.0][first.1];
            let next = if beside { (x + lump.length + gap, y) } else { (x, y + lump.width + gap) };
            lay(lumps, gap, second, next, sheet);
        }
    }
}
