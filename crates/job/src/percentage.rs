//! Percentages as they are written: to a thousandth of a percent, as sales taxes are.

use units::rounding;

/// The largest count that is read; what makes sense is judged where it is used.
const LARGEST: f64 = 1e12;

/// Decimals of a percentage.
const PLACES: usize = 3;

/// Thousandths of a percent of a text: `25`, `8.25`, `8.875 %`. None for anything else, more decimals too.
pub(crate) fn of_text(text: &str) -> Option<i64> {
    let text = text.trim();
    let text = text.strip_suffix('%').unwrap_or(text).trim_end();
    let (sign, digits) = match text.strip_prefix(['-', '\u{2212}']) {
        Some(digits) => (-1, digits),
        None => (1, text),
    };
    let (whole, decimals) = digits.split_once('.').unwrap_or((digits, ""));
    let are_digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    if whole.len() + decimals.len() == 0
        || PLACES < decimals.len()
        || !are_digits(whole)
        || !are_digits(decimals)
    {
        return None;
    }
    format!("{whole}{decimals:0<PLACES$}").parse::<i64>().ok().map(|count| sign * count)
}

/// Thousandths of a percent of a number; none where it is more than a millionth of one from a whole one.
pub(crate) fn of_number(number: f64) -> Option<i64> {
    const MILLIONTHS: i64 = 1_000_000;
    let thousandths = number * 1000.0;
    if !thousandths.is_finite() || LARGEST < thousandths.abs() {
        return None;
    }
    let millionths = rounding::whole_count(thousandths * 1e6);
    (millionths % MILLIONTHS == 0).then_some(millionths / MILLIONTHS)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_percentage_is_read_to_its_thousandth_and_no_further() {
        let texts = [
            ("25", 25_000),
            ("8.25", 8_250),
            ("8.875 %", 8_875),
            (" 8.875% ", 8_875),
            (".5", 500),
            ("-5", -5_000),
        ];
        for (text, count) in texts {
            assert_eq!(of_text(text), Some(count), "{text}");
        }
        for text in ["", "%", ".", "8.8755", "8,25", "$8", "1e3", "8 1/4", "+-3", "99999999999999999999"] {
            assert_eq!(of_text(text), None, "{text}");
        }
        for (number, count) in [(25.0, 25_000), (8.875, 8_875), (8.1, 8_100), (0.001, 1), (-5.0, -5_000)] {
            assert_eq!(of_number(number), Some(count), "{number}");
        }
        for number in [8.8755, 0.0001, f64::NAN, f64::INFINITY, 1e300] {
            assert_eq!(of_number(number), None, "{number}");
        }
    }
}
