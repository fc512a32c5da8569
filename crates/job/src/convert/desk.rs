//! What converting needs at hand: the job's units, and where findings go. Every written quantity is read here.

use units::{Angle, Length, LengthStyle, LengthUnit, Money, ReadError};

use super::date::is_date;
use crate::file::{Degrees, Price, Size};
use crate::place::{Findings, Place};

/// The largest size of a part or sheet, millimetres, and in words: no sheet, brake or truck takes more.
const MOST: (i64, &str) = (20_000, "20 m (65 ft)");

/// The thickest metal, millimetres, and in words: thicker is not bent in a shop, and most likely a slip of the unit.
const MOST_THICKNESS: (i64, &str) = (50, "50 mm (2 in)");

/// The longest roll of matting or carpet, millimetres, and in words (common practice, no source).
const MOST_ROLL: (i64, &str) = (200_000, "200 m (650 ft)");

/// What to do where one thing to buy is given at two prices.
pub(super) const ONE_PRICE: &str = "keep one; where only so many can be had at a lower price, give that row their \"count\"; a price that \
                                    falls with the number bought cannot be written: take that of the number you expect";

/// Which lengths make sense in a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Range {
    /// More than nothing.
    AboveZero,
    /// Nothing or more.
    ZeroOrMore,
    /// Either side of zero, like a coordinate.
    Any,
    /// A thickness.
    Thickness,
    /// The length of a roll.
    Roll,
    /// A side or diagonal of an opening.
    Opening,
    /// The diameter of a drain.
    Drain,
    /// A side of a channel that carries water off, or its width.
    Channel,
}

/// The least size that makes sense in a place, millimetres, in words, and why (common practice, no source).
const fn least(range: Range) -> Option<(i64, &'static str, &'static str)> {
    match range {
        Range::Opening => Some((25, "25 mm (1 in)", "nothing is lifted through a smaller opening")),
        Range::Drain => Some((3, "3 mm (1/8 in)", "a smaller drain clogs, and water stands over it")),
        Range::Channel => Some((6, "6 mm (1/4 in)", "a smaller channel carries no water off")),
        Range::AboveZero | Range::ZeroOrMore | Range::Any | Range::Thickness | Range::Roll => None,
    }
}

/// What converting needs at hand.
pub(super) struct Desk<'a> {
    /// Where findings go.
    pub(super) findings: &'a mut Findings,
    /// The unit of bare numbers.
    pub(super) unit: LengthUnit,
    /// How lengths print.
    pub(super) style: LengthStyle,
    /// What was left open and how it was taken.
    pub(super) assumptions: Vec<String>,
    /// What should be looked at.
    pub(super) cautions: Vec<String>,
}

impl Desk<'_> {
    /// Adds a finding.
    pub(super) fn add(
        &mut self,
        place: &Place,
        value: &str,
        wrong: impl Into<String>,
        remedy: impl Into<String>,
    ) {
        self.findings.add(place, value, wrong, remedy);
    }

    fn unread(&mut self, place: &Place, value: &str, error: &ReadError) {
        self.findings.add(place, value, error.to_string(), error.remedy());
    }

    /// A length within its range.
    pub(super) fn length(&mut self, place: &Place, size: &Size, range: Range) -> Option<Length> {
        let written = size.to_string();
        let length = match size.read(self.unit) {
            Ok(length) => length,
            Err(error) => {
                self.unread(place, &written, &error);
                return None;
            }
        };
        let fault = range_fault(length, range);
        if let Some((wrong, remedy)) = fault {
            self.add(place, &written, wrong, remedy);
            return None;
        }
        Some(length)
    }

    /// A length if one is given; the outer `None` is a finding.
    pub(super) fn optional(
        &mut self,
        place: &Place,
        size: Option<&Size>,
        range: Range,
    ) -> Option<Option<Length>> {
        size.map_or(Some(None), |size| self.length(place, size, range).map(Some))
    }

    /// Two lengths.
    pub(super) fn pair(&mut self, place: &Place, sizes: &[Size; 2], range: Range) -> Option<[Length; 2]> {
        let first = self.length(&place.entry(0), &sizes[0], range);
        let second = self.length(&place.entry(1), &sizes[1], range);
        Some([first?, second?])
    }

    /// An angle in degrees.
    pub(super) fn angle(&mut self, place: &Place, degrees: &Degrees) -> Option<Angle> {
        let read = match &degrees.0 {
            Size::Text(text) => Angle::read(text),
            Size::Number(number) => {
                number.as_f64().ok_or(ReadError::NotFinite).and_then(Angle::try_from_degrees)
            }
        };
        read.map_err(|error| self.unread(place, &degrees.0.to_string(), &error)).ok()
    }

    /// A price of zero or more.
    pub(super) fn price(&mut self, place: &Place, price: &Price) -> Option<Money> {
        let money = self.money(place, price)?;
        if money < Money::ZERO {
            self.add(
                place,
                &price.0.to_string(),
                "a price must not be below zero",
                "give what it costs, or 0",
            );
            return None;
        }
        Some(money)
    }

    /// A sum of money that is no price of a thing: a charge, what an hour costs, what is paid for scrap; zero or more.
    pub(super) fn charge(&mut self, place: &Place, written: &Price) -> Option<Money> {
        let money = self.money(place, written)?;
        if money < Money::ZERO {
            let remedy = "give the sum of money, 0 for none";
            self.add(place, &written.0.to_string(), "must not be below zero", remedy);
            return None;
        }
        Some(money)
    }

    /// A sum of money, whatever its sign.
    pub(super) fn money(&mut self, place: &Place, price: &Price) -> Option<Money> {
        let written = price.0.to_string();
        let read = match &price.0 {
            Size::Text(text) => Money::read(text),
            Size::Number(number) => {
                number.as_f64().ok_or(ReadError::NotFinite).and_then(Money::try_from_number)
            }
        };
        read.map_err(|error| self.unread(place, &written, &error)).ok()
    }

    /// A price if one is given; the outer `None` is a finding.
    pub(super) fn optional_price(&mut self, place: &Place, price: Option<&Price>) -> Option<Option<Money>> {
        price.map_or(Some(None), |price| self.price(place, price).map(Some))
    }

    /// Whether a text is a day of the calendar; a finding where it is none.
    pub(super) fn date(&mut self, place: &Place, date: &str) -> bool {
        let sound = is_date(date);
        if !sound {
            self.add(place, date, "is no date", "write year, month and day: 2026-03-04");
        }
        sound
    }

    /// A day that cannot lie before the date of the job, where that is written as a day of the calendar too.
    pub(super) fn date_to_come(&mut self, place: &Place, date: &str, of_job: Option<&str>) {
        if !self.date(place, date) {
            return;
        }
        // Days that are written year, month, day sort as text.
        if let Some(today) = of_job.filter(|today| is_date(today) && date < *today) {
            let wrong = format!("is before {today}, the \"date\" of the job");
            self.add(place, date, wrong, "check both days");
        }
    }

    /// A finding where the name of an entry is among those of the entries `before` it.
    pub(super) fn once<'n>(
        &mut self,
        place: &Place,
        name: &str,
        mut before: impl Iterator<Item = &'n String>,
        remedy: &str,
    ) {
        if before.any(|known| known == name) {
            self.add(place, name, "is given twice", remedy);
        }
    }

    /// A quantity that has its own reader.
    pub(super) fn text<T>(
        &mut self,
        place: &Place,
        text: Option<&String>,
        read: fn(&str) -> Result<T, ReadError>,
    ) -> Option<Option<T>> {
        let Some(text) = text else { return Some(None) };
        read(text).map(Some).map_err(|error| self.unread(place, text, &error)).ok()
    }
}

/// Whether a length lies within its range.
pub(super) fn is_in_range(length: Length, range: Range) -> bool {
    range_fault(length, range).is_none()
}

/// What is wrong with a length that is outside its range, and what to do.
fn range_fault(length: Length, range: Range) -> Option<(String, &'static str)> {
    let (most, most_words) = match range {
        Range::Thickness => MOST_THICKNESS,
        Range::Roll => MOST_ROLL,
        _ => MOST,
    };
    let below = match range {
        Range::Any => None,
        Range::ZeroOrMore => {
            (length < Length::ZERO).then_some(("must not be below zero", "give zero or more"))
        }
        _ if length <= Length::ZERO => Some(("must be above zero", "give the size as taped")),
        _ => None,
    };
    if let Some((wrong, remedy)) = below {
        return Some((wrong.to_owned(), remedy));
    }
    if let Some((least, words, why)) = least(range)
        && length < Length::from_nanometres(least * 1_000_000)
    {
        return Some((format!("is less than {words}: {why}"), "check the number and its unit"));
    }
    let absurd = length.abs() > Length::from_nanometres(most * 1_000_000);
    absurd.then(|| (format!("is more than {most_words}, which cannot be"), "check the number and its unit"))
}
