//! Flanges that lie on one another in the flat: how far short of their corner they must stop.

use fold::flat::{self, UnfoldError};
use units::{Angle, Length};

use super::{Flange, Panel};
use crate::nearest::{Tried, Way, smaller};
use crate::{Making, Recipe};

/// Step of lengths that are tried, 1/16 in.
const STEP: Length = Length::from_sixty_fourths(4);

/// Most of them that are tried: 6 in.
const MOST_STEPS: i64 = 96;

impl Panel {
    /// The least by which two neighbouring flanges must both stop short of their corner for the flat to come out; `None` where they
    /// are not what is in the way, or nothing tried is enough.
    pub(super) fn nearest_short(&self, making: &Making) -> Option<String> {
        if !self.is_in_its_own_way(making) {
            return None;
        }
        let tried = (1..=MOST_STEPS).map(|step| STEP * step);
        let of_step = |short: Length| {
            let corners = 0..self.outline.count();
            corners
                .filter_map(|corner| self.stopped_short(corner, short))
                .find(|(panel, _)| panel.works(making))
        };
        let (short, (_, [first, second, corner])) =
            tried.map(|short| (short, of_step(short))).find_map(|(short, found)| Some((short, found?)))?;
        let short = making.print(short);
        Some(format!(
            "stop flange {first} and flange {second} both {short} short of corner {corner}, or make the part in pieces"
        ))
    }

    /// All flanges at most so long, or turned by at most so much.
    pub(super) fn sizes<'a>(&'a self, making: &'a Making) -> Vec<Way<'a>> {
        let longest = self.flanges.iter().map(|flange| flange.leg).max();
        let shorter = longest.map(|longest| {
            smaller("flanges", (longest, making), move |most| {
                let mut panel = self.clone();
                panel.flanges.iter_mut().for_each(|flange| flange.leg = flange.leg.min(most));
                let words = format!("flanges of {} at most", making.print(most));
                (words, Box::new(panel) as Box<dyn Recipe>)
            })
        });
        let widest = self.flanges.iter().map(|flange| flange.turn.degrees()).reduce(f64::max);
        let less = widest.map(|widest| {
            let at = move |steps: u32| {
                let degrees = widest.ceil() - f64::from(steps);
                let most = Angle::from_degrees(degrees);
                let mut panel = self.clone();
                panel.flanges.iter_mut().for_each(|flange| flange.turn = flange.turn.min(most));
                let words = format!("flanges turned by {}° at most", most.print(0));
                (1.0 < degrees).then(|| Tried { words, recipe: Box::new(panel), making: making.clone() })
            };
            Way { field: "flanges", at: Box::new(at) }
        });
        shorter.into_iter().chain(less).collect()
    }

    /// True where flanges overlap in the flat, or stop so little short of a corner that the bend beside them takes what is left.
    fn is_in_its_own_way(&self, making: &Making) -> bool {
        let Ok(shaped) = self.shape(making) else { return false };
        let stops_short =
            self.flanges.iter().any(|flange| flange.short.iter().any(|short| Length::ZERO < *short));
        match flat::unfold(&shaped.part) {
            Err(UnfoldError::Overlap { .. }) => true,
            Err(UnfoldError::InsideCorner { face, .. } | UnfoldError::FaceTooShort { face, .. }) => {
                stops_short && shaped.part.faces[0].name == face
            }
            _ => false,
        }
    }

    fn works(&self, making: &Making) -> bool {
        self.shape(making).is_ok_and(|shaped| {
            flat::unfold(&shaped.part).is_ok_and(|flat| fold::refold::prove(&shaped.part, &flat).is_ok())
        })
    }

    /// The panel with both flanges at a corner stopping so far short of it, and the names of both and of the corner; `None` where
    /// it has not two.
    fn stopped_short(&self, corner: usize, short: Length) -> Option<(Self, [String; 3])> {
        let count = self.outline.count();
        let name = self.outline.names[corner].clone();
        let sides = [(corner + count - 1) % count, corner].map(|side| self.outline.sides[side].clone());
        let mut panel = self.clone();
        for side in &sides {
            let flange = panel.flanges.iter_mut().find(|flange| flange.is_of(side))?;
            // The first named corner of its own side comes first.
            let at = usize::from(!flange.side.starts_with(name.as_str()));
            flange.short[at] = flange.short[at].max(short);
        }
        let [first, second] = sides;
        Some((panel, [first, second, name]))
    }
}

impl Flange {
    /// True for the flange of a side, by its name read either way.
    fn is_of(&self, side: &str) -> bool {
        self.side == side || self.side.chars().rev().eq(side.chars())
    }
}
