//! The length below which nothing can be cut from so many rolls.
//!
//! A patch begins where a pattern repeat begins, so every patch that reaches into a repeat covers the line where that repeat
//! begins, and the patches of one repeat lie beside one another: each may be counted with all of the last repeat that it reaches
//! into, and none of them overlap. Widths are weighed by functions f that keep every set of widths that fits across the roll within
//! weight 1 (dual feasible functions; Fekete and Schepers, *New classes of fast lower bounds for bin packing problems*, 2001, from
//! memory): whole lengths times f(width) then add up to the repeats of all rolls at most. Of the last repeat of a roll only what its
//! longest patch there uses is used, and that is another patch on every roll. What squaring takes comes on top, once a roll, and
//! rolls that would not be long enough in all are too few.

use super::{Cloth, Patch};

/// The most steps that widths are counted in.
const FINEST: i64 = 24;

/// The least length that patches use of so many rolls, or of fewer.
pub(super) fn least(cloth: &Cloth, patches: &[Patch], rolls: usize) -> i64 {
    let repeat = cloth.repeat.unwrap_or(1);
    let ways: Vec<Vec<(i64, i64)>> = patches.iter().map(|patch| ways(cloth, patch)).collect();
    let longest =
        ways.iter().filter_map(|ways| ways.iter().map(|(length, _)| *length).min()).max().unwrap_or(0);
    let repeats = |length: i64| i128::from(length.div_euclid(repeat) + i64::from(length % repeat != 0));
    let counted = weights(cloth.width, patches).into_iter().map(|weight| {
        let of_ways = |ways: &Vec<(i64, i64)>| {
            ways.iter().map(|&(length, width)| repeats(length) * weight.of(width, cloth.width)).min()
        };
        let sum: i128 = ways.iter().filter_map(of_ways).sum();
        let full = weight.full(cloth.width);
        (sum + full - 1).div_euclid(full)
    });
    let counted = i64::try_from(counted.max().unwrap_or(0)).unwrap_or(i64::MAX);
    let unused = |ways: &Vec<(i64, i64)>| ways.iter().map(|(length, _)| (-length).rem_euclid(repeat)).max();
    let mut saved: Vec<i64> = ways.iter().filter_map(unused).collect();
    saved.sort_unstable_by_key(|&saved| std::cmp::Reverse(saved));
    let of = |rolls: usize| {
        let repeats = counted.max(i64::try_from(rolls).unwrap_or(i64::MAX));
        let all = i64::try_from(rolls).unwrap_or(i64::MAX);
        let length = repeats.saturating_mul(repeat) - saved.iter().take(rolls).sum::<i64>();
        // So few rolls may not be long enough in all.
        (length <= cloth.room().saturating_mul(all)).then(|| length + cloth.squaring.saturating_mul(all))
    };
    let rolls = rolls.clamp(1, patches.len().max(1));
    (1..=rolls).filter_map(of).min().unwrap_or(0).max(longest + cloth.squaring)
}

/// Lengths and widths as a patch may lie.
fn ways(cloth: &Cloth, patch: &Patch) -> Vec<(i64, i64)> {
    patch.turns().map(|turned| patch.size(turned)).filter(|&(_, width)| width <= cloth.width).collect()
}

/// A function of widths.
#[derive(Debug, Clone, Copy)]
enum Weight {
    /// A width that leaves less than half of this counts full, one of less than half of it not at all, others their share.
    Doubled(i64),
    /// Widths are counted in so many steps, rounded down, unless one more step goes into the width without a rest.
    Steps(i64),
}

impl Weight {
    /// What a width weighs.
    fn of(self, width: i64, roll: i64) -> i128 {
        match self {
            Self::Doubled(limit) if 2 * roll - limit < 2 * width => i128::from(roll),
            Self::Doubled(limit) if 2 * width < limit => 0,
            Self::Doubled(_) => i128::from(width),
            Self::Steps(steps) => {
                let [steps, width, roll] = [steps, width, roll].map(i128::from);
                let scaled = (steps + 1) * width;
                if scaled % roll == 0 { width * steps } else { scaled.div_euclid(roll) * roll }
            }
        }
    }

    /// What the width of the roll weighs.
    fn full(self, roll: i64) -> i128 {
        match self {
            Self::Doubled(_) => i128::from(roll),
            Self::Steps(steps) => i128::from(steps) * i128::from(roll),
        }
    }
}

fn weights(roll: i64, patches: &[Patch]) -> Vec<Weight> {
    let widths = patches.iter().flat_map(|patch| patch.turns().map(|turned| patch.size(turned).1));
    let mut limits: Vec<i64> = widths.map(|width| 2 * width).filter(|&limit| limit <= roll).collect();
    limits.extend([0, roll]);
    limits.sort_unstable();
    limits.dedup();
    limits.into_iter().map(Weight::Doubled).chain((1..=FINEST).map(Weight::Steps)).collect()
}
