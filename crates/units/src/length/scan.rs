//! Splitting a written length into numbers, fractions, marks and signs.

use crate::decimal::{Decimal, characters};
use crate::error::{ReadError, shown};

/// The smallest fraction on a tape.
const SMALLEST_FRACTION: i64 = 64;
const KNOWN_UNITS: &str = "in, ft, mm, cm, m";

/// One piece of a written length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Piece {
    /// A whole number or decimal.
    Number(Decimal),
    /// A fraction below one, its denominator a power of two up to 64.
    Fraction { numerator: i64, denominator: i64 },
    /// A unit.
    Mark(Mark),
    /// `+`
    Plus,
    /// `-`, a minus or a joining dash.
    Dash,
}

/// A unit as it may be written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Mark {
    Inch,
    Foot,
    Millimetre,
    Centimetre,
    Metre,
}

/// A piece and whether a blank stands before it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spaced {
    pub(super) piece: Piece,
    pub(super) blank_before: bool,
}

/// Splits the text.
pub(super) fn scan(text: &str) -> Result<Vec<Spaced>, ReadError> {
    let all = characters(text)?;
    let mut pieces = Vec::new();
    let mut rest: &[char] = &all;
    let mut blank_before = false;
    while let Some(&first) = rest.first() {
        if first == ' ' {
            blank_before = true;
            rest = skip(rest, 1);
            continue;
        }
        let (piece, used) = scan_piece(rest, first)?;
        pieces.push(Spaced { piece, blank_before });
        blank_before = false;
        rest = skip(rest, used);
    }
    Ok(pieces)
}

fn skip(text: &[char], count: usize) -> &[char] {
    text.get(count..).unwrap_or_default()
}

fn scan_piece(rest: &[char], first: char) -> Result<(Piece, usize), ReadError> {
    if let Some((decimal, used)) = Decimal::read_start(rest)? {
        return scan_fraction(rest, decimal, used);
    }
    match first {
        '+' => Ok((Piece::Plus, 1)),
        '-' => Ok((Piece::Dash, 1)),
        '"' => Ok((Piece::Mark(Mark::Inch), 1)),
        '\'' => Ok((Piece::Mark(Mark::Foot), 1)),
        ',' => Err(ReadError::Comma),
        c if c.is_alphabetic() => scan_word(rest),
        _ => Err(ReadError::NotANumber { text: shown(&rest.iter().collect::<String>()) }),
    }
}

fn scan_word(rest: &[char]) -> Result<(Piece, usize), ReadError> {
    let word: String = rest.iter().take_while(|c| c.is_alphabetic()).collect();
    let letters = word.chars().count();
    let point = usize::from(rest.get(letters) == Some(&'.'));
    let mark = match word.to_lowercase().as_str() {
        "in" | "inch" | "inches" => Mark::Inch,
        "ft" | "foot" | "feet" => Mark::Foot,
        "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Mark::Millimetre,
        "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => Mark::Centimetre,
        "m" | "metre" | "metres" | "meter" | "meters" => Mark::Metre,
        _ => return Err(ReadError::UnknownUnit { unit: shown(&word), known: KNOWN_UNITS }),
    };
    Ok((Piece::Mark(mark), letters + point))
}

/// Looks for a fraction line after a number that has been read.
fn scan_fraction(rest: &[char], above: Decimal, used: usize) -> Result<(Piece, usize), ReadError> {
    let Some(line) = fraction_line(rest, used) else {
        return Ok((Piece::Number(above), used));
    };
    let blanks = skip(rest, line).iter().take_while(|&&c| c == ' ').count();
    let start = line + blanks;
    let Some((below, length)) = Decimal::read_start(skip(rest, start))? else {
        return Err(ReadError::NotANumber { text: shown(&rest.iter().collect::<String>()) });
    };
    let end = start + length;
    if fraction_line(rest, end).is_some() {
        return Err(ReadError::SecondFraction);
    }
    if above.has_point() || below.has_point() {
        return Err(ReadError::DecimalAndFraction);
    }
    Ok((check_fraction(above, below)?, end))
}

/// Where the text after a fraction line begins, if one follows at `used`.
fn fraction_line(rest: &[char], used: usize) -> Option<usize> {
    let blanks = skip(rest, used).iter().take_while(|&&c| c == ' ').count();
    (rest.get(used + blanks) == Some(&'/')).then_some(used + blanks + 1)
}

fn check_fraction(above: Decimal, below: Decimal) -> Result<Piece, ReadError> {
    let small = |decimal: Decimal| decimal.whole().and_then(|whole| i64::try_from(whole).ok());
    let (Some(numerator), Some(denominator)) = (small(above), small(below)) else {
        return Err(ReadError::TooManyDigits);
    };
    if denominator == 0 {
        return Err(ReadError::ZeroDenominator);
    }
    if !(2..=SMALLEST_FRACTION).contains(&denominator) || denominator.count_ones() != 1 {
        return Err(ReadError::NotOnTape { numerator, denominator });
    }
    if numerator >= denominator {
        return Err(ReadError::FractionNotBelowOne { numerator, denominator });
    }
    Ok(Piece::Fraction { numerator, denominator })
}
