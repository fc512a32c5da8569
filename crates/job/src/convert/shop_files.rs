//! What the files that a shop keeps beside its jobs have in common: entries with marks, short texts, a date, and lengths
//! that carry their units.

use std::collections::BTreeSet;

use serde::de::DeserializeOwned;
use serde_json::Value;
use units::{Length, LengthStyle, LengthUnit};

use super::desk::{Desk, Range};
use super::strip_log::carries_unit;
use crate::file::Size;
use crate::place::{Findings, Place};

/// The longest mark, and the longest place, job or note.
pub(super) const LONGEST_MARK: usize = 40;
pub(super) const LONGEST_TEXT: usize = 120;

/// The tree of a file; `what` is what the message of a broken one calls it.
pub(super) fn tree(bytes: &[u8], what: &str, findings: &mut Findings) -> Option<Value> {
    let told = |error: serde_json::Error| {
        let remedy = "mend it; nothing was changed";
        findings.add(&Place::default(), "", format!("the {what} is broken: {error}"), remedy);
    };
    serde_json::from_slice(bytes).map_err(told).ok()
}

/// A list of entries, each with a mark of its own.
pub(super) struct List {
    /// The field that holds it.
    pub(super) field: &'static str,
    /// What is wrong with a mark that is there already, and what to do.
    pub(super) twice: [&'static str; 2],
}

impl List {
    /// Every entry that `read` makes something of; it is given the entry's place.
    pub(super) fn each<T: DeserializeOwned, R>(
        &self,
        entries: &[Value],
        findings: &mut Findings,
        mark_of: impl Fn(&T) -> &String,
        read: impl Fn(&T, &Place, &mut Findings) -> Option<R>,
    ) -> Vec<R> {
        let mut found = Vec::with_capacity(entries.len());
        let mut marks: BTreeSet<String> = BTreeSet::new();
        for (number, entry) in entries.iter().enumerate() {
            let mark = entry.get("mark").and_then(Value::as_str);
            let place = mark.map_or_else(|| Place::top(self.field).entry(number), Place::part);
            let file = match T::deserialize(entry) {
                Ok(file) => file,
                Err(error) => {
                    findings.add(&place, "", error.to_string(), "mend it, or take it out");
                    continue;
                }
            };
            let mark = mark_of(&file);
            if !marks.insert(mark.to_lowercase()) {
                let [wrong, remedy] = self.twice;
                findings.add(&place.field("mark"), mark, wrong, remedy);
            }
            found.extend(read(&file, &place, findings));
        }
        found
    }
}

/// True when the texts, each with its field and most letters, are short single lines, and the date one of the calendar.
pub(super) fn are_sound<'a>(
    texts: impl IntoIterator<Item = (&'a str, &'a String, usize)>,
    date: &str,
    place: &Place,
    desk: &mut Desk<'_>,
) -> bool {
    let mut sound = true;
    for (field, text, longest) in texts {
        sound &= is_line(text, longest, &place.field(field), desk);
    }
    desk.date(&place.field("date"), date) && sound
}

/// True when a text is a single line, neither empty nor longer than that.
pub(super) fn is_line(text: &str, longest: usize, place: &Place, desk: &mut Desk<'_>) -> bool {
    let sound =
        !text.trim().is_empty() && !text.chars().any(char::is_control) && text.chars().count() <= longest;
    if !sound {
        let wrong = format!("must be one line of 1 to {longest} characters");
        desk.add(place, text, wrong, "write it shorter, or write something");
    }
    sound
}

/// A length as written, with the unit that a bare number counts in.
pub(super) fn with_unit(text: &str, unit: LengthUnit) -> String {
    if carries_unit(text) {
        return text.to_owned();
    }
    format!("{text} {}", if unit == LengthUnit::Inch { "in" } else { "mm" })
}

/// A desk for files whose lengths carry their units.
pub(super) fn desk(findings: &mut Findings) -> Desk<'_> {
    let style = LengthStyle::Inches { places: 3 };
    Desk { findings, unit: LengthUnit::Inch, style, assumptions: Vec::new(), cautions: Vec::new() }
}

/// A length that carries its unit.
pub(super) fn length(desk: &mut Desk<'_>, place: &Place, text: &str, range: Range) -> Option<Length> {
    let length = desk.length(place, &Size::Text(text.to_owned()), range)?;
    if length == Length::ZERO || carries_unit(text) {
        return Some(length);
    }
    desk.add(
        place,
        text,
        "has no unit, and the file serves jobs in inches and in millimetres",
        "add in or mm",
    );
    None
}
