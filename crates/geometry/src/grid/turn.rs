//! Turns in thousandths of a degree.

use crate::grid::{GridPoint, exact};
use crate::{Point, trig};

const FULL: u32 = 360_000;
const QUARTER: u32 = 90_000;

/// A counter-clockwise turn in whole thousandths of a degree, 0 to below 360°.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Turn {
    millidegrees: u32,
}

impl Turn {
    /// Thousandths of a degree in a whole turn.
    pub const FULL_MILLIDEGREES: u32 = FULL;
    /// As drawn.
    pub const NONE: Self = Self { millidegrees: 0 };
    /// A quarter turn to the left.
    pub const QUARTER: Self = Self { millidegrees: QUARTER };
    /// A half turn.
    pub const HALF: Self = Self { millidegrees: 2 * QUARTER };
    /// A quarter turn to the right.
    pub const THREE_QUARTERS: Self = Self { millidegrees: 3 * QUARTER };

    /// A turn of `millidegrees` thousandths of a degree; whole turns are taken off.
    #[must_use]
    pub const fn from_millidegrees(millidegrees: u32) -> Self {
        Self { millidegrees: millidegrees % FULL }
    }

    /// The turn in thousandths of a degree.
    #[must_use]
    pub const fn millidegrees(self) -> u32 {
        self.millidegrees
    }

    /// The number of quarter turns, when it is a whole number.
    #[must_use]
    pub const fn quarters(self) -> Option<u32> {
        if self.millidegrees.is_multiple_of(QUARTER) { Some(self.millidegrees / QUARTER) } else { None }
    }

    /// The turn in radians.
    #[must_use]
    pub fn radians(self) -> f64 {
        f64::from(self.millidegrees) * std::f64::consts::PI / f64::from(2 * QUARTER)
    }
}

pub(crate) const fn quarter_turned(p: GridPoint, quarters: u32) -> GridPoint {
    match quarters % 4 {
        0 => p,
        1 => GridPoint::new(-p.y, p.x),
        2 => GridPoint::new(-p.x, -p.y),
        _ => GridPoint::new(p.y, -p.x),
    }
}

pub(crate) fn turned(p: GridPoint, turn: Turn) -> Point {
    let (x, y) = (exact::float(p.x), exact::float(p.y));
    let (s, c) = (trig::sin(turn.radians()), trig::cos(turn.radians()));
    Point::new(x * c - y * s, x * s + y * c)
}
