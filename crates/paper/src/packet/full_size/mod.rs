//! Full-size patterns: a flat in true size over several leaves, to be joined, proven with a tape and pricked through.
//!
//! Rows have letters from the datum edge up, columns numbers from the datum edge to the right. Neighbours repeat a strip
//! of the pattern: one is cut along its edge and laid on the line that its neighbour shows, cross on cross.

mod grid;
mod key_plan;
mod tile;

use fold::FlatPattern;
use units::LengthStyle;

use super::leaves::{PaperSize, sheet};
use crate::drawing::symbols;
use crate::layout_sheet;
use crate::page::{Item, Page, Pen};
use crate::pdf::Leaf;
use geometry::{Point, Vector};
use grid::Grid;

/// Height of ordinary text on the leaves, mm.
pub(super) const TEXT_MM: f64 = 3.0;

/// The most leaves that a pattern may take: more are joined with too many errors to be of use; common practice, no
/// source.
pub const MOST_LEAVES: usize = 60;

/// A part to be drawn in full size.
#[derive(Debug, Clone, Copy)]
pub struct Pattern<'a> {
    /// Name of the job.
    pub job: &'a str,
    /// Date and revision of the job, in words.
    pub edition: &'a str,
    /// Mark of the part.
    pub mark: &'a str,
    /// What it is, in words.
    pub title: &'a str,
    /// Which side the drawing shows: "this face up".
    pub face: &'a str,
    /// The flat, its datum corner at (0, 0).
    pub flat: &'a FlatPattern,
    /// How lengths are printed.
    pub style: LengthStyle,
}

/// A pattern that takes more leaves than can be joined.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("takes {leaves} leaves of {paper} in full size, and over {MOST_LEAVES} cannot be joined true")]
pub struct TooManyLeaves {
    /// How many it would take.
    pub leaves: usize,
    /// Of which paper.
    pub paper: &'static str,
}

/// The lines of the pattern: cut edges, bend lines, the middles of holes and the datum, without words.
#[must_use]
pub fn drawing(pattern: &Pattern<'_>) -> Page {
    let (width, height) = pattern.flat.extents_mm();
    let mut items = layout_sheet::metal_lines(pattern.flat);
    let datum = Point::default();
    let past = 2.0 * TEXT_MM;
    items.push(Item::line(datum, Point::new(width + past, 0.0), Pen::Extension));
    items.push(Item::line(datum, Point::new(0.0, height + past), Pen::Extension));
    items.push(symbols::datum_block(datum, TEXT_MM));
    let title = format!("{}: {}: full-size pattern", pattern.job, pattern.mark);
    let corner = Vector::new(past, past);
    let low = Point::default() - corner;
    Page { title, low, high: Point::new(width, height) + corner, text_mm: TEXT_MM, items }
}

/// How many leaves the pattern takes on `paper`, the key plan not counted.
#[must_use]
pub fn count(pattern: &Pattern<'_>, paper: PaperSize) -> usize {
    Grid::best(pattern.flat, paper).tiles().len()
}

/// The leaves of a pattern, its key plan first. `lines` is its [`drawing`].
///
/// # Errors
/// More than [`MOST_LEAVES`].
pub fn leaves<'a>(
    pattern: &Pattern<'_>,
    lines: &'a Page,
    paper: PaperSize,
) -> Result<Vec<Leaf<'a>>, TooManyLeaves> {
    let grid = Grid::best(pattern.flat, paper);
    let tiles = grid.tiles();
    if MOST_LEAVES < tiles.len() {
        return Err(TooManyLeaves { leaves: tiles.len(), paper: paper.words() });
    }
    let mut leaves = vec![key_plan::leaf(pattern, lines, &grid, paper)];
    let setter = tile::Setter::new(pattern, lines, &grid);
    leaves.extend(tiles.iter().map(|tile| setter.leaf(*tile)));
    sheet::foot(&mut leaves, sheet::Foot { job: pattern.job, edition: pattern.edition });
    Ok(leaves)
}
