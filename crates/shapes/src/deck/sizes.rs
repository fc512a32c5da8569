//! Sizes of a deck to be proven by refolding: how deep its flanges stand, and its sides from corner to corner.

use fold::part::{FacePlane, FoldedPart, Measure, Size};
use fold::{Direction, Side};
use geometry::{Vector, trig};

use super::{Deck, DeckStation};
use crate::Recipe;
use crate::edge::EdgeEnd;
use crate::runs::Runs;

/// Least change of direction, radians, at which the corner of two runs is found to a hair: a tenth of a degree.
const LEAST_TURN_RAD: f64 = 0.001_745;

impl Deck {
    /// The stations of one length of the deck, from aft, with those at its seams; none for a backing strip.
    #[must_use]
    pub fn stations_on(&self, piece: usize) -> Vec<DeckStation> {
        if self.backs_a_seam(piece) { Vec::new() } else { self.stations_of(piece) }
    }

    /// Depth of every flange with a cut edge, outside; length of every run whose two ends are corners between flanges.
    pub(super) fn sizes(&self, runs: &Runs, part: &FoldedPart) -> Vec<Size> {
        let count = runs.runs.len();
        let outside = |run: usize| {
            let flange = runs.runs[run % count].flange?;
            let name = format!("flange {}", runs.runs[run % count].name);
            let face = part.faces.iter().position(|face| face.name == name)?;
            let side = if flange.direction == Direction::Down { Side::Face } else { Side::Back };
            Some(((face, side), flange))
        };
        let mut sizes = Vec::new();
        for run in 0..count {
            let Some((plane, flange)) = outside(run) else { continue };
            let name = &runs.runs[run].name;
            let [outboard, inboard] = self.edges;
            let end = if name == "inboard" { inboard } else { outboard };
            if end == EdgeEnd::Plain {
                sizes.push(Size {
                    name: format!("depth of flange {name}, outside"),
                    measure: Measure::Reach(plane, (0, plane.1)),
                    expected_mm: flange.leg_mm,
                });
            }
            let along = |run: usize| {
                let (from, to) = (runs.corners[run % count], runs.corners[(run + 1) % count]);
                to - from
            };
            let corner = |other: usize| -> Option<[FacePlane; 3]> {
                let (beside, its) = outside(other)?;
                let turns = LEAST_TURN_RAD < turn_rad(along(run), along(other));
                (turns && its.direction == flange.direction).then_some([(0, plane.1), plane, beside])
            };
            if let (Some(start), Some(end)) = (corner(run + count - 1), corner(run + 1)) {
                sizes.push(Size {
                    name: format!("side {name}, outside"),
                    measure: Measure::Corners(start, end),
                    expected_mm: along(run).length(),
                });
            }
        }
        sizes
    }
}

/// Change of direction between two runs, whichever way, radians.
fn turn_rad(first: Vector, second: Vector) -> f64 {
    trig::atan2(first.cross(second).abs(), first.dot(second))
}
