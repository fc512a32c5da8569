//! The small picture of the folded part at one size, with its names and what is said under it.

use std::collections::BTreeSet;

use geometry::{Point, Vector, polygon};

use super::super::PartSheet;
use crate::drawing::NAMES_EM;
use crate::folded_sheet::labels::Labels;
use crate::folded_sheet::small::{Names, Sighted};
use crate::isometric::{self, Folded, LineKind, ViewLine};
use crate::page::{self, Anchor, Item, Text};

/// Under every picture.
const NOT_TO_SCALE: &str = "folded, not to scale";

/// Under one with letters in brackets.
const IN_BRACKETS: &str = "in brackets: behind metal";

/// Lines nearer to a heavier one than this, both in text heights, would run into it on a photocopy, and are left out; but not so
/// short a line as the pieces of a curve are.
const NEAR_EM: f64 = 0.28;
const LEAST_EM: f64 = 1.0;

/// The picture with its larger extent so many text heights long: once with its words under it, once with them beside it.
pub(super) fn items(
    (sheet, folded): (&PartSheet<'_>, &Folded),
    sighted: &Sighted<'_>,
    on_flat: &BTreeSet<&str>,
    (size_em, names): (f64, Names),
    text_mm: f64,
) -> [Vec<Item>; 2] {
    let (low, high) = folded.bounds();
    let scale = size_em * text_mm / (high.x - low.x).max(high.y - low.y);
    let own_text_mm = text_mm / scale;
    let lines = legible(&folded.lines, own_text_mm);
    let labels = labels((sheet, folded), own_text_mm);
    let small = labels.small((sighted, &lines), (on_flat, sheet.mark), names);
    let group = |name: &str, items: Vec<Item>| {
        let items = items.iter().map(|item| item.scaled(scale)).collect();
        Item::group(format!("{} {name}", sheet.mark), items)
    };
    let drawn =
        [group("folded view", isometric::drawn(&lines, |at| at)), group("folded labels", small.items)];
    let words = words(sheet, folded, small.in_brackets);
    let (low, high) = page::bounds(&drawn).unwrap_or_default();
    let size_mm = NAMES_EM * text_mm;
    let deep_mm = LINE_EM * size_mm * words.iter().fold(0.0, |lines, _| lines + 1.0);
    let under = (Point::new(0.5 * (low.x + high.x), low.y - 0.4 * text_mm), Anchor::Middle);
    let beside = (Point::new(high.x + text_mm, 0.5 * (low.y + high.y + deep_mm)), Anchor::Start);
    [under, beside].map(|(head, anchor)| {
        let mut at = head;
        let lines = words.iter().map(|words| {
            at = at + Vector::new(0.0, -LINE_EM * size_mm);
            let text = Text::new(at, words.as_str(), size_mm).anchored(anchor);
            Item::Text(if words == NOT_TO_SCALE { text.bold() } else { text })
        });
        let group = Item::group(format!("{} folded words", sheet.mark), lines.collect());
        drawn.iter().cloned().chain([group]).collect()
    })
}

/// The labels of the view with ordinary text of this height, mm of the part.
fn labels<'a>((sheet, folded): (&PartSheet<'a>, &'a Folded), text_mm: f64) -> Labels<'a> {
    let Folded { facets, view, .. } = folded;
    Labels { flat: sheet.flat, facets, named: sheet.named, view: *view, text_mm }
}

/// What is seen of the part.
pub(super) fn sighted<'a>((sheet, folded): (&PartSheet<'a>, &'a Folded)) -> Sighted<'a> {
    labels((sheet, folded), sheet.flat.thickness_mm).sighted()
}

/// From line to line of the words, in heights of their text.
const LINE_EM: f64 = 1.25;

/// What is said of the picture.
fn words(sheet: &PartSheet<'_>, folded: &Folded, in_brackets: bool) -> Vec<String> {
    let way = if 0.0 < folded.view.toward.z { "up" } else { "down" };
    let mut words = vec![NOT_TO_SCALE.to_owned()];
    words.extend(sheet.flat.faces.first().map(|root| format!("{}: drawn side {way}", root.name)));
    words.extend(in_brackets.then(|| IN_BRACKETS.to_owned()));
    words
}

/// The lines as they can be told apart on a photocopy: tangent lines as wide as edges, and none close beside a heavier one.
fn legible(lines: &[ViewLine], text_mm: f64) -> Vec<ViewLine> {
    let mut sorted: Vec<ViewLine> = lines.to_vec();
    let length = |line: &ViewLine| line.ends[0].distance(line.ends[1]);
    sorted.sort_by(|a, b| a.kind.cmp(&b.kind).then(length(b).total_cmp(&length(a))));
    let mut kept: Vec<ViewLine> = Vec::new();
    for line in sorted {
        let is_beside = |other: &ViewLine| {
            let ends = (other.ends[0], other.ends[1]);
            line.ends.iter().all(|&end| polygon::point_to_segment(end, ends) < NEAR_EM * text_mm)
        };
        let is_short = length(&line) < LEAST_EM * text_mm;
        if line.kind == LineKind::Outline || is_short || !kept.iter().any(is_beside) {
            let kind = if line.kind == LineKind::Tangent { LineKind::Edge } else { line.kind };
            kept.push(ViewLine { kind, ..line });
        }
    }
    kept
}
