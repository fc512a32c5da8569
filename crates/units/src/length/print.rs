//! Printing a length to a tape's fraction with the leftover, in decimals of an inch, or in millimetres.

use super::{Length, LengthUnit, NANOMETRES_PER_INCH, NANOMETRES_PER_MILLIMETRE};
use crate::decimal::print_ratio;
use crate::error::ReadError;
use crate::rounding;

/// Places of the leftover: thousandths of an inch.
const LEFTOVER_PLACES: u8 = 3;

/// How a length is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LengthStyle {
    /// The nearest fraction of an inch on the tape, reduced, and the leftover in thousandths: `23 5/16 + .004`.
    Tape {
        /// The tape's finest division.
        denominator: TapeDenominator,
    },
    /// Decimals of an inch without a zero before the point, as ASME Y14.5 writes inches: `.125`.
    Inches {
        /// Digits after the point.
        places: u8,
    },
    /// Millimetres with a zero before the point, as ASME Y14.5 writes them: `0.5`.
    Millimetres {
        /// Digits after the point.
        places: u8,
    },
}

/// The finest division of a tape.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TapeDenominator {
    /// 1/2 in.
    Halves,
    /// 1/4 in.
    Quarters,
    /// 1/8 in.
    Eighths,
    /// 1/16 in.
    Sixteenths,
    /// 1/32 in.
    ThirtySeconds,
    /// 1/64 in.
    SixtyFourths,
}

impl LengthStyle {
    /// The unit that the numbers are in.
    #[must_use]
    pub const fn unit(self) -> LengthUnit {
        match self {
            Self::Tape { .. } | Self::Inches { .. } => LengthUnit::Inch,
            Self::Millimetres { .. } => LengthUnit::Millimetre,
        }
    }
}

impl TapeDenominator {
    /// Every division, coarsest first.
    pub const ALL: [Self; 6] = [
        Self::Halves,
        Self::Quarters,
        Self::Eighths,
        Self::Sixteenths,
        Self::ThirtySeconds,
        Self::SixtyFourths,
    ];

    /// The division of so many to the inch, if a tape has it.
    #[must_use]
    pub fn from_number(number: i64) -> Option<Self> {
        Self::ALL.into_iter().find(|division| division.number() == number)
    }

    /// How many there are to the inch.
    #[must_use]
    pub const fn number(self) -> i64 {
        match self {
            Self::Halves => 2,
            Self::Quarters => 4,
            Self::Eighths => 8,
            Self::Sixteenths => 16,
            Self::ThirtySeconds => 32,
            Self::SixtyFourths => 64,
        }
    }

    /// The division as a length.
    #[must_use]
    pub const fn length(self) -> Length {
        Length(NANOMETRES_PER_INCH / self.number())
    }

    /// Reads `1/16`.
    ///
    /// # Errors
    /// As [`Length::read`], and [`ReadError::NotOnTape`] for a fraction with anything but one above the line.
    pub fn read(text: &str) -> Result<Self, ReadError> {
        let length = Length::read(text, LengthUnit::Inch)?;
        Self::ALL.into_iter().find(|division| division.length() == length).ok_or_else(|| {
            let sixty_fourths = length.0 / Self::SixtyFourths.length().0;
            ReadError::NotOnTape { numerator: sixty_fourths, denominator: 64 }
        })
    }
}

/// Prints the number; see [`Length::print`].
pub(super) fn print(length: Length, style: LengthStyle) -> String {
    match style {
        LengthStyle::Tape { denominator } => print_tape(length, denominator),
        LengthStyle::Inches { places } => without_leading_zero(&print_inches(length.0, places)),
        LengthStyle::Millimetres { places } => {
            print_ratio(i128::from(length.0), i128::from(NANOMETRES_PER_MILLIMETRE), places)
        }
    }
}

/// What the printed number says, and the size of its last digit.
fn shown(length: Length, style: LengthStyle) -> (Length, Length) {
    let nearest = |length: Length, step: i64| {
        let steps = rounding::divide(i128::from(length.0), i128::from(step)).map_or(0, rounding::narrow);
        Length(step) * steps
    };
    let last = |unit: i64, places: u8| (unit / 10_i64.saturating_pow(u32::from(places))).max(1);
    match style {
        LengthStyle::Tape { denominator } => {
            let digit = last(NANOMETRES_PER_INCH, LEFTOVER_PLACES);
            let mark = nearest(length, denominator.length().0);
            (mark + nearest(length - mark, digit), Length(digit))
        }
        LengthStyle::Inches { places } => {
            let digit = last(NANOMETRES_PER_INCH, places);
            (nearest(length, digit), Length(digit))
        }
        LengthStyle::Millimetres { places } => {
            let digit = last(NANOMETRES_PER_MILLIMETRE, places);
            (nearest(length, digit), Length(digit))
        }
    }
}

/// See [`Length::print_down`] (`up` false) and [`Length::print_up`].
pub(super) fn print_toward(length: Length, style: LengthStyle, up: bool) -> String {
    let mut candidate = length;
    // A step of the tape is no whole number of thousandths, so a digit less may print a little more than a digit less.
    for _ in 0..3 {
        let (said, digit) = shown(candidate, style);
        if up && said < length {
            candidate += digit;
        } else if !up && length < said {
            candidate -= digit;
        } else {
            break;
        }
    }
    print(candidate, style)
}

/// Prints the number to a mark; see [`Length::print_about`].
pub(super) fn print_about(length: Length, style: LengthStyle) -> String {
    let (mark, coarse) = match style {
        LengthStyle::Tape { denominator } => (denominator.length().0, style),
        LengthStyle::Inches { .. } => (NANOMETRES_PER_INCH / 10, LengthStyle::Inches { places: 1 }),
        LengthStyle::Millimetres { .. } => {
            (NANOMETRES_PER_MILLIMETRE, LengthStyle::Millimetres { places: 0 })
        }
    };
    let marks = rounding::divide(i128::from(length.0), i128::from(mark)).map_or(0, rounding::narrow);
    print(Length(mark) * marks, coarse)
}

fn print_inches(nanometres: i64, places: u8) -> String {
    print_ratio(i128::from(nanometres), i128::from(NANOMETRES_PER_INCH), places)
}

fn without_leading_zero(text: &str) -> String {
    match text.strip_prefix("0.") {
        Some(decimals) => format!(".{decimals}"),
        None => text.strip_prefix("-0.").map_or_else(|| text.to_owned(), |decimals| format!("-.{decimals}")),
    }
}

fn print_tape(length: Length, denominator: TapeDenominator) -> String {
    let step = denominator.length();
    let steps = rounding::divide(i128::from(length.0), i128::from(step.0)).map_or(0, rounding::narrow);
    let nearest = step * steps;
    let text = print_steps(steps, denominator.number());
    let leftover = print_inches((length - nearest).0, LEFTOVER_PLACES);
    let Some(decimals) = leftover.trim_start_matches('-').strip_prefix('0') else {
        return text;
    };
    if decimals == ".000" {
        return text;
    }
    let sign = if leftover.starts_with('-') { '-' } else { '+' };
    format!("{text} {sign} {decimals}")
}

/// A whole number of tape divisions as inches and a reduced fraction.
fn print_steps(steps: i64, denominator: i64) -> String {
    let sign = if steps < 0 { "-" } else { "" };
    let count = steps.unsigned_abs();
    let mut below = denominator.unsigned_abs();
    let (whole, mut above) = (count / below, count % below);
    if above == 0 {
        return format!("{sign}{whole}");
    }
    while above % 2 == 0 {
        above /= 2;
        below /= 2;
    }
    if whole == 0 { format!("{sign}{above}/{below}") } else { format!("{sign}{whole} {above}/{below}") }
}
