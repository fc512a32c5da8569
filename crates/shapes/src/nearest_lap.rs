//! A lap that does not come out of one piece, or runs into the part when folded: which one would do.

use units::Length;

use crate::{CornerStyle, Making, Problem, Recipe};

/// Finest step in which narrower strips are tried.
const STEP: Length = Length::from_sixty_fourths(4);
/// How many narrower strips are tried at the most; a wider strip goes down in coarser steps.
const TRIES: i64 = 64;

/// What to ask for instead of the lap of `making`, if that lap is what is at fault: the widest strip on the same face
/// that lays flat and refolds, the same strip on the other face or the widest there, or else no lap. `None` when the
/// corners are not lapped, or the part cannot be made without a lap either.
#[must_use]
pub fn nearest_lap(recipe: &dyn Recipe, piece: usize, making: &Making) -> Option<Problem> {
    let CornerStyle::Lap { width, carried_by, outside } = &making.corner else { return None };
    let works = |corner: CornerStyle| {
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
    Some(Problem::new("corner.lap", making.print(*width), wrong, remedy))
}
