//! Between pieces on the grid and pieces in `f64`.

use geometry::grid::GridPoint;

use crate::clear::apart;
use crate::roll::{Job, RollNest};
use crate::separate::state::Loose;
use crate::separate::{Spot, float};
use crate::sheet::Placement;

/// The pieces of a nest, places counted from the trimmed corner.
pub(crate) fn loose(job: &Job<'_>, nest: &RollNest) -> Vec<Loose> {
    let trim = job.problem.rules().edge_trim;
    let piece = |placed: &Placement| {
        let own = job.figures.of_part(placed.part).iter().copied();
        let figure = own.clone().find(|&figure| job.figures.get(figure).pose == placed.pose);
        let figure = figure.or_else(|| own.clone().next()).unwrap_or(0);
        let at = placed.shift + job.figures.get(figure).origin - GridPoint::new(trim, trim);
        Loose { part: placed.part, figure, at: Spot::new(float(at.x), float(at.y)) }
    };
    nest.placements.iter().map(piece).collect()
}

/// The pieces rounded to the grid, as far left as they lie; `None` when two come out nearer than the gap.
pub(crate) fn snapped(job: &Job<'_>, pieces: &[Loose], evaluations: u64) -> Option<RollNest> {
    let trim = job.problem.rules().edge_trim;
    let grid: Vec<GridPoint> = pieces.iter().map(|piece| piece.at.rounded()).collect();
    let left = grid.iter().map(|at| at.x).min()?;
    let mut reach = 0;
    let mut placements = Vec::with_capacity(pieces.len());
    let mut outlines = Vec::with_capacity(pieces.len());
    for (piece, at) in pieces.iter().zip(&grid) {
        let figure = job.figures.get(piece.figure);
        let at = GridPoint::new(at.x - left, at.y);
        reach = reach.max(at.x + figure.size.x);
        let shift = at + GridPoint::new(trim, trim) - figure.origin;
        placements.push(Placement { part: piece.part, pose: figure.pose, shift });
        outlines.push(figure.outline.shifted(at));
    }
    let gap = job.problem.rules().gap;
    let clear = (1..outlines.len()).all(|b| (0..b).all(|a| apart(&outlines[a], &outlines[b], gap)));
    clear.then_some(RollNest { used_length: reach + 2 * trim, placements, evaluations })
}
