//! Pairs: two hands of one part, exact or edited, and what sets an edited pair apart.

use job::HandEdit;
use serde_json::{Value, json};
use shapes::figure::corner_letter;
use units::Length;

use super::numbers::Numbers;
use super::words::area_words;
use crate::plan::{Flats, PlannedPart};

/// A part and its other hand.
struct Pair<'a> {
    this: &'a PlannedPart,
    other: &'a PlannedPart,
    edits: &'a [HandEdit],
    /// True when `this` is the one that was mirrored and edited.
    mirrored: bool,
}

impl<'a> Pair<'a> {
    fn of(flats: &'a Flats, part: &'a PlannedPart) -> Option<Self> {
        let named = |mark: &str| flats.parts.iter().find(|other| other.part.mark == mark);
        if let Some(original) = &part.part.opposite_hand_of {
            let edits = &part.part.hand_edits;
            return Some(Self { this: part, other: named(original)?, edits, mirrored: true });
        }
        let hand = |other: &&PlannedPart| other.part.opposite_hand_of.as_ref() == Some(&part.part.mark);
        let other = flats.parts.iter().find(hand)?;
        Some(Self { this: part, other, edits: &other.part.hand_edits, mirrored: false })
    }

    fn values<'b>(&self, edit: &'b HandEdit) -> (&'b str, &'b str) {
        if self.mirrored { (&edit.edited, &edit.original) } else { (&edit.original, &edit.edited) }
    }
}

/// What must stand on the paper of a part that is one of an edited pair, one sentence each.
pub(crate) fn notes(flats: &Flats, part: &PlannedPart) -> Vec<String> {
    let Some(pair) = Pair::of(flats, part).filter(|pair| !pair.edits.is_empty()) else { return Vec::new() };
    let (this, other) = (&pair.this.part.mark, &pair.other.part.mark);
    let sizes: Vec<String> = pair
        .edits
        .iter()
        .map(|edit| {
            let (own, others) = pair.values(edit);
            format!("{}: {own} here, {others} on {other}", place_words(&edit.field))
        })
        .collect();
    let original = if pair.mirrored { other } else { this };
    vec![
        format!("NOT AN EXACT PAIR with {other}. {}.", sizes.join("; ")),
        format!(
            "Blank {} here, {} on {other}.",
            blank_words(flats, pair.this),
            blank_words(flats, pair.other)
        ),
        format!(
            "Sizes of both hands are stated as on {original}; the other hand is mirrored after they are taken."
        ),
    ]
}

/// One sentence a pair that is not exact, for the head of the packet.
pub(crate) fn cautions(flats: &Flats) -> Vec<String> {
    let edited = flats.parts.iter().filter(|part| !part.part.hand_edits.is_empty());
    let sentence = |part: &PlannedPart| {
        let original = part.part.opposite_hand_of.clone().unwrap_or_default();
        let fields: Vec<String> = part.part.hand_edits.iter().map(|edit| place_words(&edit.field)).collect();
        format!(
            "{original} and {} are not an exact pair: {} differ; never mark one out from the other",
            part.part.mark,
            fields.join(", ")
        )
    };
    edited.map(sentence).collect()
}

/// A field in the words of the drawing: "corner C across" for `outline[2][1]`; others as they are written.
fn place_words(field: &str) -> String {
    let entries = field.strip_prefix("outline[").and_then(|rest| rest.strip_suffix(']'));
    let place = entries.and_then(|entries| {
        let (corner, axis) = entries.split_once("][")?;
        let way = match axis {
            "0" => "along",
            "1" => "across",
            _ => return None,
        };
        Some(format!("corner {} {way}", corner_letter(corner.parse().ok()?)))
    });
    place.unwrap_or_else(|| field.to_owned())
}

fn blank_words(flats: &Flats, part: &PlannedPart) -> String {
    let print = |millimetres: f64| Length::from_millimetres(millimetres).print(flats.job.style);
    let (length, width) = part.flat.extents_mm();
    format!("{} × {}, {}", print(length), print(width), area_words(flats, part.area))
}

/// The pair as JSON; `null` for a part without another hand.
pub(crate) fn pair_json(flats: &Flats, part: &PlannedPart) -> Value {
    let numbers = Numbers::of(&flats.job);
    let Some(pair) = Pair::of(flats, part) else { return Value::Null };
    let differs = pair.edits.iter().map(|edit| {
        let (own, others) = pair.values(edit);
        json!({ "field": edit.field, "this": own, "other": others })
    });
    let blank = |part: &PlannedPart| {
        let (length, width) = part.flat.extents_mm();
        json!({ "blank": [numbers.millimetres(length), numbers.millimetres(width)], "area": numbers.area(part.area) })
    };
    json!({
        "with": pair.other.part.mark,
        "exact": pair.edits.is_empty(),
        "differs": differs.collect::<Vec<_>>(),
        "this": blank(pair.this),
        "other": blank(pair.other),
    })
}
