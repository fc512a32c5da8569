//! Judging patches on rolls, apart from the search.

use std::collections::BTreeMap;

use thiserror::Error;

use super::{Cloth, LONGEST, Laid, Patch};

/// What is wrong with a layout; patches count from 0.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum CoveringFault {
    /// A patch that is missing, there twice, or not known.
    #[error("patch {0} is not there exactly once")]
    Count(usize),
    /// A patch beyond the roll.
    #[error("patch {0} reaches beyond the roll")]
    Outside(usize),
    /// A patch turned against its nap.
    #[error("patch {0} is turned against its nap")]
    Nap(usize),
    /// A patch off its place in the pattern, or off the panel before it.
    #[error("patch {0} is off its place in the pattern")]
    Pattern(usize),
    /// Two patches on one another.
    #[error("patches {0} and {1} lie on one another")]
    Overlap(usize, usize),
}

/// Judges a layout.
///
/// # Errors
/// The first [`CoveringFault`] found.
pub fn verify(cloth: &Cloth, patches: &[Patch], laid: &Laid) -> Result<(), CoveringFault> {
    let mut found = vec![0; patches.len()];
    for placed in laid.rolls.iter().flatten() {
        *found.get_mut(placed.patch).ok_or(CoveringFault::Count(placed.patch))? += 1;
    }
    if let Some(patch) = found.iter().position(|&count| count != 1) {
        return Err(CoveringFault::Count(patch));
    }
    let longest = cloth.longest.unwrap_or(LONGEST);
    let mut starts: BTreeMap<usize, i64> = BTreeMap::new();
    for (roll, used) in laid.rolls.iter().zip(&laid.used) {
        for (number, placed) in roll.iter().enumerate() {
            let patch = &patches[placed.patch];
            let (length, width) = patch.size(placed.turned);
            let [right, top] = [placed.x + length, placed.y + width];
            let reach = cloth.squaring + right;
            if placed.x < 0 || placed.y < 0 || longest.min(*used) < reach || cloth.width < top {
                return Err(CoveringFault::Outside(placed.patch));
            }
            if placed.turned && !patch.may_turn {
                return Err(CoveringFault::Nap(placed.patch));
            }
            let off_along = cloth.repeat.is_some_and(|repeat| placed.x % repeat != 0);
            let off_across = cloth.repeat_across.zip(patch.pattern).is_some_and(|(repeat, pattern)| {
                let start = (placed.y - pattern.begins).rem_euclid(repeat);
                *starts.entry(pattern.piece).or_insert(start) != start
            });
            if off_along || off_across {
                return Err(CoveringFault::Pattern(placed.patch));
            }
            for other in &roll[..number] {
                let (other_length, other_width) = patches[other.patch].size(other.turned);
                let apart = right <= other.x
                    || other.x + other_length <= placed.x
                    || top <= other.y
                    || other.y + other_width <= placed.y;
                if !apart {
                    return Err(CoveringFault::Overlap(other.patch, placed.patch));
                }
            }
        }
    }
    Ok(())
}
