//! Parts that are kept together on one sheet.

use crate::problem::{Problem, ProblemFault};

/// Parts of which all pieces come from one sheet, so that they match: two lids side by side, a panel and its mate.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Together {
    /// Which parts, counted as in [`Problem::parts`].
    pub parts: Vec<usize>,
    /// True when the lay runs the same way on all of them: their turns differ by nothing or half a turn.
    pub same_lay: bool,
}

impl Problem {
    /// The problem with parts kept together.
    ///
    /// # Errors
    /// [`ProblemFault::Together`] for a group that names a part twice, one that another group has, or one that does
    /// not exist.
    pub fn keeping(mut self, groups: Vec<Together>) -> Result<Self, Vec<ProblemFault>> {
        let mut taken = vec![false; self.parts.len()];
        let mut faults = Vec::new();
        for (group, together) in groups.iter().enumerate() {
            for &part in &together.parts {
                match taken.get_mut(part) {
                    Some(taken) if !*taken => *taken = true,
                    _ => faults.push(ProblemFault::Together { group, part }),
                }
            }
        }
        self.together = groups;
        if faults.is_empty() { Ok(self) } else { Err(faults) }
    }

    /// The parts kept together.
    #[must_use]
    pub fn together(&self) -> &[Together] {
        &self.together
    }

    /// The group that a part belongs to.
    pub(crate) fn group_of(&self, part: usize) -> Option<usize> {
        self.together.iter().position(|group| group.parts.contains(&part))
    }
}
