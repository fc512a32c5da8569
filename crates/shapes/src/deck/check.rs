//! What can be wrong with a deck's sizes.

use units::Length;

use super::{Deck, DeckStation};
use crate::{Making, Problem};

impl Deck {
    /// Every problem with the sizes as given.
    pub(super) fn check(&self, making: &Making) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        self.check_stations(making, &mut problems);
        for (field, flange) in [("outboard", self.outboard), ("inboard", self.inboard)] {
            if let Some(flange) = flange {
                making.above_zero(field, flange.leg, &mut problems);
            }
        }
        making.above_zero("slit", self.slit, &mut problems);
        for (field, size) in [
            ("frames_every", self.frames_every),
            ("longest", self.longest),
            ("backing_strip", self.backing_strip),
        ] {
            if let Some(size) = size {
                making.above_zero(field, size, &mut problems);
            }
        }
        if problems.is_empty() {
            self.check_splits(making, &mut problems);
        }
        if problems.is_empty() {
            self.check_lengths(making, &mut problems);
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    fn check_stations(&self, making: &Making, problems: &mut Vec<Problem>) {
        if self.stations.len() < 2 {
            let remedy = "give a width at two stations or more, from aft forward";
            problems.push(Problem::new("stations", "as given", "a deck has two ends", remedy));
        }
        for (number, station) in self.stations.iter().enumerate() {
            making.above_zero(&format!("stations[{number}].width"), station.width, problems);
        }
        for (number, pair) in self.stations.windows(2).enumerate() {
            if pair[1].at <= pair[0].at {
                let wrong =
                    format!("does not lie forward of the one before it, {}", making.print(pair[0].at));
                let remedy = "give stations from aft forward, each once";
                let field = format!("stations[{}].at", number + 1);
                problems.push(Problem::new(field, making.print(pair[1].at), wrong, remedy));
            }
        }
    }

    fn ends(&self) -> [Length; 2] {
        let at = |station: Option<&DeckStation>| station.map_or(Length::ZERO, |station| station.at);
        [at(self.stations.first()), at(self.stations.last())]
    }

    fn check_splits(&self, making: &Making, problems: &mut Vec<Problem>) {
        let [aft, forward] = self.ends();
        let mut before = aft;
        for (number, &split) in self.splits_at.iter().enumerate() {
            let field = format!("splits_at[{number}]");
            if split <= before || forward <= split {
                let wrong = format!(
                    "must lie between {} and the forward end, {}",
                    making.print(before),
                    making.print(forward)
                );
                problems.push(Problem::new(field, making.print(split), wrong, "give seams from aft forward"));
            } else if let Some([below, above]) = self.frames_beside(split) {
                let wrong = "there is no frame here to carry the seam";
                let remedy =
                    format!("the nearest frames are {} and {}", making.print(below), making.print(above));
                problems.push(Problem::new(field, making.print(split), wrong, remedy));
            }
            before = before.max(split);
        }
    }

    /// The frames on either side of `at`; `None` on a frame, or where no spacing is given.
    fn frames_beside(&self, at: Length) -> Option<[Length; 2]> {
        let every = self.frames_every?.nanometres();
        let number = at.nanometres().div_euclid(every);
        (at.nanometres() != number * every)
            .then(|| [number, number + 1].map(|number| Length::from_nanometres(number * every)))
    }

    fn check_lengths(&self, making: &Making, problems: &mut Vec<Problem>) {
        let Some(longest) = self.longest else { return };
        let [aft, forward] = self.ends();
        let marks: Vec<Length> =
            [aft].into_iter().chain(self.splits_at.iter().copied()).chain([forward]).collect();
        for pair in marks.windows(2) {
            let length = pair[1] - pair[0];
            if longest < length {
                let value = format!("{} to {}", making.print(pair[0]), making.print(pair[1]));
                let wrong = format!(
                    "is {} long and the longest piece is {}",
                    making.print(length),
                    making.print(longest)
                );
                problems.push(Problem::new(
                    "splits_at",
                    value,
                    wrong,
                    self.split_remedy(pair[0], longest, making),
                ));
            }
        }
    }

    fn split_remedy(&self, from: Length, longest: Length, making: &Making) -> String {
        let reach = from + longest;
        let last = self.frames_every.map_or(reach, |every| {
            Length::from_nanometres(reach.nanometres().div_euclid(every.nanometres()) * every.nanometres())
        });
        if from < last {
            format!("split it at {} or further aft", making.print(last))
        } else {
            format!("no frame lies within {} of {}", making.print(longest), making.print(from))
        }
    }
}
