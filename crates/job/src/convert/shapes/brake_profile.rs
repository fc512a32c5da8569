//! Sizes of a brake-formed profile.

use fold::Direction;
use shapes::brake_profile::{BendWay, BrakeProfile, End, Leg, LegTo, ProfileBend};
use units::{Angle, Length};

use super::edge::edge_at;
use super::features;
use crate::convert::desk::{Desk, Range};
use crate::file::{
    BendWayFile, BrakeProfileFile, EndFile, LegFile, LegToFile, MitreInFile, ProfileBendFile, Size, UpDown,
};
use crate::place::Place;

/// Turn of the bends of a joggle that says none, degrees (common practice, no source).
const JOGGLE_TURN_DEGREES: f64 = 45.0;

pub(super) fn brake_profile(
    file: &BrakeProfileFile,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<BrakeProfile> {
    let length = desk.length(&place.field("length"), &file.length, Range::AboveZero);
    let read = |(number, leg): (usize, &LegFile)| {
        self::leg(leg, file.legs_to, &place.field("legs").entry(number), desk)
    };
    let legs: Vec<Option<Leg>> = file.legs.iter().enumerate().map(read).collect();
    let read = |(number, bend)| self::bend(bend, &place.field("bends").entry(number), desk);
    let bends: Vec<Option<ProfileBend>> = file.bends.iter().enumerate().map(read).collect();
    let at = place.field("ends");
    let ends = file.ends.as_ref();
    let start = mitre(ends.and_then(|ends| ends.start.as_ref()), &at.field("start"), desk);
    let end = mitre(ends.and_then(|ends| ends.end.as_ref()), &at.field("end"), desk);
    let at = place.field("edges");
    let edges = file.edges.as_ref();
    let first = edge_at(edges.and_then(|edges| edges.first.as_ref()), &at.field("first"), desk);
    let last = edge_at(edges.and_then(|edges| edges.last.as_ref()), &at.field("last"), desk);
    let joints = lengths(&file.joints, &place.field("joints"), desk);
    let gap = desk.optional(&place.field("joint_gap"), file.joint_gap.as_ref(), Range::ZeroOrMore);
    let flat_leg = file.flat_leg.map_or(0, |number| usize::try_from(number.saturating_sub(1)).unwrap_or(0));
    Some(BrakeProfile {
        length: length?,
        legs: legs.into_iter().collect::<Option<_>>()?,
        bends: bends.into_iter().collect::<Option<_>>()?,
        flat_leg,
        ends: [start?, end?],
        edges: [first?, last?],
        joints: joints?,
        joint_gap: gap?.unwrap_or(Length::ZERO),
    })
}

/// Every length of a list, each above zero.
pub(super) fn lengths(sizes: &[Size], place: &Place, desk: &mut Desk<'_>) -> Option<Vec<Length>> {
    let read = |(number, size)| desk.length(&place.entry(number), size, Range::AboveZero);
    let lengths: Vec<Option<Length>> = sizes.iter().enumerate().map(read).collect();
    lengths.into_iter().collect()
}

const fn leg_to(to: LegToFile) -> LegTo {
    match to {
        LegToFile::Outside => LegTo::Outside,
        LegToFile::Inside => LegTo::Inside,
        LegToFile::Centre => LegTo::Centre,
        LegToFile::Straight => LegTo::Straight,
    }
}

fn leg(file: &LegFile, legs_to: LegToFile, place: &Place, desk: &mut Desk<'_>) -> Option<Leg> {
    match file {
        LegFile::Length(size) => {
            let length = desk.length(place, size, Range::AboveZero)?;
            Some(Leg { length, to: leg_to(legs_to), short: [Length::ZERO; 2], holes: Vec::new() })
        }
        LegFile::Sizes(file) => {
            let length = desk.length(&place.field("leg"), &file.leg, Range::AboveZero);
            let short = match &file.short {
                Some(short) => desk.pair(&place.field("short"), short, Range::ZeroOrMore),
                None => Some([Length::ZERO; 2]),
            };
            let holes = features::holes(&file.holes, &place.field("holes"), desk);
            let to = leg_to(file.to.unwrap_or(legs_to));
            Some(Leg { length: length?, to, short: short?, holes: holes? })
        }
    }
}

const fn direction(way: UpDown) -> Direction {
    match way {
        UpDown::Up => Direction::Up,
        UpDown::Down => Direction::Down,
    }
}

fn bend(file: &ProfileBendFile, place: &Place, desk: &mut Desk<'_>) -> Option<ProfileBend> {
    match file {
        ProfileBendFile::Words(text) => words(text, place, desk),
        ProfileBendFile::Joggle(file) => {
            let depth = desk.length(&place.field("joggle"), &file.joggle, Range::AboveZero);
            let usual = Some(Angle::from_degrees(JOGGLE_TURN_DEGREES));
            let turn = file.turn.as_ref().map_or(usual, |turn| desk.angle(&place.field("turn"), turn));
            Some(ProfileBend::Joggle { depth: depth?, direction: direction(file.direction), turn: turn? })
        }
        ProfileBendFile::Bend(file) => {
            let turn = desk.angle(&place.field("turn"), &file.turn);
            let hem = file.way == Some(BendWayFile::Hem);
            let range = if hem { Range::ZeroOrMore } else { Range::AboveZero };
            let radius = desk.optional(&place.field("radius"), file.radius.as_ref(), range);
            let way = way(file.way, file.strikes, place, desk);
            let direction = direction(file.direction);
            Some(ProfileBend::Bend { turn: turn?, direction, radius: radius?, way: way? })
        }
    }
}

fn way(
    way: Option<BendWayFile>,
    strikes: Option<u32>,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<BendWay> {
    match (way.unwrap_or(BendWayFile::Brake), strikes) {
        (BendWayFile::Bumped, Some(strikes)) => Some(BendWay::Bumped(strikes)),
        (BendWayFile::Brake, None) => Some(BendWay::Brake),
        (BendWayFile::Hem, None) => Some(BendWay::Hem),
        (BendWayFile::Rolled, None) => Some(BendWay::Rolled),
        (BendWayFile::Bumped, None) => {
            let remedy = "say in how many strikes it is bumped";
            desk.add(&place.field("strikes"), "", "is missing beside the way bumped", remedy);
            None
        }
        (_, Some(strikes)) => {
            let wrong = "only a bumped bend is made in strikes";
            desk.add(&place.field("strikes"), &strikes.to_string(), wrong, "leave it out, or bump the bend");
            None
        }
    }
}

/// "90 up", "45° down".
fn words(text: &str, place: &Place, desk: &mut Desk<'_>) -> Option<ProfileBend> {
    let (turn, way) = text.trim().rsplit_once(' ').unwrap_or(("", text));
    let direction = match way.to_ascii_lowercase().as_str() {
        "up" => Direction::Up,
        "down" => Direction::Down,
        _ => {
            let wrong = "a bend is a turn from flat and which way it goes";
            desk.add(place, text, wrong, "write \"90 up\" or \"45 down\"");
            return None;
        }
    };
    let turn = desk.angle(place, &crate::file::Degrees(Size::Text(turn.to_owned())))?;
    Some(ProfileBend::Bend { turn, direction, radius: None, way: BendWay::Brake })
}

fn mitre(file: Option<&EndFile>, place: &Place, desk: &mut Desk<'_>) -> Option<End> {
    let Some(file) = file else { return Some(End::Square) };
    let angle = desk.angle(&place.field("mitre"), &file.mitre)?;
    Some(match file.mitre_in {
        MitreInFile::Plan => End::Plan(angle),
        MitreInFile::Height => End::Height(angle),
    })
}
