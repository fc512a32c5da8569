//! Flanges, holes and notches.

use fold::Direction;
use shapes::hole::{Hole, HoleKind};
use shapes::panel::{Flange, Notch};
use units::{Angle, Length};

use crate::convert::desk::{Desk, Range};
use crate::file::{FlangeFile, HoleFile, Named, NotchFile, Size, UpDown};
use crate::place::Place;

/// Everything in a list, when nothing was found in any entry.
fn all<F, T>(
    files: &[F],
    place: &Place,
    desk: &mut Desk<'_>,
    read: fn(&F, &Place, &mut Desk<'_>) -> Option<T>,
) -> Option<Vec<T>> {
    let read = |(number, file)| read(file, &place.entry(number), desk);
    let entries: Vec<Option<T>> = files.iter().enumerate().map(read).collect();
    entries.into_iter().collect()
}

pub(super) fn holes(files: &[HoleFile], place: &Place, desk: &mut Desk<'_>) -> Option<Vec<Hole>> {
    all(files, place, desk, hole)
}

pub(super) fn notches(files: &[NotchFile], place: &Place, desk: &mut Desk<'_>) -> Option<Vec<Notch>> {
    all(files, place, desk, notch)
}

pub(super) fn flanges(files: &Named<FlangeFile>, place: &Place, desk: &mut Desk<'_>) -> Option<Vec<Flange>> {
    let read = |(side, file): &(String, FlangeFile)| flange(side, file, &place.field(side), desk);
    let flanges: Vec<Option<Flange>> = files.0.iter().map(read).collect();
    flanges.into_iter().collect()
}

fn hole(file: &HoleFile, place: &Place, desk: &mut Desk<'_>) -> Option<Hole> {
    let (at, kind) = match file {
        HoleFile::Round(file) => {
            let diameter = desk.length(&place.field("diameter"), &file.diameter, Range::AboveZero);
            (&file.at, diameter.map(|diameter| HoleKind::Round { diameter }))
        }
        HoleFile::Slot(file) => {
            let size = desk.pair(&place.field("slot"), &file.slot, Range::AboveZero);
            let zero = Some(Angle::ZERO);
            let turned =
                file.turned.as_ref().map_or(zero, |turned| desk.angle(&place.field("turned"), turned));
            let kind =
                size.zip(turned).map(|([length, width], turned)| HoleKind::Slot { length, width, turned });
            (&file.at, kind)
        }
        HoleFile::Rectangle(file) => {
            let size = desk.pair(&place.field("cut_out"), &file.cut_out, Range::AboveZero);
            let radius = &place.field("corner_radius");
            let radius = desk.optional(radius, file.corner_radius.as_ref(), Range::ZeroOrMore);
            let kind = size.zip(radius).map(|([length, width], radius)| HoleKind::Rectangle {
                length,
                width,
                corner_radius: radius.unwrap_or(Length::ZERO),
            });
            (&file.at, kind)
        }
    };
    let at = desk.pair(&place.field("at"), at, Range::Any);
    Some(Hole { at: at?, kind: kind? })
}

fn notch(file: &NotchFile, place: &Place, desk: &mut Desk<'_>) -> Option<Notch> {
    match file {
        NotchFile::Corner(file) => {
            let along = desk.length(&place.field("along"), &file.along, Range::AboveZero);
            let across = desk.length(&place.field("across"), &file.across, Range::AboveZero);
            Some(Notch::Corner { corner: file.corner.clone(), along: along?, across: across? })
        }
        NotchFile::Side(file) => {
            let at = desk.length(&place.field("at"), &file.at, Range::AboveZero);
            let width = desk.length(&place.field("width"), &file.width, Range::AboveZero);
            let depth = desk.length(&place.field("depth"), &file.depth, Range::AboveZero);
            Some(Notch::Edge { side: file.side.clone(), at: at?, width: width?, depth: depth? })
        }
    }
}

pub(super) fn flange(side: &str, file: &FlangeFile, place: &Place, desk: &mut Desk<'_>) -> Option<Flange> {
    let square = Angle::from_degrees(90.0);
    match file {
        FlangeFile::Words(text) => {
            let (leg, direction) = words(text, place, desk)?;
            Some(Flange { side: side.to_owned(), leg, direction, turn: square, short: [Length::ZERO; 2] })
        }
        FlangeFile::Sizes(file) => {
            let leg = desk.length(&place.field("leg"), &file.leg, Range::AboveZero);
            let turn = file.turn.as_ref().map_or(Some(square), |turn| desk.angle(&place.field("turn"), turn));
            let short = match &file.short {
                Some(short) => desk.pair(&place.field("short"), short, Range::ZeroOrMore),
                None => Some([Length::ZERO; 2]),
            };
            let direction = match file.direction {
                UpDown::Up => Direction::Up,
                UpDown::Down => Direction::Down,
            };
            Some(Flange { side: side.to_owned(), leg: leg?, direction, turn: turn?, short: short? })
        }
    }
}

/// "3 up", "3/4 down".
pub(super) fn words(text: &str, place: &Place, desk: &mut Desk<'_>) -> Option<(Length, Direction)> {
    let (leg, way) = text.trim().rsplit_once(' ').unwrap_or(("", text));
    let direction = match way.to_ascii_lowercase().as_str() {
        "up" => Direction::Up,
        "down" => Direction::Down,
        _ => {
            let wrong = "a flange is a leg and which way it turns";
            desk.add(place, text, wrong, "write \"3 up\" or \"3/4 down\"");
            return None;
        }
    };
    let leg = desk.length(place, &Size::Text(leg.to_owned()), Range::AboveZero)?;
    Some((leg, direction))
}
