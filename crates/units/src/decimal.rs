//! Plain decimals, read and printed exactly.

use crate::error::{ReadError, shown};
use crate::rounding;

/// More characters than this are no single quantity.
const LONGEST_TEXT: usize = 64;
/// Digits kept before and after the point together.
const MOST_DIGITS: u32 = 27;

/// A decimal without sign as it was written: `digits / 10^places`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Decimal {
    digits: i128,
    places: u32,
    has_point: bool,
}

impl Decimal {
    /// Reads a decimal at the start of `text`: its value and how many characters it took. `None` if there is none.
    pub(crate) fn read_start(text: &[char]) -> Result<Option<(Self, usize)>, ReadError> {
        let (mut digits, mut places, mut count) = (0_i128, 0_u32, 0_u32);
        let (mut has_point, mut used) = (false, 0);
        for &c in text {
            match c.to_digit(10) {
                Some(digit) if count < MOST_DIGITS => {
                    digits = digits * 10 + i128::from(digit);
                    count += 1;
                    places += u32::from(has_point);
                }
                Some(_) => return Err(ReadError::TooManyDigits),
                None if c == '.' && !has_point => has_point = true,
                None => break,
            }
            used += 1;
        }
        Ok((count > 0).then_some((Self { digits, places, has_point }, used)))
    }

    /// The number of small units that this many large ones make, one large unit being `above / below` small ones.
    pub(crate) fn count(self, above: i128, below: i128) -> Result<i128, ReadError> {
        let small = self.digits.checked_mul(above).ok_or(ReadError::TooManyDigits)?;
        let scale = ten_to(self.places).checked_mul(below).ok_or(ReadError::TooManyDigits)?;
        rounding::divide(small, scale).ok_or(ReadError::TooManyDigits)
    }

    /// Whether it was written with a point.
    pub(crate) const fn has_point(self) -> bool {
        self.has_point
    }

    /// How many digits stand after the point.
    pub(crate) const fn places(self) -> u32 {
        self.places
    }

    /// The value if it is whole.
    pub(crate) fn whole(self) -> Option<i128> {
        let scale = ten_to(self.places);
        (self.digits % scale == 0).then_some(self.digits / scale)
    }

    /// Whether the value is below one.
    pub(crate) fn is_below_one(self) -> bool {
        self.digits < ten_to(self.places)
    }
}

fn ten_to(places: u32) -> i128 {
    10_i128.saturating_pow(places)
}

/// The characters of a written quantity without outer blanks.
///
/// Typographic marks become their typewriter twins: primes, quotes, fraction slash, minus, fixed blanks, `½`.
pub(crate) fn characters(text: &str) -> Result<Vec<char>, ReadError> {
    let text = text.trim();
    if text.is_empty() {
        return Err(ReadError::Empty);
    }
    let count = text.chars().count();
    if count > LONGEST_TEXT {
        return Err(ReadError::TooLong { characters: count });
    }
    let mut plain = String::new();
    text.chars().for_each(|c| push_plain(&mut plain, c));
    Ok(plain.replace("''", "\"").chars().collect())
}

fn push_plain(plain: &mut String, c: char) {
    match c {
        '\u{2032}' | '\u{2019}' => plain.push('\''),
        '\u{2033}' | '\u{201d}' => plain.push('"'),
        '\u{2044}' => plain.push('/'),
        '\u{2212}' | '\u{2010}' | '\u{2011}' | '\u{2013}' => plain.push('-'),
        '½' => plain.push_str(" 1/2"),
        '¼' => plain.push_str(" 1/4"),
        '¾' => plain.push_str(" 3/4"),
        '⅛' => plain.push_str(" 1/8"),
        '⅜' => plain.push_str(" 3/8"),
        '⅝' => plain.push_str(" 5/8"),
        '⅞' => plain.push_str(" 7/8"),
        c if c.is_whitespace() => plain.push(' '),
        c => plain.push(c),
    }
}

/// Reads `[sign] decimal [unit]`: whether it is negative, the decimal, and the unit as written, without blanks.
pub(crate) fn read_with_unit(text: &str) -> Result<(bool, Decimal, String), ReadError> {
    let all = characters(text)?;
    let negative = all.first() == Some(&'-');
    let signed = negative || all.first() == Some(&'+');
    let rest: &[char] = all.get(usize::from(signed)..).unwrap_or_default();
    let blanks = rest.iter().take_while(|&&c| c == ' ').count();
    let rest = rest.get(blanks..).unwrap_or_default();
    let Some((decimal, used)) = Decimal::read_start(rest)? else {
        return Err(ReadError::NotANumber { text: shown(&rest.iter().collect::<String>()) });
    };
    let unit: String = rest.iter().skip(used).filter(|&&c| c != ' ').map(|&c| plain_power(c)).collect();
    if unit.starts_with(',') {
        return Err(ReadError::Comma);
    }
    Ok((negative, decimal, shown(&unit)))
}

/// `²` and `³`, which stand only in units.
const fn plain_power(c: char) -> char {
    match c {
        '²' => '2',
        '³' => '3',
        c => c,
    }
}

/// Prints `numerator / denominator` to so many places, rounded as [`rounding`] says, with a zero before the point.
///
/// A value that rounds to nothing prints without a sign. A zero denominator, which no caller has, prints `?`.
pub(crate) fn print_ratio(numerator: i128, denominator: i128, places: u8) -> String {
    let below = denominator.unsigned_abs();
    if below == 0 {
        return String::from("?");
    }
    let mut whole = numerator.unsigned_abs() / below;
    let mut rest = numerator.unsigned_abs() % below;
    let mut digits: Vec<u8> = Vec::new();
    for _ in 0..places {
        rest *= 10;
        digits.push(u8::try_from(rest / below).unwrap_or(9));
        rest %= below;
    }
    if rest >= below - rest && carry(&mut digits) {
        whole += 1;
    }
    let mut text = String::new();
    let nothing = whole == 0 && digits.iter().all(|&digit| digit == 0);
    if !nothing && (numerator < 0) != (denominator < 0) {
        text.push('-');
    }
    text.push_str(&whole.to_string());
    if places > 0 {
        text.push('.');
        text.extend(digits.iter().map(|&digit| char::from(b'0' + digit)));
    }
    text
}

/// Adds one in the last place; true if that carries into the whole number.
fn carry(digits: &mut [u8]) -> bool {
    for digit in digits.iter_mut().rev() {
        if *digit < 9 {
            *digit += 1;
            return false;
        }
        *digit = 0;
    }
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ratios_print_rounded() {
        assert_eq!(print_ratio(1, 3, 3), "0.333");
        assert_eq!(print_ratio(2, 3, 3), "0.667");
        assert_eq!(print_ratio(-2, 3, 0), "-1");
        assert_eq!(print_ratio(999_999, 1_000_000, 3), "1.000");
        assert_eq!(print_ratio(-1, 1_000_000, 3), "0.000");
        assert_eq!(print_ratio(5, 0, 3), "?");
        assert_eq!(print_ratio(1, 8, 20), "0.12500000000000000000");
    }

    #[test]
    fn a_lone_point_is_no_number() {
        assert_eq!(Decimal::read_start(&['.']), Ok(None));
        assert!(read_with_unit(".").is_err());
        assert!(read_with_unit("-").is_err());
    }
}
