//! A percentage, and sums of money that follow from it.

use units::{Money, rounding};

/// So many hundredths of a percent to a whole.
const WHOLE: i128 = 10_000;

/// A percentage in hundredths of a percent: `8.25 %` is 825.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Percent(i64);

impl Percent {
    /// So many hundredths of a percent.
    #[must_use]
    pub const fn from_hundredths(hundredths: i64) -> Self {
        Self(hundredths)
    }

    /// Hundredths of a percent.
    #[must_use]
    pub const fn hundredths(self) -> i64 {
        self.0
    }

    /// This share of `money`, to the nearest cent.
    #[must_use]
    pub fn of(self, money: Money) -> Money {
        cents(rounding::divide(i128::from(self.0) * i128::from(money.cents()), WHOLE))
    }

    /// What `part` is of `whole`, to the nearest hundredth of a percent; none of nothing.
    #[must_use]
    pub fn share(part: i128, whole: i128) -> Option<Self> {
        let hundredths = rounding::divide(part.checked_mul(WHOLE)?, whole)?;
        i64::try_from(hundredths).ok().map(Self)
    }

    /// The profit on `cost` that makes up this share of the price, to the nearest cent; none for a whole or more.
    ///
    /// Source: identity. Price P = cost + profit and profit = g·P, so profit = cost·g / (1 − g).
    #[must_use]
    pub fn profit_as_margin(self, cost: Money) -> Option<Money> {
        let rest = WHOLE - i128::from(self.0);
        (0 < rest).then(|| cents(rounding::divide(i128::from(self.0) * i128::from(cost.cents()), rest)))
    }

    /// This markup (on cost) as a margin (of the price).
    ///
    /// Source: identity g = m / (1 + m).
    #[must_use]
    pub fn markup_to_margin(self) -> Option<Self> {
        Self::share(i128::from(self.0), WHOLE + i128::from(self.0))
    }

    /// This margin (of the price) as a markup (on cost); none for a whole or more.
    ///
    /// Source: identity m = g / (1 − g).
    #[must_use]
    pub fn margin_to_markup(self) -> Option<Self> {
        let rest = WHOLE - i128::from(self.0);
        if 0 < rest { Self::share(i128::from(self.0), rest) } else { None }
    }

    /// "8.25 %".
    #[must_use]
    pub fn print(self) -> String {
        format!("{} %", Money::from_cents(self.0).print())
    }
}

/// Narrows a count of cents, stopping at the ends of the range as sums of money do.
pub(crate) fn cents(count: Option<i128>) -> Money {
    let count = count.unwrap_or(0);
    Money::from_cents(i64::try_from(count).unwrap_or(if count < 0 { i64::MIN } else { i64::MAX }))
}
