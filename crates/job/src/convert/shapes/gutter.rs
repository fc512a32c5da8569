//! Sizes of a gutter.

use shapes::gutter::{Gutter, GutterDrain, GutterSpout};
use units::Length;

use super::openings;
use crate::convert::desk::{Desk, Range};
use crate::convert::openings::Openings;
use crate::file::{GutterFile, GutterSpoutFile};
use crate::place::Place;

pub(super) fn gutter(
    file: &GutterFile,
    openings: &Openings,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Gutter> {
    let opening = openings::figure(&file.opening, openings, &place.field("opening"), desk);
    let outset = desk.optional(&place.field("outset"), file.outset.as_ref(), Range::Any);
    let width = desk.length(&place.field("width"), &file.width, Range::Channel);
    let depth = desk.length(&place.field("depth"), &file.depth, Range::Channel);
    let inner = desk.optional(&place.field("inner_depth"), file.inner_depth.as_ref(), Range::Channel);
    let drain = match &file.drain {
        None => Some(None),
        Some(drain) => {
            let field = place.field("drain").field("diameter");
            let diameter = desk.length(&field, &drain.diameter, Range::Drain);
            let spout = match &drain.spout {
                None => Some(None),
                Some(file) => spout(file, &place.field("drain").field("spout"), desk).map(Some),
            };
            let drain =
                |spout| Some(GutterDrain { corner: drain.corner.clone(), diameter: diameter?, spout });
            spout.and_then(drain).map(Some)
        }
    };
    let depth = depth?;
    Some(Gutter {
        opening: opening?,
        outset: outset?.unwrap_or(Length::ZERO),
        width: width?,
        depth,
        inner_depth: inner?.unwrap_or(depth),
        drain: drain?,
    })
}

fn spout(file: &GutterSpoutFile, place: &Place, desk: &mut Desk<'_>) -> Option<GutterSpout> {
    let length = desk.length(&place.field("length"), &file.length, Range::AboveZero);
    let clearance = desk.optional(&place.field("clearance"), file.clearance.as_ref(), Range::ZeroOrMore);
    Some(GutterSpout { length: length?, clearance: clearance?.unwrap_or(Length::ZERO) })
}
