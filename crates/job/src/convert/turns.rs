//! How parts may be turned on the sheet: as their metal says, or as they say themselves.

use super::desk::Desk;
use crate::file::{Degrees, MetalFile, PartCommon, PatternFile, TurnFields, TurnsFile};
use crate::model::{JobMetal, Turns};
use crate::place::Place;

const LAY_BROKEN: &str = "lugs or grain would run the wrong way";
const LAY_KEPT: &str = "write \"half\", or take the lay out if it does not matter";

/// How parts of a metal may be turned; more than half turns would break a lay.
pub(super) fn turns(file: &MetalFile, place: &Place, desk: &mut Desk<'_>) -> Option<Turns> {
    let has_lay = file.lay.is_some() || file.pattern == Some(PatternFile::Tread);
    let given = given(&file.turn_fields(), has_lay, place, desk)?;
    Some(given.unwrap_or(if has_lay { Turns::Half } else { Turns::Quarter }))
}

/// How a part may be turned, where it says so itself; the outer `None` is a finding.
pub(super) fn of_part(
    common: &PartCommon<'_>,
    metal: &JobMetal,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Option<Turns>> {
    given(&common.turn_fields, metal.metal.lay.is_some(), place, desk)
}

/// Turns by a word, by a step or as a list; the outer `None` is a finding, the inner one that there are none.
fn given(
    fields: &TurnFields<'_>,
    has_lay: bool,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Option<Turns>> {
    if let Some(own) = own_turns(fields, has_lay, place, desk)? {
        return Some(Some(own));
    }
    let Some(turns) = fields.turns else { return Some(None) };
    let (turns, word) = match turns {
        TurnsFile::Half => (Turns::Half, "half"),
        TurnsFile::Quarter => (Turns::Quarter, "quarter"),
        TurnsFile::Any => (Turns::Any, "any"),
    };
    if has_lay && turns != Turns::Half {
        desk.add(&place.field("turns"), word, LAY_BROKEN, LAY_KEPT);
        return None;
    }
    Some(Some(turns))
}

/// Thousandths of a degree in a whole turn.
const WHOLE_TURN: u32 = 360_000;

/// Thousandths of a degree in the smallest step.
const LEAST_STEP: u32 = 1_000;

/// Turns given by a step or as a list; the outer `None` is a finding, the inner one that there are none.
fn own_turns(
    fields: &TurnFields<'_>,
    has_lay: bool,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Option<Turns>> {
    let given = [
        ("turns", fields.turns.is_some()),
        ("turn_every", fields.every.is_some()),
        ("turns_at", fields.at.is_some()),
    ];
    let given: Vec<&str> = given.into_iter().filter(|(_, is)| *is).map(|(name, _)| name).collect();
    if let [first, second, ..] = given[..] {
        desk.add(&place.field(second), "as given", format!("{first} is given too"), "give one of the two");
        return None;
    }
    if let ([field], true) = (&given[..], has_lay && fields.turns.is_none()) {
        desk.add(&place.field(field), "as given", LAY_BROKEN, LAY_KEPT);
        return None;
    }
    if let Some(every) = fields.every {
        let place = place.field("turn_every");
        let step = millidegrees(every, &place, desk)?;
        if step < LEAST_STEP || !WHOLE_TURN.is_multiple_of(step) {
            let wrong = "no step of at least 1° that goes into 360° without a rest";
            desk.add(&place, &every.0.to_string(), wrong, "give one that does: 30, 22.5, 15, 10, 5");
            return None;
        }
        return Some(Some(Turns::Listed((0..WHOLE_TURN / step).map(|number| number * step).collect())));
    }
    let Some(list) = fields.at else { return Some(None) };
    let place = place.field("turns_at");
    let turns: Vec<Option<u32>> =
        list.iter().enumerate().map(|(n, turn)| millidegrees(turn, &place.entry(n), desk)).collect();
    Some(Some(Turns::Listed(turns.into_iter().collect::<Option<_>>()?)))
}

/// A turn of 0 to below 360 degrees in whole thousandths of a degree.
fn millidegrees(written: &Degrees, place: &Place, desk: &mut Desk<'_>) -> Option<u32> {
    let nanodegrees = desk.angle(place, written)?.nanodegrees();
    let whole = (nanodegrees % 1_000_000 == 0).then_some(nanodegrees / 1_000_000);
    let turn = whole.and_then(|whole| u32::try_from(whole).ok()).filter(|turn| *turn < WHOLE_TURN);
    if turn.is_none() {
        let wrong = "no turn of 0 to below 360 degrees in whole thousandths";
        desk.add(place, &written.0.to_string(), wrong, "give one: 22.5, 12.345");
    }
    turn
}
