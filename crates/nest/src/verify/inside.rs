//! Is a piece inside the trimmed sheet?

use geometry::grid::GridOutline;

use crate::problem::{Rules, Stock, StockShape};

/// True when every corner lies in the trimmed rectangle, border included; a rectangle is convex, so the edges do too.
pub(crate) fn inside_trimmed(stock: &Stock, rules: &Rules, outline: &GridOutline) -> bool {
    let StockShape::Rectangle { length, width } = stock.shape;
    let trim = rules.edge_trim;
    outline.outer().iter().all(|p| trim <= p.x && p.x <= length - trim && trim <= p.y && p.y <= width - trim)
}
