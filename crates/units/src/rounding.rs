//! The only place where a quantity is rounded.
//!
//! Every rule here rounds to the nearest, and a tie away from zero: the rule of a pocket calculator, and
//! symmetrical, so that a mirrored part keeps its sizes.

/// Rounds a floating-point count to the nearest whole one.
///
/// A value that is not a number becomes [`i64::MAX`] and an oversized one the nearest end of the range: sizes that no
/// sheet holds and every check refuses. It never becomes an innocent zero.
#[must_use]
pub fn whole_count(count: f64) -> i64 {
    i64::try_from(wide_count(count)).unwrap_or(if count < 0.0 { i64::MIN } else { i64::MAX })
}

/// Rounds a floating-point count to the nearest whole one, for counts that need more than 64 bits.
///
/// Ends of the range as in [`whole_count`].
#[must_use]
pub fn wide_count(count: f64) -> i128 {
    if count.is_nan() {
        return i128::MAX;
    }
    #[expect(
        clippy::cast_possible_truncation,
        reason = "the cast stops at the ends of the range, as documented"
    )]
    let whole = count.round() as i128;
    whole
}

/// `numerator / denominator` rounded to the nearest whole number, or `None` for a zero denominator.
#[must_use]
pub fn divide(numerator: i128, denominator: i128) -> Option<i128> {
    let quotient = numerator.checked_div(denominator)?;
    let remainder = numerator.checked_rem(denominator)?;
    // Compared as `remainder >= denominator - remainder`, since doubling could overflow.
    let (rest, whole) = (remainder.unsigned_abs(), denominator.unsigned_abs());
    if rest >= whole - rest {
        let away = if (numerator < 0) == (denominator < 0) { 1 } else { -1 };
        return quotient.checked_add(away);
    }
    Some(quotient)
}

/// Narrows a count to 64 bits, stopping at the ends of the range.
#[must_use]
pub(crate) fn narrow(count: i128) -> i64 {
    i64::try_from(count).unwrap_or(if count < 0 { i64::MIN } else { i64::MAX })
}

/// A count as a floating-point number, to the nearest that there is.
#[must_use]
pub(crate) fn float(count: i128) -> f64 {
    count as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ties_go_away_from_zero() {
        assert_eq!(divide(5, 2), Some(3));
        assert_eq!(divide(-5, 2), Some(-3));
        assert_eq!(divide(5, -2), Some(-3));
        assert_eq!(divide(4, 3), Some(1));
        assert_eq!(divide(-4, 3), Some(-1));
        assert_eq!(divide(1, 0), None);
        assert_eq!(whole_count(2.5), 3);
        assert_eq!(whole_count(-2.5), -3);
    }

    #[test]
    fn nonsense_never_becomes_a_usable_size() {
        assert_eq!(whole_count(f64::NAN), i64::MAX);
        assert_eq!(whole_count(f64::INFINITY), i64::MAX);
        assert_eq!(whole_count(f64::NEG_INFINITY), i64::MIN);
        assert_eq!(whole_count(1e300), i64::MAX);
        assert_eq!(wide_count(f64::NAN), i128::MAX);
        assert_eq!(divide(i128::MIN, -1), None);
        assert_eq!(divide(i128::MAX, i128::MAX), Some(1));
    }
}
