//! Numbers with a fixed count of decimals.

/// Prints to a ten-thousandth, without trailing zeros and without a negative zero.
pub(crate) fn number(value: f64) -> String {
    let text = format!("{value:.4}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" { "0".to_owned() } else { short.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short_and_never_minus_nothing() {
        let printed = [1.0, -0.00001, 100.25, 2.0 / 3.0, 1200.0].map(number);
        assert_eq!(printed, ["1", "0", "100.25", "0.6667", "1200"]);
    }
}
