//! What is done to free edges.

use shapes::edge::{EdgeEnd, EdgeWay, HemKind};
use units::Angle;

use crate::convert::desk::{Desk, Range};
use crate::file::{CurlFile, Degrees, EdgeFile, EdgeWayFile, HemFile, HemKindFile, Named, ReturnFile, Size};
use crate::place::Place;

/// Turn of a curl when it is not given, degrees.
const CURL_DEGREES: f64 = 270.0;

/// The edges of sides, by their names.
pub(super) fn edges(
    files: &Named<EdgeFile>,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Vec<(String, EdgeEnd)>> {
    let read = |(side, file): &(String, EdgeFile)| Some((side.clone(), one(file, &place.field(side), desk)?));
    let edges: Vec<Option<(String, EdgeEnd)>> = files.0.iter().map(read).collect();
    edges.into_iter().collect()
}

/// One edge; plain when it is not given.
pub(super) fn edge(file: Option<&EdgeFile>, place: &Place, desk: &mut Desk<'_>) -> Option<EdgeEnd> {
    edge_at(file, &place.field("edge"), desk)
}

/// One edge that stands at `place`; plain when it is not given.
pub(super) fn edge_at(file: Option<&EdgeFile>, place: &Place, desk: &mut Desk<'_>) -> Option<EdgeEnd> {
    file.map_or(Some(EdgeEnd::Plain), |file| one(file, place, desk))
}

fn one(file: &EdgeFile, place: &Place, desk: &mut Desk<'_>) -> Option<EdgeEnd> {
    match (&file.hem, &file.lip, &file.curl) {
        (Some(file), None, None) => hem(file, &place.field("hem"), desk),
        (None, Some(file), None) => lip(file, &place.field("return"), desk),
        (None, None, Some(file)) => curl(file, &place.field("curl"), desk),
        _ => {
            let wrong = "an edge is hemmed, returned or curled";
            desk.add(place, "", wrong, "give exactly one of \"hem\", \"return\" and \"curl\"");
            None
        }
    }
}

fn hem(file: &HemFile, place: &Place, desk: &mut Desk<'_>) -> Option<EdgeEnd> {
    let length = desk.length(&place.field("length"), &file.length, Range::AboveZero);
    let sizes = [("gap", &file.gap, HemKindFile::Open), ("radius", &file.radius, HemKindFile::TearDrop)];
    let mut own: Option<&Size> = None;
    let mut sound = true;
    for (name, size, of) in sizes {
        match (size, file.kind == of) {
            (Some(size), true) => own = Some(size),
            (Some(size), false) => {
                let wrong = "does not go with this kind of hem";
                let remedy = "an open hem has a gap, a tear-drop a radius, a closed one neither";
                desk.add(&place.field(name), &size.to_string(), wrong, remedy);
                sound = false;
            }
            (None, true) => {
                desk.add(&place.field(name), "", "is missing", "an open hem has a gap, a tear-drop a radius");
                sound = false;
            }
            (None, false) => {}
        }
    }
    let kind = match (file.kind, own) {
        (HemKindFile::Open, Some(gap)) => {
            let gap = desk.length(&place.field("gap"), gap, Range::AboveZero);
            gap.map(|gap| HemKind::Open { gap })
        }
        (HemKindFile::TearDrop, Some(radius)) => {
            let radius = desk.length(&place.field("radius"), radius, Range::AboveZero);
            radius.map(|radius| HemKind::TearDrop { radius })
        }
        (HemKindFile::Closed, _) => Some(HemKind::Closed),
        (HemKindFile::Open | HemKindFile::TearDrop, None) => None,
    };
    sound.then_some(EdgeEnd::Hem { kind: kind?, length: length?, way: way(file.toward) })
}

fn lip(file: &ReturnFile, place: &Place, desk: &mut Desk<'_>) -> Option<EdgeEnd> {
    let length = desk.length(&place.field("length"), &file.length, Range::AboveZero);
    let turn = turn(file.turn.as_ref(), Angle::RIGHT, place, desk);
    Some(EdgeEnd::Return { length: length?, turn: turn?, way: way(file.toward) })
}

fn curl(file: &CurlFile, place: &Place, desk: &mut Desk<'_>) -> Option<EdgeEnd> {
    let radius = desk.length(&place.field("radius"), &file.radius, Range::AboveZero);
    let turn = turn(file.turn.as_ref(), Angle::from_degrees(CURL_DEGREES), place, desk);
    Some(EdgeEnd::Curl { radius: radius?, turn: turn?, way: way(file.toward) })
}

fn turn(written: Option<&Degrees>, usual: Angle, place: &Place, desk: &mut Desk<'_>) -> Option<Angle> {
    written.map_or(Some(usual), |written| desk.angle(&place.field("turn"), written))
}

fn way(file: Option<EdgeWayFile>) -> Option<EdgeWay> {
    file.map(|way| match way {
        EdgeWayFile::In => EdgeWay::In,
        EdgeWayFile::Out => EdgeWay::Out,
        EdgeWayFile::Up => EdgeWay::Up,
        EdgeWayFile::Down => EdgeWay::Down,
    })
}
