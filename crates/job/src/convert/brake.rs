//! The machine that bends, and the roll.

use stock::brake::{Clamp, Folder, Machine, PressBrake, Profile, Punch, SlipRoll};
use units::{Angle, Length};

use super::desk::{Desk, Range};
use crate::file::{BrakeFile, BrakeKindFile, Degrees, ProfileFile, PunchFile, RollFile, Size};
use crate::model::Brake;
use crate::place::Place;

/// Least height of a gooseneck in multiples of its relief: its neck must lean back and come forward again.
const GOOSENECK_RISE: i64 = 2;

/// The brake. Where a size could not be read `None` serves to judge the rest; the finding stops the job.
pub(super) fn brake(file: &BrakeFile, place: &Place, desk: &mut Desk<'_>) -> Brake {
    refuse_foreign(file, place, desk);
    let machine = match file.kind {
        BrakeKindFile::Press => Machine::Press(press(file, place, desk)),
        BrakeKindFile::Leaf | BrakeKindFile::Fingers => Machine::Folder(folder(file, place, desk)),
    };
    let v_opening = size(desk, place, "v_opening", file.v_opening.as_ref());
    let shortest_flange = size(desk, place, "shortest_flange", file.shortest_flange.as_ref());
    Brake { machine, v_opening, shortest_flange }
}

/// The slip roll.
pub(super) fn roll(file: &RollFile, place: &Place, desk: &mut Desk<'_>) -> SlipRoll {
    SlipRoll {
        length: size(desk, place, "length", file.length.as_ref()),
        least_radius: size(desk, place, "least_radius", file.least_radius.as_ref()),
    }
}

fn size(desk: &mut Desk<'_>, place: &Place, name: &str, size: Option<&Size>) -> Option<Length> {
    desk.optional(&place.field(name), size, Range::AboveZero).flatten()
}

fn sizes(desk: &mut Desk<'_>, place: &Place, name: &str, list: Option<&Vec<Size>>) -> Vec<Length> {
    let place = place.field(name);
    let entries = list.map(Vec::as_slice).unwrap_or_default().iter().enumerate();
    entries.filter_map(|(number, size)| desk.length(&place.entry(number), size, Range::AboveZero)).collect()
}

/// An angle between `least` and `most` degrees.
fn angle(
    desk: &mut Desk<'_>,
    place: &Place,
    written: Option<&Degrees>,
    (least, most): (f64, f64),
) -> Option<Angle> {
    let written = written?;
    let angle = desk.angle(place, written)?;
    if angle < Angle::from_degrees(least) || Angle::from_degrees(most) < angle {
        let wrong = format!("must be from {least} to {most}°");
        desk.add(place, &written.0.to_string(), wrong, "give the angle in degrees");
        return None;
    }
    Some(angle)
}

fn press(file: &BrakeFile, place: &Place, desk: &mut Desk<'_>) -> PressBrake {
    let mut v_openings = sizes(desk, place, "v_openings", file.v_openings.as_ref());
    if v_openings.is_empty() {
        v_openings.extend(size(desk, place, "v_opening", file.v_opening.as_ref()));
    }
    PressBrake {
        length: size(desk, place, "length", file.length.as_ref()),
        limit_us_tons: file.tons,
        throat: size(desk, place, "throat", file.throat.as_ref()),
        stop_reach: size(desk, place, "stop_reach", file.stop_reach.as_ref()),
        daylight: size(desk, place, "daylight", file.daylight.as_ref()),
        punch: file.punch.as_ref().map(|own| punch(own, &place.field("punch"), desk)).unwrap_or_default(),
        v_openings,
        die_width: size(desk, place, "die_width", file.die_width.as_ref()),
        die_height: size(desk, place, "die_height", file.die_height.as_ref()),
    }
}

fn punch(file: &PunchFile, place: &Place, desk: &mut Desk<'_>) -> Punch {
    let punch = Punch {
        profile: file.profile.map(|profile| match profile {
            ProfileFile::Gooseneck => Profile::Gooseneck,
            ProfileFile::Straight => Profile::Straight,
        }),
        height: size(desk, place, "height", file.height.as_ref()),
        width: size(desk, place, "width", file.width.as_ref()),
        angle: angle(desk, &place.field("angle"), file.angle.as_ref(), (10.0, 150.0)),
        relief: size(desk, place, "relief", file.relief.as_ref()),
        sections: sizes(desk, place, "sections", file.sections.as_ref()),
    };
    if let (Some(relief), Some(written)) = (punch.relief, &file.relief) {
        let height = punch.height.unwrap_or(PressBrake::assumed().punch_height);
        let most = Length::from_nanometres(height.nanometres() / GOOSENECK_RISE);
        if punch.profile != Some(Profile::Gooseneck) {
            let remedy = "write \"profile\": \"gooseneck\", or take this out";
            desk.add(&place.field("relief"), &written.to_string(), "a straight punch has no relief", remedy);
        } else if most < relief {
            let wrong = format!("more than half the punch's height of {}", height.print(desk.style));
            let remedy = format!("give {} or less, or the true height", most.print(desk.style));
            desk.add(&place.field("relief"), &written.to_string(), wrong, remedy);
        }
    }
    punch
}

fn folder(file: &BrakeFile, place: &Place, desk: &mut Desk<'_>) -> Folder {
    let clamp = if file.kind == BrakeKindFile::Fingers {
        Clamp::Fingers {
            widths: sizes(desk, place, "fingers", file.fingers.as_ref()),
            deepest_box: size(desk, place, "deepest_box", file.deepest_box.as_ref()),
        }
    } else {
        Clamp::Bar { height: size(desk, place, "bar_height", file.bar_height.as_ref()) }
    };
    Folder {
        length: size(desk, place, "length", file.length.as_ref()),
        throat: size(desk, place, "throat", file.throat.as_ref()),
        stop_reach: size(desk, place, "stop_reach", file.stop_reach.as_ref()),
        clamp,
        nose_angle: angle(desk, &place.field("nose_angle"), file.nose_angle.as_ref(), (15.0, 90.0)),
        leaf_thickness: size(desk, place, "leaf_thickness", file.leaf_thickness.as_ref()),
        leaf_width: size(desk, place, "leaf_width", file.leaf_width.as_ref()),
    }
}

/// Refuses sizes of tooling that a machine of this kind does not have.
fn refuse_foreign(file: &BrakeFile, place: &Place, desk: &mut Desk<'_>) {
    use BrakeKindFile::{Fingers, Leaf, Press};
    let fields: [(&str, bool, &[BrakeKindFile]); 13] = [
        ("v_openings", file.v_openings.is_some(), &[Press]),
        ("tons", file.tons.is_some(), &[Press]),
        ("daylight", file.daylight.is_some(), &[Press]),
        ("punch", file.punch.is_some(), &[Press]),
        ("die_width", file.die_width.is_some(), &[Press]),
        ("die_height", file.die_height.is_some(), &[Press]),
        ("fingers", file.fingers.is_some(), &[Fingers]),
        ("deepest_box", file.deepest_box.is_some(), &[Fingers]),
        ("bar_height", file.bar_height.is_some(), &[Leaf]),
        ("nose_angle", file.nose_angle.is_some(), &[Leaf, Fingers]),
        ("leaf_width", file.leaf_width.is_some(), &[Leaf, Fingers]),
        ("leaf_thickness", file.leaf_thickness.is_some(), &[Leaf, Fingers]),
        ("v_opening", file.v_openings.is_some() && file.v_opening.is_some(), &[]),
    ];
    for (name, given, kinds) in fields {
        if !given || kinds.contains(&file.kind) {
            continue;
        }
        let (wrong, remedy) = if kinds.is_empty() {
            ("the die is given twice", "give either v_opening or v_openings")
        } else {
            ("a brake of this kind has no such thing", "take it out, or correct the kind")
        };
        desk.add(&place.field(name), "", wrong, remedy);
    }
}
