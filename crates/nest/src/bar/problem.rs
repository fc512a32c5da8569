//! What is to be cut: pieces, stick lengths and the saw, all in whole grid steps.

use thiserror::Error;

/// Most pieces of all kinds together that a problem may ask for.
pub const PIECE_LIMIT: usize = 100_000;
/// Most kinds of piece, and most stick lengths.
pub const KIND_LIMIT: usize = 2_000;
/// Longest stick and widest kerf, in steps: sums of a whole job stay far inside 64 bits.
pub const LENGTH_LIMIT: i64 = 1 << 46;
/// Highest price of one stick.
pub const PRICE_LIMIT: i64 = 1 << 32;

/// A length to be cut, so many times.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece {
    /// The shop's mark, used in messages only.
    pub mark: String,
    /// Finished length, in steps.
    pub length: i64,
    /// How many are needed.
    pub quantity: usize,
}

/// A stick length that can be bought, or a piece from the rack.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stick {
    /// The name used in tables and messages.
    pub name: String,
    /// Length before the ends are trimmed, in steps.
    pub length: i64,
    /// What taking one costs, in whole units of whatever is to be least: cents, or 1 to count sticks.
    ///
    /// A rack piece costs 0 when the rack is to be used first; it must then have a limit.
    pub price: i64,
    /// How many there are; `None` for as many as needed.
    pub limit: Option<usize>,
}

/// What the saw takes, in steps.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Saw {
    /// Width lost at each cut between two pieces.
    pub kerf: i64,
    /// Length lost at each end of every stick, the squaring cut's own kerf included.
    pub end_trim: i64,
    /// Shortest drop worth keeping.
    pub least_drop: i64,
}

/// A cutting problem that has passed its checks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    pieces: Vec<Piece>,
    sticks: Vec<Stick>,
    saw: Saw,
}

/// What is wrong with a problem. All faults are reported at once.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum ProblemFault {
    /// Nothing to cut.
    #[error("there are no pieces to cut")]
    NoPieces,
    /// Nothing to cut from.
    #[error("there are no sticks to cut from")]
    NoSticks,
    /// More kinds of piece or stick than [`KIND_LIMIT`].
    #[error("{count} different lengths are more than {KIND_LIMIT}")]
    TooManyKinds {
        /// How many were given.
        count: usize,
    },
    /// A quantity of zero, or more pieces in all than [`PIECE_LIMIT`].
    #[error("{mark}: quantity {quantity} is not between 1 and {PIECE_LIMIT} pieces for the whole job")]
    Quantity {
        /// The piece.
        mark: String,
        /// Its quantity.
        quantity: usize,
    },
    /// A length that is not above zero, or beyond [`LENGTH_LIMIT`].
    #[error("{mark}: length {length} is not between 1 and {LENGTH_LIMIT} steps")]
    Length {
        /// The piece or stick.
        mark: String,
        /// Its length.
        length: i64,
    },
    /// A price below zero or beyond [`PRICE_LIMIT`].
    #[error("{mark}: price {price} is not between 0 and {PRICE_LIMIT}")]
    Price {
        /// The stick.
        mark: String,
        /// Its price.
        price: i64,
    },
    /// A stick that costs nothing and never runs out leaves nothing to decide.
    #[error("{mark}: a stick that costs nothing needs a limit")]
    FreeWithoutLimit {
        /// The stick.
        mark: String,
    },
    /// A kerf, trim or least drop below zero or beyond [`LENGTH_LIMIT`].
    #[error("{what} {value} is not between 0 and {LENGTH_LIMIT} steps")]
    Saw {
        /// Which distance.
        what: &'static str,
        /// Its value.
        value: i64,
    },
    /// A piece longer than every trimmed stick.
    #[error("{mark}: {length} steps is longer than any stick after trimming, at most {longest}")]
    TooLong {
        /// The piece.
        mark: String,
        /// Its length.
        length: i64,
        /// What the longest stick leaves.
        longest: i64,
    },
}

impl Problem {
    /// Checks a problem.
    ///
    /// # Errors
    /// Every [`ProblemFault`] found.
    pub fn new(pieces: Vec<Piece>, sticks: Vec<Stick>, saw: Saw) -> Result<Self, Vec<ProblemFault>> {
        let mut faults = Vec::new();
        if pieces.is_empty() {
            faults.push(ProblemFault::NoPieces);
        }
        if sticks.is_empty() {
            faults.push(ProblemFault::NoSticks);
        }
        let count = pieces.len().max(sticks.len());
        if KIND_LIMIT < count {
            faults.push(ProblemFault::TooManyKinds { count });
        }
        saw_faults(saw, &mut faults);
        stick_faults(&sticks, &mut faults);
        piece_faults(&pieces, &mut faults);
        let problem = Self { pieces, sticks, saw };
        if faults.is_empty() {
            faults.extend(problem.too_long());
        }
        if faults.is_empty() { Ok(problem) } else { Err(faults) }
    }

    /// The pieces, in the order given.
    #[must_use]
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// The stick lengths, in the order given.
    #[must_use]
    pub fn sticks(&self) -> &[Stick] {
        &self.sticks
    }

    /// What the saw takes.
    #[must_use]
    pub const fn saw(&self) -> Saw {
        self.saw
    }

    fn too_long(&self) -> Vec<ProblemFault> {
        let usable = |stick: &Stick| stick.length - 2 * self.saw.end_trim;
        let longest =
            self.sticks.iter().filter(|stick| stick.limit != Some(0)).map(usable).max().unwrap_or(0);
        let fault =
            |piece: &Piece| ProblemFault::TooLong { mark: piece.mark.clone(), length: piece.length, longest };
        self.pieces.iter().filter(|piece| longest < piece.length).map(fault).collect()
    }
}

fn saw_faults(saw: Saw, faults: &mut Vec<ProblemFault>) {
    for (what, value) in [("kerf", saw.kerf), ("end trim", saw.end_trim), ("least drop", saw.least_drop)] {
        if !(0..=LENGTH_LIMIT).contains(&value) {
            faults.push(ProblemFault::Saw { what, value });
        }
    }
}

fn stick_faults(sticks: &[Stick], faults: &mut Vec<ProblemFault>) {
    for stick in sticks {
        let mark = || stick.name.clone();
        if !(1..=LENGTH_LIMIT).contains(&stick.length) {
            faults.push(ProblemFault::Length { mark: mark(), length: stick.length });
        }
        if !(0..=PRICE_LIMIT).contains(&stick.price) {
            faults.push(ProblemFault::Price { mark: mark(), price: stick.price });
        }
        if stick.price == 0 && stick.limit.is_none() {
            faults.push(ProblemFault::FreeWithoutLimit { mark: mark() });
        }
    }
}

fn piece_faults(pieces: &[Piece], faults: &mut Vec<ProblemFault>) {
    let mut total = 0_usize;
    for piece in pieces {
        let mark = || piece.mark.clone();
        if !(1..=LENGTH_LIMIT).contains(&piece.length) {
            faults.push(ProblemFault::Length { mark: mark(), length: piece.length });
        }
        total = total.saturating_add(piece.quantity);
        if piece.quantity == 0 || PIECE_LIMIT < total {
            faults.push(ProblemFault::Quantity { mark: mark(), quantity: piece.quantity });
        }
    }
}
