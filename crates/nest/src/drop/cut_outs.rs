//! Drops in what falls out of the cut-outs of parts.
//!
//! The saw stays on the waste side of the line, so that what falls is smaller than the cut-out by its kerf all round: the drop
//! needs no other distance from the part. From parts that lie in the cut-out it keeps the gap as any.

use geometry::grid::{GridOutline, GridPoint, bounds_of};
use geometry::nofit::Region;

use super::{Block, Drop, largest_kept, one_after_another};
use crate::problem::Problem;
use crate::sheet::Sheet;

/// The drops in all cut-outs of a sheet's pieces, none with a side shorter than the rules' least drop.
pub(super) fn in_cut_outs(problem: &Problem, sheet: &Sheet) -> Vec<Drop> {
    let outlines: Vec<GridOutline> = sheet.placements.iter().map(|placed| placed.outline(problem)).collect();
    let mut drops = Vec::new();
    for (piece, outline) in outlines.iter().enumerate() {
        let others: Vec<&GridOutline> = outlines
            .iter()
            .enumerate()
            .filter(|(other, _)| *other != piece)
            .map(|(_, other)| other)
            .collect();
        for hole in outline.holes() {
            drops.extend(in_one(problem, (sheet.stock, &others), hole).unwrap_or_default());
        }
    }
    drops
}

/// The drops in one cut-out; `None` when what lies around it cannot be told.
fn in_one(
    problem: &Problem,
    (stock, others): (usize, &[&GridOutline]),
    hole: &[GridPoint],
) -> Option<Vec<Drop>> {
    let rules = problem.rules();
    let keep = problem.kept_off_cut_outs();
    let (low, high) = bounds_of(hole);
    let by = GridPoint::new(keep, keep);
    let whole = Drop { low: low + by, high: high - by };
    if !whole.is_worth_keeping(rules) {
        return Some(Vec::new());
    }
    let reaches_in = |outline: &GridOutline, keep: i64| {
        let (from, to) = outline.bounds();
        from.x < high.x + keep && low.x < to.x + keep && from.y < high.y + keep && low.y < to.y + keep
    };
    let mut blocks: Vec<Block> =
        around(low, high, hole)?.into_iter().map(|pocket| Block::new(pocket, keep)).collect();
    // One that the cut-out lies in bounds a cut-out of its own around it.
    let within = |other: &&&GridOutline| {
        let (from, to) = other.bounds();
        low.x <= from.x && low.y <= from.y && to.x <= high.x && to.y <= high.y
    };
    let inside = others.iter().filter(within).map(|other| Block::new(other.filled(), rules.gap));
    blocks.extend(inside);
    let blemishes = problem.stock()[stock].blemishes().into_iter();
    let blemishes = blemishes.filter(|blemish| reaches_in(blemish, rules.edge_trim));
    blocks.extend(blemishes.map(|blemish| Block::new(blemish, rules.edge_trim)));
    Some(one_after_another(blocks, rules.gap, |blocks| largest_kept(whole, blocks, rules)))
}

/// What lies between a cut-out and the rectangle around it.
fn around(low: GridPoint, high: GridPoint, hole: &[GridPoint]) -> Option<Vec<GridOutline>> {
    let cut_out = Region::of_outline(&GridOutline::new(hole.to_vec(), Vec::new()).ok()?);
    let around = Region::upright(low, high).without(std::iter::once((&cut_out, GridPoint::default())));
    let mut pockets = Vec::new();
    for piece in around.pieces() {
        let [ring] = piece.rings() else { return None };
        pockets.push(GridOutline::new(ring.clone(), Vec::new()).ok()?);
    }
    Some(pockets)
}
