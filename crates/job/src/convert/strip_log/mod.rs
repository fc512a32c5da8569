//! The shop's log of test strips: reading every line of it, and making a new one.
//!
//! One reader judges both, so that a line that was added can always be read again.

mod judge;

use fold::bend::ShopStrip;
use units::LengthUnit;

pub(super) use judge::{carries_unit, turn_in_die_of_strip, turn_of_strip};

use super::shop_files::with_unit;
use crate::contents::contents;
use crate::file::{PatternFile, StripLine};
use crate::message::Message;
use crate::place::{Findings, Place};
use judge::judge;

/// Version of the lines that is written and read.
const VERSION: u64 = 1;

/// The largest log that is read, megabytes. A line takes some 300 bytes.
const MOST_MEGABYTES: usize = 8;

/// A strip of the log.
#[derive(Debug, Clone, PartialEq)]
pub struct LoggedStrip {
    /// The strip, its sizes read.
    pub strip: ShopStrip,
    /// Its line, as written.
    pub line: String,
    /// Number of the line, from one.
    pub number: usize,
    /// What the shop noted with it.
    pub note: Option<String>,
}

/// A strip to be written to the log; lengths as the user gives them.
#[derive(Debug, Clone)]
pub struct NewStrip {
    /// When it was bent.
    pub date: String,
    /// Alloy and temper.
    pub metal: String,
    /// True for tread plate.
    pub tread: bool,
    /// True for an alloy that the tables lack.
    pub unlisted: bool,
    /// Thickness by caliper.
    pub thickness: String,
    /// Inside radius that it came out with.
    pub inside_radius: String,
    /// Opening of the V die.
    pub v_opening: Option<String>,
    /// Turn on the bench, degrees.
    pub turn: f64,
    /// Turn in the die, degrees.
    pub turn_in_die: Option<f64>,
    /// Length of the flat strip.
    pub length: String,
    /// Both legs outside.
    pub legs: [String; 2],
    /// Anything else worth keeping.
    pub note: Option<String>,
}

/// Reads every line of a log; lines without anything on them are passed over. `name` is only for messages.
///
/// # Errors
/// A [`Message`] for everything that is wrong, with the number of its line as mark.
pub fn read_strip_log(name: &str, bytes: &[u8]) -> Result<Vec<LoggedStrip>, Vec<Message>> {
    let mut findings = Findings::new(name);
    let Some(bytes) = contents(bytes, MOST_MEGABYTES, "the log of strips", &mut findings) else {
        return Err(findings.into_messages());
    };
    let lines = bytes.split(|&byte| byte == b'\n').enumerate();
    let strips: Vec<LoggedStrip> = lines
        .filter(|(_, line)| !line.trim_ascii().is_empty())
        .filter_map(|(number, line)| read_line(name, number + 1, line, &mut findings))
        .collect();
    if findings.is_empty() { Ok(strips) } else { Err(findings.into_messages()) }
}

fn read_line(name: &str, number: usize, bytes: &[u8], findings: &mut Findings) -> Option<LoggedStrip> {
    let mark = format!("line {number}");
    let place = Place::part(&mark);
    let Ok(text) = std::str::from_utf8(bytes) else {
        findings.add(&place, "", "is not UTF-8 text", "mend the line, or take it out");
        return None;
    };
    let line: StripLine = match serde_json::from_str(text) {
        Ok(line) => line,
        Err(error) => {
            let wrong = format!("is no strip of the log: {}", json_fault(&error));
            findings.add(&place, "", wrong, "mend the line, or take it out");
            return None;
        }
    };
    let strip = judge(&line, &place, &format!("{name}: {mark}"), findings)?;
    Some(LoggedStrip { strip, line: text.trim().to_owned(), number, note: line.note })
}

/// What the JSON reader found, with the column in the line instead of its own count of lines.
fn json_fault(error: &serde_json::Error) -> String {
    let words = error.to_string();
    let what = words.rsplit_once(" at line ").map_or(words.as_str(), |(what, _)| what);
    format!("{what}, column {}", error.column())
}

/// The line for a new strip, and the strip as it will be read from it. Lengths without a unit are in `unit`, and are
/// written with it.
///
/// # Errors
/// A [`Message`] for everything that is wrong; the field is that of the line.
pub fn new_strip_line(new: &NewStrip, unit: LengthUnit) -> Result<(String, LoggedStrip), Vec<Message>> {
    let with_unit = |text: &String| with_unit(text.trim(), unit);
    let line = StripLine {
        plateloft: VERSION,
        date: new.date.clone(),
        metal: new.metal.trim().to_owned(),
        pattern: new.tread.then_some(PatternFile::Tread),
        unlisted: new.unlisted,
        thickness: with_unit(&new.thickness),
        inside_radius: with_unit(&new.inside_radius),
        v_opening: new.v_opening.as_ref().map(with_unit),
        turn: new.turn,
        turn_in_die: new.turn_in_die,
        length: with_unit(&new.length),
        legs: [with_unit(&new.legs[0]), with_unit(&new.legs[1])],
        note: new.note.clone(),
    };
    let mut findings = Findings::new("");
    let strip = judge(&line, &Place::default(), "", &mut findings);
    match (strip, serde_json::to_string(&line)) {
        (Some(strip), Ok(text)) if findings.is_empty() => {
            let logged = LoggedStrip { strip, line: text.clone(), number: 0, note: line.note };
            Ok((text, logged))
        }
        _ => Err(findings.into_messages()),
    }
}
