//! Opposite hands that are edited after mirroring: each becomes a part of its own before anything else is read.
//!
//! The edited fields are stated in the original's own terms: width from the same edge, corners in the same order, the
//! same letters. They take the place of the original's fields and the whole is mirrored afterwards, so that a tape read
//! on the other side of the boat is written down as it reads there, with no sum in the head.

use serde_json::{Map, Value};

use super::tree::Step;
use crate::model::HandEdit;
use crate::place::{Findings, Place};

/// Fields that make a part what it is and cannot be edited in its opposite hand.
const FIXED: [&str; 3] = ["mark", "shape", "opposite_hand"];

/// Fields that may differ between the hands of an exact pair: more of one hand, or turned otherwise on the sheet, are still its
/// mirror images.
const NO_SIZE: [&str; 4] = ["quantity", "turns", "turn_every", "turns_at"];

/// An edited opposite hand.
#[derive(Debug, Clone)]
pub(crate) struct EditedHand {
    /// The part it mirrors, by its place in the file.
    pub(crate) original: usize,
    /// The edited part, by its place behind those of the file.
    pub(crate) edited: usize,
    /// The fields that are edited.
    fields: Vec<String>,
    /// Every size that differs; nothing where the hands are an exact pair.
    pub(crate) edits: Vec<HandEdit>,
}

/// The edited opposite hands of a job.
#[derive(Debug, Default)]
pub(crate) struct Hands(pub(crate) Vec<EditedHand>);

impl Hands {
    /// The edited opposite hand of a part.
    pub(crate) fn of(&self, original: usize) -> Option<&EditedHand> {
        self.0.iter().find(|hand| hand.original == original)
    }

    /// True for a part that was made up here.
    pub(crate) fn is_edited(&self, part: usize) -> bool {
        self.0.iter().any(|hand| hand.edited == part)
    }

    /// The fields of a part that stand in the edit of an opposite hand; none for any other part.
    pub(crate) fn edited_fields(&self, part: usize) -> &[String] {
        self.0.iter().find(|hand| hand.edited == part).map_or(&[], |hand| hand.fields.as_slice())
    }

    /// True when steps lead into a field that an edited part has from its original, where it was judged already.
    pub(super) fn repeats(&self, steps: &[Step]) -> bool {
        let [Step::Field(parts), Step::Entry(number), Step::Field(field), ..] = steps else { return false };
        let edited = self.0.iter().find(|hand| hand.edited == *number);
        parts == "parts" && edited.is_some_and(|hand| !hand.fields.contains(field))
    }
}

/// Adds the edited opposite hands behind the parts of the file.
pub(super) fn spread(tree: &mut Value, findings: &mut Findings) -> Hands {
    let mut hands = Hands::default();
    let Some(Value::Array(parts)) = tree.get_mut("parts") else { return hands };
    for original in 0..parts.len() {
        let Some(Written { part, mark, edit }) = written(&parts[original]) else { continue };
        let own = part.get("mark").and_then(Value::as_str).unwrap_or_default();
        let place = Place::part(own).field("opposite_hand").field("edit");
        let edits = differences(part, edit);
        if !judged(edit, &edits, &place, findings) {
            continue;
        }
        let merged = merged(part, mark, edit);
        let fields = edit.keys().cloned().collect();
        let edits = edits.into_iter().filter(|edit| !NO_SIZE.contains(&edit.field.as_str())).collect();
        hands.0.push(EditedHand { original, edited: parts.len(), fields, edits });
        parts.push(Value::Object(merged));
    }
    hands
}

/// A part as it is written, the mark of its opposite hand, and what is edited there.
struct Written<'a> {
    part: &'a Map<String, Value>,
    mark: &'a str,
    edit: &'a Map<String, Value>,
}

fn written(part: &Value) -> Option<Written<'_>> {
    let hand = part.get("opposite_hand")?;
    Some(Written {
        part: part.as_object()?,
        mark: hand.get("mark")?.as_str()?,
        edit: hand.get("edit")?.as_object()?,
    })
}

/// False when the edit cannot be taken.
fn judged(edit: &Map<String, Value>, edits: &[HandEdit], place: &Place, findings: &mut Findings) -> bool {
    let fixed: Vec<&str> = FIXED.into_iter().filter(|name| edit.contains_key(*name)).collect();
    for name in &fixed {
        let remedy = "take it out; a part of another shape is a part of its own";
        findings.add(&place.field(name), "", "both hands have this in common", remedy);
    }
    if fixed.is_empty() && edits.is_empty() {
        let remedy =
            "write the mark alone for an exact pair, or the fields as they were taped on the other side";
        findings.add(place, "", "nothing in it differs from the part itself", remedy);
    }
    fixed.is_empty() && !edits.is_empty()
}

fn merged(part: &Map<String, Value>, mark: &str, edit: &Map<String, Value>) -> Map<String, Value> {
    let mut merged = part.clone();
    merged.shift_remove("opposite_hand");
    merged.insert("mark".to_owned(), Value::from(mark));
    for (name, value) in edit {
        merged.insert(name.clone(), value.clone());
    }
    merged
}

/// Every single value that differs, by its path inside the part; notes are not sizes.
fn differences(part: &Map<String, Value>, edit: &Map<String, Value>) -> Vec<HandEdit> {
    let mut edits = Vec::new();
    for (name, value) in edit.iter().filter(|(name, _)| !crate::schema::NOTES.contains(&name.as_str())) {
        compare(name, part.get(name), Some(value), &mut edits);
    }
    for edit in &mut edits {
        edit.station = station(part, &edit.field);
    }
    edits
}

/// Where the row stands that a path such as `stations[4][1]` leads into, as written: its first entry.
fn station(part: &Map<String, Value>, field: &str) -> Option<String> {
    let (name, rest) = field.split_once('[')?;
    if !["stations", "waterlines"].contains(&name) {
        return None;
    }
    let row: usize = rest.split_once(']')?.0.parse().ok()?;
    Some(words(part.get(name)?.get(row)?.get(0)))
}

/// A value as it is written.
fn words(value: Option<&Value>) -> String {
    match value {
        None => "none".to_owned(),
        Some(Value::String(text)) => crate::message::shown(text),
        Some(other) => crate::message::shown(&other.to_string()),
    }
}

pub(super) fn compare(path: &str, first: Option<&Value>, second: Option<&Value>, edits: &mut Vec<HandEdit>) {
    match (first, second) {
        (Some(Value::Array(a)), Some(Value::Array(b))) => {
            for number in 0..a.len().max(b.len()) {
                compare(&format!("{path}[{number}]"), a.get(number), b.get(number), edits);
            }
        }
        (Some(Value::Object(a)), Some(Value::Object(b))) => {
            let more = b.keys().filter(|name| !a.contains_key(*name));
            for name in a.keys().chain(more) {
                compare(&format!("{path}.{name}"), a.get(name), b.get(name), edits);
            }
        }
        (first, second) if first != second => {
            edits.push(HandEdit {
                field: path.to_owned(),
                station: None,
                original: words(first),
                edited: words(second),
            });
        }
        _ => {}
    }
}
