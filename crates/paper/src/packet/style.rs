//! The style sheet: black on white, one accent, good on paper.

use crate::page::{Ink, font};

/// The style sheet, with a kind of printed page for every size of paper, mm.
pub(super) fn sheet(sizes: &[(f64, f64)]) -> String {
    let mut sheet =
        include_str!("style.css").replace("FAMILY", font::FAMILY).replace("ACCENT", Ink::Accent.hex());
    for (number, (width, height)) in sizes.iter().enumerate() {
        // A hair less than the paper, so that no rounding turns a leaf.
        let inside = height - HAIR_MM;
        sheet.push_str(&format!(
            "@page size-{number} {{ size: {width:.1}mm {height:.1}mm; margin: 0; }}\n\
             .size-{number} {{ page: size-{number}; height: {inside:.1}mm; }}\n"
        ));
    }
    sheet
}

/// What is left of the paper under a leaf, mm.
const HAIR_MM: f64 = 0.6;
