//! What is to be nested: parts, stock and rules, all in whole grid steps.

mod flush;
mod further_sheets;
mod mirror;
mod offcut;
mod sharing;
mod together;
mod turns;

use geometry::grid::{GridOutline, GridPoint, Turn};
use thiserror::Error;

pub use mirror::{Mirror, Pose};
pub use together::Together;
pub use turns::Turns;

/// A part to be cut, so many times.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// The shop's mark, used in messages only.
    pub mark: String,
    /// Outer edge and cut-outs, as seen from the face side.
    pub outline: GridOutline,
    /// How many are needed.
    pub quantity: u32,
    /// The turns allowed on the sheet.
    pub turns: Turns,
    /// Whether it may be cut from the other face.
    pub mirror: Mirror,
}

/// The outline of a piece of stock. Lay runs along x.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum StockShape {
    /// An upright rectangle, x from 0 to `length`, y from 0 to `width`, in steps.
    Rectangle {
        /// Size along x.
        length: i64,
        /// Size along y.
        width: i64,
    },
    /// An offcut of any outline, holes and all; the rectangle around it has its lower left corner at the origin.
    /// Parts stay off its edges by the edge trim.
    Offcut(GridOutline),
    /// An offcut with zones of metal that may not be used, such as where it is torn. Parts stay off them by the edge trim.
    /// Zones may meet the offcut's edge, its holes and one another.
    Torn {
        /// Its outline, as of [`StockShape::Offcut`].
        outline: GridOutline,
        /// The zones; what holes they have is not looked at.
        zones: Vec<GridOutline>,
    },
}

/// A size of sheet that can be bought or stands in the rack.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stock {
    /// The name used in tables and messages.
    pub name: String,
    /// Its outline.
    pub shape: StockShape,
    /// Price of one, in whole units of money (cents); `None` when unknown.
    pub price: Option<u64>,
    /// How many there are; `None` for as many as needed.
    pub limit: Option<u32>,
}

/// Distances to be kept, in steps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rules {
    /// Least distance between parts; at least the kerf.
    pub gap: i64,
    /// Width taken off each edge of a sheet.
    pub edge_trim: i64,
    /// Shortest side of a drop worth keeping; smaller free rectangles are not reported.
    pub least_drop: i64,
}

/// A nesting problem that has passed its checks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    parts: Vec<Part>,
    stock: Vec<Stock>,
    rules: Rules,
    together: Vec<Together>,
    shared_kerf: Option<i64>,
    /// Width of a cut, where it is known.
    kerf: Option<i64>,
    /// Further turns of every part, once they are looked at.
    flush: Vec<Vec<Turn>>,
}

/// What is wrong with a problem. All faults are reported at once.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum ProblemFault {
    /// Nothing to cut.
    #[error("there are no parts to nest")]
    NoParts,
    /// No sheets.
    #[error("there is no stock to nest on")]
    NoStock,
    /// A quantity of zero, or more pieces in all than [`PIECE_LIMIT`].
    #[error("{mark}: quantity {quantity} is not between 1 and {limit}")]
    Quantity {
        /// Mark of the part.
        mark: String,
        /// The quantity given.
        quantity: u32,
        /// The most pieces allowed in all.
        limit: u32,
    },
    /// A list of turns without an entry.
    #[error("{mark}: no turn is allowed")]
    NoTurn {
        /// Mark of the part.
        mark: String,
    },
    /// A group that names a part which is in a group already, or does not exist.
    #[error("group {}: part {} is in a group already, or there is no such part", group + 1, part + 1)]
    Together {
        /// Which group, from 0.
        group: usize,
        /// Which part, from 0.
        part: usize,
    },
    /// A negative distance.
    #[error("gap, edge trim and least drop may not be negative")]
    NegativeRule,
    /// Nothing left of a sheet inside its edge trim.
    #[error("{name}: nothing is left inside the edge trim")]
    TrimmedAway {
        /// Name of the stock.
        name: String,
    },
    /// A gap wider than the narrow side of a sheet: no two parts could ever lie on it side by side.
    #[error("{name}: the gap is wider than the sheet")]
    GapTooWide {
        /// Name of the stock.
        name: String,
    },
    /// An offcut whose enclosing rectangle begins elsewhere.
    #[error("{name}: the rectangle around the offcut must begin at the origin")]
    NotAtOrigin {
        /// Name of the stock.
        name: String,
    },
    /// A sheet larger than the grid.
    #[error("{name}: larger than the grid allows")]
    BeyondGrid {
        /// Name of the stock.
        name: String,
    },
}

/// The most pieces one problem may hold.
pub const PIECE_LIMIT: u32 = 100_000;

impl Stock {
    /// Area of the whole sheet in square steps, rounded down: of an offcut its metal, zones that may not be used and all.
    #[must_use]
    pub fn area(&self) -> i128 {
        match &self.shape {
            StockShape::Rectangle { length, width } => i128::from(*length) * i128::from(*width),
            StockShape::Offcut(outline) | StockShape::Torn { outline, .. } => outline.doubled_area() / 2,
        }
    }

    /// Length and width inside the edge trim, in steps; of an offcut those of the rectangle around it.
    #[must_use]
    pub fn trimmed(&self, rules: &Rules) -> (i64, i64) {
        let (length, width) = self.size();
        (length - 2 * rules.edge_trim, width - 2 * rules.edge_trim)
    }
}

impl Problem {
    /// Checks and keeps a problem.
    ///
    /// # Errors
    /// Every [`ProblemFault`] found.
    pub fn new(parts: Vec<Part>, stock: Vec<Stock>, rules: Rules) -> Result<Self, Vec<ProblemFault>> {
        let mut faults = Vec::new();
        if parts.is_empty() {
            faults.push(ProblemFault::NoParts);
        }
        if stock.is_empty() {
            faults.push(ProblemFault::NoStock);
        }
        if rules.gap < 0 || rules.edge_trim < 0 || rules.least_drop < 0 {
            faults.push(ProblemFault::NegativeRule);
        }
        part_faults(&parts, &mut faults);
        faults.extend(stock.iter().filter_map(|size| stock_fault(size, &rules)));
        if faults.is_empty() {
            let (together, flush) = (Vec::new(), Vec::new());
            Ok(Self { parts, stock, rules, together, shared_kerf: None, kerf: None, flush })
        } else {
            Err(faults)
        }
    }

    /// The parts, in the order given.
    #[must_use]
    pub fn parts(&self) -> &[Part] {
        &self.parts
    }

    /// The sizes of stock, in the order given.
    #[must_use]
    pub fn stock(&self) -> &[Stock] {
        &self.stock
    }

    /// The distances to keep.
    #[must_use]
    pub const fn rules(&self) -> &Rules {
        &self.rules
    }

    /// How many pieces there are of all parts.
    pub(crate) fn piece_count(&self) -> u64 {
        self.parts.iter().map(|part| u64::from(part.quantity)).sum()
    }

    /// True when every size has a price and not all are given away, so that money decides; else area does.
    #[must_use]
    pub fn is_priced(&self) -> bool {
        let prices = || self.stock.iter().map(|size| size.price);
        prices().all(|price| price.is_some()) && prices().flatten().any(|price| 0 < price)
    }

    /// What one sheet of a size costs: money where every size has a price, else its area.
    pub(crate) fn price(&self, stock: usize) -> i128 {
        let size = &self.stock[stock];
        size.price.filter(|_| self.is_priced()).map_or_else(|| size.area(), i128::from)
    }

    /// Whether sheets of a size cost nothing, where sheets cost money: they are there already.
    #[must_use]
    pub fn is_free(&self, stock: usize) -> bool {
        self.is_priced() && self.stock[stock].price == Some(0)
    }
}

fn part_faults(parts: &[Part], faults: &mut Vec<ProblemFault>) {
    let mut pieces: u32 = 0;
    for part in parts {
        pieces = pieces.saturating_add(part.quantity);
        if part.quantity == 0 || PIECE_LIMIT < pieces {
            let (mark, quantity) = (part.mark.clone(), part.quantity);
            faults.push(ProblemFault::Quantity { mark, quantity, limit: PIECE_LIMIT });
        }
        if matches!(&part.turns, Turns::Listed(turns) if turns.is_empty()) {
            faults.push(ProblemFault::NoTurn { mark: part.mark.clone() });
        }
    }
}

fn stock_fault(size: &Stock, rules: &Rules) -> Option<ProblemFault> {
    if size.offcut().is_some_and(|outline| outline.bounds().0 != GridPoint::default()) {
        return Some(ProblemFault::NotAtOrigin { name: size.name.clone() });
    }
    let (length, width) = size.size();
    let limit = geometry::grid::GRID_LIMIT / 4;
    if limit <= length.max(width).max(rules.gap).max(rules.edge_trim) {
        return Some(ProblemFault::BeyondGrid { name: size.name.clone() });
    }
    let (length, width) = size.trimmed(rules);
    if length <= 0 || width <= 0 {
        return Some(ProblemFault::TrimmedAway { name: size.name.clone() });
    }
    (length.min(width) < rules.gap).then(|| ProblemFault::GapTooWide { name: size.name.clone() })
}
