//! Pairs: two hands of one part, exact or edited, and what sets an edited pair apart.

use job::{HandEdit, ShapeInput};
use serde_json::{Value, json};
use shapes::figure::corner_letter;
use units::Length;

use super::numbers::Numbers;
use super::same_blank;
use super::words::{area_words, spelled};
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

    /// Every size on this very piece that differs: its place, its value here, its value on the other hand. A deck in pieces
    /// has its stations spread over them, and a backing strip has none.
    fn differing(&self, flats: &Flats) -> Vec<(String, String, String)> {
        let row = |edit: &HandEdit| {
            let (own, others) = self.values(edit);
            (place_words(edit), value_words(own), value_words(others))
        };
        let widths = self.widths(flats);
        let kept = |edit: &&HandEdit| widths.is_none() || !edit.field.starts_with("stations[");
        let mut rows: Vec<_> = self.edits.iter().filter(kept).map(row).collect();
        rows.extend(widths.unwrap_or_default());
        if let Some(apart_mm) = self.cuts_apart_mm() {
            // Both close as asked; where plates meet at a point, what is cut clear may fall to either of two edges.
            let apart = Length::from_millimetres(apart_mm).print(flats.job.style);
            let place = format!("corner cuts, up to {apart} apart");
            rows.push((place, "as drawn".to_owned(), "as drawn there".to_owned()));
        }
        rows
    }

    /// How far corner cuts of hands that are the same in every size lie apart; `None` where they do not.
    fn cuts_apart_mm(&self) -> Option<f64> {
        self.edits.is_empty().then(|| same_blank::apart_mm(&self.this.flat, &self.other.flat)).flatten()
    }

    /// What differs by the stations on a piece of a deck; `None` for any other part, or where the stations stand elsewhere.
    fn widths(&self, flats: &Flats) -> Option<Vec<(String, String, String)>> {
        let piece = self.this.part.piece_of.as_ref()?.number;
        let (ShapeInput::Deck(own), ShapeInput::Deck(others)) =
            (&self.this.part.shape, &self.other.part.shape)
        else {
            return None;
        };
        let print = |length: Length| length.print(flats.job.style);
        let (own, others) = (own.stations_on(piece), others.stations_on(piece));
        if own.is_empty() {
            let long = |part: &PlannedPart| print(Length::from_millimetres(part.flat.extents_mm().0));
            let row = ("length of the strip".to_owned(), long(self.this), long(self.other));
            return Some(if row.1 == row.2 { Vec::new() } else { vec![row] });
        }
        let alike = own.len() == others.len() && own.iter().zip(&others).all(|(a, b)| a.at == b.at);
        let pairs = own.iter().zip(&others).filter(|(a, b)| a.width != b.width);
        alike.then(|| {
            pairs.map(|(a, b)| (station_width(&print(a.at)), print(a.width), print(b.width))).collect()
        })
    }

    fn values<'b>(&self, edit: &'b HandEdit) -> (&'b str, &'b str) {
        if self.mirrored { (&edit.edited, &edit.original) } else { (&edit.original, &edit.edited) }
    }
}

/// True of a part whose opposite hand is the same piece of metal, but for what is marked on it.
pub(crate) fn is_one_piece_for_both(flats: &Flats, part: &PlannedPart) -> bool {
    Pair::of(flats, part).is_some_and(|pair| {
        pair.differing(flats).is_empty() && same_blank::is_one(&pair.this.flat, &pair.other.flat)
    })
}

/// What the label of a part that is one of a pair says of its opposite hand.
pub(crate) fn on_a_label(flats: &Flats, part: &PlannedPart) -> Option<String> {
    let pair = Pair::of(flats, part)?;
    let other = &pair.other.part.mark;
    if !pair.differing(flats).is_empty() {
        return Some(format!("its opposite hand is {other}: not alike, NOT AN EXACT PAIR"));
    }
    Some(same_blank::on_a_label(&pair.this.flat, &pair.other.flat, other))
}

/// What must stand on the paper of a part that is one of a pair, one sentence each: what sets an edited pair apart, and what
/// differs where the blanks of both hands are one.
pub(crate) fn notes(flats: &Flats, part: &PlannedPart) -> Vec<String> {
    let Some(pair) = Pair::of(flats, part) else { return Vec::new() };
    let differing = pair.differing(flats);
    if differing.is_empty() {
        let (this, other) = (&pair.this.part.mark, &pair.other.part.mark);
        return same_blank::words(&pair.this.flat, &pair.other.flat, [this, other]).into_iter().collect();
    }
    let (this, other) = (&pair.this.part.mark, &pair.other.part.mark);
    let sizes: Vec<String> = differing
        .iter()
        .map(|(place, own, others)| format!("{place}: {own} here, {others} on {other}"))
        .collect();
    let (from, to) = if pair.mirrored { (other, this) } else { (this, other) };
    vec![
        format!("NOT AN EXACT PAIR with {other}. {}.", sizes.join("; ")),
        format!(
            "Blank {} here, {} on {other}.",
            blank_words(flats, pair.this),
            blank_words(flats, pair.other)
        ),
        format!(
            "Sides and corners in these lines go by {from}; {to} is laid out as its mirror image, with its own sizes: what lies \
             left on one lies right on the other."
        ),
    ]
}

/// False for a part that differs in size from its other hand.
pub(crate) fn is_exact(flats: &Flats, part: &PlannedPart) -> bool {
    Pair::of(flats, part).is_none_or(|pair| pair.differing(flats).is_empty())
}

/// "SDP, not an exact pair": the part that this one mirrors, for its title and its label.
pub(crate) fn mirrored_words(flats: &Flats, part: &PlannedPart) -> Option<String> {
    let other = part.part.opposite_hand_of.as_ref()?;
    let exact = if is_exact(flats, part) { "" } else { ", not an exact pair" };
    Some(format!("{other}{exact}"))
}

/// One sentence a pair that is not exact, for the head of the packet.
pub(crate) fn cautions(flats: &Flats) -> Vec<String> {
    let hands = flats.parts.iter().filter(|part| part.part.opposite_hand_of.is_some());
    let sentence = |part: &PlannedPart| {
        let original = part.part.opposite_hand_of.clone().unwrap_or_default();
        let differing = Pair::of(flats, part)?.differing(flats);
        let fields: Vec<String> = differing.into_iter().map(|(place, ..)| place).collect();
        (!fields.is_empty()).then(|| {
            format!(
                "{original} and {} are not an exact pair: {} differ; never mark one out from the other",
                part.part.mark,
                fields.join(", ")
            )
        })
    };
    hands.filter_map(sentence).collect()
}

/// A field in the words of the drawing: "corner C across" for `outline[2][1]`, "station 60: width" for `stations[4][1]`.
fn place_words(edit: &HandEdit) -> String {
    let (name, rest) = edit.field.split_once('[').unwrap_or((&edit.field, ""));
    let entries = rest.strip_suffix(']').and_then(|rest| rest.split_once("]["));
    let entries = entries.and_then(|(row, entry)| Some((row.parse::<usize>().ok()?, entry)));
    let known = entries.and_then(|(row, entry)| match (name, entry, &edit.station) {
        ("outline", "0", _) => Some(format!("corner {} along", corner_letter(row))),
        ("outline", "1", _) => Some(format!("corner {} across", corner_letter(row))),
        ("stations", "0", _) => Some(format!("station no. {} from aft: where it stands", row + 1)),
        ("stations", _, Some(at)) => Some(station_width(at)),
        ("waterlines", "0", _) => Some(format!("waterline no. {} from the lowest: its height", row + 1)),
        ("waterlines", "2", Some(at)) => Some(format!("waterline {at}: half-breadth to starboard")),
        ("waterlines", _, Some(at)) => Some(format!("waterline {at}: half-breadth")),
        _ => None,
    });
    known.unwrap_or_else(|| spelled(&edit.field))
}

/// What a field of the job holds, as a list of sizes: "at 5 and 6, diameter 1" for a hole. A plain value stays as it is written.
fn value_words(written: &str) -> String {
    let whole =
        written.starts_with(['{', '[']).then(|| serde_json::from_str::<Value>(written).ok()).flatten();
    whole.map_or_else(|| written.to_owned(), |value| words_of(&value))
}

fn words_of(value: &Value) -> String {
    match value {
        Value::Object(fields) => {
            let field = |(name, value): (&String, &Value)| format!("{} {}", spelled(name), words_of(value));
            fields.iter().map(field).collect::<Vec<_>>().join(", ")
        }
        Value::Array(all) => all.iter().map(words_of).collect::<Vec<_>>().join(" and "),
        Value::String(text) => text.clone(),
        other => other.to_string(),
    }
}

fn station_width(at: &str) -> String {
    format!("station {at}: width from the inboard edge")
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
        "exact": is_exact(flats, part),
        "differs": differs.collect::<Vec<_>>(),
        "corner_cuts_apart": pair.cuts_apart_mm().map(|apart| numbers.millimetres(apart)),
        "this": blank(pair.this),
        "other": blank(pair.other),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_that_differ_are_named_as_the_drawing_names_them() {
        let words = |field: &str, station: Option<&str>| {
            place_words(&HandEdit {
                field: field.to_owned(),
                station: station.map(str::to_owned),
                original: String::new(),
                edited: String::new(),
            })
        };
        assert_eq!(words("outline[2][1]", None), "corner C across");
        assert_eq!(words("stations[4][1]", Some("60")), "station 60: width from the inboard edge");
        assert_eq!(words("waterlines[0][2]", Some("5")), "waterline 5: half-breadth to starboard");
        assert_eq!(words("flanges.AB[0]", None), "flanges, AB, no. 1");
        assert_eq!(words("hinge_side", None), "hinge side");
    }

    #[test]
    fn what_only_one_hand_has_reads_as_sizes() {
        assert_eq!(value_words(r#"{"at":["5","6 1/2"],"diameter":"1"}"#), "at 5 and 6 1/2, diameter 1");
        assert_eq!(value_words("40 1/4"), "40 1/4");
        assert_eq!(value_words("none"), "none");
    }
}
