//! Numbers with a fixed count of decimals.

/// Ten-thousandths up to which a double still tells halves apart.
const MOST_COUNTED: f64 = 1e12;

/// How near to the middle between two ten-thousandths the exact digits are asked; far above what one product rounds off.
const NEAR_MIDDLE: f64 = 0.499;

/// Prints to a ten-thousandth, without trailing zeros and without a negative zero.
pub(crate) fn number(value: f64) -> String {
    let text = counted(value).unwrap_or_else(|| format!("{value:.4}"));
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" { "0".to_owned() } else { short.to_owned() }
}

/// The four decimals by counting ten-thousandths: the same digits as the exact way, several times as fast. A packet has a
/// million numbers.
#[expect(clippy::cast_possible_truncation, reason = "a whole number far below the largest")]
fn counted(value: f64) -> Option<String> {
    let scaled = value * 10_000.0;
    let whole = scaled.round();
    if MOST_COUNTED < scaled.abs() || NEAR_MIDDLE < (scaled - whole).abs() || scaled.is_nan() {
        return None;
    }
    let count = whole as i64;
    let sign = if count < 0 { "-" } else { "" };
    Some(format!("{sign}{}.{:04}", count.abs() / 10_000, count.abs() % 10_000))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn counted_numbers_are_the_exact_ones(value in -20_000.0..20_000.0f64, middle in -400_000..400_000i32) {
            for value in [value, f64::from(middle) * 0.00005, f64::from(middle) * 0.0625] {
                let exact = format!("{value:.4}");
                let exact = if exact == "-0.0000" { "0.0000".to_owned() } else { exact };
                prop_assert_eq!(counted(value).unwrap_or_else(|| exact.clone()), exact);
                let printed: f64 = number(value).parse().expect("a number");
                prop_assert!((printed - value).abs() < 0.000_050_001);
            }
        }
    }

    #[test]
    fn numbers_are_short_and_never_minus_nothing() {
        let printed = [1.0, -0.00001, 100.25, 2.0 / 3.0, 1200.0].map(number);
        assert_eq!(printed, ["1", "0", "100.25", "0.6667", "1200"]);
    }
}
