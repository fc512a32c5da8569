//! Reading the rack, and making a new offcut. One reader judges both, so that what was added can always be read again.

use std::collections::BTreeSet;

use geometry::{polygon, tolerance};
use serde_json::Value;
use stock::{Film, Pattern, find_alloy};
use units::{Length, LengthUnit};

use super::super::desk::{Desk, Range, is_in_range};
use super::super::metals::alloy_remedy;
use super::super::shop_files::{LONGEST_MARK, LONGEST_TEXT, List, are_sound, desk, length, tree, with_unit};
use super::VERSION;
use super::blemishes::blemishes;
use super::offcut::{FaceState, Offcut, OffcutLay, OffcutMetal, Rack, Standing};
use crate::contents::contents;
use crate::file::{
    FaceStateFile, FilmFile, OffcutFile, OffcutLayFile, PatternFile, RackFile, SoundRackFile, TornFile,
};
use crate::message::Message;
use crate::place::{Findings, Place};
use crate::sheet_outline::points;

/// The largest rack that is read, megabytes. An offcut takes some 400 bytes.
const MOST_MEGABYTES: usize = 64;

/// An offcut as its owner gives it: lengths as written, with their units.
#[derive(Debug, Clone)]
pub struct NewOffcut {
    /// The shop's mark.
    pub mark: String,
    /// Alloy and temper.
    pub metal: String,
    /// True for tread plate.
    pub tread: bool,
    /// True for an alloy that the tables lack.
    pub unlisted: bool,
    /// Thickness.
    pub thickness: String,
    /// True when by caliper.
    pub measured: bool,
    /// Corners in order.
    pub outline: Vec<[String; 2]>,
    /// Corners of every hole.
    pub holes: Vec<Vec<[String; 2]>>,
    /// Zones that may not be used.
    pub torn: Vec<NewTornZone>,
    /// Film.
    pub film: Film,
    /// State of the face.
    pub face: FaceState,
    /// Lay.
    pub lay: OffcutLay,
    /// Where it stands.
    pub place: String,
    /// The job it is left from.
    pub from_job: Option<String>,
    /// The mark of the piece of the same rack that it was cut from.
    pub cut_from: Option<String>,
    /// When it came.
    pub date: String,
    /// Anything else.
    pub note: Option<String>,
}

/// A zone of an offcut that may not be used, as its owner gives it.
#[derive(Debug, Clone)]
pub struct NewTornZone {
    /// Corners in order.
    pub outline: Vec<[String; 2]>,
    /// Why not.
    pub why: String,
}

/// Reads a rack. `name` is only for messages.
///
/// # Errors
/// A [`Message`] for everything that is wrong, the mark of the offcut first; a rack of another version is refused whole.
pub fn read_rack(name: &str, bytes: &[u8]) -> Result<Rack, Vec<Message>> {
    let mut findings = Findings::new(name);
    let rack = rack(bytes, &mut findings);
    match rack {
        Some(rack) if findings.is_empty() => Ok(rack),
        _ => Err(findings.into_messages()),
    }
}

/// Judges a new offcut. Bare numbers count in `unit`; `name` is what messages call its source.
///
/// # Errors
/// A [`Message`] for everything that is wrong.
pub fn new_offcut(name: &str, new: &NewOffcut, unit: LengthUnit) -> Result<Offcut, Vec<Message>> {
    let with_unit = |text: &String| with_unit(text, unit);
    let ring = |corners: &Vec<[String; 2]>| -> Vec<[String; 2]> {
        corners.iter().map(|corner| corner.each_ref().map(with_unit)).collect()
    };
    let file = OffcutFile {
        mark: new.mark.clone(),
        metal: new.metal.clone(),
        pattern: new.tread.then_some(PatternFile::Tread),
        unlisted: new.unlisted,
        thickness: with_unit(&new.thickness),
        not_measured: !new.measured,
        outline: ring(&new.outline),
        holes: new.holes.iter().map(ring).collect(),
        torn: new
            .torn
            .iter()
            .map(|zone| TornFile { outline: ring(&zone.outline), why: zone.why.clone() })
            .collect(),
        film: match new.film {
            Film::Bare => FilmFile::Bare,
            Film::OneSide => FilmFile::OneSide,
            Film::BothSides => FilmFile::BothSides,
        },
        face: match new.face {
            FaceState::Good => FaceStateFile::Good,
            FaceState::Scratched => FaceStateFile::Scratched,
            FaceState::Unknown => FaceStateFile::Unknown,
        },
        lay: match new.lay {
            OffcutLay::AlongX => OffcutLayFile::AlongX,
            OffcutLay::AlongY => OffcutLayFile::AlongY,
            OffcutLay::None => OffcutLayFile::None,
            OffcutLay::Unknown => OffcutLayFile::Unknown,
        },
        place: new.place.clone(),
        from_job: new.from_job.clone(),
        cut_from: new.cut_from.clone(),
        date: new.date.clone(),
        reserved_for: None,
        taken_for: None,
        note: new.note.clone(),
    };
    let mut findings = Findings::new(name);
    match offcut(&file, &Place::default(), &mut findings) {
        Some(offcut) if findings.is_empty() => Ok(offcut),
        _ => Err(findings.into_messages()),
    }
}

fn rack(bytes: &[u8], findings: &mut Findings) -> Option<Rack> {
    let bytes = contents(bytes, MOST_MEGABYTES, "the rack", findings)?;
    if let Some(sound) = sound_rack(bytes) {
        return Some(sound);
    }
    let tree = tree(bytes, "rack", findings)?;
    let version = tree.get("plateloft_rack").and_then(Value::as_u64);
    if version != Some(VERSION) {
        let place = Place::top("plateloft_rack");
        let value = tree.get("plateloft_rack").map(ToString::to_string).unwrap_or_default();
        let wrong = match version {
            Some(newer) if newer > VERSION => {
                format!("this rack is of a newer version; version {VERSION} is read here")
            }
            Some(_) => format!("only version {VERSION} is read here"),
            None => format!("this is no rack: it lacks \"plateloft_rack\": {VERSION}"),
        };
        findings.add(&place, &value, wrong, "use the program that wrote it; nothing was changed");
        return None;
    }
    let file: RackFile = serde_json::from_value(tree)
        .map_err(|error| {
            findings.add(&Place::default(), "", error.to_string(), "mend it; nothing was changed");
        })
        .ok()?;
    let least = least(file.least.as_ref(), findings);
    let list =
        List { field: "offcuts", twice: ["stands in the rack twice", "give each piece a mark of its own"] };
    let offcuts = list.each(&file.offcuts, findings, |file: &OffcutFile| &file.mark, offcut);
    Some(Rack { least: least?, offcuts })
}

/// A rack without a fault, read straight through: thousands of offcuts are listed while one waits. Anything that is wrong
/// with it is found again by the long way, which can say where.
fn sound_rack(bytes: &[u8]) -> Option<Rack> {
    let file: SoundRackFile = serde_json::from_slice(bytes).ok()?;
    if file.plateloft_rack != VERSION {
        return None;
    }
    let mut findings = Findings::new("");
    let mut marks: BTreeSet<String> = BTreeSet::new();
    let place = Place::default();
    let mut offcuts = Vec::with_capacity(file.offcuts.len());
    for written in &file.offcuts {
        if !marks.insert(written.mark.to_lowercase()) {
            return None;
        }
        offcuts.push(offcut(written, &place, &mut findings)?);
    }
    let least = least(file.least.as_ref(), &mut findings)?;
    findings.is_empty().then_some(Rack { least, offcuts })
}

fn least(file: Option<&[String; 2]>, findings: &mut Findings) -> Option<Option<[Length; 2]>> {
    let Some([a, b]) = file else { return Some(None) };
    let mut desk = desk(findings);
    let place = Place::top("least");
    let first = length(&mut desk, &place.entry(0), a, Range::AboveZero);
    let second = length(&mut desk, &place.entry(1), b, Range::AboveZero);
    let (first, second) = (first?, second?);
    Some(Some([first.min(second), first.max(second)]))
}

fn offcut(file: &OffcutFile, place: &Place, findings: &mut Findings) -> Option<Offcut> {
    let mut desk = desk(findings);
    let texts = judge_texts(file, place, &mut desk);
    let metal = metal(file, place, &mut desk);
    let thickness = plain_length(&file.thickness, Range::Thickness)
        .or_else(|| length(&mut desk, &place.field("thickness"), &file.thickness, Range::Thickness));
    let outline = outline(&file.outline, &place.field("outline"), &mut desk);
    let blemishes = blemishes(file, outline.as_deref(), place, &mut desk);
    let standing = match (&file.reserved_for, &file.taken_for) {
        (None, None) => Standing::Free,
        (Some(job), None) => Standing::Reserved(job.clone()),
        (None, Some(job)) => Standing::Taken(job.clone()),
        (Some(_), Some(job)) => {
            let wrong = "is both reserved and taken";
            desk.add(&place.field("taken_for"), job, wrong, "take one of the two fields out");
            return None;
        }
    };
    let (metal, thickness, outline, (holes, torn)) = (metal?, thickness?, outline?, blemishes?);
    texts.then(|| Offcut {
        mark: file.mark.clone(),
        metal,
        thickness,
        measured: !file.not_measured,
        outline,
        holes,
        torn,
        film: match file.film {
            FilmFile::Bare => Film::Bare,
            FilmFile::OneSide => Film::OneSide,
            FilmFile::BothSides => Film::BothSides,
        },
        face: match file.face {
            FaceStateFile::Good => FaceState::Good,
            FaceStateFile::Scratched => FaceState::Scratched,
            FaceStateFile::Unknown => FaceState::Unknown,
        },
        lay: match file.lay {
            OffcutLayFile::AlongX => OffcutLay::AlongX,
            OffcutLayFile::AlongY => OffcutLay::AlongY,
            OffcutLayFile::None => OffcutLay::None,
            OffcutLayFile::Unknown => OffcutLay::Unknown,
        },
        place: file.place.clone(),
        from_job: file.from_job.clone(),
        cut_from: file.cut_from.clone(),
        date: file.date.clone(),
        standing,
        note: file.note.clone(),
    })
}

/// Marks, places and notes are short single lines; the date is one of the calendar.
fn judge_texts(file: &OffcutFile, place: &Place, desk: &mut Desk<'_>) -> bool {
    let others = [
        ("from_job", file.from_job.as_ref()),
        ("cut_from", file.cut_from.as_ref()),
        ("reserved_for", file.reserved_for.as_ref()),
        ("taken_for", file.taken_for.as_ref()),
        ("note", file.note.as_ref()),
    ];
    let given = others.into_iter().filter_map(|(field, text)| Some((field, text?, LONGEST_TEXT)));
    let texts = [("mark", &file.mark, LONGEST_MARK), ("place", &file.place, LONGEST_TEXT)];
    are_sound(texts.into_iter().chain(given), &file.date, place, desk)
}

fn metal(file: &OffcutFile, place: &Place, desk: &mut Desk<'_>) -> Option<OffcutMetal> {
    let here = || place.field("metal");
    let pattern = if file.pattern == Some(PatternFile::Tread) { Pattern::Tread } else { Pattern::Plain };
    match (find_alloy(&file.metal), file.unlisted) {
        (Ok(found), false) => Some(OffcutMetal {
            alloy: found.alloy.name.clone(),
            temper: found.temper.map(str::to_owned),
            unlisted: false,
            pattern,
        }),
        (Ok(_), true) => {
            desk.add(&here(), &file.metal, "the tables do have this alloy", "do not call it unlisted");
            None
        }
        (Err(_), true) if !file.metal.trim().is_empty() && file.metal.chars().count() <= LONGEST_TEXT => {
            Some(OffcutMetal { alloy: file.metal.clone(), temper: None, unlisted: true, pattern })
        }
        (Err(error), _) => {
            let remedy = alloy_remedy(&error, &file.metal, "call it unlisted");
            desk.add(&here(), &file.metal, error.to_string(), remedy);
            None
        }
    }
}

/// A closed outline by its corners.
pub(super) fn outline(file: &[[String; 2]], place: &Place, desk: &mut Desk<'_>) -> Option<Vec<[Length; 2]>> {
    let read = |desk: &mut Desk<'_>, number: usize, axis: usize, text: &str| {
        plain_length(text, Range::Any)
            .or_else(|| length(desk, &place.entry(number).entry(axis), text, Range::Any))
    };
    let corners: Vec<Option<[Length; 2]>> = file
        .iter()
        .enumerate()
        .map(|(number, [x, y])| {
            let (x, y) = (read(desk, number, 0, x), read(desk, number, 1, y));
            Some([x?, y?])
        })
        .collect();
    let corners: Vec<[Length; 2]> = corners.into_iter().collect::<Option<_>>()?;
    let points = points(&corners);
    let value = || format!("{} corners", corners.len());
    if corners.len() < 3 {
        desk.add(place, &value(), "is no outline", "give its corners in order, three at least");
        return None;
    }
    if let Some((a, b)) = polygon::self_crossing(&points) {
        let wrong = format!("crosses itself: edge {} meets edge {}", a + 1, b + 1);
        desk.add(place, &value(), wrong, "give the corners in order round the piece");
        return None;
    }
    if polygon::signed_area(&points).abs() < tolerance::AREA_ROUNDING_MM2 {
        desk.add(place, &value(), "has no area", "give the corners in order round the piece");
        return None;
    }
    Some(corners)
}

/// A length that is as it should be: with its unit, and in range.
fn plain_length(text: &str, range: Range) -> Option<Length> {
    let [inches, millimetres] =
        [LengthUnit::Inch, LengthUnit::Millimetre].map(|unit| Length::read(text, unit).ok());
    // A length without a unit is two lengths, and none is neither.
    inches.filter(|length| inches == millimetres && is_in_range(*length, range))
}
