//! A lap that does not come out of one piece, or runs into the part when folded: which one would do.

use units::Length;

use crate::{CornerStyle, Making, Problem, Recipe};

/// Finest step in which narrower strips are tried.
const STEP: Length = Length::from_sixty_fourths(4);
/// How many narrower strips are tried at the most; a wider strip goes down in coarser steps.
const TRIES: i64 = 64;

/// What to ask for instead of the lap of `making`, if that lap is what is at fault: the widest strip on the same face
/// that lays flat and refolds, the same strip on the other face or the widest there, or else no lap. Of laps at several corners
/// it is the first without which the part can be made. `None` when no corner is lapped, or the part cannot be made without
/// that lap either.
#[must_use]
pub fn nearest_lap(recipe: &dyn Recipe, piece: usize, making: &Making) -> Option<Problem> {
    let laps =
        making.corner.single().into_iter().filter(|(_, style)| matches!(style, CornerStyle::Lap { .. }));
    laps.into_iter().find_map(|(field, lap)| nearest_one(recipe, piece, making, (&field, lap)))
}

/// The same for the lap of one field.
fn nearest_one(
    recipe: &dyn Recipe,
    piece: usize,
    making: &Making,
    (field, lap): (&str, &CornerStyle),
) -> Option<Problem> {
    let CornerStyle::Lap { width, carried_by, outside } = lap else { return None };
    let works = |style: CornerStyle| {
        let corner = making.corner.with(field, &style);
        let made = recipe.shape_piece(piece, &Making { corner, ..making.clone() });
        made.is_ok_and(|shaped| {
            shaped.unfold().is_ok_and(|flat| fold::refold::prove(&shaped.part, &flat).is_ok())
        })
    };
    if !works(CornerStyle::Open) {
        return None;
    }
    let step = STEP * (width.nanometres() / STEP.nanometres() / TRIES + 1);
    let widest = |outside: bool| {
        let lap = |width| CornerStyle::Lap { width, carried_by: carried_by.clone(), outside };
        let narrower = (0..=TRIES).map(|number| *width - step * number);
        narrower.filter(|width| *width > Length::ZERO).find(|&width| works(lap(width)))
    };
    let answers = [(*outside, widest(*outside)), (!outside, widest(!outside))];
    let face = |outside: bool| if outside { "outside" } else { "inside" };
    let words: Vec<String> = answers
        .iter()
        .filter_map(|&(outside, width)| Some(format!("{} on the {}", making.print(width?), face(outside))))
        .collect();
    let remedy = match words.as_slice() {
        [] => "no strip does here: ask for \"butt\" or \"open\"".to_owned(),
        words => format!("the widest that would do is {}", words.join(", or ")),
    };
    let wrong = format!(
        "a strip so wide on the {} does not come out of one piece with the part, or runs into it",
        face(*outside)
    );
    Some(Problem::new(format!("corner{field}.lap"), making.print(*width), wrong, remedy))
}
