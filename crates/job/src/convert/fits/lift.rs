//! Sizes of openings, doorways and spaces that parts go through or into.

use checks::fit::door::{Contradiction, Doorway, Leaf};
use checks::fit::level::{LevelLift, PlanTurns, Way};
use checks::fit::tilted::{Lies, TiltedLift};
use checks::fit::together::Together;

use super::Known;
use crate::convert::clearance::clearance;
use crate::convert::desk::{Desk, Range};
use crate::file::{
    DoorFile, DoorWayFile, LeafFile, LiesFile, LiftOutFile, PlanTurnFile, TiltOutFile, TogetherFile, WayFile,
};
use crate::place::Place;

pub(super) fn lift_out(
    file: &LiftOutFile,
    known: Known<'_>,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<LevelLift> {
    let opening = known.figure(file.through.as_ref(), file.outline.as_ref(), "through", place, desk);
    let clearance = clearance(&file.clearance, &place.field("clearance"), desk);
    let way = match file.way {
        None | Some(WayFile::Up) => Way::Up,
        Some(WayFile::Endwise) => Way::Endwise,
        Some(WayFile::Sideways) => Way::Sideways,
    };
    let turns = match file.turn {
        None => PlanTurns::AsDrawn,
        Some(PlanTurnFile::Half) => PlanTurns::Half,
        Some(PlanTurnFile::Quarter) => PlanTurns::Quarter,
        Some(PlanTurnFile::Any) => PlanTurns::Any,
    };
    Some(LevelLift { opening: opening?, clearance: clearance?, way, turns })
}

pub(super) fn tilt_out(
    file: &TiltOutFile,
    known: Known<'_>,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<TiltedLift> {
    let opening = known.figure(file.through.as_ref(), file.outline.as_ref(), "through", place, desk);
    let clearance = clearance(&file.clearance, &place.field("clearance"), desk);
    let deck = desk.length(&place.field("deck"), &file.deck, Range::AboveZero);
    let depth_below = desk.length(&place.field("depth_below"), &file.depth_below, Range::AboveZero);
    let reach_below = desk.pair(&place.field("reach_below"), &file.reach_below, Range::ZeroOrMore);
    let reach_sides = match &file.reach_sides {
        None => Some(None),
        Some(reach) => desk.pair(&place.field("reach_sides"), reach, Range::ZeroOrMore).map(Some),
    };
    let headroom = desk.optional(&place.field("headroom"), file.headroom.as_ref(), Range::AboveZero);
    let lies = match file.lies {
        None | Some(LiesFile::Along) => Lies::Along,
        Some(LiesFile::Across) => Lies::Across,
    };
    let (opening, clearance) = (opening?, clearance?);
    if let Some(fault) = shapes::not_convex(&opening.corners, &opening.names, desk.style) {
        let field = if file.outline.is_some() { "outline" } else { "through" };
        let wrong = format!("{}; tilting is not judged past it", fault.wrong);
        let remedy = "give the largest opening without one that lies within it";
        desk.add(&place.field(field), "", wrong, remedy);
        return None;
    }
    if opening.clear(clearance.total().millimetres()).is_empty() {
        let remedy = "make the opening larger, or the clearance smaller";
        desk.add(&place.field("clearance"), "", "takes the whole of the opening", remedy);
        return None;
    }
    Some(TiltedLift {
        opening,
        clearance,
        lies,
        deck: deck?,
        depth_below: depth_below?,
        reach_below: reach_below?,
        reach_sides: reach_sides?,
        headroom: headroom?,
    })
}

pub(super) fn door(file: &DoorFile, place: &Place, desk: &mut Desk<'_>) -> Option<Doorway> {
    let clear = desk.pair(&place.field("through"), &file.through, Range::AboveZero);
    let clearance = clearance(&file.clearance, &place.field("clearance"), desk);
    let opens = desk.angle(&place.field("opens"), &file.opens);
    let way = match file.way {
        DoorWayFile::Endwise => Way::Endwise,
        DoorWayFile::Sideways => Way::Sideways,
    };
    let leaf = match (&file.intrusion, &file.leaf) {
        (Some(taped), None) => {
            if file.travel.is_some() {
                let remedy = "take it out: what the door takes is taped";
                desk.add(&place.field("travel"), "", "goes only with \"leaf\"", remedy);
                return None;
            }
            desk.length(&place.field("intrusion"), taped, Range::ZeroOrMore).map(Leaf::Taped)
        }
        (None, Some(leaf)) => sized(leaf, file, place, desk),
        _ => {
            let remedy = "give exactly one of \"intrusion\", as taped, and \"leaf\"";
            desk.add(&place.field("intrusion"), "", "one field must say what the door takes", remedy);
            None
        }
    };
    let opens = opens?;
    if !(0.0..=180.0).contains(&opens.degrees()) {
        let remedy = "measure from closed: 90 stands square out";
        desk.add(&place.field("opens"), &file.opens.0.to_string(), "a door opens by 0 to 180°", remedy);
        return None;
    }
    let (clear, leaf) = (clear?, leaf?);
    if let Some(contradiction) = leaf.contradiction(clear[0], opens) {
        contradicts(contradiction, file, place, desk);
        return None;
    }
    Some(Doorway { clear, clearance: clearance?, way, opens, leaf })
}

/// Sizes of a door that cannot all be true.
fn contradicts(contradiction: Contradiction, file: &DoorFile, place: &Place, desk: &mut Desk<'_>) {
    let print = |millimetres: f64| units::Length::from_millimetres(millimetres).print(desk.style);
    let opens = file.opens.0.to_string();
    let taped = || file.intrusion.as_ref().map(ToString::to_string).unwrap_or_default();
    let again = "tape both again, or give the \"leaf\" and its pin, and the angle decides";
    let (field, value, wrong, remedy) = match contradiction {
        Contradiction::TakesMore(least_mm) => {
            let wrong =
                format!("a door opened {opens}° stands {} or more into this doorway", print(least_mm));
            ("intrusion", taped(), wrong, again)
        }
        Contradiction::TakesLess(most_mm) => {
            let wrong =
                format!("a door opened {opens}° stands {} into this doorway at the most", print(most_mm));
            ("intrusion", taped(), wrong, again)
        }
        Contradiction::LeavesOpen(open_mm) => {
            let reach = file.leaf.as_ref().map(|leaf| leaf.reach.to_string()).unwrap_or_default();
            let wrong = format!("the closed door would leave {} of the doorway open", print(open_mm));
            let remedy = "tape from the pin to the free edge, and from the doorway's side back to the pin";
            ("leaf.reach", reach, wrong, remedy)
        }
    };
    desk.add(&place.field(field), &value, wrong, remedy);
}

fn sized(leaf: &LeafFile, file: &DoorFile, place: &Place, desk: &mut Desk<'_>) -> Option<Leaf> {
    let here = place.field("leaf");
    let reach = desk.length(&here.field("reach"), &leaf.reach, Range::AboveZero);
    let pin_beside = desk.length(&here.field("pin_beside"), &leaf.pin_beside, Range::Any);
    let pin_out = desk.length(&here.field("pin_out"), &leaf.pin_out, Range::Any);
    let thickness = desk.length(&here.field("thickness"), &leaf.thickness, Range::AboveZero);
    let travel = desk.optional(&place.field("travel"), file.travel.as_ref(), Range::AboveZero);
    Some(Leaf::Sized {
        reach: reach?,
        pin_beside: pin_beside?,
        pin_out: pin_out?,
        thickness: thickness?,
        travel: travel?,
    })
}

pub(super) fn together(
    file: &TogetherFile,
    known: Known<'_>,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Together> {
    let space = known.figure(file.space.as_ref(), file.outline.as_ref(), "space", place, desk);
    let clearance = clearance(&file.clearance, &place.field("clearance"), desk);
    let height = desk.optional(&place.field("height"), file.height.as_ref(), Range::AboveZero);
    Some(Together { space: space?, height: height?, clearance: clearance?, may_turn: file.turn.is_some() })
}
