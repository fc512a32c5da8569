//! A sheet being filled: where a rectangle may go next.

mod panels;
mod spaces;

pub(crate) use panels::Panels;
pub(crate) use spaces::Spaces;

/// Which of several places is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Rule {
    /// Least y, then least x.
    Low,
    /// Least x, then least y.
    Left,
    /// Least left over on the side that fits more closely.
    Short,
    /// Least left over on the side that fits less closely.
    Long,
    /// Least area left over.
    Area,
}

/// All rules, to draw from.
pub(crate) const RULES: [Rule; 5] = [Rule::Low, Rule::Left, Rule::Short, Rule::Long, Rule::Area];

/// A place for a rectangle; the least is the best.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Spot {
    /// By the rule, smaller is better.
    score: (i64, i64),
    pub(crate) x: i64,
    pub(crate) y: i64,
    /// Which free rectangle.
    area: usize,
    /// For a shear: which cut comes first.
    way: usize,
}

/// An upright rectangle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Upright {
    pub(crate) x: i64,
    pub(crate) y: i64,
    pub(crate) length: i64,
    pub(crate) width: i64,
}

/// A sheet being filled.
pub(crate) trait Ground {
    /// The best place for a rectangle of this size, if there is any.
    fn spot(&self, length: i64, width: i64, rule: Rule) -> Option<Spot>;

    /// Takes the place.
    fn take(&mut self, spot: Spot, length: i64, width: i64);
}

impl Rule {
    /// How well a size fits a free rectangle; smaller is better.
    fn score(self, free: &Upright, length: i64, width: i64) -> (i64, i64) {
        let (over_x, over_y) = (free.length - length, free.width - width);
        match self {
            Self::Low => (free.y, free.x),
            Self::Left => (free.x, free.y),
            Self::Short => (over_x.min(over_y), over_x.max(over_y)),
            Self::Long => (over_x.max(over_y), over_x.min(over_y)),
            Self::Area => (free.length * free.width - length * width, over_x.min(over_y)),
        }
    }
}
