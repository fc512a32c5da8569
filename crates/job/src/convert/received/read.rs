//! Reading the sheets received, and making a new one. One reader judges both, so that what was added can always be read
//! again.

use serde_json::Value;
use units::{Length, LengthUnit};

use super::super::desk::{Desk, Range};
use super::super::shop_files::{LONGEST_MARK, LONGEST_TEXT, List, are_sound, desk, length, tree, with_unit};
use super::VERSION;
use super::sheet::{Received, ReceivedSheet};
use crate::contents::contents;
use crate::file::{ReceivedFile, ReceivedSheetFile};
use crate::message::Message;
use crate::place::{Findings, Place};

/// The largest file that is read, megabytes; a sheet takes some 250 bytes.
const MOST_MEGABYTES: usize = 4;

/// How far the diagonals may miss what the sides make them, mm: what a tape held by hand and an edge that is no straight
/// line explain (common practice, no source).
const DIAGONALS_MISS_MM: f64 = 3.0;

/// A sheet as its owner gives it: lengths as written.
#[derive(Debug, Clone)]
pub struct NewReceived {
    /// What is chalked on it.
    pub mark: String,
    /// The job's name for its metal.
    pub metal: String,
    /// The size that was ordered.
    pub ordered: [String; 2],
    /// The size that it has.
    pub size: [String; 2],
    /// Its thickness by caliper.
    pub thickness: String,
    /// Both diagonals.
    pub diagonals: Option<[String; 2]>,
    /// When it was measured.
    pub date: String,
    /// Anything else.
    pub note: Option<String>,
}

/// Reads the sheets received. `name` is only for messages.
///
/// # Errors
/// A [`Message`] for everything that is wrong, the mark of the sheet first; a file of another version is refused whole.
pub fn read_received(name: &str, bytes: &[u8]) -> Result<Received, Vec<Message>> {
    let mut findings = Findings::new(name);
    match received(bytes, &mut findings) {
        Some(received) if findings.is_empty() => Ok(received),
        _ => Err(findings.into_messages()),
    }
}

/// Judges a new sheet by itself. Bare numbers count in `unit`; `name` is what messages call its source.
///
/// # Errors
/// A [`Message`] for everything that is wrong.
pub fn new_received(name: &str, new: &NewReceived, unit: LengthUnit) -> Result<ReceivedSheet, Vec<Message>> {
    let written = |text: &String| with_unit(text, unit);
    let file = ReceivedSheetFile {
        mark: new.mark.clone(),
        metal: new.metal.clone(),
        ordered: new.ordered.each_ref().map(written),
        size: new.size.each_ref().map(written),
        thickness: written(&new.thickness),
        diagonals: new.diagonals.as_ref().map(|pair| pair.each_ref().map(written)),
        date: new.date.clone(),
        note: new.note.clone(),
    };
    let mut findings = Findings::new(name);
    match sheet(&file, &Place::default(), &mut findings) {
        Some(sheet) if findings.is_empty() => Ok(sheet),
        _ => Err(findings.into_messages()),
    }
}

fn received(bytes: &[u8], findings: &mut Findings) -> Option<Received> {
    let tree = tree(contents(bytes, MOST_MEGABYTES, "the file", findings)?, "file", findings)?;
    let version = tree.get("plateloft_received");
    if version.and_then(Value::as_u64) != Some(VERSION) {
        let value = version.map(ToString::to_string).unwrap_or_default();
        let wrong = format!("this is no list of sheets received of version {VERSION}");
        let remedy = "use the program that wrote it; nothing was changed";
        findings.add(&Place::top("plateloft_received"), &value, wrong, remedy);
        return None;
    }
    let file: ReceivedFile = serde_json::from_value(tree)
        .map_err(|error| {
            findings.add(&Place::default(), "", error.to_string(), "mend it; nothing was changed");
        })
        .ok()?;
    let list = List { field: "sheets", twice: ["is entered twice", "give each sheet a mark of its own"] };
    Some(Received { sheets: list.each(&file.sheets, findings, |file: &ReceivedSheetFile| &file.mark, sheet) })
}

fn sheet(file: &ReceivedSheetFile, place: &Place, findings: &mut Findings) -> Option<ReceivedSheet> {
    let mut desk = desk(findings);
    let texts = judge_texts(file, place, &mut desk);
    let mut pair = |name: &str, written: &[String; 2]| {
        let place = place.field(name);
        let [a, b] = [0, 1].map(|n| length(&mut desk, &place.entry(n), &written[n], Range::AboveZero));
        Some([a?, b?])
    };
    let sorted = |[a, b]: [Length; 2]| [a.min(b), a.max(b)];
    let ordered = pair("ordered", &file.ordered).map(sorted);
    let size = pair("size", &file.size).map(sorted);
    let diagonals = file.diagonals.as_ref().map(|written| pair("diagonals", written));
    let thickness = length(&mut desk, &place.field("thickness"), &file.thickness, Range::Thickness);
    let sheet = ReceivedSheet {
        mark: file.mark.clone(),
        metal: file.metal.clone(),
        ordered: ordered?,
        size: size?,
        thickness: thickness?,
        diagonals: match diagonals {
            None => None,
            Some(pair) => Some(pair?),
        },
        date: file.date.clone(),
        note: file.note.clone(),
    };
    let misses = sheet.diagonals_miss();
    if DIAGONALS_MISS_MM < misses.millimetres() {
        let value = file.diagonals.as_ref().map(|pair| pair.join(" and ")).unwrap_or_default();
        let wrong = format!("do not go with the sides: they miss by {}", misses.print_with_unit(desk.style));
        desk.add(&place.field("diagonals"), &value, wrong, "measure sides and diagonals again");
        return None;
    }
    texts.then_some(sheet)
}

fn judge_texts(file: &ReceivedSheetFile, place: &Place, desk: &mut Desk<'_>) -> bool {
    let note = file.note.as_ref().map(|note| ("note", note, LONGEST_TEXT));
    let texts = [("mark", &file.mark, LONGEST_MARK), ("metal", &file.metal, LONGEST_MARK)];
    are_sound(texts.into_iter().chain(note), &file.date, place, desk)
}
