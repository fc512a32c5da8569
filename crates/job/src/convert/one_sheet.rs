//! Parts that come from one sheet.

use super::desk::Desk;
use super::marks::part_or_pieces;
use crate::file::OneSheetFile;
use crate::model::{OneSheet, Part};
use crate::place::Place;

/// Every group whose parts are found.
pub(super) fn one_sheet(
    files: &[Option<OneSheetFile>],
    parts: &[Part],
    desk: &mut Desk<'_>,
) -> Vec<OneSheet> {
    let mut groups: Vec<OneSheet> = Vec::new();
    for (number, file) in files.iter().enumerate() {
        let Some(file) = file else { continue };
        let place = Place::top("one_sheet").entry(number).field("parts");
        if let Some(group) = group(file, parts, &groups, &place, desk) {
            groups.push(group);
        }
    }
    groups
}

fn group(
    file: &OneSheetFile,
    parts: &[Part],
    groups: &[OneSheet],
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<OneSheet> {
    let mut own: Vec<usize> = Vec::new();
    for (number, mark) in file.parts.iter().enumerate() {
        let place = place.entry(number);
        let found = part_or_pieces(mark, parts, &place, desk)?;
        let first = found[0];
        if own.contains(&first) || groups.iter().any(|group| group.parts.contains(&first)) {
            desk.add(
                &place,
                mark,
                "comes from one sheet with others already",
                "name each part once in one_sheet",
            );
            return None;
        }
        if own.first().is_some_and(|&other| parts[other].metal != parts[first].metal) {
            let remedy = "keep together parts of one metal only";
            desk.add(&place, mark, format!("is of another metal than {}", file.parts[0]), remedy);
            return None;
        }
        own.extend(found);
    }
    Some(OneSheet { parts: own, same_turn: file.same_turn })
}
