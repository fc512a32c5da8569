//! Sizes of a deck.

use shapes::deck::{Deck, DeckFlange, DeckStation};
use units::Length;

use super::edge::edge_at;
use super::features;
use crate::convert::desk::{Desk, Range};
use crate::file::{DeckFile, Size};
use crate::place::Place;

pub(super) fn deck(file: &DeckFile, place: &Place, desk: &mut Desk<'_>) -> Option<Deck> {
    let stations = stations(&file.stations, &place.field("stations"), desk);
    let outboard = flange(file.outboard.as_ref(), &place.field("outboard"), desk);
    let inboard = flange(file.inboard.as_ref(), &place.field("inboard"), desk);
    let slit = desk.length(&place.field("slit"), &file.slit, Range::AboveZero);
    let splits_at = lengths(&file.splits_at, &place.field("splits_at"), Range::Any, desk);
    let mut optional =
        |name: &str, size: &Option<Size>| desk.optional(&place.field(name), size.as_ref(), Range::AboveZero);
    let frames_every = optional("frames_every", &file.frames_every);
    let longest = optional("longest", &file.longest);
    let backing_strip = optional("backing_strip", &file.backing_strip);
    let at = place.field("edges");
    let outboard_edge = edge_at(file.edges.outboard.as_ref(), &at.field("outboard"), desk);
    let inboard_edge = edge_at(file.edges.inboard.as_ref(), &at.field("inboard"), desk);
    Some(Deck {
        edges: [outboard_edge?, inboard_edge?],
        stations: stations?,
        outboard: outboard?,
        inboard: inboard?,
        slit: slit?,
        splits_at: splits_at?,
        frames_every: frames_every?,
        longest: longest?,
        backing_strip: backing_strip?,
    })
}

fn stations(files: &[[Size; 2]], place: &Place, desk: &mut Desk<'_>) -> Option<Vec<DeckStation>> {
    let station = |(number, [at, width]): (usize, &[Size; 2])| {
        let place = place.entry(number);
        let at = desk.length(&place.entry(0), at, Range::Any);
        let width = desk.length(&place.entry(1), width, Range::AboveZero);
        Some(DeckStation { at: at?, width: width? })
    };
    let stations: Vec<Option<DeckStation>> = files.iter().enumerate().map(station).collect();
    stations.into_iter().collect()
}

/// Every length of a list.
pub(super) fn lengths(
    files: &[Size],
    place: &Place,
    range: Range,
    desk: &mut Desk<'_>,
) -> Option<Vec<Length>> {
    let read = |(number, size): (usize, &Size)| desk.length(&place.entry(number), size, range);
    let lengths: Vec<Option<Length>> = files.iter().enumerate().map(read).collect();
    lengths.into_iter().collect()
}

/// The flange if one is given; the outer `None` is a finding.
pub(super) fn flange(
    text: Option<&String>,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Option<DeckFlange>> {
    let Some(text) = text else { return Some(None) };
    features::words(text, place, desk).map(|(leg, direction)| Some(DeckFlange { leg, direction }))
}
