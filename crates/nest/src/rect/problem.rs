//! What is to be packed, and what a packing is.

use geometry::grid::GRID_LIMIT;
use thiserror::Error;

use crate::problem::PIECE_LIMIT;

/// A rectangle to be cut, so many times.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece {
    /// The shop's mark, used in messages only.
    pub mark: String,
    /// Size along x in steps.
    pub length: i64,
    /// Size along y in steps.
    pub width: i64,
    /// How many are needed.
    pub quantity: u32,
    /// True when a quarter turn is allowed; false for metal with a lay.
    pub may_turn: bool,
}

/// What a shear can do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Shear {
    /// The most rounds of cuts, each round in one direction, the trimming cuts counted; `None` for no limit.
    pub stages: Option<u32>,
    /// The longest cut the blade makes, in steps; `None` for no limit.
    pub longest_cut: Option<i64>,
    /// Width the cut takes away, at most the gap: nothing for a shear's blade, something for a saw that is run right
    /// across. Metal left of a wider gap is cut off by a second cut.
    pub kerf: i64,
}

/// How the pieces are cut apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cutting {
    /// By saw, torch or router: any arrangement.
    Free,
    /// Edge to edge: every cut goes right through the blank in hand.
    Shear(Shear),
}

/// A packing problem that has passed its checks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    pieces: Vec<Piece>,
    length: i64,
    width: i64,
    gap: i64,
    cutting: Cutting,
}

/// What is wrong with a problem. All faults are reported at once.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum Fault {
    /// Nothing to cut.
    #[error("there are no pieces to cut")]
    NoPieces,
    /// A sheet without area or beyond the grid.
    #[error("a sheet of {length} x {width} steps is not between 1 and {limit} steps")]
    Sheet {
        /// Size along x.
        length: i64,
        /// Size along y.
        width: i64,
        /// The largest size.
        limit: i64,
    },
    /// A gap below zero or as large as the sheet.
    #[error("a gap of {gap} steps is not between 0 and the sheet's shorter side")]
    Gap {
        /// The gap given.
        gap: i64,
    },
    /// A blade without length, no stage at all, or a kerf that the gap does not hold.
    #[error("a shear needs at least one stage, a blade longer than 0 and a kerf from 0 to the gap")]
    Shear,
    /// A piece without area.
    #[error("{mark}: {length} x {width} steps is no rectangle")]
    Size {
        /// Mark of the piece.
        mark: String,
        /// Size along x.
        length: i64,
        /// Size along y.
        width: i64,
    },
    /// A piece larger than the sheet at every turn allowed.
    #[error("{mark}: {length} x {width} steps fits no sheet")]
    TooLarge {
        /// Mark of the piece.
        mark: String,
        /// Size along x.
        length: i64,
        /// Size along y.
        width: i64,
    },
    /// A quantity of zero, or more pieces in all than the limit.
    #[error("{mark}: quantity {quantity} is not between 1 and {limit} pieces in all")]
    Quantity {
        /// Mark of the piece.
        mark: String,
        /// The quantity given.
        quantity: u32,
        /// The most pieces in all.
        limit: u32,
    },
}

/// One piece on a sheet, its lower left corner at (x, y).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Placed {
    /// Which piece, counted as in [`Problem::pieces`].
    pub piece: usize,
    /// Left edge.
    pub x: i64,
    /// Lower edge.
    pub y: i64,
    /// True when it lies a quarter turn from the size given.
    pub turned: bool,
}

/// The pieces of one sheet.
pub type Sheet = Vec<Placed>;

impl Problem {
    /// Checks and keeps a problem. The sheet is what is left inside its edge trim; pieces keep `gap` steps apart
    /// along x or along y (the kerf).
    ///
    /// # Errors
    /// Every [`Fault`] found.
    pub fn new(
        pieces: Vec<Piece>,
        (length, width): (i64, i64),
        gap: i64,
        cutting: Cutting,
    ) -> Result<Self, Vec<Fault>> {
        let limit = GRID_LIMIT / 4;
        let mut faults = Vec::new();
        if pieces.is_empty() {
            faults.push(Fault::NoPieces);
        }
        if length.min(width) < 1 || limit < length.max(width) {
            faults.push(Fault::Sheet { length, width, limit });
        }
        if gap < 0 || length.min(width) < gap {
            faults.push(Fault::Gap { gap });
        }
        if let Cutting::Shear(shear) = cutting
            && (shear.stages == Some(0)
                || shear.longest_cut.is_some_and(|longest| longest <= 0)
                || shear.kerf < 0
                || gap < shear.kerf)
        {
            faults.push(Fault::Shear);
        }
        let problem = Self { pieces, length, width, gap, cutting };
        problem.piece_faults(&mut faults);
        if faults.is_empty() { Ok(problem) } else { Err(faults) }
    }

    fn piece_faults(&self, faults: &mut Vec<Fault>) {
        let mut pieces: u32 = 0;
        for piece in &self.pieces {
            let (mark, length, width) = (piece.mark.clone(), piece.length, piece.width);
            let fits = |l: i64, w: i64| l <= self.length && w <= self.width;
            pieces = pieces.saturating_add(piece.quantity);
            if length.min(width) < 1 {
                faults.push(Fault::Size { mark, length, width });
            } else if !(fits(length, width) || piece.may_turn && fits(width, length)) {
                faults.push(Fault::TooLarge { mark, length, width });
            } else if piece.quantity == 0 || PIECE_LIMIT < pieces {
                faults.push(Fault::Quantity { mark, quantity: piece.quantity, limit: PIECE_LIMIT });
            }
        }
    }

    /// The pieces, in the order given.
    #[must_use]
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// Length and width of the sheet inside its trim.
    #[must_use]
    pub const fn sheet(&self) -> (i64, i64) {
        (self.length, self.width)
    }

    /// Distance between pieces.
    #[must_use]
    pub const fn gap(&self) -> i64 {
        self.gap
    }

    /// How the pieces are cut apart.
    #[must_use]
    pub const fn cutting(&self) -> Cutting {
        self.cutting
    }

    /// Length and width of a placed piece as it lies.
    #[must_use]
    pub fn size(&self, placed: Placed) -> (i64, i64) {
        let piece = &self.pieces[placed.piece];
        if placed.turned { (piece.width, piece.length) } else { (piece.length, piece.width) }
    }
}
