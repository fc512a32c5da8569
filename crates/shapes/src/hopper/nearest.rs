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
    /// What is wrong, with the nearest sizes that would do in the place of a remedy without numbers.
    pub(super) fn with_nearest(&self, mut problems: Vec<Problem>, making: &Making) -> Vec<Problem> {
        let mut ways: Vec<String> =
            [self.widest_flange(making), self.largest_drip(making), self.least_rise(making)]
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

    /// True when every piece of it can be made, and comes out of the flat as designed.
    fn works(&self, making: &Making) -> bool {
        (0..self.pieces().len().max(1)).all(|piece| {
            self.made_piece(piece, making).is_ok_and(|shaped| {
                shaped.unfold().is_ok_and(|flat| fold::refold::prove(&shaped.part, &flat).is_ok())
            })
        })
    }

    fn widest_flange(&self, making: &Making) -> Option<String> {
        let HopperMade::FourPlates { weld_flange: Some(width) } = self.made else { return None };
        let with = |weld_flange| Self { made: HopperMade::FourPlates { weld_flange }, ..self.clone() };
        let step = STEP * (width.nanometres() / STEP.nanometres() / WIDTHS + 1);
        let narrower =
            (1..=WIDTHS).map(|number| width - step * number).take_while(|width| Length::ZERO < *width);
        let widest = narrower.into_iter().find(|&width| with(Some(width)).works(making));
        match widest {
            Some(width) => Some(format!("the widest weld flange that would do is {}", making.print(width))),
            None => with(None)
                .works(making)
                .then(|| "leave weld_flange out: edge to edge it can be made".to_owned()),
        }
    }

    fn largest_drip(&self, making: &Making) -> Option<String> {
        let RimEdge::Drip { down, inward, up } = self.rim_edge else { return None };
        let smaller = |length: Length, by: i64| {
            let share = length.nanometres() * (16 - by) / 16;
            STEP * (share / STEP.nanometres())
        };
        let channels = SIXTEENTHS.iter().map(|&by| (smaller(inward, by), smaller(up, by)));
        let fits = |&(inward, up): &(Length, Length)| {
            let smaller = Self { rim_edge: RimEdge::Drip { down, inward, up }, ..self.clone() };
            Length::ZERO < inward && Length::ZERO < up && smaller.works(making)
        };
        let (inward, up) = channels.into_iter().find(fits)?;
        let [down, inward, up] = [down, inward, up].map(|length| making.print(length));
        Some(format!("a drip of {down} down, {inward} inward and {up} up would do"))
    }

    fn least_rise(&self, making: &Making) -> Option<String> {
        let higher = SIXTEENTHS.iter().map(|&by| {
            let rise = self.rise.nanometres() * (16 + by) / 16;
            STEP * (rise / STEP.nanometres() + 1)
        });
        let rise = higher.into_iter().find(|&rise| Self { rise, ..self.clone() }.works(making))?;
        Some(format!("a rise of {} would do", making.print(rise)))
    }
}
