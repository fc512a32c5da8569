//! Parts that may be cut from either face of the sheet.

use geometry::grid::{GridOutline, Turn};

use crate::problem::{Part, Problem};

/// Whether a part may lie turned over on the sheet, mirrored as it is seen there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Mirror {
    /// Never: its faces differ, or it is bent.
    #[default]
    Never,
    /// Either face may be up: cut out and turned over, it is the part.
    Allowed,
}

/// How a part lies, apart from where: turned over about its x axis or not, then turned counter-clockwise.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Pose {
    /// True when it lies on its face. Turned over about x, a lay along x still runs along x.
    pub over: bool,
    /// The turn after that.
    pub turn: Turn,
}

impl Pose {
    /// Face up and turned.
    #[must_use]
    pub const fn turned(turn: Turn) -> Self {
        Self { over: false, turn }
    }

    /// The outline as it lies.
    #[must_use]
    pub fn of(self, outline: &GridOutline) -> GridOutline {
        if self.over { outline.turned_over().turned(self.turn) } else { outline.turned(self.turn) }
    }
}

impl Problem {
    /// The poses to try for a part: its own, then those that lay it flush with others, where they are looked at.
    pub(crate) fn poses(&self, part: usize) -> Vec<Pose> {
        let mut poses = self.parts[part].poses();
        let flush = self.flush.get(part).into_iter().flatten();
        poses.extend(flush.map(|&turn| Pose::turned(turn)));
        poses
    }
}

impl Part {
    /// The poses to try: face up at every turn, then, where it may be mirrored, turned over at every turn.
    pub(crate) fn poses(&self) -> Vec<Pose> {
        let at_turns = |over: bool, outline: &GridOutline| -> Vec<Pose> {
            self.turns.listed(outline).into_iter().map(|turn| Pose { over, turn }).collect()
        };
        let mut poses = at_turns(false, &self.outline);
        if self.mirror == Mirror::Allowed {
            poses.extend(at_turns(true, &self.outline.turned_over()));
        }
        poses
    }
}
