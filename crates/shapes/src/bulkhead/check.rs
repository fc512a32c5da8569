//! What can be wrong with a bulkhead's sizes.

use units::Length;

use super::{Bulkhead, BulkheadEdge};
use crate::{Making, Problem};

impl Bulkhead {
    /// Every problem with the sizes as given.
    pub(super) fn check(&self, making: &Making) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        self.check_waterlines(making, &mut problems);
        self.check_flanges(making, &mut problems);
        making.above_zero("slit", self.slit, &mut problems);
        for (number, limber) in self.limber_holes.iter().enumerate() {
            making.above_zero(&format!("limber_holes[{number}].diameter"), limber.diameter, &mut problems);
        }
        if problems.is_empty() { Ok(()) } else { Err(problems) }
    }

    fn check_waterlines(&self, making: &Making, problems: &mut Vec<Problem>) {
        if self.waterlines.len() < 2 {
            let remedy = "give half-breadths at two waterlines or more, from the lowest up";
            problems.push(Problem::new(
                "waterlines",
                "as given",
                "a bulkhead has a top and a bottom",
                remedy,
            ));
        }
        for (number, line) in self.waterlines.iter().enumerate() {
            for (side, breadth) in [("port", line.port), ("starboard", line.starboard)] {
                making.not_below_zero(&format!("waterlines[{number}].{side}"), breadth, problems);
            }
        }
        for (number, pair) in self.waterlines.windows(2).enumerate() {
            let field = format!("waterlines[{}]", number + 1);
            if pair[1].height <= pair[0].height {
                let wrong = format!("does not lie above the one before it, {}", making.print(pair[0].height));
                let remedy = "give waterlines from the lowest up, each once";
                problems.push(Problem::new(field, making.print(pair[1].height), wrong, remedy));
            } else if number + 2 < self.waterlines.len() && pair[1].port + pair[1].starboard <= Length::ZERO {
                let remedy = "only the lowest and the highest may come to a point";
                problems.push(Problem::new(field, "0", "has no breadth between two others", remedy));
            }
        }
    }

    fn check_flanges(&self, making: &Making, problems: &mut Vec<Problem>) {
        let ends = [self.waterlines.first(), self.waterlines.last()];
        let pointed = |end: usize| ends[end].is_some_and(|line| line.port + line.starboard <= Length::ZERO);
        for (number, flange) in self.flanges.iter().enumerate() {
            let field = format!("flanges.{}", flange.edge.words());
            making.above_zero(&field, flange.leg, problems);
            let gone = match flange.edge {
                BulkheadEdge::Bottom => pointed(0),
                BulkheadEdge::Top => pointed(1),
                BulkheadEdge::Port | BulkheadEdge::Starboard => false,
            };
            let twice = self.flanges[..number].iter().any(|other| other.edge == flange.edge);
            if gone {
                let wrong = "the bulkhead comes to a point there and has no such edge";
                problems.push(Problem::new(
                    &field,
                    making.print(flange.leg),
                    wrong,
                    "flange the sides instead",
                ));
            }
            if twice {
                problems.push(Problem::new(
                    &field,
                    making.print(flange.leg),
                    "this edge has two flanges",
                    "keep one",
                ));
            }
        }
    }
}
