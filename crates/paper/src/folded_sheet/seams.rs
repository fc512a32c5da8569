//! The table of seams: how the plates meet, and what refolding measured along every seam.

use crate::drawing::block::Block;
use crate::lists::refold::{SeamRow, seam_columns};
use crate::page::font::Weight;

/// Sets the table, if there are seams.
pub(super) fn table(block: &mut Block, (seams, has_relief): (&[SeamRow], bool), unit: &str, text_mm: f64) {
    if seams.is_empty() {
        return;
    }
    block.skip(0.7 * text_mm);
    let head = format!("Seams ({unit}): gaps between the nearest edges, measured on the refolded plates");
    block.paragraph(&head, Weight::Bold, text_mm, "");
    block.skip(0.2 * text_mm);
    let rows: Vec<Vec<String>> = seams.iter().map(SeamRow::cells).collect();
    block.table(&seam_columns(), &rows, 0.95 * text_mm);
    if has_relief {
        block.skip(0.2 * text_mm);
        let words = "Gaps are those along the seams: corner relief past their ends is not counted in them.";
        block.paragraph(words, Weight::Regular, 0.95 * text_mm, "");
    }
}
