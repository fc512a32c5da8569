//! Bars, pipe and section.

use units::Length;

use super::desk::{Desk, ONE_PRICE, Range};
use crate::file::{BarFile, BarPieceFile, StickFile};
use crate::model::{BarPiece, JobBar, JobStick};
use crate::place::Place;

/// Every bar whose sizes can be read.
pub(super) fn bars(files: &[Option<BarFile>], desk: &mut Desk<'_>) -> Vec<JobBar> {
    let mut bars: Vec<JobBar> = Vec::new();
    for (number, file) in files.iter().enumerate() {
        let Some(file) = file else { continue };
        let place = Place::top("bars").entry(number);
        let before = bars.iter().map(|bar| &bar.name);
        desk.once(&place.field("bar"), &file.bar, before, "put its sticks and pieces under one entry");
        bars.extend(bar(file, &place, desk));
    }
    bars
}

fn bar(file: &BarFile, place: &Place, desk: &mut Desk<'_>) -> Option<JobBar> {
    let saw = |field: &str, size: Option<&_>, desk: &mut Desk<'_>| {
        desk.optional(&place.field(field), size, Range::ZeroOrMore)
    };
    let kerf = saw("kerf", file.kerf.as_ref(), desk);
    if file.kerf.is_none() {
        let wrong = "without it every cut would be taken off a piece, and bars have a saw of their own";
        let remedy =
            "measure a cut of the saw that cuts these bars and write its width, 0 where they are sheared";
        desk.add(&place.field("kerf"), "not given", wrong, remedy);
    }
    let end_trim = saw("end_trim", file.end_trim.as_ref(), desk);
    let keep_rest = saw("keep_rest", file.keep_rest.as_ref(), desk);
    let sticks: Vec<Option<JobStick>> = file
        .sticks
        .iter()
        .enumerate()
        .map(|(number, file)| stick(file, &place.field("sticks").entry(number), desk))
        .collect();
    judge_sizes(&sticks, &place.field("sticks"), desk);
    let pieces: Vec<Option<BarPiece>> = file
        .pieces
        .iter()
        .enumerate()
        .map(|(number, file)| piece(file, &place.field("pieces").entry(number), desk))
        .collect();
    Some(JobBar {
        name: file.bar.clone(),
        sticks: sticks.into_iter().collect::<Option<_>>()?,
        pieces: pieces.into_iter().collect::<Option<_>>()?,
        kerf: kerf??,
        end_trim: end_trim?.unwrap_or(Length::ZERO),
        keep_rest: keep_rest?,
    })
}

/// A length that can be bought without end has one price; what is at hand, or to be had a few times, may have another.
fn judge_sizes(sticks: &[Option<JobStick>], place: &Place, desk: &mut Desk<'_>) {
    let without_end = |stick: &JobStick| stick.count.is_none().then_some(stick.length);
    let lengths: Vec<Option<Length>> =
        sticks.iter().map(|stick| stick.as_ref().and_then(without_end)).collect();
    for (number, length) in lengths.iter().enumerate() {
        let (Some(length), Some(first)) =
            (length, lengths[..number].iter().position(|known| known == length))
        else {
            continue;
        };
        let wrong = format!("is given twice, first in sticks[{first}]");
        desk.add(&place.entry(number).field("length"), &length.print(desk.style), wrong, ONE_PRICE);
    }
}

fn stick(file: &StickFile, place: &Place, desk: &mut Desk<'_>) -> Option<JobStick> {
    let length = desk.length(&place.field("length"), &file.length, Range::AboveZero);
    let price = desk.optional_price(&place.field("price"), file.price.as_ref());
    if file.on_rack && file.count.is_none() {
        let remedy = "give the count of such pieces on the rack";
        desk.add(&place.field("count"), "not given", "the rack never holds as many as needed", remedy);
        return None;
    }
    Some(JobStick { length: length?, price: price?, count: file.count, on_rack: file.on_rack })
}

fn piece(file: &BarPieceFile, place: &Place, desk: &mut Desk<'_>) -> Option<BarPiece> {
    let length = desk.length(&place.field("length"), &file.length, Range::AboveZero)?;
    Some(BarPiece { mark: file.mark.clone(), length, quantity: file.quantity.unwrap_or(1) })
}
