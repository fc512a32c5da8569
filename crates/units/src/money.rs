//! Money: an integer count of cents of the shop's own currency.

use crate::decimal::{Decimal, characters, print_ratio};
use crate::error::{ReadError, shown};
use crate::rounding;

/// The largest sum that is read: a thousand million.
const LARGEST_CENTS: i128 = 100_000_000_000;

/// A sum of money, or a difference of two. Sums stop at the ends of the range instead of wrapping round.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Money(i64);

impl Money {
    /// Nothing.
    pub const ZERO: Self = Self(0);

    /// So many cents.
    #[must_use]
    pub const fn from_cents(cents: i64) -> Self {
        Self(cents)
    }

    /// The sum in cents.
    #[must_use]
    pub const fn cents(self) -> i64 {
        self.0
    }

    /// A number as a user gave it, like 210 or 210.5.
    ///
    /// # Errors
    /// [`ReadError::NotFinite`], [`ReadError::TooLarge`], and [`ReadError::PartOfACent`] if it is more than a
    /// millionth of a cent from a whole one.
    pub fn try_from_number(number: f64) -> Result<Self, ReadError> {
        const MILLIONTHS_PER_CENT: i128 = 1_000_000;
        if !number.is_finite() {
            return Err(ReadError::NotFinite);
        }
        let millionths = rounding::wide_count(number * 100.0 * rounding::float(MILLIONTHS_PER_CENT));
        if millionths.unsigned_abs() > (LARGEST_CENTS * MILLIONTHS_PER_CENT).unsigned_abs() {
            return Err(ReadError::TooLarge { limit: "a thousand million" });
        }
        if millionths % MILLIONTHS_PER_CENT != 0 {
            return Err(ReadError::PartOfACent);
        }
        Ok(Self(rounding::narrow(millionths / MILLIONTHS_PER_CENT)))
    }

    /// Reads `210`, `210.50`, `$210` or `1,210.50`.
    ///
    /// # Errors
    /// A [`ReadError`] that says what is wrong; parts of a cent and misplaced commas are refused.
    pub fn read(text: &str) -> Result<Self, ReadError> {
        let all = characters(text)?;
        let (negative, rest) = strip(&all, '-');
        let (_, rest) = strip(rest, '$');
        let plain = without_commas(rest)?;
        let Some((decimal, used)) = Decimal::read_start(&plain)? else {
            return Err(ReadError::NotANumber { text: shown(&rest.iter().collect::<String>()) });
        };
        if used != plain.len() {
            let text: String = plain.iter().skip(used).collect();
            return Err(ReadError::Unexpected { text: shown(text.trim()) });
        }
        if decimal.places() > 2 {
            return Err(ReadError::PartOfACent);
        }
        let cents = decimal.count(100, 1)?;
        if cents > LARGEST_CENTS {
            return Err(ReadError::TooLarge { limit: "a thousand million" });
        }
        Ok(Self(rounding::narrow(if negative { -cents } else { cents })))
    }

    /// Prints the sum with two decimals and no currency sign.
    #[must_use]
    pub fn print(self) -> String {
        print_ratio(i128::from(self.0), 100, 2)
    }
}

/// Whether the sign stands first, and what follows it and its blanks.
fn strip(text: &[char], sign: char) -> (bool, &[char]) {
    match text.split_first() {
        Some((&first, rest)) if first == sign => {
            let blanks = rest.iter().take_while(|&&c| c == ' ').count();
            (true, rest.get(blanks..).unwrap_or_default())
        }
        _ => (false, text),
    }
}

/// Takes out commas that stand every three digits before the point; any other comma is refused.
fn without_commas(text: &[char]) -> Result<Vec<char>, ReadError> {
    if !text.contains(&',') {
        return Ok(text.to_vec());
    }
    let whole_length = text.iter().position(|&c| c == '.').unwrap_or(text.len());
    let (whole, decimals) = text.split_at(whole_length);
    let mut groups = whole.split(|&c| c == ',').map(<[char]>::len);
    let first = groups.next().unwrap_or(0);
    if !(1..=3).contains(&first) || groups.any(|length| length != 3) || decimals.contains(&',') {
        return Err(ReadError::Comma);
    }
    Ok(text.iter().copied().filter(|&c| c != ',').collect())
}

counted!(Money, i64);
