//! Reading a length as a tape reads.
//!
//! `[sign] size [unit] [+ or - leftover] [unit]`, where a size is a decimal, a whole number and a fraction, or feet
//! and inches. Whatever could mean two things is refused.

use super::scan::{Mark, Piece, Spaced, scan};
use super::{LONGEST_NANOMETRES, Length, LengthUnit, NANOMETRES_PER_INCH, NANOMETRES_PER_MILLIMETRE};
use crate::decimal::Decimal;
use crate::error::ReadError;
use crate::rounding;

/// Reads a length; see [`Length::read`].
pub(super) fn read(text: &str, default_unit: LengthUnit) -> Result<Length, ReadError> {
    let mut reader = Reader { pieces: scan(text)?, at: 0 };
    let negative = reader.sign();
    let size = reader.size()?;
    let size_mark = reader.mark();
    let inches = if size_mark == Some(Mark::Foot) { reader.inches_after_feet(&size)? } else { None };
    let leftover = reader.leftover()?;
    let last_mark = if inches.is_some() || leftover.is_some() { reader.mark() } else { None };
    reader.end()?;
    let unit = choose_unit(size_mark, last_mark, leftover.is_some(), default_unit)?;
    let magnitude = size.nanometres(unit)? + inches.map_or(Ok(0), |size| size.nanometres(Mark::Inch))?;
    let signed = if negative { -magnitude } else { magnitude };
    within_limit(signed + leftover.unwrap_or(0))
}

/// The unit of the size, given the marks after it and after the leftover.
fn choose_unit(
    size: Option<Mark>,
    last: Option<Mark>,
    leftover: bool,
    default: LengthUnit,
) -> Result<Mark, ReadError> {
    let bare = match default {
        LengthUnit::Inch => Mark::Inch,
        LengthUnit::Millimetre => Mark::Millimetre,
    };
    let unit = size.or(last).unwrap_or(bare);
    let tape = matches!(unit, Mark::Inch | Mark::Foot);
    if last.is_some_and(|mark| mark != Mark::Inch) {
        return Err(ReadError::MixedUnits);
    }
    if (leftover || last.is_some()) && !tape {
        return Err(ReadError::BadLeftover);
    }
    Ok(unit)
}

fn within_limit(nanometres: i128) -> Result<Length, ReadError> {
    if nanometres.unsigned_abs() > u128::from(LONGEST_NANOMETRES.unsigned_abs()) {
        return Err(ReadError::TooLarge { limit: "a kilometre" });
    }
    Ok(Length::from_nanometres(rounding::narrow(nanometres)))
}

/// A decimal, a fraction, or a whole number and a fraction.
struct Size {
    number: Option<Decimal>,
    fraction: Option<(i64, i64)>,
}

impl Size {
    fn nanometres(&self, unit: Mark) -> Result<i128, ReadError> {
        let per_unit = i128::from(match unit {
            Mark::Inch => NANOMETRES_PER_INCH,
            Mark::Foot => 12 * NANOMETRES_PER_INCH,
            Mark::Millimetre => NANOMETRES_PER_MILLIMETRE,
            Mark::Centimetre => 10 * NANOMETRES_PER_MILLIMETRE,
            Mark::Metre => 1000 * NANOMETRES_PER_MILLIMETRE,
        });
        let whole = self.number.map_or(Ok(0), |number| number.count(per_unit, 1))?;
        let Some((numerator, denominator)) = self.fraction else {
            return Ok(whole);
        };
        if !matches!(unit, Mark::Inch | Mark::Foot) {
            return Err(ReadError::MetricFraction);
        }
        // Exact: the denominator divides 64, and 64 divides the inch.
        Ok(whole + per_unit / i128::from(denominator) * i128::from(numerator))
    }

    fn is_whole(&self) -> bool {
        self.fraction.is_none() && self.number.is_some_and(|number| number.whole().is_some())
    }
}

struct Reader {
    pieces: Vec<Spaced>,
    at: usize,
}

impl Reader {
    fn peek(&self, ahead: usize) -> Option<Spaced> {
        self.pieces.get(self.at + ahead).copied()
    }

    fn sign(&mut self) -> bool {
        let first = self.peek(0).map(|spaced| spaced.piece);
        let negative = first == Some(Piece::Dash);
        if negative || first == Some(Piece::Plus) {
            self.at += 1;
        }
        negative
    }

    fn mark(&mut self) -> Option<Mark> {
        let Some(Spaced { piece: Piece::Mark(mark), .. }) = self.peek(0) else {
            return None;
        };
        self.at += 1;
        Some(mark)
    }

    fn size(&mut self) -> Result<Size, ReadError> {
        match self.peek(0).map(|spaced| spaced.piece) {
            Some(Piece::Fraction { numerator, denominator }) => {
                self.at += 1;
                Ok(Size { number: None, fraction: Some((numerator, denominator)) })
            }
            Some(Piece::Number(number)) => {
                self.at += 1;
                let fraction = self.fraction_after_number()?;
                if fraction.is_some() && number.has_point() {
                    return Err(ReadError::DecimalAndFraction);
                }
                Ok(Size { number: Some(number), fraction })
            }
            Some(other) => Err(ReadError::NotANumber { text: name(other).to_owned() }),
            None => Err(ReadError::Empty),
        }
    }

    /// A fraction after a blank, or joined by a dash without blanks.
    fn fraction_after_number(&mut self) -> Result<Option<(i64, i64)>, ReadError> {
        let joined = self.peek(0).is_some_and(|spaced| spaced.piece == Piece::Dash);
        let Some(Spaced { piece: Piece::Fraction { numerator, denominator }, blank_before }) =
            self.peek(usize::from(joined))
        else {
            return Ok(None);
        };
        if joined && (blank_before || self.peek(0).is_some_and(|dash| dash.blank_before)) {
            return Err(ReadError::AmbiguousDash);
        }
        self.at += usize::from(joined) + 1;
        Ok(Some((numerator, denominator)))
    }

    /// The inches of `4' 7-1/2"`, if there are any. A dash after the foot mark joins.
    fn inches_after_feet(&mut self, feet: &Size) -> Result<Option<Size>, ReadError> {
        let joined = self.peek(0).is_some_and(|spaced| spaced.piece == Piece::Dash);
        match self.peek(usize::from(joined)).map(|spaced| spaced.piece) {
            Some(Piece::Number(number)) if joined && number.has_point() && number.is_below_one() => {
                return Err(ReadError::AmbiguousDash);
            }
            Some(Piece::Number(_) | Piece::Fraction { .. }) => {}
            _ => return Ok(None),
        }
        self.at += usize::from(joined);
        let inches = self.size()?;
        if !feet.is_whole() {
            return Err(ReadError::FeetNotWhole);
        }
        if self.peek(0).is_some_and(|spaced| matches!(spaced.piece, Piece::Mark(mark) if mark != Mark::Inch))
        {
            return Err(ReadError::MixedUnits);
        }
        if inches.nanometres(Mark::Inch)? >= i128::from(12 * NANOMETRES_PER_INCH) {
            return Err(ReadError::TooManyInches);
        }
        // The mark may stand here or after a leftover; it is taken here so that the leftover can follow it.
        self.mark();
        Ok(Some(inches))
    }

    /// The signed leftover of `23 5/16 + .004` in nanometres. A minus needs a blank on both sides.
    fn leftover(&mut self) -> Result<Option<i128>, ReadError> {
        let Some(sign) = self.peek(0) else {
            return Ok(None);
        };
        if !matches!(sign.piece, Piece::Plus | Piece::Dash) {
            return Ok(None);
        }
        let Some(Spaced { piece: Piece::Number(number), blank_before }) = self.peek(1) else {
            return Err(ReadError::BadLeftover);
        };
        let minus = sign.piece == Piece::Dash;
        if minus && !(sign.blank_before && blank_before) {
            return Err(ReadError::AmbiguousDash);
        }
        if !number.has_point() || !number.is_below_one() {
            return Err(ReadError::BadLeftover);
        }
        self.at += 2;
        let nanometres = number.count(i128::from(NANOMETRES_PER_INCH), 1)?;
        Ok(Some(if minus { -nanometres } else { nanometres }))
    }

    fn end(&self) -> Result<(), ReadError> {
        match self.peek(0).map(|spaced| spaced.piece) {
            None => Ok(()),
            Some(Piece::Fraction { .. }) => Err(ReadError::SecondFraction),
            Some(Piece::Mark(_)) => Err(ReadError::MixedUnits),
            Some(other) => Err(ReadError::Unexpected { text: name(other).to_owned() }),
        }
    }
}

const fn name(piece: Piece) -> &'static str {
    match piece {
        Piece::Number(_) => "a further number",
        Piece::Fraction { .. } => "a fraction",
        Piece::Mark(_) => "a unit",
        Piece::Plus => "+",
        Piece::Dash => "-",
    }
}
