//! Rectangles of matting, carpet or liner cut off a roll: nap kept, pattern repeats kept, least length.
//!
//! The roll runs along x, its usable width along y. Patches are laid as far back on the roll as they go, in many orders;
//! whoever cuts them needs no gap. A patch of a patterned roll starts where a repeat starts, and a panel that joins another
//! at a seam lies across the roll where the pattern goes on from its neighbour; where in the pattern a piece begins is free.

mod bound;
mod lay;
mod pattern;
mod verify;

use thiserror::Error;

pub use lay::lay;
pub use verify::{CoveringFault, verify};

/// The most patches of one roll good.
pub const PATCH_LIMIT: usize = 400;

/// The longest roll, in steps: 200 m (common practice, no source).
pub const LONGEST: i64 = 1_600_000_000;

/// What is cut from, in steps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cloth {
    /// Usable width.
    pub width: i64,
    /// Longest roll that can be had; `None` for [`LONGEST`].
    pub longest: Option<i64>,
    /// Pattern repeat along the roll.
    pub repeat: Option<i64>,
    /// Pattern repeat across the roll.
    pub repeat_across: Option<i64>,
    /// Cut off the end of every roll to make it square; patches are measured from there.
    pub squaring: i64,
}

/// A rectangle to cut.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Patch {
    /// Its mark, for messages.
    pub mark: String,
    /// Size along the nap.
    pub length: i64,
    /// Size across it.
    pub width: i64,
    /// True where a quarter turn does no harm: no nap, no pattern.
    pub may_turn: bool,
    /// Where it lies in its piece, for a panel that joins another in the pattern across the roll.
    pub pattern: Option<InPattern>,
}

/// One of several panels of a piece: they meet in the pattern, wherever that starts under the piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct InPattern {
    /// Which piece; panels of the same number meet one another.
    pub piece: usize,
    /// From the piece's left side to the panel's, in steps.
    pub begins: i64,
}

/// A patch on a roll, its corner nearest to the roll's end and left edge at (x, y).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PlacedPatch {
    /// Which, as given.
    pub patch: usize,
    /// Along the roll, from its squared end.
    pub x: i64,
    /// Across it.
    pub y: i64,
    /// True when it lies a quarter turn from the size given.
    pub turned: bool,
}

/// Patches on rolls.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Laid {
    /// What lies on each roll.
    pub rolls: Vec<Vec<PlacedPatch>>,
    /// Length used of each, what is cut off to square its end counted.
    pub used: Vec<i64>,
    /// No way of cutting uses less in all of so many rolls, or of fewer.
    pub least: i64,
}

/// Why patches cannot be cut.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum CoveringError {
    /// Nothing to cut, or more than [`PATCH_LIMIT`].
    #[error("{count} pieces are not between 1 and {PATCH_LIMIT}")]
    Count {
        /// How many.
        count: usize,
    },
    /// Width, length or repeat that is not above zero, or beyond the grid, or squaring below zero or as long as the longest roll.
    #[error("a size is not above zero, or longer than any roll")]
    Size,
    /// A patch wider than the roll as its nap runs.
    #[error("{mark} does not go on the width of the roll")]
    TooWide {
        /// Which.
        patch: usize,
        /// Its mark.
        mark: String,
    },
    /// A patch longer than the longest roll.
    #[error("{mark} is longer than the longest roll")]
    TooLong {
        /// Which.
        patch: usize,
        /// Its mark.
        mark: String,
    },
    /// Panels that go on the width of the roll, but not where they meet in the pattern, wherever that starts.
    #[error("the panels of {mark} meet in the pattern nowhere on the width of the roll")]
    OffPattern {
        /// The first panel of the piece.
        patch: usize,
        /// Its mark.
        mark: String,
    },
    /// A layout that failed its check.
    #[error("a layout failed its check: {0}")]
    Unsound(CoveringFault),
}

impl Laid {
    /// Length used of all rolls.
    #[must_use]
    pub fn length(&self) -> i64 {
        self.used.iter().sum()
    }

    /// True when nothing shorter is possible on so many rolls, or on fewer.
    #[must_use]
    pub fn is_proved(&self) -> bool {
        self.length() <= self.least
    }
}

impl Cloth {
    /// What the longest roll has behind its squared end.
    #[must_use]
    pub fn room(&self) -> i64 {
        self.longest.unwrap_or(LONGEST) - self.squaring
    }

    /// The first place along the roll, from a place on, where a pattern starts.
    #[must_use]
    pub fn next_start(&self, from: i64) -> i64 {
        self.repeat.map_or(from, |repeat| from + (-from).rem_euclid(repeat))
    }
}

impl Patch {
    /// Whether it may lie as given, and turned.
    fn turns(&self) -> impl Iterator<Item = bool> {
        [false, true].into_iter().filter(|&turned| !turned || self.may_turn)
    }

    /// Size along and across the roll as it lies.
    #[must_use]
    pub const fn size(&self, turned: bool) -> (i64, i64) {
        if turned { (self.width, self.length) } else { (self.length, self.width) }
    }
}
