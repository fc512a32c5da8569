//! Nests on sheets: where every piece lies.

use geometry::grid::{GridOutline, GridPoint};

use crate::problem::{Pose, Problem};

/// One piece on a sheet: the part's outline as given, posed about its origin, then moved by `shift` from the
/// sheet's own lower left corner (not the trimmed one).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Placement {
    /// Which part, counted as in [`Problem::parts`].
    pub part: usize,
    /// Turned over or not, and the turn.
    pub pose: Pose,
    /// The move, in steps.
    pub shift: GridPoint,
}

/// A sheet with the pieces to cut from it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// Which size, counted as in [`Problem::stock`].
    pub stock: usize,
    /// The pieces.
    pub placements: Vec<Placement>,
}

/// All sheets of a nest.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Nest {
    /// The sheets.
    pub sheets: Vec<Sheet>,
}

/// What a nest takes.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Take {
    /// Number of sheets of each size, as in [`Problem::stock`].
    pub sheets: Vec<u32>,
    /// Area of the sheets, square steps.
    pub area: i128,
    /// Money for the sheets; `None` when a size used has no price.
    pub money: Option<u64>,
    /// Twice the net area of the parts, square steps.
    pub doubled_parts_area: i128,
}

impl Placement {
    /// The outline where it lies on the sheet.
    #[must_use]
    pub fn outline(&self, problem: &Problem) -> GridOutline {
        self.pose.of(&problem.parts()[self.part].outline).shifted(self.shift)
    }
}

impl Nest {
    /// Adds up what the nest takes.
    #[must_use]
    pub fn take(&self, problem: &Problem) -> Take {
        let mut take = Take { sheets: vec![0; problem.stock().len()], money: Some(0), ..Take::default() };
        for sheet in &self.sheets {
            let stock = &problem.stock()[sheet.stock];
            take.sheets[sheet.stock] += 1;
            take.area += stock.area();
            take.money = take.money.zip(stock.price).map(|(sum, price)| sum.saturating_add(price));
            let parts = sheet.placements.iter().map(|placed| &problem.parts()[placed.part]);
            take.doubled_parts_area += parts.map(|part| part.outline.doubled_area()).sum::<i128>();
        }
        take
    }
}

impl Take {
    /// Number of sheets of all sizes.
    #[must_use]
    pub fn count(&self) -> u32 {
        self.sheets.iter().sum()
    }

    /// Share of the sheets' area that becomes parts, in thousandths, rounded.
    #[must_use]
    pub fn yield_permille(&self) -> u32 {
        if self.area == 0 {
            return 0;
        }
        u32::try_from((1000 * self.doubled_parts_area + self.area) / (2 * self.area)).unwrap_or(0)
    }
}
