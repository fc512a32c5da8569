//! A percentage, and sums of money that follow from it.

use units::{Money, rounding};

/// So many thousandths of a percent to a whole.
const WHOLE: i128 = 100_000;

/// Thousandths of a percent to the hundredth that shares are rounded to.
const HUNDREDTH: i64 = 10;

/// A percentage in thousandths of a percent, as sales taxes have them: `8.875 %` is 8,875.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Percent(i64);

impl Percent {
    /// So many thousandths of a percent.
    #[must_use]
    pub const fn from_thousandths(thousandths: i64) -> Self {
        Self(thousandths)
    }

    /// Thousandths of a percent.
    #[must_use]
    pub const fn thousandths(self) -> i64 {
        self.0
    }

    /// This share of `money`, to the nearest cent; half a cent away from zero.
    #[must_use]
    pub fn of(self, money: Money) -> Money {
        cents(rounding::divide(i128::from(self.0) * i128::from(money.cents()), WHOLE))
    }

    /// What `part` is of `whole`, to the nearest hundredth of a percent; none of nothing.
    #[must_use]
    pub fn share(part: i128, whole: i128) -> Option<Self> {
        let hundredths = rounding::divide(part.checked_mul(WHOLE / i128::from(HUNDREDTH))?, whole)?;
        i64::try_from(hundredths).ok()?.checked_mul(HUNDREDTH).map(Self)
    }

    /// The profit on `cost` that makes up this share of the price, to the nearest cent; none for a whole or more.
    ///
    /// Source: identity. Price P = cost + profit and profit = g·P, so profit = cost·g / (1 − g).
    #[must_use]
    pub fn profit_as_margin(self, cost: Money) -> Option<Money> {
        let rest = WHOLE - i128::from(self.0);
        (0 < rest).then(|| cents(rounding::divide(i128::from(self.0) * i128::from(cost.cents()), rest)))
    }

    /// This markup (on cost) as a margin (of the price), to the nearest hundredth of a percent.
    ///
    /// Source: identity g = m / (1 + m).
    #[must_use]
    pub fn markup_to_margin(self) -> Option<Self> {
        Self::share(i128::from(self.0), WHOLE + i128::from(self.0))
    }

    /// This margin (of the price) as a markup (on cost), to the nearest hundredth of a percent; none for a whole or more.
    ///
    /// Source: identity m = g / (1 − g).
    #[must_use]
    pub fn margin_to_markup(self) -> Option<Self> {
        let rest = WHOLE - i128::from(self.0);
        if 0 < rest { Self::share(i128::from(self.0), rest) } else { None }
    }

    /// The nearest hundredth of a percent, as shares that are worked out have it.
    #[must_use]
    pub fn to_hundredths(self) -> Self {
        Self::share(i128::from(self.0), WHOLE).unwrap_or(self)
    }

    /// "25.00 %" or "8.875 %": two decimals, and a third where there is one.
    #[must_use]
    pub fn print(self) -> String {
        let (sign, count) = (if self.0 < 0 { "-" } else { "" }, self.0.unsigned_abs());
        let (whole, rest) = (count / 1000, count % 1000);
        if rest % 10 == 0 {
            format!("{sign}{whole}.{:02} %", rest / 10)
        } else {
            format!("{sign}{whole}.{rest:03} %")
        }
    }
}

/// Narrows a count of cents, stopping at the ends of the range as sums of money do.
pub(crate) fn cents(count: Option<i128>) -> Money {
    let count = count.unwrap_or(0);
    Money::from_cents(i64::try_from(count).unwrap_or(if count < 0 { i64::MIN } else { i64::MAX }))
}
