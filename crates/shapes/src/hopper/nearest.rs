//! A hopper whose flanges or channel run into something: which sizes would do.

use units::Length;

use super::{Hopper, HopperMade, RimEdge};
use crate::{CornerStyle, Making, Problem, Recipe};

/// Step of the sizes that are tried.
const STEP: Length = Length::from_sixty_fourths(4);

/// How many smaller flanges are tried at the most; from a wider one it goes down in coarser steps.
const WIDTHS: i64 = 32;

/// Channels are tried at these sixteenths of their depth inside and of their lip, and rises at so many sixteenths more.
const SIXTEENTHS: [i64; 12] = [1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 14, 15];

impl Hopper {
    /// What is wrong with a piece, with the nearest sizes that would do in the place of a remedy without numbers.
    pub(super) fn with_nearest(
        &self,
        piece: usize,
        mut problems: Vec<Problem>,
        making: &Making,
    ) -> Vec<Problem> {
        let failing = (piece, making);
        let mut ways: Vec<String> =
            [self.widest_flange(failing), self.largest_drip(failing), self.least_rise(failing)]
                .into_iter()
                .flatten()
                .collect();
        if !ways.is_empty() && making.corner != CornerStyle::Open {
            ways.push("make it with open corners".to_owned());
        }
        if let (Some(problem), false) = (problems.first_mut(), ways.is_empty()) {
            problem.remedy = ways.join("; or ");
        }
        problems
    }

    /// Flanges or a channel that may be too large for the faces that they are bent off.
    pub(super) const fn has_edges(&self) -> bool {
        matches!(self.made, HopperMade::FourPlates { weld_flange: Some(_) })
            || matches!(self.rim_edge, RimEdge::Drip { .. })
    }

    /// True when every piece of it can be made, and comes out of the flat as designed. The one that could not be made of other sizes
    /// is tried first: it mostly settles it.
    fn works(&self, (failing, making): (usize, &Making)) -> bool {
        let others = (0..self.pieces().len().max(1)).filter(|piece| *piece != failing);
        std::iter::once(failing).chain(others).all(|piece| {
            self.made_piece(piece, making).is_ok_and(|shaped| {
                shaped.unfold().is_ok_and(|flat| fold::refold::prove(&shaped.part, &flat).is_ok())
            })
        })
    }

    fn widest_flange(&self, failing: (usize, &Making)) -> Option<String> {
        let HopperMade::FourPlates { weld_flange: Some(width) } = self.made else { return None };
        let with = |weld_flange| Self { made: HopperMade::FourPlates { weld_flange }, ..self.clone() };
        let step = STEP * (width.nanometres() / STEP.nanometres() / WIDTHS + 1);
        let narrower =
            (1..=WIDTHS).map(|number| width - step * number).take_while(|width| Length::ZERO < *width);
        let widest = narrower.into_iter().find(|&width| with(Some(width)).works(failing));
        match widest {
            Some(width) => {
                Some(format!("the widest weld flange that would do is {}", failing.1.print(width)))
            }
            None => with(None)
                .works(failing)
                .then(|| "leave weld_flange out: edge to edge it can be made".to_owned()),
        }
    }

    fn largest_drip(&self, failing: (usize, &Making)) -> Option<String> {
        let RimEdge::Drip { down, inward, up } = self.rim_edge else { return None };
        let smaller = |length: Length, by: i64| {
            let share = length.nanometres() * (16 - by) / 16;
            STEP * (share / STEP.nanometres())
        };
        let channels = SIXTEENTHS.iter().map(|&by| (smaller(inward, by), smaller(up, by)));
        let fits = |&(inward, up): &(Length, Length)| {
            let smaller = Self { rim_edge: RimEdge::Drip { down, inward, up }, ..self.clone() };
            Length::ZERO < inward && Length::ZERO < up && smaller.works(failing)
        };
        let (inward, up) = channels.into_iter().find(fits)?;
        let [down, inward, up] = [down, inward, up].map(|length| failing.1.print(length));
        Some(format!("a drip of {down} down, {inward} inward and {up} up would do"))
    }

    fn least_rise(&self, failing: (usize, &Making)) -> Option<String> {
        let higher = SIXTEENTHS.iter().map(|&by| {
            let rise = self.rise.nanometres() * (16 + by) / 16;
            STEP * (rise / STEP.nanometres() + 1)
        });
        let rise = higher.into_iter().find(|&rise| Self { rise, ..self.clone() }.works(failing))?;
        Some(format!("a rise of {} would do", failing.1.print(rise)))
    }
}
