//! A view put on paper.

use geometry::Point;

use super::{LineKind, ViewLine};
use crate::page::{Item, Pen};

/// The lines of a view as strokes of their pens, each point where `place` puts it. Thin lines first, so that heavy ones lie on top.
pub(crate) fn drawn(lines: &[ViewLine], place: impl Fn(Point) -> Point) -> Vec<Item> {
    let mut sorted: Vec<&ViewLine> = lines.iter().collect();
    sorted.sort_by_key(|line| std::cmp::Reverse(line.kind));
    let pen = |kind| match kind {
        LineKind::Outline => Pen::ViewOutline,
        LineKind::Edge => Pen::ViewEdge,
        LineKind::Tangent => Pen::ViewTangent,
    };
    sorted.iter().map(|line| Item::line(place(line.ends[0]), place(line.ends[1]), pen(line.kind))).collect()
}
