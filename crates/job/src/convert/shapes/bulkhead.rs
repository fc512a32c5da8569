//! Sizes of a bulkhead.

use shapes::bulkhead::{Bulkhead, BulkheadEdge, BulkheadFlange, LimberHole, Waterline};

use super::features;
use crate::convert::desk::{Desk, Range};
use crate::file::{BulkheadFile, LimberHoleFile, Named, Size};
use crate::place::Place;

pub(super) fn bulkhead(file: &BulkheadFile, place: &Place, desk: &mut Desk<'_>) -> Option<Bulkhead> {
    let lines = place.field("waterlines");
    let waterlines: Vec<Option<Waterline>> = file
        .waterlines
        .iter()
        .enumerate()
        .map(|(number, file)| waterline(file, &lines.entry(number), desk))
        .collect();
    let flanges = flanges(&file.flanges, &place.field("flanges"), desk);
    let slit = desk.length(&place.field("slit"), &file.slit, Range::AboveZero);
    let limbers = place.field("limber_holes");
    let limber_holes: Vec<Option<LimberHole>> = file
        .limber_holes
        .iter()
        .enumerate()
        .map(|(number, file)| limber(file, &limbers.entry(number), desk))
        .collect();
    let holes = features::holes(&file.holes, &place.field("holes"), desk);
    Some(Bulkhead {
        waterlines: waterlines.into_iter().collect::<Option<_>>()?,
        flanges: flanges?,
        slit: slit?,
        limber_holes: limber_holes.into_iter().collect::<Option<_>>()?,
        holes: holes?,
    })
}

/// Height and half-breadth, or height and the half-breadths to port and starboard.
fn waterline(file: &[Size], place: &Place, desk: &mut Desk<'_>) -> Option<Waterline> {
    let (height, port, starboard) = match file {
        [height, breadth] => (height, breadth, None),
        [height, port, starboard] => (height, port, Some(starboard)),
        _ => {
            let wrong = "a waterline is a height and one half-breadth, or one to port and one to starboard";
            desk.add(place, &file.len().to_string(), wrong, "give two sizes, or three");
            return None;
        }
    };
    let height = desk.length(&place.entry(0), height, Range::Any);
    let port = desk.length(&place.entry(1), port, Range::ZeroOrMore);
    let starboard = match starboard {
        Some(starboard) => desk.length(&place.entry(2), starboard, Range::ZeroOrMore),
        None => port,
    };
    Some(Waterline { height: height?, port: port?, starboard: starboard? })
}

fn flanges(named: &Named<String>, place: &Place, desk: &mut Desk<'_>) -> Option<Vec<BulkheadFlange>> {
    let edges = [BulkheadEdge::Port, BulkheadEdge::Starboard, BulkheadEdge::Top, BulkheadEdge::Bottom];
    let flange = |(name, text): &(String, String)| {
        let here = place.field(name);
        let edge = edges.into_iter().find(|edge| edge.words() == name);
        if edge.is_none() {
            desk.add(
                &here,
                text,
                "a bulkhead has no such edge",
                "the edges are port, starboard, top and bottom",
            );
        }
        let (leg, direction) = features::words(text, &here, desk)?;
        Some(BulkheadFlange { edge: edge?, leg, direction })
    };
    let flanges: Vec<Option<BulkheadFlange>> = named.0.iter().map(flange).collect();
    flanges.into_iter().collect()
}

fn limber(file: &LimberHoleFile, place: &Place, desk: &mut Desk<'_>) -> Option<LimberHole> {
    let from_centre = desk.length(&place.field("from_centre"), &file.from_centre, Range::Any);
    let diameter = desk.length(&place.field("diameter"), &file.diameter, Range::AboveZero);
    Some(LimberHole { from_centre: from_centre?, diameter: diameter? })
}
