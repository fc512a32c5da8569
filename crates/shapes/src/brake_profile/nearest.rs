//! The sizes of a profile that may be moved where it cannot be made: what is done to its edges, its outer legs, its outer bends.

use units::{Angle, Length};

use super::{BrakeProfile, ProfileBend};
use crate::nearest::{Tried, Way, smaller, smaller_edge};
use crate::{Making, Recipe};

impl BrakeProfile {
    pub(super) fn sizes<'a>(&'a self, making: &'a Making) -> Vec<Way<'a>> {
        let mut ways = Vec::new();
        for (number, field) in [(0, "edges.first"), (1, "edges.last")] {
            ways.extend(smaller_edge(field, (self.edges[number], making), move |end| {
                let mut profile = self.clone();
                profile.edges[number] = end;
                Box::new(profile)
            }));
        }
        let last = self.legs.len() - 1;
        for leg in [0, last] {
            ways.push(smaller("legs", (self.legs[leg].length, making), move |length: Length| {
                let mut profile = self.clone();
                profile.legs[leg].length = length;
                (format!("leg {} of {}", leg + 1, making.print(length)), Box::new(profile) as Box<dyn Recipe>)
            }));
        }
        ways.extend(self.last_turn(making));
        ways
    }

    /// The last bend turned less, by degrees.
    fn last_turn<'a>(&'a self, making: &'a Making) -> Option<Way<'a>> {
        let last = self.bends.len().checked_sub(1)?;
        let ProfileBend::Bend { turn, .. } = &self.bends[last] else { return None };
        let from = turn.degrees();
        let at = move |steps: u32| {
            let degrees = from.ceil() - f64::from(steps);
            let mut profile = self.clone();
            let ProfileBend::Bend { turn, .. } = &mut profile.bends[last] else { return None };
            *turn = Angle::from_degrees(degrees);
            let words = format!("a last bend of {}°", turn.print(0));
            (1.0 < degrees).then(|| Tried { words, recipe: Box::new(profile), making: making.clone() })
        };
        Some(Way { field: "legs", at: Box::new(at) })
    }
}
