//! What one piece may weigh.

use shapes::WeightLimit;
use units::Mass;

use crate::convert::desk::Desk;
use crate::model::JobMetal;
use crate::place::Place;

/// The limit with what the plate weighs; `None` outside where something was found, inside where none is given.
pub(super) fn heaviest(
    text: Option<&String>,
    metal: Option<&JobMetal>,
    place: &Place,
    desk: &mut Desk<'_>,
) -> Option<Option<WeightLimit>> {
    let place = place.field("heaviest");
    let most = desk.text(&place, text, Mass::read)?;
    let Some(most) = most else { return Some(None) };
    if most <= Mass::from_micrograms(0) {
        desk.add(
            &place,
            &text.cloned().unwrap_or_default(),
            "must be above zero",
            "give what two hands may lift",
        );
        return None;
    }
    // A metal that is unknown is a finding already.
    Some(Some(WeightLimit { most, per_area: metal?.metal.weight_per_area }))
}
