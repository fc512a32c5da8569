//! Sizes of a step or platform top.

use shapes::rolled_pipe::RolledPipe;
use shapes::step::{Pad, Step, StepPipe};
use units::Length;

use super::features;
use crate::convert::desk::{Desk, Range};
use crate::file::{PadFile, Size, StepFile, StepPipeFile};
use crate::place::Place;

pub(super) fn step(file: &StepFile, place: &Place, desk: &mut Desk<'_>) -> Option<Step> {
    let size = desk.pair(&place.field("size"), &file.size, Range::AboveZero);
    let flange = match &file.flange {
        Some(flange) => features::flange("AB", flange, &place.field("flange"), desk).map(Some),
        None => Some(None),
    };
    let pipe = match &file.pipe {
        Some(pipe) => step_pipe(pipe, &place.field("pipe"), desk).map(Some),
        None => Some(None),
    };
    let holes = features::holes(&file.holes, &place.field("holes"), desk);
    let at = place.field("pads");
    let read = |(number, pad)| self::pad(pad, &at.entry(number), desk);
    let pads: Vec<Option<Pad>> = file.pads.iter().enumerate().map(read).collect();
    Some(Step {
        size: size?,
        flange: flange?,
        pipe: pipe?,
        holes: holes?,
        pads: pads.into_iter().collect::<Option<_>>()?,
    })
}

fn step_pipe(file: &StepPipeFile, place: &Place, desk: &mut Desk<'_>) -> Option<StepPipe> {
    let diameter = desk.length(&place.field("outside_diameter"), &file.outside_diameter, Range::AboveZero);
    let radius = desk.length(&place.field("radius"), &file.radius, Range::AboveZero);
    let tails = match &file.tails {
        Some(tails) => desk.pair(&place.field("tails"), tails, Range::ZeroOrMore),
        None => Some([Length::ZERO; 2]),
    };
    let pipe = RolledPipe { outside_diameter: diameter?, radius: radius? };
    Some(StepPipe { name: file.name.clone(), pipe, tails: tails? })
}

fn pad(file: &PadFile, place: &Place, desk: &mut Desk<'_>) -> Option<Pad> {
    let size = desk.pair(&place.field("size"), &file.size, Range::AboveZero)?;
    let field = place.field("at");
    let read = |(number, at): (usize, &[Size; 2])| desk.pair(&field.entry(number), at, Range::ZeroOrMore);
    let at: Vec<Option<[Length; 2]>> = file.at.iter().flatten().enumerate().map(read).collect();
    Some(Pad { size, count: file.count.unwrap_or(1), at: at.into_iter().collect::<Option<_>>()? })
}
