//! Is a piece inside the trimmed sheet?

use geometry::grid::GridOutline;

use crate::problem::Rules;
use crate::verify::disjoint::keeps_gap;

/// True when every corner lies in the trimmed rectangle, border included; a rectangle is convex, so the edges do too.
/// On an offcut the piece must also stay off by the edge trim from all that is missing of that rectangle.
pub(super) fn inside_trimmed(
    (length, width): (i64, i64),
    missing: &[GridOutline],
    rules: &Rules,
    outline: &GridOutline,
) -> bool {
    let trim = rules.edge_trim;
    outline.outer().iter().all(|p| trim <= p.x && p.x <= length - trim && trim <= p.y && p.y <= width - trim)
        && missing.iter().all(|missing| keeps_gap(missing, outline, trim))
}
