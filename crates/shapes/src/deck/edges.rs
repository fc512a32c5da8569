//! Hems, returns and curls along the two long edges of a deck.

use fold::part::FoldedPart;

use super::Deck;
use crate::edge::{Beside, EdgeEnd, RunEdge, upright};
use crate::runs::Runs;

impl Deck {
    /// The edges of one length that are treated: of flanges where there are any, else of the deck itself.
    pub(super) fn run_edges(&self, part: &FoldedPart, runs: &Runs) -> Vec<RunEdge> {
        (0..runs.runs.len()).filter_map(|run| self.run_edge(part, runs, run)).collect()
    }

    /// What is done to the edge of a run, and the side it belongs to.
    fn end_of(&self, runs: &Runs, run: usize) -> Option<(EdgeEnd, &'static str)> {
        let [outboard, inboard] = self.edges;
        let name = &runs.runs[run].name;
        let (end, side) = if name.starts_with("outboard") {
            (outboard, "outboard")
        } else if name == "inboard" {
            (inboard, "inboard")
        } else {
            return None;
        };
        (!end.is_plain()).then_some((end, side))
    }

    fn run_edge(&self, part: &FoldedPart, runs: &Runs, run: usize) -> Option<RunEdge> {
        let (end, side) = self.end_of(runs, run)?;
        let count = runs.corners.len();
        let name = &runs.runs[run].name;
        let flange = format!("flange {name}");
        let (edge, bent, name) = match part.faces.iter().position(|face| face.name == flange) {
            // The far edge of a flange lies over against its bend.
            Some(face) => ((face, 2), runs.runs[run].flange.map(|flange| flange.direction), flange),
            None => ((0, run), None, name.clone()),
        };
        let plane = |run: usize| upright(runs.corners[run], runs.corners[(run + 1) % count]);
        let along = |run: usize| runs.corners[(run + 1) % count] - runs.corners[run];
        let beside = |other: usize, corner: [usize; 2]| match self.end_of(runs, other) {
            Some(_) => Beside::Run(plane(other), 0.0 <= along(corner[0]).cross(along(corner[1]))),
            None => Beside::End(plane(other)),
        };
        let (before, after) = ((run + count - 1) % count, (run + 1) % count);
        Some(RunEdge {
            name,
            edge,
            bent,
            end,
            field: format!("edges.{side}"),
            plane: plane(run),
            beside: [beside(before, [before, run]), beside(after, [run, after])],
        })
    }
}
