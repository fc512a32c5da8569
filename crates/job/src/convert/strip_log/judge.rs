//! What one line of the log must be: a day, a known metal, sizes with their units, turns that a strip can have.

use fold::bend::{ShopStrip, StripMetal, TestStrip};
use stock::{Family, find_alloy};
use units::{Angle, Length, LengthUnit};

use super::super::bend_number::strip_fault;
use super::super::desk::{Desk, Range};
use super::super::metals::alloy_remedy;
use super::super::shop_files::desk;
use super::VERSION;
use crate::file::{Degrees, PatternFile, Size, StripLine};
use crate::place::{Findings, Place};

/// The longest note.
const LONGEST_NOTE: usize = 120;

/// The sharpest turn of a strip, degrees; beyond it a leg can no longer be measured.
const SHARPEST_TURN_DEGREES: f64 = 150.0;

/// Share of the turn in the die that even the springiest sheet keeps.
const LEAST_KEPT: f64 = 0.7;

/// The strip of a line; everything wrong goes to `findings`.
pub(super) fn judge(
    line: &StripLine,
    place: &Place,
    written_at: &str,
    findings: &mut Findings,
) -> Option<ShopStrip> {
    if line.plateloft != VERSION {
        let wrong = format!("this program reads version {VERSION} of the log");
        let remedy = "use the program that this line was written by";
        findings.add(&place.field("plateloft"), &line.plateloft.to_string(), wrong, remedy);
        return None;
    }
    let mut desk = desk(findings);
    let date = desk.date(&place.field("date"), &line.date);
    let metal = metal(line, place, &mut desk);
    let note = note(line, place, &mut desk);
    let thickness = length(&mut desk, &place.field("thickness"), &line.thickness, Range::Thickness);
    let radius = length(&mut desk, &place.field("inside_radius"), &line.inside_radius, Range::AboveZero);
    let v_opening = line.v_opening.as_ref().map_or(Some(None), |text| {
        length(&mut desk, &place.field("v_opening"), text, Range::AboveZero).map(Some)
    });
    let flat = length(&mut desk, &place.field("length"), &line.length, Range::AboveZero);
    let leg = |number: usize, desk: &mut Desk<'_>| {
        length(desk, &place.field("legs").entry(number), &line.legs[number], Range::AboveZero)
    };
    let legs = [leg(0, &mut desk), leg(1, &mut desk)];
    let turn = turn(line, place, &mut desk);
    let turn_in_die = turn_in_die(line, place, &mut desk);
    let ([Some(first), Some(second)], Some(turn)) = (legs, turn) else { return None };
    let test = TestStrip {
        length: flat?,
        legs: [first, second],
        turn,
        thickness: thickness?,
        inside_radius: radius?,
    };
    let made = ShopStrip::new(test, metal?, written_at.to_owned());
    let mut strip = made.map_err(|error| strip_fault(&error, &test, place, &mut desk)).ok()?;
    note?;
    strip.v_opening = v_opening?;
    strip.turn_in_die = turn_in_die?;
    strip.date = Some(line.date.clone());
    date.then_some(strip)
}

/// A length that carries its unit.
fn length(desk: &mut Desk<'_>, place: &Place, text: &str, range: Range) -> Option<Length> {
    let length = desk.length(place, &Size::Text(text.to_owned()), range)?;
    if carries_unit(text) {
        return Some(length);
    }
    desk.add(place, text, "has no unit, and a log serves jobs in inches and in millimetres", "add in or mm");
    None
}

fn metal(line: &StripLine, place: &Place, desk: &mut Desk<'_>) -> Option<StripMetal> {
    let place = place.field("metal");
    let tread = line.pattern == Some(PatternFile::Tread);
    match (find_alloy(&line.metal), line.unlisted) {
        (Ok(found), false) => Some(StripMetal {
            alloy: found.alloy.name.clone(),
            temper: found.temper.map(str::to_owned),
            family: found.alloy.family,
            tread,
        }),
        (Ok(_), true) => {
            desk.add(&place, &line.metal, "the tables do have this alloy", "do not call it unlisted");
            None
        }
        (Err(_), true) if !line.metal.is_empty() && is_plain(&line.metal) => {
            Some(StripMetal { alloy: line.metal.clone(), temper: None, family: Family::Unlisted, tread })
        }
        (Err(error), _) => {
            let remedy = alloy_remedy(&error, &line.metal, "call it unlisted");
            desk.add(&place, &line.metal, error.to_string(), remedy);
            None
        }
    }
}

fn is_plain(text: &str) -> bool {
    !text.chars().any(char::is_control) && text.chars().count() <= LONGEST_NOTE
}

fn note(line: &StripLine, place: &Place, desk: &mut Desk<'_>) -> Option<()> {
    let Some(note) = line.note.as_ref().filter(|note| !is_plain(note)) else { return Some(()) };
    let wrong = format!("a note is one line of at most {LONGEST_NOTE} characters");
    desk.add(&place.field("note"), note, wrong, "shorten it");
    None
}

fn degrees(written: f64) -> Degrees {
    // A number of JSON is always finite; what is not is refused as text.
    let number = serde_json::Number::from_f64(written);
    Degrees(number.map_or_else(|| Size::Text(written.to_string()), Size::Number))
}

fn turn(line: &StripLine, place: &Place, desk: &mut Desk<'_>) -> Option<Angle> {
    turn_of_strip(&place.field("turn"), &degrees(line.turn), desk)
}

/// A turn that a strip can be bent to and measured at.
pub(in crate::convert) fn turn_of_strip(
    place: &Place,
    written: &Degrees,
    desk: &mut Desk<'_>,
) -> Option<Angle> {
    let turn = desk.angle(place, written)?;
    let sharp = Angle::from_degrees(SHARPEST_TURN_DEGREES);
    if turn <= Angle::ZERO || turn > sharp {
        let remedy = "measure the turn from flat: a square bend is 90";
        let wrong = format!("a strip turns by more than 0 and up to {SHARPEST_TURN_DEGREES}°");
        desk.add(place, &written.0.to_string(), wrong, remedy);
        return None;
    }
    Some(turn)
}

/// The turn in the die, if measured; the outer none is a finding.
fn turn_in_die(line: &StripLine, place: &Place, desk: &mut Desk<'_>) -> Option<Option<Angle>> {
    let Some(written) = line.turn_in_die else { return Some(None) };
    turn_in_die_of_strip(&place.field("turn_in_die"), &degrees(written), Angle::from_degrees(line.turn), desk)
        .map(Some)
}

/// The turn in the die of a strip that lies at `turn` on the bench.
pub(in crate::convert) fn turn_in_die_of_strip(
    place: &Place,
    written: &Degrees,
    turn: Angle,
    desk: &mut Desk<'_>,
) -> Option<Angle> {
    let in_die = desk.angle(place, written)?;
    let wrong = if in_die < turn {
        format!("is less than the turn of {} on the bench: metal springs back, never on", turn.print(1))
    } else if turn.degrees() < LEAST_KEPT * in_die.degrees() {
        format!("springs back to {}, more than any sheet does", turn.print(1))
    } else {
        return Some(in_die);
    };
    desk.add(place, &written.0.to_string(), wrong, "give the turn from flat under the punch");
    None
}

/// True when a length reads the same whatever the unit of bare numbers.
pub(in crate::convert) fn carries_unit(text: &str) -> bool {
    let read = |unit| Length::read(text, unit);
    match (read(LengthUnit::Inch), read(LengthUnit::Millimetre)) {
        // Nothing is the same in every unit: only a unit that is written tells.
        (Ok(Length::ZERO), Ok(Length::ZERO)) => {
            text.contains(|mark: char| mark.is_alphabetic() || "'\"′″".contains(mark))
        }
        (Ok(inches), Ok(millimetres)) => inches == millimetres,
        // A fraction without a unit can only be inches.
        (Ok(_), Err(_)) | (Err(_), Ok(_)) => false,
        // What cannot be read is told as it was given.
        (Err(_), Err(_)) => true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_length_carries_its_unit_or_does_not() {
        for with in ["0 in", "0\"", "1/8 in", "3.2 mm", "4' 7-1/2\"", ".125\""] {
            assert!(carries_unit(with), "{with}");
        }
        for without in ["0", "1/8", ".125", "3.2"] {
            assert!(!carries_unit(without), "{without}");
        }
    }
}
