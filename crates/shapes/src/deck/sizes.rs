//! Sizes of a deck to be proven by refolding: how deep its flanges stand, its sides from corner to corner, and its width at
//! every station.

use fold::part::{FacePlane, FoldedPart, Measure, Size, Spot};
use fold::{Direction, Side};
use geometry::{Frame, Point, Vector, trig};

use super::{Deck, DeckStation};
use crate::Making;
use crate::Recipe;
use crate::edge::EdgeEnd;
use crate::runs::{RunFlange, Runs};

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
        let outside = |run: usize| outside(runs, part, run % count);
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

impl Deck {
    /// Width at every station, square to the inboard edge: from where the outside of the outboard flange meets the deck there
    /// to the outside of the inboard flange, or the cut edge where there is none. An edge that is bent back without a flange
    /// has no such place, and no width is proven there.
    pub(super) fn widths(
        &self,
        stations: &[DeckStation],
        runs: &Runs,
        part: &FoldedPart,
        making: &Making,
    ) -> Vec<Size> {
        let frames = part.frames();
        let [outboard, inboard] = self.edges.map(|edge| edge == EdgeEnd::Plain);
        let count = stations.len();
        let width = |(number, station): (usize, &DeckStation)| {
            let x = (station.at - stations[0].at).millimetres();
            // Outboard runs go from forward aft, from corner 2 on: the run aft of the station, or the last one.
            let run = (2 + count - 1 - number).min(count);
            let outer = Point::new(x, station.width.millimetres());
            let bent = outside(runs, part, run).map(|(plane, _)| plane);
            let from = match bent {
                Some((face, side)) => {
                    let at = frames[face].local(Frame::WORLD.place(outer, part.side_mm(side))).0;
                    Spot { face, at, side }
                }
                None => outboard.then_some(Spot { face: 0, at: outer, side: Side::Face })?,
            };
            let measure = match outside(runs, part, 0) {
                Some((plane, _)) => Measure::SpotToPlane(from, plane),
                None => {
                    let side = bent.map_or(Side::Face, |(_, side)| side);
                    let to = inboard.then_some(Spot { face: 0, at: Point::new(x, 0.0), side })?;
                    Measure::Spots(from, to)
                }
            };
            let name = width_at(station, making);
            Some(Size { name, measure, expected_mm: station.width.millimetres() })
        };
        stations.iter().enumerate().filter_map(width).collect()
    }
}

/// "width at station 15".
#[must_use]
pub fn width_at(station: &DeckStation, making: &Making) -> String {
    format!("width at station {}", making.print(station.at))
}

/// The outside of the flange along a run.
fn outside(runs: &Runs, part: &FoldedPart, run: usize) -> Option<(FacePlane, RunFlange)> {
    let flange = runs.runs[run].flange?;
    let name = format!("flange {}", runs.runs[run].name);
    let face = part.faces.iter().position(|face| face.name == name)?;
    let side = if flange.direction == Direction::Down { Side::Face } else { Side::Back };
    Some(((face, side), flange))
}

/// Change of direction between two runs, whichever way, radians.
fn turn_rad(first: Vector, second: Vector) -> f64 {
    trig::atan2(first.cross(second).abs(), first.dot(second))
}
